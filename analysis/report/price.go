package report

import (
	"fmt"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

const notStated = "price not stated"

// price says what the work costs and what each step of it buys.
func (p proposal) price() []page.Block {
	t := page.Table{Columns: []page.Column{{Title: "step", Weight: 4}, {Title: "what it buys", Weight: 5}, {Title: p.priceTitle(), Weight: 2, Align: draw.Right}}}
	t.Rows = append(p.steps(), p.shared()...)
	if len(t.Rows) == 0 {
		return nil
	}
	total := "Total"
	if !p.cost.Whole() {
		total = "Total of what is stated"
	}
	sum := p.money(p.cost.Total)
	if p.cost.Total == 0 && !p.cost.Whole() {
		sum = notStated
	}
	t.Total = []string{total, "", sum}
	out := []page.Block{page.Break{}, page.Heading{Text: "What it costs and what each step buys"}, t}
	if missing := p.missing(); missing != "" {
		out = append(out, page.Paragraph{Text: missing, Bold: true})
	}
	return append(out, page.Paragraph{Text: "What a step buys was found by leaving it out: places that are then no longer protected count as bought. Two steps that stand in for each other buy little each, and much together.", Faint: true})
}

// missing says what the total lacks, in sentences for an owner.
func (p proposal) missing() string {
	var out []string
	if n := len(p.cost.Unpriced); n > 0 {
		out = append(out, fmt.Sprintf("The total lacks the price of %s: %s.", unit.CountOf(n, "protector"), p.tags(p.cost.Unpriced)))
	}
	if n := len(p.cost.Untimed); n > 0 {
		out = append(out, fmt.Sprintf("It lacks the labour of %s: %s.", unit.CountOf(n, "protector"), p.tags(p.cost.Untimed)))
	}
	if p.cost.Unrated {
		out = append(out, "It lacks all labour: the drawing does not say what an hour costs.")
	}
	if len(p.cost.Gone) > 0 {
		out = append(out, "Taking protectors away is not priced.")
	}
	return strings.Join(out, " ")
}

// tags names protectors with their places.
func (p proposal) tags(ids []diagram.ID) string {
	var out []string
	for _, id := range ids {
		spd, _ := p.Document.Protector(id)
		out = append(out, unit.Visible(p.Document.NameOf(id)+" at "+p.Document.NameOf(spd.Bus)))
	}
	return unit.Names(out)
}

func (p proposal) priceTitle() string {
	return strings.Join(notEmpty("price", unit.Visible(p.cost.Currency)), ", ")
}

func (p proposal) money(v float64) string { return unit.Format(v, unit.Money, p.Convention) }

// steps are the protectors that are bought or altered, and those that go without
// another one in their place; of many the last row has the rest.
func (p proposal) steps() [][]string {
	var out [][]string
	ids := slices.Concat(p.cost.Bought, p.cost.Altered)
	named := len(ids)
	if named > mostSteps {
		named = mostSteps - 1
	}
	for _, id := range ids[:named] {
		out = append(out, p.stepRow(id))
	}
	if rest := ids[named:]; len(rest) > 0 {
		out = append(out, p.restRow(rest))
	}
	if text := p.goneText(); text != "" {
		out = append(out, []string{text, "room, and no false sense of safety", "not priced"})
	}
	return out
}

func (p proposal) stepRow(id diagram.ID) []string {
	spd, _ := p.Document.Protector(id)
	where := p.name(spd.Bus) + " (" + p.name(id) + ")"
	if slices.Contains(p.cost.Altered, id) {
		return []string{"Other leads or breaker at " + where, p.buys(id), "labour alone"}
	}
	verb, price := "New protector at ", notStated
	if p.isReplaced(spd.Bus) {
		verb = "Replace the protector at "
	}
	if spd.Price > 0 {
		price = p.money(spd.Price)
	}
	return []string{verb + where, p.buys(id), price}
}

// restRow sums up the steps that are not named one by one.
func (p proposal) restRow(ids []diagram.ID) []string {
	sum, lacking, buys := 0.0, 0, 0
	for _, id := range ids {
		spd, _ := p.Document.Protector(id)
		if slices.Contains(p.cost.Bought, id) {
			sum += spd.Price
			if spd.Price == 0 {
				lacking++
			}
		}
		if at := p.boughtAt(id); at >= 0 && p.Bought[at].Without.Lost() > 0 {
			buys++
		}
	}
	price := p.money(sum)
	switch {
	case lacking == len(ids):
		price = notStated
	case lacking > 0:
		price += fmt.Sprintf("; %d not stated", lacking)
	}
	return []string{fmt.Sprintf("%d more, at %s; all stand in the schedule", len(ids), p.tagsShort(ids)), fmt.Sprintf("%d of them keep a place protected that would not be without", buys), price}
}

func (p proposal) tagsShort(ids []diagram.ID) string {
	var out []string
	for _, id := range ids {
		spd, _ := p.Document.Protector(id)
		out = append(out, p.name(spd.Bus))
	}
	return unit.Names(out)
}

// isReplaced reports whether a protector goes at a bus.
func (p proposal) isReplaced(bus diagram.ID) bool {
	return slices.ContainsFunc(p.cost.Gone, func(id diagram.ID) bool {
		old, _ := p.Document.Protector(id)
		return old.Bus == bus
	})
}

// goneText names the places at which a protector goes and no other comes.
func (p proposal) goneText() string {
	var out []string
	for _, id := range p.cost.Gone {
		old, _ := p.Document.Protector(id)
		comes := slices.ContainsFunc(slices.Concat(p.cost.Bought, p.cost.Altered), func(id diagram.ID) bool {
			spd, _ := p.Document.Protector(id)
			return spd.Bus == old.Bus
		})
		if !comes {
			out = append(out, p.name(old.Bus))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "Take away the protector at " + unit.Names(out)
}

// shared are the lines of the price that no one step has.
func (p proposal) shared() [][]string {
	var out [][]string
	for _, line := range []struct {
		what, remark string
		sum          float64
	}{
		{"Labour", p.hours(), p.cost.Labour},
		{"Travel", "once", p.cost.Travel},
		{"Shutdowns", "with their labour", p.cost.Shutdowns},
		{"Overhead", "", p.cost.Overhead},
		{"Tax", "", p.cost.Tax},
	} {
		if line.sum != 0 {
			out = append(out, []string{line.what, line.remark, p.money(line.sum)})
		}
	}
	return out
}

// hours are those of labour that are priced, without those of shutdowns.
func (p proposal) hours() string {
	rate := p.Document.Info().Costs.Rate
	if rate == 0 {
		return ""
	}
	return analysis.FigureIn(p.cost.Labour/rate, "h")
}

func (p proposal) boughtAt(id diagram.ID) int {
	return slices.IndexFunc(p.Bought, func(b compare.Bought) bool { return b.Protector == id })
}

// buys says what a protector buys, in an owner's words.
func (p proposal) buys(id diagram.ID) string {
	at := p.boughtAt(id)
	if at < 0 {
		return ""
	}
	effect := p.Bought[at].Without
	kept, spared, helped := p.kept(effect)
	var out []string
	for _, part := range []struct {
		verb   string
		places []string
	}{{"protects ", kept}, {"leaves room to spare at ", spared}, {"also limits what reaches ", helped}} {
		if len(part.places) > 0 {
			out = append(out, part.verb+unit.Names(part.places))
		}
	}
	if slices.ContainsFunc(effect.Findings, func(f analysis.Finding) bool { return f.Subject == analysis.SubjectRequired }) {
		out = append(out, "the electrical code asks for one here")
	}
	if len(out) == 0 {
		out = append(out, p.buysElse(effect))
	}
	return strings.Join(out, "; ")
}

// kept sorts the places that are worse without a protector: those that are protected by
// it, those that keep a margin, and those that it helps alone.
func (p proposal) kept(e compare.Effect) (kept, spared, helped []string) {
	for _, c := range e.Verdicts {
		name := p.name(c.Part)
		good := c.Before.Verdict == analysis.Held || c.Before.Verdict == analysis.Tight
		switch {
		case !c.IsWorse():
		case good && c.After.Verdict == analysis.Tight:
			spared = append(spared, name)
		case good:
			kept = append(kept, name)
		default:
			helped = append(helped, name)
		}
	}
	return kept, spared, helped
}

// buysElse says what a protector does on which no verdict depends.
func (p proposal) buysElse(e compare.Effect) string {
	for _, c := range e.Modes {
		if c.IsWorse() {
			return "protects " + p.name(c.Part) + " on a second way"
		}
	}
	for _, c := range e.Volts {
		if c.After.Volts > c.Before.Volts {
			return fmt.Sprintf("lowers what reaches %s from %s to %s", p.name(c.Part), p.ownerVolts(c.After.Volts), p.ownerVolts(c.Before.Volts))
		}
	}
	for _, t := range e.Takes {
		if t.After > t.Before {
			return "takes part of the load off " + p.name(t.Protector)
		}
	}
	if p.Result.Basis == analysis.HandRule {
		return "nothing that the simple rule sees; it may share a surge with others"
	}
	return "nothing that was computed"
}
