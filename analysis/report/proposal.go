package report

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// layProposal lays out what an owner reads.
func layProposal(w *Work) (page.Frame, []page.Page, error) {
	if w.records() {
		return page.Frame{}, nil, w.errRecords("proposal")
	}
	doc := w.proposal()
	return doc.Frame, doc.Pages(), nil
}

func (w *Work) proposal() page.Document {
	p := proposal{Work: w, cost: compare.CostOf(w.Document, w.Result.Plan)}
	doc := page.Document{Frame: w.frame("proposal", "Surge protection, "+SheetTitle(w.Document))}
	for _, blocks := range [][]page.Block{p.risk(), p.proposed(), p.price(), p.options(), p.notCovered(), p.assumed(), p.figures()} {
		doc.Blocks = append(doc.Blocks, blocks...)
	}
	return doc
}

type proposal struct {
	*Work
	cost compare.Cost
}

const (
	mostPlaces = 3  // that the first page names
	mostSteps  = 20 // that the price names one by one
	mostOpen   = 10 // places that are named as not covered
)

// risk says what is at risk today: on one page.
func (p proposal) risk() []page.Block {
	worst := p.Before.worst()
	out := []page.Block{page.Heading{Text: "What is at risk today"}, page.Paragraph{Text: p.riskText(len(worst))}}
	for _, part := range worst[:min(mostPlaces, len(worst))] {
		out = append(out, p.placeBox(p.Before, part))
	}
	if text := p.restText(); text != "" {
		out = append(out, page.Paragraph{Text: text, Faint: true})
	}
	return out
}

const (
	whatSurges = "Lightning near the building, switching in the supply network and machines of your own send short bursts of high voltage, called surges, through the wiring. " +
		"Each piece of equipment is made to stand only so many volts of them; more can destroy it at once or wear it out. " +
		"A surge protector leads such a burst away before it gets there, if it is of the right kind, near enough and connected by short wires. "
	placesAre = "Places are the switchboards and panels of the building, and the equipment on the drawing."
)

func (p proposal) riskText(bad int) string {
	of := len(p.Before.Result.Buses)
	switch {
	case bad == 0:
		return whatSurges + fmt.Sprintf("Today none of %s gets more than it is made for. ", unit.CountOf(of, "place")) + placesAre
	case bad == 1:
		return whatSurges + fmt.Sprintf("Today 1 of %s gets more than it is made for, or has no protection. ", unit.CountOf(of, "place")) + placesAre
	}
	among := ""
	if bad > mostPlaces {
		among = fmt.Sprintf(" The %d worst follow", mostPlaces)
		if p.Before.worst()[0].Load.Critical {
			among += ", first those that are called critical: somebody said that much depends on them"
		}
		among += "."
	}
	return whatSurges + fmt.Sprintf("Today %d of %s get more than they are made for, or have no protection. ", bad, unit.CountOf(of, "place")) + placesAre + among
}

// placeBox is a place with what reaches it, what it is made for, and why.
func (p proposal) placeBox(s *State, part diagram.Part) page.Block {
	level := s.Result.Buses[part.ID].Worst()
	value, made := p.gets(level)
	role, _ := mark.Style(level.Verdict)
	name := p.name(part.ID)
	if part.Load.Critical {
		name += " (critical)"
	}
	return page.Box{Title: name, Value: value, Text: p.why(s, part), Aside: "made for " + made, Accent: role}
}

// restText says what cannot be told, and what is near its limit.
func (p proposal) restText() string {
	count := p.Before.Result.Count()
	var out []string
	if n := count[analysis.Tight]; n > 0 {
		out = append(out, unit.CountOf(n, "more place is|more places are")+" protected with little to spare: above 80 % of what they are made for.")
	}
	if n := count[analysis.Unknown]; n > 0 {
		out = append(out, "Of "+unit.CountOf(n, "place|places")+" it cannot be told yet: the drawing does not say enough.")
	}
	return strings.Join(out, " ")
}

// proposed shows the building before and after.
func (p proposal) proposed() []page.Block {
	out := []page.Block{page.Heading{Text: "What we propose"}, page.Paragraph{Text: p.workText()}}
	beside := page.Beside{Columns: [][]page.Block{{p.overview(p.Before, "today")}, {p.overview(p.After, "after the work")}}}
	return append(out, page.Together{beside, legendOf(p.Before, p.After)})
}

// workText says in a sentence what is done.
func (p proposal) workText() string {
	var parts []string
	for _, n := range []struct {
		number int
		noun   string
	}{
		{len(p.cost.Bought), "new surge protector is put in|new surge protectors are put in"},
		{len(p.cost.Altered), "that is there gets other wires or another breaker|that are there get other wires or another breaker"},
		{len(p.cost.Gone), "old one is taken away|old ones are taken away"},
	} {
		if n.number > 0 {
			parts = append(parts, unit.CountOf(n.number, n.noun))
		}
	}
	if len(parts) == 0 {
		return "Nothing is changed."
	}
	out := ""
	if p.hasFound() { // a plan alone has a name that says nothing
		out = "The plan is called “" + p.planName() + "”"
		if plan, _ := p.Document.Plan(p.Result.Plan); plan.Purpose != "" {
			out += " (" + unit.Visible(plan.Purpose) + ")"
		}
		out += ": "
	}
	return out + strings.Join(parts, "; ") + ". In the two pictures each board is a thick bar, and the lines between are the wiring; the names stand on the one-line drawing of the building."
}

func (p proposal) overview(s *State, title string) page.Block {
	const height = 62
	return page.Figure{Picture: overviewOf(p.Work, s), Title: title, Caption: p.protectedText(s), Height: height}
}

// protectedText counts what is protected: "18 of 24 places protected".
func (p proposal) protectedText(s *State) string {
	count := s.Result.Count()
	good := count[analysis.Held] + count[analysis.Tight]
	out := fmt.Sprintf("%d of %s protected", good, unit.CountOf(len(s.Result.Buses), "place"))
	if n := count[analysis.Tight]; n > 0 {
		out += fmt.Sprintf(", %d with little to spare", n)
	}
	return out
}
