package report

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// doing is what is done with one protector.
type doing string

const (
	puttingIn doing = "new"
	changing  doing = "other leads or breaker"
	takingOut doing = "take away"
)

// job is one protector at which the crew works.
type job struct {
	item
	doing doing
	was   diagram.Protector // of one that is changed, as found
}

// board is a board, a load or a junction at which something is done.
type board struct {
	*Work
	part   diagram.Part
	system diagram.System
	jobs   []job
}

// layWorkSheets lays out a sheet for each board at which something is done.
func layWorkSheets(w *Work) (page.Frame, []page.Page, error) {
	if w.records() {
		return page.Frame{}, nil, w.errRecords("work sheets")
	}
	boards := w.boards()
	if len(boards) == 0 {
		return page.Frame{}, nil, errors.New("plan " + w.planName() + " has no protector to put in, to change or to take away, so that there is no sheet to write; choose another plan")
	}
	frame, pages := w.workSheets(boards)
	return frame, pages, nil
}

// workSheets lays the sheets of boards out, with the frame of them all.
func (w *Work) workSheets(boards []board) (page.Frame, []page.Page) {
	var pages []page.Page
	for _, b := range boards {
		frame := w.frame("for the crew · plan "+w.planName(), b.title())
		frame.Tight = true
		pages = append(pages, page.Document{Frame: frame, Blocks: b.blocks()}.Lay()...)
	}
	whole := w.frame("for the crew", "Work sheets, "+SheetTitle(w.Document))
	whole.Tight = true
	for i, p := range pages {
		whole.Number(p.Picture, i+1, len(pages), "sheet")
	}
	return whole, pages
}

// boards returns where something is done, as the current flows: of each board what
// goes, then what is changed, then what comes.
func (w *Work) boards() []board {
	cost := compare.CostOf(w.Document, w.Result.Plan)
	at := map[diagram.ID][]job{}
	for _, of := range []struct {
		ids   []diagram.ID
		doing doing
	}{{cost.Gone, takingOut}, {cost.Altered, changing}, {cost.Bought, puttingIn}} {
		for _, id := range of.ids {
			p, _ := w.Document.Protector(id)
			bus, _ := w.Document.Part(p.Bus)
			j := job{item: w.item(p, bus), doing: of.doing}
			if of.doing == changing {
				j.was = w.asFound(p)
			}
			at[p.Bus] = append(at[p.Bus], j)
		}
	}
	var out []board
	take := func(part diagram.Part) {
		if len(at[part.ID]) > 0 {
			out = append(out, board{w, part, w.systemAt(part), at[part.ID]})
		}
		delete(at, part.ID)
	}
	for _, part := range w.Result.Downward(w.Document) {
		take(part)
	}
	for part := range w.Document.Parts() {
		take(part)
	}
	return out
}

// asFound returns what stands for a protector in the building as found.
func (w *Work) asFound(p diagram.Protector) diagram.Protector {
	for was, is := range diagram.Counterparts(w.Document, w.Document.Plans()[0].ID, w.Result.Plan) {
		if is == p.ID {
			out, _ := w.Document.Protector(was)
			return out
		}
	}
	return diagram.Protector{}
}

func (w *Work) systemAt(part diagram.Part) diagram.System {
	if node := w.Result.Topology.Node(part); node != nil {
		return node.System
	}
	return diagram.System{}
}

func (w *Work) name(id diagram.ID) string { return unit.Visible(w.Document.NameOf(id)) }

// title says where and at what: "Work sheet: SPD-3 on Fume hoods".
func (b board) title() string {
	var tags []string
	for _, j := range b.jobs {
		if j.doing != takingOut {
			tags = append(tags, b.name(j.ID))
		}
	}
	if len(tags) == 0 {
		return "Work sheet: " + b.name(b.part.ID)
	}
	return "Work sheet: " + unit.Names(tags) + " on " + b.name(b.part.ID)
}

func (b board) blocks() []page.Block {
	out := []page.Block{b.lockOut(), b.facts()}
	for _, j := range b.jobs {
		out = append(out, b.jobBlocks(j)...)
	}
	out = append(out, page.Heading{Text: "In this order", Minor: true}, page.Checks{Items: b.order(), Numbered: true})
	out = append(out, page.Together{page.Heading{Text: "Before energising", Minor: true}, page.Checks{Items: b.beforeOn()}})
	out = append(out, page.Together{page.Heading{Text: "After energising", Minor: true}, page.Checks{Items: b.afterOn()}})
	return append(out, b.record()...)
}

// lockOut stands first on the sheet.
func (b board) lockOut() page.Block {
	text := []string{mark.EverySource}
	if others := b.otherSources(); len(others) > 0 {
		text = append(text, "It can be fed in more than one way ("+unit.Names(others)+"): lock out each.")
	}
	if b.part.Board.Service {
		text = append(text, "The supply side of the main stays live while the main is open: have the utility switch it off where it must be touched.")
	}
	if critical := b.criticalBelow(); len(critical) > 0 {
		text = append(text, "Feeds critical equipment ("+unit.Names(critical)+"): agree the time first.")
	}
	return page.Box{Title: "De-energise, lock out, test for absence of voltage. Qualified persons only.", Text: strings.Join(text, "\n"), Accent: draw.RoleTight}
}

// otherSources names the transfer switches by which the board may be fed.
func (b board) otherSources() []string {
	var out []string
	for node := b.Result.Topology.Node(b.part); node != nil; node = node.Up {
		if part, _ := b.Document.Part(node.At.Part); part.Kind == diagram.TransferSwitch && !slices.Contains(out, b.name(part.ID)) {
			out = append(out, b.name(part.ID))
		}
	}
	return out
}

// criticalBelow names the critical loads that the board feeds, itself among them.
func (b board) criticalBelow() []string {
	var out []string
	for part := range b.Document.Parts() {
		if part.Kind != diagram.Load || !part.Load.Critical {
			continue
		}
		for node := b.Result.Topology.Node(part); node != nil; node = node.Up {
			if node.At.Part == b.part.ID {
				out = append(out, b.name(part.ID))
				break
			}
		}
	}
	return out
}

// facts say where it is and what it is.
func (b board) facts() page.Block {
	kind := unit.SentenceCase(string(b.part.Kind))
	system := "system not known: measure before anything is connected"
	if b.system.Known() {
		system = b.system.String() + " V"
	}
	what := []string{b.name(b.part.ID), system}
	if m := b.part.Board.Mounting; m != "" {
		what = append(what, string(m)+" mounted")
	}
	if b.part.Board.MainBreaker > 0 {
		what = append(what, "main breaker "+b.current(b.part.Board.MainBreaker))
	}
	fed := ""
	if node := b.Result.Topology.Node(b.part); node != nil && node.Up != nil {
		fed = b.name(node.Up.At.Part)
	}
	return page.Pairs{
		{Key: kind, Value: strings.Join(what, ", ")}, {Key: "Fed from", Value: fed},
		{Key: "Result", Value: b.comesTo()}, {Key: "Note", Value: unit.VisibleLines(b.part.Note)},
	}
}

// comesTo says what the place gets with these leads, and what it got as found.
func (b board) comesTo() string {
	bus, ok := b.Result.Buses[b.part.ID]
	if !ok {
		return ""
	}
	out := "with these leads " + b.levelText(bus.Worst())
	if b.Before != nil {
		out += "; as found " + b.levelText(b.Before.Result.Buses[b.part.ID].Worst())
	}
	return out + " (computed by the " + string(b.Result.Basis) + ")"
}

func (w *Work) levelText(l analysis.Level) string {
	if !l.Known {
		return strings.ToLower(l.Verdict.String()) + ", " + w.said(string(cmp.Or(l.Reason, "not known")))
	}
	out := w.voltage(l.Volts) + " " + w.mode(l.Mode)
	if l.Withstand > 0 {
		out += " of " + w.voltage(l.Withstand)
	}
	return out
}

// jobBlocks say what one protector is and how it is connected.
func (b board) jobBlocks(j job) []page.Block {
	title := b.name(j.ID) + ": " + string(j.doing)
	if j.doing == takingOut {
		return []page.Block{page.Together{page.Heading{Text: title, Minor: true}, page.Pairs{
			{Key: "Protector", Value: b.nameplate(j)}, {Key: "Breaker", Value: b.breaker(j.Breaker)},
		}}}
	}
	return []page.Block{
		page.Together{page.Heading{Text: title, Minor: true}, page.Pairs{
			{Key: "Protector", Value: b.nameplate(j)}, {Key: "Breaker", Value: b.breakerOf(j)}, {Key: "Spaces", Value: b.spaces(j)},
			{Key: "Mount", Value: mounting(j.Protector, b.part)}, {Key: "As found", Value: b.foundText(j)}, {Key: "Note", Value: unit.VisibleLines(j.Note)},
		}},
		page.Together{page.Heading{Text: "Leads: as short as this, not longer", Minor: true}, b.leadTable(j), page.Paragraph{Text: b.costsText(j), Faint: true}},
	}
}

// nameplate says what must stand on the label.
func (b board) nameplate(j job) string {
	out := notEmpty(string(j.Type), systemText(j.System), unit.Visible(j.Catalogue))
	for _, of := range []struct {
		name string
		each func(diagram.Mode) float64
	}{
		{ratingName(j.Protector), func(m diagram.Mode) float64 { return j.Modes[m].Level }},
		{map[bool]string{true: "Uc", false: "MCOV"}[j.Rating == diagram.Up], func(m diagram.Mode) float64 { return j.Modes[m].MCOV }},
	} {
		if text := b.perMode(j.Protector, func(m diagram.Mode) string { return b.mode(m) + " " + plainVolts(of.each(m)) }); text != "" {
			out = append(out, of.name+" "+text+" V")
		}
	}
	sccr := "SCCR not stated"
	if j.SCCR > 0 {
		sccr = "SCCR " + b.kilo(j.SCCR)
	}
	fault := "not known"
	if j.fault > 0 {
		fault = b.kilo(j.fault)
	}
	return strings.Join(append(out, sccr+" (fault current here "+fault+")"), "; ")
}

func (b board) breaker(d diagram.BreakerData) string {
	if d.Rated == 0 {
		return "none stated"
	}
	out := b.current(d.Rated)
	if d.Poles > 0 {
		out += ", " + unit.CountOf(d.Poles, "pole")
	}
	if d.Shared {
		return out + ", shared with something else"
	}
	return out + ", not shared"
}

// breakerOf adds what the protector asks for.
func (b board) breakerOf(j job) string {
	out := b.breaker(j.Breaker)
	if j.Breaker.Rated == 0 {
		out += ": as the label says; write down what is used"
	}
	switch d := j.Breaker; {
	case d.Least > 0 && d.Most > 0:
		out += "; its label asks for " + b.current(d.Least) + " to " + b.current(d.Most)
	case d.Most > 0:
		out += "; its label allows " + b.current(d.Most) + " at most"
	case d.Least > 0:
		out += "; its label asks for " + b.current(d.Least) + " at least"
	}
	return out
}

// spaces says which spaces the breaker takes, as far as that is known.
func (b board) spaces(j job) string {
	if !b.part.Kind.IsBoard() || j.Breaker.Rated == 0 || j.Breaker.Shared {
		return ""
	}
	out := "those nearest to the " + b.withNeutral("neutral and "+b.earth()+" bars", b.earth()+" bar")
	if n := j.Breaker.Poles; n > 0 {
		out = unit.CountOf(n, "space") + ", " + out
	}
	switch d := b.part.Board; {
	case d.FreePositions != "":
		out += "; free by the survey: " + unit.Visible(d.FreePositions)
	case d.Spaces > 0 || d.FreeSpaces > 0:
		out += fmt.Sprintf("; %d free by the survey, not told which", d.FreeSpaces)
	default:
		out += "; which are free is not known"
	}
	return out
}

// foundText says what the leads and the breaker of a changed protector were.
func (b board) foundText(j job) string {
	if j.doing != changing || j.was.ID == "" {
		return ""
	}
	l := j.was.Leads
	return fmt.Sprintf("leads %s line, %s neutral, %s %s; breaker %s", b.leadLength(l.Phase.Length), b.leadLength(l.Neutral.Length), b.leadLength(l.Earth.Length), b.earth(), b.breaker(j.was.Breaker))
}
