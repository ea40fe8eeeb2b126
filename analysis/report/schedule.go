package report

import (
	"io"
	"strings"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/analysis/mark"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// writeSchedule writes the schedule: as a workbook, with the quantities on a second
// sheet, or the protectors alone as CSV.
func writeSchedule(out io.Writer, w *Work, format Format) error {
	rows := w.scheduled()
	if format == CSV {
		return table.CSV(out, guarded(scheduleColumns(w)), rows)
	}
	schedule := table.SheetOf("Schedule", scheduleColumns(w), rows)
	schedule.Above = w.titleLines("Schedule of protectors")
	schedule.Below = w.scheduleNotes()
	quantities := table.SheetOf("Quantities", quantityColumns(w), quantitiesOf(w, rows))
	quantities.Above = w.titleLines("Quantities for purchasing")
	quantities.Below = w.quantityNotes()
	info := w.Document.Info()
	return table.Workbook{
		Title: SheetTitle(w.Document) + ", schedule of protectors", Author: unit.Visible(info.Author), Created: w.Date,
		Sheets: []table.Sheet{schedule, quantities},
	}.WriteXLSX(out)
}

// titleLines are the facts of the title block, a line for each.
func (w *Work) titleLines(title string) []string {
	h := w.head("", title)
	out := []string{title + ": " + SheetTitle(w.Document)}
	for _, fact := range []struct{ key, value string }{
		{"Plan", w.planName()}, {"Site", h.Site}, {"Firm", strings.Join(notEmpty(h.Firm, h.Address), ", ")},
		{"Sheet", h.Sheet}, {"Revision", h.Revision}, {"Date", h.Date}, {"Drawn by", h.DrawnBy},
	} {
		if fact.value != "" {
			out = append(out, fact.key+": "+unit.Visible(fact.value))
		}
	}
	return append(out, mark.Caution)
}

func notEmpty(texts ...string) []string {
	var out []string
	for _, t := range texts {
		if t != "" {
			out = append(out, t)
		}
	}
	return out
}

// scheduleNotes say what the columns are taken from.
func (w *Work) scheduleNotes() []string {
	return []string{
		w.said("Ratings stand in the order of the modes. Fault current: the highest at the place, by the calculation of the sheet; an SCCR below it is a fault. " +
			"Where a cell is empty, the sheet does not say."),
		w.sentence("Target is the lead of the plan, with which the " + string(w.Result.Basis) + " was computed. At most is the length up to which each board and load that this protector decides keeps its verdict, by what the hand rule takes leads to add, and leads that run apart need no remark: " +
			"what they add is below 10 % of a VPR (" + analysis.CommonPractice + "), and line and earth side of a Up are 0.5 m at most in all (IEC 60364-5-53 clause 534.4.8; " + analysis.CheckEdition + ")"),
	}
}

// item is a protector of the schedule.
type item struct {
	diagram.Protector
	bus   diagram.Part
	fault float64 // A at its bus; 0 not known
	room  lead.Room
}

// scheduled returns the protectors of the plan as the current flows, by tag where there
// are several on one board.
func (w *Work) scheduled() []item {
	on := map[diagram.ID][]diagram.Protector{}
	for p := range w.Document.ProtectorsOf(w.Result.Plan) {
		on[p.Bus] = append(on[p.Bus], p)
	}
	var out []item
	take := func(part diagram.Part) {
		for _, p := range on[part.ID] {
			out = append(out, w.item(p, part))
		}
		delete(on, part.ID)
	}
	for _, part := range w.Result.Downward(w.Document) {
		take(part)
	}
	for part := range w.Document.Parts() { // what else a protector may hang on
		take(part)
	}
	return out
}

func (w *Work) item(p diagram.Protector, bus diagram.Part) item {
	return item{p, bus, w.faultAt(bus), lead.RoomOf(&p, w.Document.FollowsIEC(), w.Result)}
}

// faultAt returns the highest fault current at the terminals of a part, A, or 0.
func (w *Work) faultAt(part diagram.Part) float64 {
	out := 0.0
	for _, port := range part.Kind.Ports() {
		if f, ok := w.Result.Faults[diagram.End{Part: part.ID, Port: port}]; ok && f.Known {
			out = max(out, f.Highest())
		}
	}
	return out
}

// scheduleColumns is what the schedule tells of each protector.
func scheduleColumns(w *Work) []table.Column[item] {
	length, earth := "mm", unit.EarthWord(w.Convention)
	if w.Convention != unit.IEC {
		length = "in"
	}
	out := []table.Column[item]{
		words("Tag", 10, func(i item) string { return w.Document.NameOf(i.ID) }),
		words("Board or load", 20, func(i item) string { return w.Document.NameOf(i.bus.ID) }),
	}
	out = append(out, ratingColumns(w, func(i item) diagram.Protector { return i.Protector })...)
	out = append(out,
		number("Fault current here, kA", func(i item) float64 { return rounded3(i.fault / 1e3) }),
		number("Breaker, A", func(i item) float64 { return i.Breaker.Rated }),
		number("Poles", func(i item) float64 { return float64(i.Breaker.Poles) }),
		words("Breaker shared", 9, func(i item) string { return map[bool]string{true: "yes"}[i.Breaker.Shared] }),
	)
	for _, l := range []struct {
		name string
		of   func(item) diagram.Lead
	}{
		{"Line", func(i item) diagram.Lead { return i.Leads.Phase }},
		{"Neutral", func(i item) diagram.Lead { return used(i.Leads.Neutral, lead.UsesNeutral(&i.Protector)) }},
		{unit.SentenceCase(earth), func(i item) diagram.Lead { return used(i.Leads.Earth, lead.UsesEarth(&i.Protector)) }},
	} {
		out = append(out,
			number(l.name+" lead, target "+length, func(i item) float64 { return w.inRule(l.of(i).Length) }),
			number(l.name+" lead, at most "+length, func(i item) float64 { return w.inRule(w.mostOf(l.of(i), i.room)) }))
	}
	return append(out,
		words("Leads run", 10, func(i item) string { return string(i.Leads.Run) }),
		words("Lead size", 10, func(i item) string { return w.area(i.Leads.Phase.Area) }),
		words("Mounting", 14, func(i item) string { return mounting(i.Protector, i.bus) }),
		words("Notes", 30, func(i item) string { return i.Note }))
}

// ratingColumns are those of the nameplate.
func ratingColumns[R any](w *Work, of func(R) diagram.Protector) []table.Column[R] {
	return []table.Column[R]{
		words("System", 16, func(r R) string { return systemText(of(r).System) }),
		words("Type or class", 9, func(r R) string { return string(of(r).Type) }),
		words("Modes", 20, func(r R) string { p := of(r); return w.perMode(p, func(m diagram.Mode) string { return w.mode(m) }) }),
		words("MCOV or Uc, V", 20, func(r R) string {
			p := of(r)
			return w.perMode(p, func(m diagram.Mode) string { return plainVolts(p.Modes[m].MCOV) })
		}),
		words("Rating", 7, func(r R) string { return ratingName(of(r)) }),
		words("VPR or Up, V", 22, func(r R) string {
			p := of(r)
			return w.perMode(p, func(m diagram.Mode) string { return plainVolts(p.Modes[m].Level) })
		}),
		number("In, kA", func(r R) float64 { return rounded3(of(r).In / 1e3) }),
		number("Imax, kA", func(r R) float64 { return rounded3(of(r).Imax / 1e3) }),
		number("Iimp, kA", func(r R) float64 { return rounded3(of(r).Iimp / 1e3) }),
		number("SCCR, kA", func(r R) float64 { return rounded3(of(r).SCCR / 1e3) }),
	}
}
