package report

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
)

// Each board at which something is done has sheets of its own, on which lock-out stands
// first, with breaker, ratings, leads and volts of the sheet and the analysis.
func TestWorkSheetsAreThoseOfTheAnalysis(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			w := workOf(t, doc, c)
			title := doc.Info().Title
			cost := compare.CostOf(doc, w.Result.Plan)
			pages := pageTexts(t, written(t, "worksheets", w, PDF))
			for _, id := range slices.Concat(cost.Bought, cost.Altered, cost.Gone) {
				p, _ := doc.Protector(id)
				sheet := sheetOf(pages, doc.NameOf(p.Bus))
				if sheet == "" {
					t.Errorf("%s: no sheet of %s", title, doc.NameOf(p.Bus))
					continue
				}
				if at := strings.Index(sheet, "De-energise, lock out, test for absence of voltage."); at < 0 || at > strings.Index(sheet, p.Name+":") {
					t.Errorf("%s, %s: lock-out does not stand first", title, p.Name)
				}
				says(t, title, sheet, mark.EverySource)
				if !slices.Contains(cost.Gone, id) {
					isPutIn(t, w, p, sheet)
				}
			}
		}
	}
}

// sheetOf returns the text of the pages of a board.
func sheetOf(pages []string, board string) string {
	out := ""
	for _, p := range pages {
		if strings.Contains(p, "on "+board+" Site") || strings.Contains(p, "Work sheet: "+board+" Site") {
			out += p + " "
		}
	}
	return out
}

func isPutIn(t *testing.T, w *Work, p diagram.Protector, sheet string) {
	t.Helper()
	level := w.Result.Buses[p.Bus].Worst()
	wants := []string{
		fmt.Sprintf("%g A, %d pole", p.Breaker.Rated, p.Breaker.Poles), string(p.Type), p.System.String(),
		"with these leads " + unit.Format(level.Volts, unit.Voltage, w.Convention), "Indicator of " + p.Name + " good:",
	}
	for _, m := range diagram.Modes() {
		if r := p.Modes[m]; r.Connected {
			wants = append(wants, fmt.Sprintf("%s %g", unit.ModeWord(m.String(), w.Convention), r.Level))
		}
	}
	lengths := []float64{p.Leads.Phase.Length}
	if p.Modes[diagram.LineEarth].Connected || p.Modes[diagram.NeutralEarth].Connected {
		lengths = append(lengths, p.Leads.Earth.Length)
	}
	for _, m := range lengths {
		wants = append(wants, w.leadLength(m))
	}
	// 25 V per inch beyond a VPR, 1 kV per metre of a Up, and what is left of them twisted
	volts := map[bool]map[unit.Convention][]string{
		false: {unit.NorthAmerican: {"Each inch", "25 V", "3.9 V", "once every 4 in"}, unit.IEC: {"Each centimetre", "9.8 V", "1.5 V", "once every 10 cm"}},
		true:  {unit.NorthAmerican: {"Each inch", "25.4 V", "5.3 V", "once every 4 in"}, unit.IEC: {"Each centimetre", "10 V", "2.1 V", "once every 10 cm"}},
	}
	wants = append(wants, volts[p.Rating == diagram.Up][w.Convention]...)
	earth := unit.EarthWord(w.Convention)
	says(t, p.Name, sheet, append(wants, "No coil, no sharp bend", "it is not the "+earth, "Torque", "Before energising", "After energising", "Photos", "Done by", "as built")...)
}

// Something that is changed says what it was, and what goes has its way out; the board
// with the critical equipment says so, and where voltage stays.
func TestWorkSheetsOfTheLaboratory(t *testing.T) {
	var laboratory *diagram.Document
	for _, doc := range filetest.Demos(t) {
		if strings.HasPrefix(doc.Info().Title, "Tern Quay") {
			laboratory = doc
		}
	}
	pages := pageTexts(t, written(t, "worksheets", workOf(t, laboratory, unit.NorthAmerican), PDF))
	says(t, "main switchboard", sheetOf(pages, "Main switchboard"), "supply side of the main stays live", "Feeds critical equipment", "take away", "lines first, then neutral, ground last", "main breaker")
	says(t, "essential board", sheetOf(pages, "Essential board"), "can be fed in more than one way")
	says(t, "winch house", sheetOf(pages, "Winch house"), "480 V between lines")
	for line := range strings.SplitSeq(sheetOf(pages, "Winch house"), ".") {
		if strings.Contains(strings.ToLower(line), "neutral") {
			t.Errorf("the delta of the winch house has no neutral, and the sheet says %q", line)
		}
	}
}

// A protector that stands there already and gets other leads is told as it was found.
func TestWorkSheetOfAChange(t *testing.T) {
	doc := changed(t)
	w := workOf(t, doc, unit.NorthAmerican)
	sheet := pdfText(t, written(t, "worksheets", w, PDF))
	says(t, "the sheet", sheet, "p-b: other leads or breaker", "leads 26 in line, 26 in neutral, 26 in ground", "6 in")
	saysNot(t, "the sheet", sheet, "Hold the label")
}

// changed is a panel whose protector hangs on long leads, which the second plan cuts.
func changed(t *testing.T) *diagram.Document {
	doc := twins(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.Remove("p2")
		p, _ := doc.Protector("p1")
		tx.SetPlan(diagram.Plan{ID: "second", Name: "Second", Order: 2})
		p.ID, p.Plan, p.Name = "p-b", "second", "p-b"
		tx.SetProtector(p)
		p.ID, p.Plan, p.Name = "p1", diagram.FirstPlan, "p-a"
		for _, l := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
			l.Length = 26 * 0.0254
		}
		tx.SetProtector(p)
	})
	return doc
}

// Where an old protector's breaker feeds something else, the sheet warns of that; away
// from a board there are terminals and no bars.
func TestOrderKnowsWhatIsThere(t *testing.T) {
	doc := filetest.Demos(t)[0]
	pages := pageTexts(t, written(t, "worksheets", workOf(t, doc, unit.NorthAmerican), PDF))
	says(t, "Server room", sheetOf(pages, "Server room"), "The breaker of SPD-2 feeds something else as well: find out what, and leave that connected to it.", "to the ground bar")
	saysNot(t, "Fire pump", sheetOf(pages, "Fire pump"), "to the ground bar", "to the neutral bar", "feeds something else")
	says(t, "Fire pump", sheetOf(pages, "Fire pump"), "to the ground terminal of the equipment")
}
