package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Cost is what the work of a plan costs, in the currency of the sheet. What stands in
// the building already, by the first plan of several, is neither bought nor installed
// again. What is taken away is not priced.
type Cost struct {
	Currency string
	Bought   []diagram.ID // protectors that are not there yet
	Altered  []diagram.ID // that are there already, with other leads or another breaker: labour alone
	Gone     []diagram.ID // protectors that are there, and not in the plan
	Unpriced []diagram.ID // bought ones without a price
	Untimed  []diagram.ID // bought or altered ones without labour

	Hours      float64 // labour in all, h, that of shutdowns included
	Protectors float64 // their prices
	Labour     float64 // of the protectors; that of shutdowns is not in it
	Travel     float64
	Shutdowns  float64 // with their labour
	Overhead   float64
	Tax        float64
	Total      float64
	Unrated    bool // there is labour, and the sheet says no rate

	Working analysis.Working // how the total came about
}

// Whole reports whether nothing is missing in the total.
func (c Cost) Whole() bool { return len(c.Unpriced)+len(c.Untimed) == 0 && !c.Unrated }

// Sum writes a sum of money with the currency of the cost.
func (c Cost) Sum(v float64) string { return Sum(v, c.Currency) }

// Sum writes a sum of money with a currency.
func Sum(v float64, currency string) string {
	return strings.TrimSpace(unit.Format(v, unit.Money, unit.IEC) + "\u00a0" + unit.Visible(currency))
}

// Missing says what is missing in the total, in a sentence for each.
func (c Cost) Missing(doc *diagram.Document) []string {
	var out []string
	if n := len(c.Unpriced); n > 0 {
		out = append(out, unit.CountOf(n, "protector")+" without a price: "+namesOf(doc, c.Unpriced))
	}
	if n := len(c.Untimed); n > 0 {
		out = append(out, unit.CountOf(n, "protector")+" without labour: "+namesOf(doc, c.Untimed))
	}
	if c.Unrated {
		out = append(out, "the sheet does not say what an hour of labour costs")
	}
	if n := len(c.Gone); n > 0 {
		out = append(out, unit.CountOf(n, "protector is|protectors are")+" taken away, which is not priced")
	}
	return out
}

func namesOf(doc *diagram.Document, ids []diagram.ID) string {
	var names []string
	for _, id := range ids {
		names = append(names, doc.NameOf(id))
	}
	return unit.Names(names)
}

// cents rounds a sum to two decimals, half away from zero. Each line is rounded by
// itself, and the total is the sum of what stands in the lines.
func cents(v float64) float64 { return math.Round(v*100) / 100 }

// CostOf adds up what the work of a plan costs. The first plan of several records the
// building as found: of it nothing is bought.
func CostOf(doc *diagram.Document, plan diagram.ID) Cost {
	costs := doc.Info().Costs
	c := costing{Cost: Cost{Currency: costs.Currency}, doc: doc, rates: costs}
	c.gather(plan)
	c.add("protectors", &c.Protectors, c.prices(), "sum of their prices", unit.CountOf(len(c.Bought), "protector"))
	c.add("labour", &c.Labour, c.Hours*costs.Rate, "hours × rate", c.times(c.Hours))
	if len(c.Bought)+len(c.Altered) > 0 {
		c.add("travel", &c.Travel, costs.Travel, "", "once for all the work")
		c.shutdowns()
	}
	c.Unrated = c.Hours > 0 && costs.Rate == 0
	before := c.Protectors + c.Labour + c.Travel + c.Shutdowns
	c.percent("overhead", &c.Overhead, costs.Overhead, before)
	c.percent("tax", &c.Tax, costs.Tax, before+c.Overhead)
	c.Total = cents(before + c.Overhead + c.Tax)
	c.Working.Add(analysis.Step{Label: "total", Formula: "sum of these lines", Text: c.Sum(c.Total), Source: "each line is rounded to two decimals"})
	return c.Cost
}

// costing is a cost in the making.
type costing struct {
	Cost
	doc    *diagram.Document
	rates  diagram.Costs
	places []diagram.ID // the buses at which work is done
}

// gather finds what has to be bought and done.
func (c *costing) gather(plan diagram.ID) {
	there := found(c.doc, plan)
	for p := range c.doc.ProtectorsOf(plan) {
		at := slices.IndexFunc(there, func(old diagram.Protector) bool { return sameDevice(old, p) })
		switch {
		case isFirstOfSeveral(c.doc, plan):
			continue
		case at < 0:
			c.Bought = append(c.Bought, p.ID)
		case sameMounting(there[at], p):
			there = slices.Delete(there, at, at+1)
			continue
		default:
			there = slices.Delete(there, at, at+1)
			c.Altered = append(c.Altered, p.ID)
		}
		c.work(p, at < 0)
	}
	for _, p := range there {
		c.Gone = append(c.Gone, p.ID)
	}
}

// work counts the labour on a protector, and tells what is not stated of it.
func (c *costing) work(p diagram.Protector, bought bool) {
	if bought && p.Price == 0 {
		c.Unpriced = append(c.Unpriced, p.ID)
	}
	if p.Hours == 0 {
		c.Untimed = append(c.Untimed, p.ID)
	}
	c.Hours += p.Hours
	if !slices.Contains(c.places, p.Bus) {
		c.places = append(c.places, p.Bus)
	}
}

func (c *costing) prices() float64 {
	out := 0.0
	for _, id := range c.Bought {
		p, _ := c.doc.Protector(id)
		out += cents(p.Price)
	}
	return out
}

// shutdowns adds one for each bus worked at, or as many as the sheet says.
func (c *costing) shutdowns() {
	n, why := c.rates.Shutdowns, "as many as the sheet says"
	if n == 0 {
		n, why = len(c.places), "one for each board or load worked at"
	}
	if c.rates.Shutdown == 0 && c.rates.ShutdownHours == 0 {
		return
	}
	hours := float64(n) * c.rates.ShutdownHours
	each := c.Sum(c.rates.Shutdown)
	if c.rates.ShutdownHours > 0 {
		each = "(" + each + " + " + c.times(c.rates.ShutdownHours) + ")"
	}
	c.add("shutdowns", &c.Shutdowns, float64(n)*c.rates.Shutdown+hours*c.rates.Rate, "number × (allowance + hours × rate)", fmt.Sprintf("%d × %s; %s", n, each, why))
	c.Hours += hours
}

// times writes hours at the rate of the sheet.
func (c *costing) times(hours float64) string {
	return analysis.FigureIn(hours, "h") + " × " + c.Sum(c.rates.Rate)
}

// add takes down a line.
func (c *costing) add(label string, to *float64, v float64, formula, numbers string) {
	*to = cents(v)
	if *to != 0 {
		c.Working.Add(analysis.Step{Label: label, Formula: formula, Text: numbers + " = " + c.Sum(*to), Source: "from the sheet"})
	}
}

func (c *costing) percent(label string, to *float64, share, of float64) {
	c.add(label, to, share/100*of, "share × lines before", analysis.FigureIn(share, "%")+" × "+c.Sum(of))
}

// isFirstOfSeveral reports whether a plan records what was found.
func isFirstOfSeveral(doc *diagram.Document, plan diagram.ID) bool {
	plans := doc.Plans()
	return len(plans) > 1 && plans[0].ID == plan
}

// found returns the protectors that stand in the building before the work of a plan.
func found(doc *diagram.Document, plan diagram.ID) []diagram.Protector {
	first := doc.Plans()[0].ID
	if first == plan {
		return nil
	}
	return slices.Collect(doc.ProtectorsOf(first))
}

// sameDevice reports whether two protectors are the same device on the same bus: all
// of the nameplate is alike. What it is called, costs and how it is installed may differ.
func sameDevice(a, b diagram.Protector) bool {
	return a.Bus == b.Bus && bare(a) == bare(b)
}

// bare is a protector without what may differ between two plans.
func bare(p diagram.Protector) diagram.Protector {
	none := diagram.Protector{}
	p.ID, p.Plan, p.Name, p.Note, p.Offset, p.Extra = none.ID, none.Plan, none.Name, none.Note, none.Offset, none.Extra
	p.Price, p.Hours, p.Catalogue = none.Price, none.Hours, none.Catalogue
	p.Leads, p.External, p.Installed = none.Leads, none.External, none.Installed
	p.Breaker = diagram.BreakerData{Least: p.Breaker.Least, Most: p.Breaker.Most}
	return p
}

// sameMounting reports whether two devices have the same leads and the same breaker,
// at the same side of the enclosure.
func sameMounting(a, b diagram.Protector) bool {
	return a.Leads == b.Leads && a.External == b.External && a.Breaker == b.Breaker
}
