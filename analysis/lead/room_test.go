package lead_test

import (
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

// leads returns a protector on a bus with leads of a length and a level L-G.
func leads(rating diagram.Rating, length, level float64) *diagram.Protector {
	l := diagram.Lead{Length: length}
	p := &diagram.Protector{ID: "p", Bus: "b", Rating: rating, Leads: diagram.Leads{Phase: l, Neutral: l, Earth: l}}
	p.Modes[diagram.LineEarth] = diagram.ModeRating{Connected: true, Level: level}
	return p
}

// decided is a result in which the protector decides what one place gets.
func decided(at diagram.ID, volts, withstand float64, v analysis.Verdict, judged bool) *analysis.Result {
	return &analysis.Result{Buses: map[diagram.ID]analysis.BusResult{at: {ID: at, Levels: []analysis.Level{
		{Mode: diagram.LineEarth, Known: true, Volts: volts, Withstand: withstand, Verdict: v, Protector: "p", Judged: judged}}}}}
}

// By the rule a VPR of 700 V may get 69 V at 25 V per inch, after what of the six inches
// is left; a Up has half a metre for both leads. A verdict allows what is left to 80 %
// or all of the withstand, elsewhere half of that.
func TestRoom(t *testing.T) {
	none := &analysis.Result{}
	for _, row := range []struct {
		name   string
		p      *diagram.Protector
		iec    bool
		result *analysis.Result
		by     float64
		part   diagram.ID
	}{
		{"the rule of a VPR", leads(diagram.VPR, 6*inch, 700), false, none, 69.0 / 25 * inch, ""},
		{"with an inch of the six left", leads(diagram.VPR, 5*inch, 700), false, none, (1 + 69.0/25) * inch, ""},
		{"beyond it", leads(diagram.VPR, 26*inch, 700), false, none, 0, ""},
		{"no VPR stated", leads(diagram.VPR, 2*inch, 0), false, none, 4 * inch, ""},
		{"the rule of a Up", leads(diagram.Up, 0.2, 1500), false, none, 0.05, ""},
		{"by IEC whatever is stated", leads(diagram.VPR, 0.2, 700), true, none, 0.05, ""},
		{"over half a metre", leads(diagram.Up, 0.4, 1500), true, none, 0, ""},
		{"held at its own bus", leads(diagram.VPR, 6*inch, 700), false, decided("b", 700, 900, analysis.Held, true), 20.0 / 25 * inch, "b"},
		{"tight at its own bus", leads(diagram.VPR, 6*inch, 700), false, decided("b", 860, 900, analysis.Tight, true), 40.0 / 25 * inch, "b"},
		{"elsewhere", leads(diagram.VPR, 6*inch, 700), false, decided("c", 860, 900, analysis.Tight, true), 20.0 / 25 * inch, "c"},
		{"a Up at its own bus", leads(diagram.Up, 0.2, 1500), true, decided("b", 2000, 2550, analysis.Held, true), 0.02, "b"},
		{"not judged", leads(diagram.VPR, 6*inch, 700), false, decided("b", 700, 900, analysis.Held, false), 69.0 / 25 * inch, ""},
		{"lost already", leads(diagram.VPR, 6*inch, 700), false, decided("b", 950, 900, analysis.Exceeded, true), 69.0 / 25 * inch, ""},
	} {
		got := lead.RoomOf(row.p, row.iec, row.result)
		if math.Abs(got.By-row.by) > 1e-9 || got.Part != row.part {
			t.Errorf("%s: got %g in at %q, want %g in at %q", row.name, got.By/inch, got.Part, row.by/inch, row.part)
		}
	}
}
