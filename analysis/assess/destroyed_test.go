package assess_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// A lightning current of 10 kA, 10/350, carries 5 A s (half a millisecond times its
// crest: IEC 61643-11, preferred values of Iimp and Q); a protector with an In of
// 10 kA, 8/20, stands 0.17 A s.
var lightning = diagram.Surge{ID: "surge-1", Name: "direct", Part: "supply", Path: diagram.LineToNeutral, Wave: diagram.ImpulseWave, Voltage: 20e3, Current: 10e3}

// What a protector that the surge destroys would hold, its bus does not have: it is
// judged as if there were none, and says so.
func TestDestroyedProtectorHoldsNothing(t *testing.T) {
	sheet := func(alter func(*diagram.Protector)) *diagram.Document {
		return diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: wye208})
			tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Board: diagram.BoardData{Bonded: true}, Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 4000}})
			run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 10)
			if alter == nil {
				return
			}
			attach(tx, "panel", wye208, 6*inch)
			p := slices.Collect(tx.Document().Protectors())[0]
			alter(&p)
			tx.SetProtector(p)
		})
	}
	bare := worst(t, sheet(nil))
	if bare.Verdict != analysis.Exceeded {
		t.Fatalf("without a protector: %s", bare.Verdict)
	}
	tests := []struct {
		name   string
		alter  func(*diagram.Protector)
		reason analysis.Reason
		want   analysis.Verdict
	}{
		{"its In is far too small", func(p *diagram.Protector) { p.In, p.Imax, p.Iimp = 10e3, 0, 0 }, analysis.Destroyed, analysis.Exceeded},
		{"its Iimp is enough", func(p *diagram.Protector) { p.In, p.Imax, p.Iimp = 10e3, 0, 25e3 }, analysis.Solved, analysis.Held},
		{"it states none", func(p *diagram.Protector) { p.In, p.Imax, p.Iimp = 0, 0, 0 }, analysis.Solved, analysis.Held},
	}
	for _, test := range tests {
		got := worst(t, sheet(test.alter))
		if got.Reason != test.reason || got.Verdict != test.want {
			t.Errorf("%s: got %s, %s: %s; want %s, %s", test.name, got.Verdict, got.Reason, got.Why, test.want, test.reason)
		}
		if test.reason == analysis.Destroyed && (got.Volts != bare.Volts || !strings.Contains(got.Why, "which the surge destroys")) {
			t.Errorf("%s: got %.0f V, %q; without it there are %.0f V", test.name, got.Volts, got.Why, bare.Volts)
		}
	}
}

// Each protector is tried with what those before leave to it, and what they took
// stays told.
func TestDestroyedOneAfterTheOther(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: wye208})
		tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Board: diagram.BoardData{Bonded: true}})
		tx.SetPart(diagram.Part{ID: "lower", Kind: diagram.Panel, Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 4000}})
		run(tx, diagram.End{Part: "supply"}, diagram.End{Part: "panel"}, 10)
		run(tx, diagram.End{Part: "panel"}, diagram.End{Part: "lower"}, 60)
		for _, bus := range []diagram.ID{"panel", "lower"} {
			attach(tx, bus, wye208, 6*inch)
		}
		for _, p := range slices.Collect(tx.Document().Protectors()) {
			p.In, p.Imax, p.Iimp = 10e3, 0, 0
			tx.SetProtector(p)
		}
		tx.SetSurge(lightning)
	})
	var engine assess.Engine
	r, err := engine.Transient(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	s := r.Surges[0]
	if len(s.Failed) != 2 {
		t.Fatalf("got %v destroyed, want both", s.Failed)
	}
	hand, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	told := func(f analysis.Finding) bool { return f.Subject == analysis.SubjectSurge }
	if !slices.ContainsFunc(hand.Findings, told) || slices.ContainsFunc(r.Findings, told) {
		t.Error("by the hand rule, and only there, it is told that the surge cases do not count")
	}
	for _, f := range r.Findings {
		if f.Subject == analysis.SubjectCover && f.Records[0] == "lower" && (f.Mend.IsThere() || !strings.Contains(f.Remedy, "type 1")) {
			t.Errorf("%s: %s, with the change %q", f.What, f.Remedy, f.Mend.Label)
		}
	}
	for _, id := range s.Failed {
		if len(s.Protectors[id]) == 0 {
			t.Errorf("%s: what it took is not told", id)
		}
		if !slices.ContainsFunc(r.Findings, func(f analysis.Finding) bool { return f.Severity == analysis.Error && slices.Contains(f.Records, id) }) {
			t.Errorf("%s: there is no error on it", id)
		}
	}
}

func worst(t *testing.T, doc *diagram.Document) analysis.Level {
	t.Helper()
	var engine assess.Engine
	r, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, lightning)
	if err != nil {
		t.Fatal(err)
	}
	return r.Buses["panel"].Worst()
}
