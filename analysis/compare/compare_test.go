package compare_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// inch is one in metres.
const inch = 0.0254

var wye = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}

// protector has a VPR of 400 V in every mode to earth and neutral and of 800 V between lines,
// and leads of a length.
// By the trade's own figure 26 in of lead add 500 V (common practice, no source).
func protector(id, plan, bus diagram.ID, lead float64) diagram.Protector {
	p := diagram.Protector{ID: id, Plan: plan, Bus: bus, Name: strings.ToUpper(string(id)), System: wye, Type: diagram.Type2, In: 20e3, SCCR: 50e3}
	for mode, level := range [diagram.ModeCount]float64{400, 400, 400, 800} {
		p.Modes[mode] = diagram.ModeRating{Connected: true, Level: level, MCOV: 0.4 * level}
	}
	for _, l := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
		*l = diagram.Lead{Length: lead, Area: 5.26e-6}
	}
	return p
}

// twoPanels is a service with two panels side by side that stand 1 700 V and 1 200 V, a
// critical load on the second, and three plans: nothing, a protector on the first panel, one on
// each.
func twoPanels(t *testing.T, more ...func(*diagram.Tx)) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, Name: "Service", System: wye})
		for i, id := range []diagram.ID{"panel-1", "panel-2"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel, Name: []string{"West", "East"}[i],
				Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: []float64{1700, 1200}[i]}})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-" + id, From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: id}, Length: 10})
		}
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load, Name: "Pump", Load: diagram.LoadData{Critical: true},
			Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 6000}})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-3", From: diagram.End{Part: "panel-2"}, To: diagram.End{Part: "load-1"}, Length: 0})
		tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "One", Order: 2})
		tx.SetPlan(diagram.Plan{ID: "plan-3", Name: "Two", Order: 3})
		tx.SetProtector(protector("p1", "plan-2", "panel-1", 26*inch))
		tx.SetProtector(protector("p2", "plan-3", "panel-1", 6*inch))
		tx.SetProtector(protector("p3", "plan-3", "panel-2", 26*inch))
		for _, f := range more {
			f(tx)
		}
	})
}

func byHand(t *testing.T, doc *diagram.Document) *compare.Table {
	t.Helper()
	in, err := compare.Solve(context.Background(), &assess.Engine{}, compare.Input{Document: doc, Plans: compare.All(doc), Basis: analysis.HandRule})
	if err != nil {
		t.Fatal(err)
	}
	return in.Table()
}

// told writes rows as people read them: a name, then the verdict in each plan.
func told(t *compare.Table, rows []compare.Row) []string {
	var out []string
	for _, r := range rows {
		line := t.Document.NameOf(r.Part.ID) + ":"
		for _, c := range r.Cells {
			line += " " + c.Level.Verdict.Letter()
		}
		out = append(out, line)
	}
	return out
}

// Known by hand: without a protector all is unreached. Between lines 800 V and 26 in of
// lead are 1 300 V, 76 % of 1 700 V and more than 1 200 V; with 6 in it is 800 V.
func TestTableOfTwoPanels(t *testing.T) {
	table := byHand(t, twoPanels(t))
	want := []string{"West: U H H", "East: U U X", "Pump: U U H"}
	if diff := cmp.Diff(want, told(table, table.Rows)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	west := table.Rows[0]
	for i, want := range []float64{0, 1300, 800} {
		if got := west.Cells[i].Level.Volts; got != want {
			t.Errorf("West, plan %d: got %g V, want %g V", i+1, got, want)
		}
	}
	for i, want := range []compare.Totals{{analysis.Unreached: 3}, {analysis.Held: 1, analysis.Unreached: 2}, {analysis.Held: 2, analysis.Exceeded: 1}} {
		if diff := cmp.Diff(want, table.Plans[i].All); diff != "" {
			t.Errorf("plan %d (-want +got):\n%s", i+1, diff)
		}
	}
	for i, want := range []compare.Totals{{analysis.Unreached: 1}, {analysis.Unreached: 1}, {analysis.Held: 1}} {
		if diff := cmp.Diff(want, table.Plans[i].Critical); diff != "" {
			t.Errorf("critical, plan %d (-want +got):\n%s", i+1, diff)
		}
	}
}

func TestViews(t *testing.T) {
	table := byHand(t, twoPanels(t, func(tx *diagram.Tx) { // what no protector can help, so that nothing changes there
		tx.SetPart(diagram.Part{ID: "panel-3", Kind: diagram.Panel, Name: "Attic"})
	}))
	const west, east, pump, attic = "West: U H H", "East: U U X", "Pump: U U H", "Attic: ? ? ?"
	for _, row := range []struct {
		name string
		view compare.View
		want []string
	}{
		{"all", compare.View{}, []string{west, east, pump, attic}},
		{"what changes", compare.View{Changes: true}, []string{west, east, pump}},
		{"critical", compare.View{Critical: true}, []string{pump}},
		{"still not held", compare.View{Open: true}, []string{east, pump, attic}},
		{"what changes and is still not held", compare.View{Open: true, Changes: true}, []string{east, pump}},
		{"by name", compare.View{Sort: compare.ByName}, []string{attic, east, pump, west}},
		{"worst in the second plan", compare.View{Sort: compare.ByWorst, By: 1}, []string{east, pump, attic, west}},
		{"worst in the third plan", compare.View{Sort: compare.ByWorst, By: 2}, []string{east, attic, west, pump}},
		{"what changes most", compare.View{Sort: compare.ByChange}, []string{west, pump, east, attic}},
	} {
		if diff := cmp.Diff(row.want, told(table, table.View(row.view))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", row.name, diff)
		}
	}
}

// The lone plan of a sheet is what "still not held" goes by.
func TestOpenOfOnePlan(t *testing.T) {
	doc := twoPanels(t)
	in, err := compare.Solve(context.Background(), &assess.Engine{}, compare.Input{Document: doc, Plans: []diagram.ID{"plan-3"}, Basis: analysis.HandRule})
	if err != nil {
		t.Fatal(err)
	}
	table := in.Table()
	if diff := cmp.Diff([]string{"East: X"}, told(table, table.View(compare.View{Open: true}))); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// A result at hand is not solved again; one of another basis, of another plan, or of
// which more is due does not count.
func TestKnownIsNotSolvedAgain(t *testing.T) {
	doc := twoPanels(t)
	mine := diagramtest.Must(assess.Run(context.Background(), doc, "plan-2"))
	due, solved := *mine, *mine
	due.Due = 1
	solved.Basis = analysis.Transient
	for _, row := range []struct {
		name  string
		known *analysis.Result
		want  []diagram.ID
	}{
		{"at hand", mine, []diagram.ID{"plan-1", "plan-3"}},
		{"none", nil, []diagram.ID{"plan-1", "plan-2", "plan-3"}},
		{"more is due", &due, []diagram.ID{"plan-1", "plan-2", "plan-3"}},
		{"another basis", &solved, []diagram.ID{"plan-1", "plan-2", "plan-3"}},
	} {
		var told []float64
		in := compare.Input{Document: doc, Plans: compare.All(doc), Basis: analysis.HandRule, Known: map[diagram.ID]*analysis.Result{"plan-2": row.known},
			Progress: func(share float64) { told = append(told, share) }}
		if got := in.Missing(); !slices.Equal(got, row.want) {
			t.Errorf("%s: missing %v, want %v", row.name, got, row.want)
		}
		out, err := compare.Solve(context.Background(), &assess.Engine{}, in)
		if err != nil {
			t.Fatal(err)
		}
		if got := out.Known["plan-2"] == mine; got != (row.known == mine) {
			t.Errorf("%s: taken over: %t", row.name, got)
		}
		if n := len(row.want); len(told) != n || told[0] != 1/float64(n) || told[n-1] != 1 || len(out.Missing()) != 0 {
			t.Errorf("%s: told %v, missing %v", row.name, told, out.Missing())
		}
	}
}

// Before anything is solved, a table says what the plans cost and nothing of voltages; with one
// plan at hand the others are not judged.
func TestTableOfWhatIsAtHand(t *testing.T) {
	doc := twoPanels(t)
	in := compare.Input{Document: doc, Plans: compare.All(doc), Basis: analysis.HandRule}
	if table := in.Table(); len(table.Rows) != 0 || len(table.Plans) != 3 || len(table.Plans[2].Cost.Bought) != 2 {
		t.Errorf("got %+v", table)
	}
	in.Known = map[diagram.ID]*analysis.Result{"plan-2": diagramtest.Must(assess.Run(context.Background(), doc, "plan-2"))}
	in.Bands = map[diagram.ID]map[diagram.ID]analysis.Band{"plan-2": {"panel-1": {Low: 800, High: 1300}}}
	table := in.Table()
	if got := table.Rows[0].Cells; got[0].Solved || !got[1].Solved || got[2].Solved || got[1].Band == nil || got[1].Band.High != 1300 {
		t.Errorf("got %+v", got)
	}
	if table.Rows[1].Cells[1].Band != nil {
		t.Error("a band is told where there is none")
	}
	if got := table.View(compare.View{Changes: true}); len(got) != 0 {
		t.Errorf("changes: %v, with one plan at hand", told(table, got))
	}
}

// Findings that are left are counted by severity, and those set aside apart.
func TestFindingsLeft(t *testing.T) {
	doc := twoPanels(t)
	before := byHand(t, doc).Plans[1]
	f := before.Result.Findings[0]
	diagramtest.Must(doc.Edit(func(tx *diagram.Tx) error {
		a := analysis.AsideOf(f, "plan-2")
		a.ID, a.Reason = tx.NewAsideID(), "known"
		tx.SetAside(a)
		return nil
	}))
	after := byHand(t, doc).Plans[1]
	if before.Open[f.Severity] != after.Open[f.Severity]+1 || before.Aside[f.Severity] != 0 || after.Aside[f.Severity] != 1 {
		t.Errorf("got %v and %v set aside, before %v and %v", after.Open, after.Aside, before.Open, before.Aside)
	}
	all := 0
	for _, n := range before.Open {
		all += n
	}
	if all != len(before.Result.Findings) {
		t.Errorf("counted %d of %d findings", all, len(before.Result.Findings))
	}
}

// A plan comes out alike while its own protectors, the building, the surge cases, the plans and
// what is set aside in it stay.
func TestSame(t *testing.T) {
	for _, row := range []struct {
		name  string
		alter func(*diagram.Tx)
		want  bool
	}{
		{"nothing", func(*diagram.Tx) {}, true},
		{"a protector of another plan", func(tx *diagram.Tx) { tx.Remove("p1") }, true},
		{"one of its own", func(tx *diagram.Tx) { tx.Remove("p2") }, false},
		{"the building", func(tx *diagram.Tx) { tx.Remove("load-1") }, false},
		{"a surge case", func(tx *diagram.Tx) {
			tx.SetSurge(diagram.Surge{ID: "s", Path: diagram.LinesToEarth, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000})
		}, false},
		{"another plan", func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: "plan-4", Order: -1}) }, false},
		{"set aside in it", func(tx *diagram.Tx) { tx.SetAside(aside(tx, "plan-3")) }, false},
		{"set aside in another", func(tx *diagram.Tx) { tx.SetAside(aside(tx, "plan-2")) }, true},
	} {
		doc := twoPanels(t)
		before := doc.Snapshot()
		diagramtest.Must(doc.Edit(func(tx *diagram.Tx) error { row.alter(tx); return nil }))
		if got := compare.Same(before, doc, "plan-3"); got != row.want {
			t.Errorf("%s: got %t", row.name, got)
		}
	}
}

func aside(tx *diagram.Tx, plan diagram.ID) diagram.Aside {
	return diagram.Aside{ID: tx.NewAsideID(), Plan: plan, Rule: "leads.long", About: "panel-1", Severity: "note", Reason: "known"}
}
