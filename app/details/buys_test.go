package details

import (
	"testing"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/diagram"
)

// What a protector buys stands below its form in the words of the convention, what is listed
// with a dash; nothing of it stands elsewhere.
func TestBuysSection(t *testing.T) {
	lost := compare.Bought{Protector: "protector-1", IsShort: true, Length: 0.1524}
	lost.Without.Verdicts = []compare.Change{{Part: "panel-1",
		Before: analysis.Level{Mode: diagram.LineEarth, Known: true, Volts: 900, Withstand: 1500, Verdict: analysis.Held},
		After:  analysis.Level{Mode: diagram.LineEarth, Verdict: analysis.Unreached}}}
	s := newShower(t, house(t))
	for _, row := range []struct {
		name      string
		buys      Buys
		has, lack []string
	}{
		{"nothing known yet", Buys{Protector: "protector-1"}, []string{"What it buys", "Solve it by the transient"}, []string{"By the hand rule"}},
		{"by the hand rule", Buys{Protector: "protector-1", Hand: &lost},
			[]string{"By the hand rule", "– Main: Held, 900 V L-G, 60 % of 1 500 V; then Unreached, no protector holds L-G", "Its leads are as short as can be: 6 in at most"}, []string{"By the transient"}},
		{"under way", Buys{Protector: "protector-1", Solving: true, Share: 0.3}, []string{"Stop (30 % solved)"}, []string{"Solve it"}},
		{"solved", Buys{Protector: "protector-1", Solved: &lost}, []string{"By the transient"}, []string{"Solve it", "Stop"}},
		{"not solved", Buys{Protector: "protector-1", Trouble: "Main: the step is too long"}, []string{"Not solved: Main: the step is too long", "Solve it"}, nil},
		{"of no protector", Buys{}, nil, []string{"What it buys"}},
	} {
		t.Log(row.name)
		s.buys = row.buys
		s.show("protector-1")
		s.wants(true, row.has...)
		s.wants(false, row.lack...)
	}
}
