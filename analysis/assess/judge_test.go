package assess

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// house is a supply, a panel and a load; the load withstands what it is given.
func house(t *testing.T) *diagram.Document {
	t.Helper()
	system := diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: system})
		tx.SetPart(diagram.Part{ID: "panel", Name: "Panel", Kind: diagram.Panel, Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 2500}})
		tx.SetPart(diagram.Part{ID: "pump", Name: "Pump", Kind: diagram.Load})
		tx.SetFeeder(diagram.Feeder{ID: "f1", From: diagram.End{Part: "supply"}, To: diagram.End{Part: "panel"}, Length: 10})
		tx.SetFeeder(diagram.Feeder{ID: "f2", From: diagram.End{Part: "panel"}, To: diagram.End{Part: "pump"}, Length: 20})
		for _, name := range []string{"one", "two", "three", "four", "five"} {
			tx.SetProtector(diagram.Protector{ID: diagram.ID(name), Name: strings.ToUpper(name), Plan: diagram.FirstPlan, Bus: "panel"})
		}
	})
}

func strike(name string, volts float64, failed ...diagram.ID) analysis.SurgeResult {
	return analysis.SurgeResult{
		Surge: diagram.Surge{Name: name}, Failed: failed,
		Buses: map[diagram.ID][]analysis.Peak{"panel": {
			{Mode: diagram.LineNeutral, Volts: 1}, {Mode: diagram.LineEarth, Volts: volts, At: 2.5e-6, Between: "B-G"},
		}},
	}
}

// The greatest of the surge cases counts, at most 80 % of the withstand being
// Held (IEC 62305-4:2010 annex C, from memory).
func TestJudgeLevel(t *testing.T) {
	doc := house(t)
	hand := analysis.Level{Mode: diagram.LineEarth, Withstand: 2500, Judged: true, Protector: "one", Reason: analysis.Distance, Why: "by hand"}
	for _, row := range []struct {
		name   string
		surges []analysis.SurgeResult
		alter  func(*analysis.Level)
		want   analysis.Level
		why    []string
	}{
		{"held", []analysis.SurgeResult{strike("small", 900), strike("great", 2000), strike("less", 1999)}, nil,
			analysis.Level{Known: true, Volts: 2000, Verdict: analysis.Held, Reason: analysis.Solved, Surge: "great"}, []string{"B-G", "2.5 µs", "great"}},
		{"tight", []analysis.SurgeResult{strike("a", 2500)}, nil,
			analysis.Level{Known: true, Volts: 2500, Verdict: analysis.Tight, Reason: analysis.Solved, Surge: "a"}, []string{"B-G"}},
		{"exceeded", []analysis.SurgeResult{strike("a", 2501)}, nil,
			analysis.Level{Known: true, Volts: 2501, Verdict: analysis.Exceeded, Reason: analysis.Solved, Surge: "a"}, []string{"B-G"}},
		{"of alike cases the first", []analysis.SurgeResult{strike("a", 900), strike("b", 900)}, nil,
			analysis.Level{Known: true, Volts: 900, Verdict: analysis.Held, Reason: analysis.Solved, Surge: "a"}, nil},
		{"without what is destroyed in the case that counts", []analysis.SurgeResult{strike("a", 900, "two"), strike("b", 3000, "one")}, nil,
			analysis.Level{Known: true, Volts: 3000, Verdict: analysis.Exceeded, Reason: analysis.Destroyed, Surge: "b"}, []string{"B-G", "ONE"}},
		{"destroyed in another case", []analysis.SurgeResult{strike("a", 900, "two"), strike("b", 3000)}, nil,
			analysis.Level{Known: true, Volts: 3000, Verdict: analysis.Exceeded, Reason: analysis.Solved, Surge: "b"}, nil},
		{"withstand not known", []analysis.SurgeResult{strike("a", 900)}, func(l *analysis.Level) { l.Withstand = 0 },
			analysis.Level{Known: true, Volts: 900, Verdict: analysis.Unknown, Reason: analysis.NoWithstand, Surge: "a"}, []string{"Panel"}},
		{"withstand not known, and destroyed", []analysis.SurgeResult{strike("a", 900, "one")}, func(l *analysis.Level) { l.Withstand = 0 },
			analysis.Level{Known: true, Volts: 900, Verdict: analysis.Unknown, Reason: analysis.NoWithstand, Surge: "a"}, []string{"Panel"}},
		{"out of reach", []analysis.SurgeResult{{Surge: diagram.Surge{Name: "a"}}}, nil,
			analysis.Level{Reason: analysis.OutOfReach}, []string{"Panel"}},
		{"no system", nil, func(l *analysis.Level) { l.Reason = analysis.NoSystem },
			analysis.Level{Reason: analysis.NoSystem}, []string{"by hand"}},
	} {
		given, want := hand, row.want
		if row.alter != nil {
			row.alter(&given)
		}
		want.Mode, want.Withstand, want.Judged, want.Protector = given.Mode, given.Withstand, given.Judged, given.Protector
		got := judgeLevel(doc, "panel", given, row.surges)
		for _, part := range row.why {
			if !strings.Contains(got.Why, part) {
				t.Errorf("%s: why is %q, want %q in it", row.name, got.Why, part)
			}
		}
		got.Why = ""
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", row.name, diff)
		}
	}
}

// Of a board every mode counts that its system has, between lines too, where the
// hand rule leaves that out; where the system is not known, that is what counts.
func TestEveryModeOfABoardCounts(t *testing.T) {
	doc := house(t)
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	hand := analysis.BusResult{ID: "panel", System: wye, Levels: []analysis.Level{{Mode: diagram.LineEarth, Judged: true}, {Mode: diagram.LineLine}}}
	for _, level := range judgeBus(doc, hand, nil).Levels {
		if !level.Judged {
			t.Errorf("%s does not count", level.Mode)
		}
	}
	unknown := analysis.BusResult{ID: "panel", Levels: []analysis.Level{{Mode: diagram.LineEarth, Judged: true, Reason: analysis.NoSystem}}}
	if got := judgeBus(doc, unknown, nil); !got.Worst().Judged || got.Worst().Reason != analysis.NoSystem {
		t.Errorf("of no system: got %+v", got.Worst())
	}
}

func TestNamesOf(t *testing.T) {
	doc := house(t)
	for _, row := range []struct {
		ids  []diagram.ID
		want string
	}{
		{[]diagram.ID{"one"}, "ONE"},
		{[]diagram.ID{"one", "two", "three"}, "ONE, TWO, THREE"},
		{[]diagram.ID{"one", "two", "three", "four"}, "ONE, TWO, THREE, 1 more"},
		{[]diagram.ID{"one", "two", "three", "four", "five"}, "ONE, TWO, THREE, 2 more"},
	} {
		if got := namesOf(doc, row.ids); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}

// sentences leaves out what sentences are made of, of which each rule has a type of
// its own.
var sentences = cmpopts.IgnoreFields(analysis.Finding{}, "Facts")

// sameMend compares mends by what they say, since what they do is a function.
var sameMend = cmp.Comparer(func(a, b analysis.Mend) bool {
	return a.Kind == b.Kind && a.Label == b.Label && (a.Apply == nil) == (b.Apply == nil)
})

// What the rules find of the installation does not hang on how a voltage was
// found: it stands on both bases, each with its own remedy and mend. Of the
// cover each basis says its own, once for a bus.
func TestFindingsStandOnBothBases(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for _, plan := range doc.Plans() {
			hand, err := Run(context.Background(), doc, plan.ID)
			if err != nil {
				t.Fatal(err)
			}
			got, err := Turn{}.judge(context.Background(), doc, hand, nil, nil, false)
			if err != nil {
				t.Fatal(err)
			}
			split := func(r *analysis.Result) (rules, covers []analysis.Finding) {
				for _, f := range r.Findings {
					if f.Subject == analysis.SubjectCover {
						covers = append(covers, f)
					} else {
						rules = append(rules, f)
					}
				}
				return rules, covers
			}
			wantRules, _ := split(hand)
			gotRules, covers := split(got)
			if diff := cmp.Diff(wantRules, gotRules, sameMend, sentences); diff != "" || len(gotRules) == 0 {
				t.Errorf("%s, %s: findings of the rules: -hand rule +transient\n%s", doc.Info().Title, plan.Name, diff)
			}
			sorted := slices.Clone(got.Findings)
			analysis.SortFindings(sorted)
			if diff := cmp.Diff(sorted, got.Findings, sameMend, sentences); diff != "" {
				t.Errorf("%s, %s: -sorted +got\n%s", doc.Info().Title, plan.Name, diff)
			}
			for _, f := range covers {
				if level := got.Buses[f.Records[0]].Worst(); level.Reason != analysis.OutOfReach || f.Mend.Kind != "" || !strings.Contains(f.Remedy, "switch") {
					t.Errorf("%s: %s: got %q with a mend %v, want that no surge arrives", doc.Info().Title, f.What, f.Remedy, f.Mend.Kind != "")
				}
			}
			if got.Basis != analysis.Transient || got.Plan != plan.ID || len(got.Buses) != len(hand.Buses) {
				t.Errorf("got %s of %s with %d buses", got.Basis, got.Plan, len(got.Buses))
			}
		}
	}
}

// A bus that is not held has a finding on its cover; its remedy is that of the
// hand rule, unless the reason is one that the hand rule does not know.
func TestCoverFindings(t *testing.T) {
	doc := house(t)
	mend := analysis.Mend{Kind: "by hand"}
	byHand := analysis.Finding{Subject: analysis.SubjectCover, Records: []diagram.ID{"panel"}, Remedy: "remedy by hand", Mend: mend}
	other := analysis.Finding{Subject: analysis.SubjectLeads, Records: []diagram.ID{"panel"}, Remedy: "of the leads"}
	for _, row := range []struct {
		name   string
		level  analysis.Level
		hand   []analysis.Finding
		remedy string // part of it; empty where there is no finding
		mended bool
		want   analysis.Severity
	}{
		{"held", analysis.Level{Verdict: analysis.Held, Reason: analysis.Solved}, []analysis.Finding{byHand}, "", false, 0},
		{"no system", analysis.Level{Verdict: analysis.Unknown, Reason: analysis.NoSystem}, []analysis.Finding{byHand}, "", false, 0},
		{"tight", analysis.Level{Verdict: analysis.Tight, Reason: analysis.Solved}, []analysis.Finding{other, byHand}, "remedy by hand", true, analysis.Remark},
		{"exceeded", analysis.Level{Verdict: analysis.Exceeded, Reason: analysis.Solved}, []analysis.Finding{byHand, other}, "remedy by hand", true, analysis.Error},
		{"held by hand alone", analysis.Level{Verdict: analysis.Exceeded, Reason: analysis.Solved}, []analysis.Finding{other}, "leads", false, analysis.Error},
		{"destroyed", analysis.Level{Verdict: analysis.Exceeded, Reason: analysis.Destroyed}, []analysis.Finding{byHand}, "class I", false, analysis.Error},
		{"withstand not known", analysis.Level{Verdict: analysis.Unknown, Reason: analysis.NoWithstand}, []analysis.Finding{byHand}, "withstands", false, analysis.Warning},
		{"out of reach", analysis.Level{Verdict: analysis.Unknown, Reason: analysis.OutOfReach}, []analysis.Finding{byHand}, "surge case", false, analysis.Warning},
	} {
		hand := &analysis.Result{Topology: analysis.Trace(doc), Findings: row.hand}
		solved := &analysis.Result{Buses: map[diagram.ID]analysis.BusResult{"panel": {ID: "panel", Levels: []analysis.Level{row.level}}}}
		found := coverFindings(doc, hand, solved)
		if row.remedy == "" {
			if len(found) != 0 {
				t.Errorf("%s: got %v, want nothing", row.name, found)
			}
			continue
		}
		if len(found) != 1 {
			t.Fatalf("%s: got %d findings, want one", row.name, len(found))
		}
		f := found[0]
		if !strings.Contains(f.Remedy, row.remedy) || (f.Mend.Kind != "") != row.mended || f.Severity != row.want || !slices.Equal(f.Records, []diagram.ID{"panel"}) {
			t.Errorf("%s: got %s of %v, %q, mend %v", row.name, f.Severity, f.Records, f.Remedy, f.Mend)
		}
	}
}

// A feeder is judged by the board or load that it leads to, on its side of a
// transformer, and where it leads to none by the one that it comes from.
func TestFindJudged(t *testing.T) {
	delta := diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	doc := diagram.New()
	at := func(part diagram.ID, port diagram.Port) diagram.End { return diagram.End{Part: part, Port: port} }
	feeders := []struct {
		feeder diagram.Feeder
		want   diagram.ID
	}{
		{diagram.Feeder{ID: "f1", From: at("supply", ""), To: at("ats", diagram.Normal), Length: 5}, "upper"},
		{diagram.Feeder{ID: "f2", From: at("ats", diagram.Common), To: at("upper", ""), Length: 5}, "upper"},
		{diagram.Feeder{ID: "f3", From: at("upper", ""), To: at("trafo", diagram.Primary), Length: 5}, "upper"},
		{diagram.Feeder{ID: "f4", From: at("trafo", diagram.Secondary), To: at("far", ""), Length: 50}, "far"},
		{diagram.Feeder{ID: "f5", From: at("trafo", diagram.Secondary), To: at("near", ""), Length: 5}, "near"},
		{diagram.Feeder{ID: "f6", From: at("far", ""), To: at("load", ""), Length: 5}, "load"},
		{diagram.Feeder{ID: "f7", From: at("trafo", diagram.Secondary), To: at("ats2", diagram.Normal), Length: 5}, "near"},
		{diagram.Feeder{ID: "f8", From: at("ats2", diagram.Common), To: at("ats3", diagram.Normal), Length: 5}, "near"},
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: delta})
		tx.SetPart(diagram.Part{ID: "trafo", Kind: diagram.Transformer, System: wye, Transformer: diagram.TransformerData{Primary: delta}})
		for _, id := range []diagram.ID{"ats", "ats2", "ats3"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.TransferSwitch})
		}
		for _, id := range []diagram.ID{"upper", "far", "near"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel})
		}
		tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load})
		for _, row := range feeders {
			tx.SetFeeder(row.feeder)
		}
	})
	hand, err := Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	judged := findJudged(doc, hand)
	for _, row := range feeders {
		if got := judged.of(row.feeder); got != row.want {
			t.Errorf("%s from %v to %v: got %s, want %s", row.feeder.ID, row.feeder.From, row.feeder.To, got, row.want)
		}
	}
	turned := feeders[1].feeder // drawn from the board toward the supply
	turned.From, turned.To = turned.To, turned.From
	if got := judged.of(turned); got != "upper" {
		t.Errorf("drawn the other way: got %s, want upper", got)
	}
}
