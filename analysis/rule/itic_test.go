package rule_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// Corners of the ITIC curve (2000) by its public summaries: 500 % up to 0.01
// cycle, 200 % at 1 ms, 140 % to 3 ms, 120 % to 0.5 s, 110 % beyond.
func TestITIC(t *testing.T) {
	const cycle = 1.0 / 60
	tests := []struct {
		name    string
		seconds float64
		want    float64
	}{
		{"no time", 0, 5},
		{"combination wave", 50e-6, 5},
		{"0.005 cycle", 0.005 * cycle, 5},
		{"0.01 cycle", 0.01 * cycle, 5},
		{"halfway to 1 ms, over the logarithm", math.Sqrt(0.01 * cycle * 1e-3), 3.5},
		{"1 ms", 1e-3, 2},
		{"just over 1 ms", 1.001e-3, 1.4},
		{"2 ms", 2e-3, 1.4},
		{"3 ms", 3e-3, 1.4},
		{"just over 3 ms", 3.001e-3, 1.2},
		{"0.1 s", 0.1, 1.2},
		{"0.5 s", 0.5, 1.2},
		{"1 s", 1, 1.1},
	}
	for _, test := range tests {
		if got := rule.ITIC(test.seconds); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("%s: got %g, want %g", test.name, got, test.want)
		}
	}
	// 500 % of the crest of 120 V.
	if crest := rule.ITIC(0.005*cycle) * math.Sqrt2 * 120; math.Abs(crest-848.5) > 0.05 {
		t.Errorf("at 120 V: got %g V, want 848.5 V", crest)
	}
}

func TestStatedMultiple(t *testing.T) {
	by := func(kind diagram.WithstandKind, k float64) diagram.Withstand {
		return diagram.Withstand{Kind: kind, Multiple: k, Volts: 6000, Category: 2}
	}
	server := func(kind diagram.Kind, w diagram.Withstand, terminals diagram.Terminals, note string) diagram.Part {
		return diagram.Part{ID: "server", Kind: kind, Withstand: w, Load: diagram.LoadData{Terminals: terminals}, Note: note}
	}
	const filtered = diagram.FilteredTerminals
	tests := []struct {
		name string
		part diagram.Part
		want []string
	}{
		{"not known", server(diagram.Load, diagram.Withstand{}, filtered, ""), []string{}},
		{"by the curve", server(diagram.Load, by(diagram.ByMultiple, 5), filtered, ""), []string{}},
		{"above the curve", server(diagram.Load, by(diagram.ByMultiple, 8), filtered, ""), []string{"note server: ITIC curve, 2000"}},
		{"with a note", server(diagram.Load, by(diagram.ByMultiple, 8), filtered, "tested by the maker"), []string{}},
		{"no electronics", server(diagram.Load, by(diagram.ByMultiple, 8), diagram.ResistiveTerminals, ""), []string{}},
		{"terminals not known", server(diagram.Load, by(diagram.ByMultiple, 8), "", ""), []string{}},
		{"by volts", server(diagram.Load, by(diagram.ByVolts, 8), filtered, ""), []string{}},
		{"by category", server(diagram.Load, by(diagram.ByCategory, 8), filtered, ""), []string{}},
		{"a board", server(diagram.Panel, by(diagram.ByMultiple, 8), filtered, ""), []string{}},
	}
	for _, test := range tests {
		s := newSketch(t).supply(wyeOf208, diagram.Exposure{}).part(test.part).feed(9, "supply > server")
		found := s.about(analysis.SubjectNameplate)
		if diff := cmp.Diff(test.want, brief(found)); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
		if len(found) == 0 {
			continue
		}
		checkTexts(t, found[0], "server is stated to withstand 8 times the crest of its voltage",
			"the curve for information equipment, from which such multiples come, allows 5 times at most, and that for 120 V",
			"state volts or an overvoltage category if its maker gives them, say in its note where the figure comes from, or take 5 times", "ITIC curve, 2000")
		if left := s.apply(found[0]).about(analysis.SubjectNameplate); len(left) > 0 {
			t.Errorf("%s: still there after it was mended", test.name)
		}
		if server, _ := s.doc.Part("server"); server.Withstand.Multiple != 5 || found[0].Mend.Label != "take 5 times the crest for server" {
			t.Errorf("%s: %q left %g times", test.name, found[0].Mend.Label, server.Withstand.Multiple)
		}
	}
}
