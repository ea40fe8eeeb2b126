package report

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
)

// says tells which texts a document lacks.
func says(t *testing.T, name, text string, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(text, plain(want)) {
			t.Errorf("%s does not say %q", name, want)
		}
	}
}

func saysNot(t *testing.T, name, text string, words ...string) {
	t.Helper()
	for _, word := range words {
		if strings.Contains(text, word) {
			t.Errorf("%s says %q", name, word)
		}
	}
}

// pageTexts returns the text of each page.
func pageTexts(t *testing.T, content []byte) []string {
	t.Helper()
	pages := strings.Split(readBy(t, content, PDF, "pdftotext", "-enc", "UTF-8", "FILE", "-"), "\f")
	var out []string
	for _, p := range pages[:len(pages)-1] {
		out = append(out, plain(p))
	}
	return out
}

// The proposal of each demo has two to six pages; the places, voltages, counts and sums
// in it are those of the analysis; sources and marks stand on its last page alone, and
// no word of the trade stands before that without one beside it.
func TestProposalIsThatOfTheAnalysis(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			w := workOf(t, doc, c)
			name := doc.Info().Title
			pages := pageTexts(t, written(t, "proposal", w, PDF))
			if len(pages) < 2 || len(pages) > 6 {
				t.Errorf("%s: %d pages", name, len(pages))
			}
			first, last := pages[0], pages[len(pages)-1]
			body := strings.Join(pages[:len(pages)-1], " ")
			isRisk(t, w, name, first)
			isPriced(t, w, name, body)
			says(t, name, last, "About the figures", "from memory", "IEC 60664-1")
			saysNot(t, name, body, "from memory", "no source", "IEC 6", "IEEE", "UL 1449", "VPR", "MCOV", "SCCR", "L-N", "L-G", "L-L", "Unreached", "Exceeded", "hand rule", "withstand", " bus", "feeder")
		}
	}
}

// isRisk compares the first page with the building as found.
func isRisk(t *testing.T, w *Work, name, first string) {
	t.Helper()
	bad, count := 0, map[analysis.Verdict]int{}
	for _, bus := range w.Before.Result.Buses {
		v := bus.Levels[0].Verdict
		count[v]++
		if v == analysis.Exceeded || v == analysis.Unreached {
			bad++
		}
	}
	says(t, name, first, fmt.Sprintf("Today %d of %d places get more than they are made for, or have no protection.", bad, len(w.Before.Result.Buses)),
		fmt.Sprintf("%d of %d places protected", count[analysis.Held]+count[analysis.Tight], len(w.Before.Result.Buses)))
	for _, part := range w.Before.worst()[:min(3, bad)] {
		level := w.Before.Result.Buses[part.ID].Levels[0]
		says(t, name, first, part.Name)
		if level.Known && level.Volts <= flashesOver {
			says(t, name, first, unit.Format(analysis.Significant(level.Volts, 3), unit.Voltage, w.Convention))
		}
		if level.Withstand > 0 {
			says(t, name, first, "made for "+unit.Format(analysis.Significant(level.Withstand, 3), unit.Voltage, w.Convention))
		}
	}
}

// isPriced compares the prices with what the plan costs.
func isPriced(t *testing.T, w *Work, name, body string) {
	t.Helper()
	cost := compare.CostOf(w.Document, w.Result.Plan)
	says(t, name, body, "Total "+unit.Format(cost.Total, unit.Money, w.Convention), "price, "+cost.Currency, "invented")
	for _, id := range cost.Bought {
		p, _ := w.Document.Protector(id)
		says(t, name, body, "("+p.Name+")", unit.Format(p.Price, unit.Money, w.Convention))
	}
	for id, bus := range w.Result.Buses {
		if isBad(bus.Worst()) {
			part, _ := w.Document.Part(id)
			says(t, name, body, part.Name)
		}
	}
}

// A place that gets hardly more than it is made for is not rounded to get just that.
func TestRoundingKeepsTheExcess(t *testing.T) {
	w := &Work{}
	for _, row := range []struct {
		level      analysis.Level
		gets, made string
	}{
		{analysis.Level{Known: true, Volts: 1500.4, Withstand: 1500, Verdict: analysis.Exceeded}, "1 501 V", "1 500 V"},
		{analysis.Level{Known: true, Volts: 1386, Withstand: 800, Verdict: analysis.Exceeded}, "1 390 V", "800 V"},
		{analysis.Level{Known: true, Volts: 75110, Withstand: 4000, Verdict: analysis.Exceeded}, "over 6 000 V", "4 000 V"},
		{analysis.Level{Verdict: analysis.Unreached}, "no protection", "not known"},
	} {
		if gets, made := w.gets(row.level); plain(gets) != row.gets || plain(made) != row.made {
			t.Errorf("%+v: got %q of %q", row.level, gets, made)
		}
	}
}

// What has no price is told, row by row and in the total; nothing is made up.
func TestProposalWithoutPrices(t *testing.T) {
	doc := filetest.Demos(t)[0].Snapshot()
	plan := doc.Plans()[1].ID
	var unpriced diagram.Protector
	for unpriced = range doc.ProtectorsOf(plan) {
		break
	}
	unpriced.Price = 0
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetProtector(unpriced) })
	body := pdfText(t, written(t, "proposal", workOf(t, doc, unit.NorthAmerican), PDF))
	says(t, "one without", body, "price not stated", "Total of what is stated", "The total lacks the price of 1 protector: "+unpriced.Name+" at ")
	for p := range doc.Snapshot().ProtectorsOf(plan) {
		p.Price, p.Hours = 0, 0
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetProtector(p) })
	}
	body = pdfText(t, written(t, "proposal", workOf(t, doc, unit.NorthAmerican), PDF))
	says(t, "none with", body, "It lacks the labour of")
}

// The sentence on long leads has the lengths of the sheet and the volts of the working.
func TestLeadsInWordsOfAnOwner(t *testing.T) {
	doc := twins(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.Remove("p2")
		p, _ := doc.Protector("p1")
		for _, l := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
			l.Length = 26 * 0.0254
		}
		tx.SetProtector(p)
		b, _ := doc.Part("b")
		b.Withstand = diagram.Withstand{Kind: diagram.ByVolts, Volts: 900}
		tx.SetPart(b)
	})
	w := workOf(t, doc, unit.NorthAmerican)
	part, _ := doc.Part("b")
	// 20 in beyond six at 25 V per inch
	if got, want := plain(w.why(w.After, part)), "The protector here hangs on 26 in of wire, which alone adds 500 V to what it lets through."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := w.Before.Result.Buses["b"].Worst(); got.Verdict != analysis.Unreached || math.IsNaN(got.Volts) {
		t.Errorf("of one plan alone the building begins without protectors, and the panel is %s", got.Verdict)
	}
}

// Every reason that a level that is not protected can have is put into words of its own.
func TestEveryReasonHasWords(t *testing.T) {
	silent := cause{Work: &Work{}, level: analysis.Level{Reason: analysis.NoSystem}}.sentence()
	seen := map[string]analysis.Reason{}
	for _, reason := range []analysis.Reason{
		analysis.AtProtector, analysis.LongLeads, analysis.NearProtector, analysis.Distance, analysis.NearBond, analysis.NoProtector, analysis.PastTransformer,
		analysis.PastSwitch, analysis.Downstream, analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases, analysis.MissingMode,
	} {
		got := cause{Work: &Work{}, level: analysis.Level{Reason: reason}}.sentence()
		if was, twice := seen[got]; twice || got == silent {
			t.Errorf("%s is told as %q, as %q is", reason, got, was)
		}
		seen[got] = reason
	}
}
