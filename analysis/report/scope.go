package report

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// options compares the plans of the sheet, the building as it is among them.
func (p proposal) options() []page.Block {
	if p.Plans == nil || len(p.Plans.Plans) < 2 {
		return nil
	}
	t := page.Table{Columns: []page.Column{
		{Title: "option", Weight: 4}, {Title: "places protected", Weight: 2, Align: draw.Right}, {Title: "not protected", Weight: 2, Align: draw.Right},
		{Title: "of these critical", Weight: 2, Align: draw.Right}, {Title: p.priceTitle(), Weight: 3, Align: draw.Right},
	}}
	for i, plan := range p.Plans.Plans {
		t.Rows = append(t.Rows, p.optionRow(plan, i == 0))
	}
	return []page.Block{page.Heading{Text: "The options side by side"}, t,
		page.Paragraph{Text: "Not protected are places that get more than they are made for, or have no protection. Critical is equipment of which somebody said that much depends on it.", Faint: true}}
}

func (p proposal) optionRow(plan compare.Plan, first bool) []string {
	name := p.name(plan.ID)
	record, _ := p.Document.Plan(plan.ID)
	switch {
	case first:
		name += ": leave it as it is"
	case plan.ID == p.Result.Plan:
		name += ": what we propose"
	case record.Purpose != "":
		name += ": " + unit.Visible(record.Purpose)
	}
	price := p.money(plan.Cost.Total)
	switch {
	case first:
		price = "none"
	case !plan.Cost.Whole() && plan.Cost.Total == 0:
		price = notStated
	case !plan.Cost.Whole():
		price += ", not all stated"
	}
	return []string{name, fmt.Sprint(plan.All[analysis.Held] + plan.All[analysis.Tight]), fmt.Sprint(bad(plan.All)), fmt.Sprint(bad(plan.Critical)), price}
}

func bad(t compare.Totals) int { return t[analysis.Exceeded] + t[analysis.Unreached] }

// notCovered says what stays open after the work, and what no such work covers.
func (p proposal) notCovered() []page.Block {
	out := []page.Block{page.Heading{Text: "What this does not cover"}}
	open := p.After.worst()
	if len(open) > 0 {
		out = append(out, page.Paragraph{Text: "After the work " + unit.CountOf(len(open), "place still gets more than it is made for, or has no protection.|places still get more than they are made for, or have no protection.") + " What could be done about each stands in the findings."})
		t := page.Table{Columns: []page.Column{{Title: "place", Weight: 3}, {Title: "gets", Weight: 2}, {Title: "made for", Weight: 2}, {Title: "why", Weight: 7}}}
		for _, part := range open[:min(mostOpen, len(open))] {
			t.Rows = append(t.Rows, p.openRow(part))
		}
		out = append(out, t)
		if more := len(open) - mostOpen; more > 0 {
			out = append(out, page.Paragraph{Text: fmt.Sprintf("And %d more, which stand in the findings.", more), Faint: true})
		}
	}
	if n := p.After.Result.Count()[analysis.Unknown]; n > 0 {
		out = append(out, page.Paragraph{Text: "Of " + unit.CountOf(n, "place|places") + " it cannot be told: " + p.unknown() + "."})
	}
	return append(out, page.Paragraph{Text: "Nor does it cover data, telephone and antenna lines, which bring surges in on a way of their own; a stroke of lightning into the building itself, where it has no lightning protection system; " +
		"supply voltages that are too high for seconds or longer; and equipment that comes later or is moved. A protector wears out with what it has led away: its indicator has to be looked at from time to time."})
}

func (p proposal) openRow(part diagram.Part) []string {
	level := p.After.Result.Buses[part.ID].Worst()
	name := p.name(part.ID)
	gets, made := p.gets(level)
	if part.Load.Critical {
		name += " (critical)"
	}
	return []string{name, gets, made, p.why(p.After, part)}
}

// unknown names the places of which nothing can be told.
func (p proposal) unknown() string {
	var out []string
	for _, part := range p.After.Result.Downward(p.Document) {
		if p.After.Result.Buses[part.ID].Worst().Verdict == analysis.Unknown {
			out = append(out, p.name(part.ID))
		}
	}
	return unit.Names(out)
}

// assumed says what the figures rest on that nobody has measured.
func (p proposal) assumed() []page.Block {
	out := page.Together{page.Heading{Text: "What was assumed"}}
	texts := []string{
		"The building is as it is drawn: voltages, lengths of wiring and what is connected where are those of the drawing.",
		p.basisText(), p.withstandText(),
		"Protectors are mounted with leads as short as the work sheets say. Each inch (2.5 cm) of lead more lets more through.",
	}
	if p.Convention == unit.IEC {
		texts[3] = "Protectors are mounted with leads as short as the work sheets say. Each centimetre of lead more lets more through."
	}
	if n := p.estimated(); n > 0 {
		texts = append(texts, fmt.Sprintf("At %s usual figures stand for what the drawing does not say of the supply or the transformers.", unit.CountOf(n, "place")))
	}
	if note := p.Document.Info().Note; note != "" {
		texts = append(texts, "Remark on the drawing: "+unit.VisibleLines(note))
	}
	for _, text := range texts {
		if text != "" {
			out = append(out, page.Paragraph{Text: "• " + text})
		}
	}
	return []page.Block{out}
}

// basisText says how the voltages were found.
func (p proposal) basisText() string {
	if p.Result.Basis == analysis.HandRule {
		return "The voltages are those of a simple rule: what the protector lets through by its label, what its leads add, and how the voltage rises along the wiring. It takes the surge of a standard test."
	}
	return fmt.Sprintf("The voltages were computed for %s, over the supply and from within the building, each at every place where it may begin; the worst counts.", unit.CountOf(len(p.Result.Surges), "kind of surge|kinds of surge"))
}

// withstandText says of how many places nobody stated what they stand.
func (p proposal) withstandText() string {
	n := 0
	for id := range p.Result.Buses {
		if part, ok := p.Document.Part(id); ok && part.Withstand == (diagram.Withstand{}) {
			n++
		}
	}
	if n == 0 {
		return "What each place is made for was stated."
	}
	return fmt.Sprintf("For %s nobody stated what the equipment is made for; it is taken by the table of a standard, by kind and voltage.", unit.CountOf(n, "place"))
}

// estimated counts the places of which a fault current rests on usual figures.
func (p proposal) estimated() int {
	at := map[diagram.ID]bool{}
	for end, f := range p.Result.Faults {
		if f.Known && f.Estimated {
			at[end.Part] = true
		}
	}
	return len(at)
}

// figures is the last page: where the figures come from, and the cautions.
func (p proposal) figures() []page.Block {
	t := page.Table{Columns: []page.Column{{Title: "source", Weight: 3}, {Title: "what is taken from it", Weight: 5}, {Title: "how sure", Weight: 3}}}
	named := p.sources()
	for _, s := range analysis.Sources() {
		if strings.Contains(named, s.Name) {
			t.Rows = append(t.Rows, []string{s.Name, p.said(s.Taken), p.said(string(s.Standing))})
		}
	}
	return []page.Block{page.Break{}, page.Heading{Text: "About the figures"},
		page.Paragraph{Text: "All voltages are crests in volts, rounded to three figures; above " + p.voltage(flashesOver) + " nothing more is told than that, since wiring itself flashes over there (IEEE C62.41.2, from memory). " +
			"A place counts as protected up to what it is made for, and with little to spare above 80 % of that. By name they rest on these sources; what is marked from memory should be checked against your edition."},
		t, page.Paragraph{Text: "How each single figure came about stands in the findings and workings, a document of its own.", Faint: true},
		page.Heading{Text: "Please note", Minor: true}, page.Paragraph{Text: mark.Caution}}
}

// sources returns all that the workings of the places name that this proposal tells of.
func (p proposal) sources() string {
	var out []string
	for _, s := range []*State{p.Before, p.After} {
		workings := []map[diagram.ID]analysis.BusResult{s.causes}
		if s.Result.Basis == analysis.Transient {
			workings = append(workings, assess.ExplainAll(s.Document, s.Result))
		}
		for _, part := range s.worst() {
			for _, all := range workings {
				for _, step := range all[part.ID].Worst().Working {
					out = append(out, step.Source)
				}
			}
		}
	}
	for _, s := range p.Result.Surges {
		out = append(out, s.Surge.Note)
	}
	return strings.Join(append(out, "IEC 62305-4", "IEEE C62.41.2", "common practice"), "\n")
}
