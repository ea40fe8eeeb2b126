package lead_test

import (
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

const inch = 0.0254 // m

// 20 in beyond six at 25 V per inch make 500 V, at 3.9 V per inch 78 V; 1.3 m in
// all at 1 kV and 210 V per metre 1300 V and 273 V. What is written down ends in
// the figure that is returned.
func TestVolts(t *testing.T) {
	for _, row := range []struct {
		name    string
		rate    lead.Rate
		rating  diagram.Rating
		pair    lead.Pair
		both    bool
		want    float64
		numbers string
	}{
		{"apart", lead.RateOf(false), diagram.VPR, lead.Pair{Line: 26 * inch, Back: 26 * inch}, false, 500, "25\u00a0V/in × max(0, 26\u00a0in − 6\u00a0in)"},
		{"both told", lead.RateOf(false), diagram.VPR, lead.Pair{Line: 26 * inch, Back: 26 * inch}, true, 500, "25\u00a0V/in × max(0, (26\u00a0in + 26\u00a0in)/2 − 6\u00a0in)"},
		{"together", lead.RateOf(true), diagram.VPR, lead.Pair{Line: 20 * inch, Back: 32 * inch}, false, 78, "3.9\u00a0V/in × max(0, (20\u00a0in + 32\u00a0in)/2 − 6\u00a0in)"},
		{"within the VPR", lead.RateOf(false), "", lead.Pair{Line: 3 * inch, Back: 9 * inch}, false, 0, "25\u00a0V/in × max(0, (3\u00a0in + 9\u00a0in)/2 − 6\u00a0in)"},
		{"an Up, apart", lead.RateOf(false), diagram.Up, lead.Pair{Line: 0.6, Back: 0.7}, false, 1300, "1\u00a0000\u00a0V/m × (0.6\u00a0m + 0.7\u00a0m)"},
		{"an Up, together", lead.RateOf(true), diagram.Up, lead.Pair{Line: 0.6, Back: 0.7}, false, 273, "210\u00a0V/m × (0.6\u00a0m + 0.7\u00a0m)"},
	} {
		var working analysis.Working
		got := row.rate.Volts(row.rating, row.pair, &lead.Told{Working: &working, Label: "leads", Source: "a book", Both: row.both})
		if math.Abs(got-row.want) > 1e-9 || row.rate.Volts(row.rating, row.pair, nil) != got {
			t.Errorf("%s: got %g V, want %g V", row.name, got, row.want)
		}
		if len(working) != 1 || working[0].Result != got || working[0].Numbers != row.numbers || working[0].Source != "a book" || working[0].Label != "leads" {
			t.Errorf("%s: wrote %+v", row.name, working)
		}
	}
}

// The current of a mode goes through its own leads; the longest of those in use
// counts for the whole protector.
func TestPairs(t *testing.T) {
	p := diagram.Protector{Leads: diagram.Leads{Phase: diagram.Lead{Length: 1}, Neutral: diagram.Lead{Length: 2}, Earth: diagram.Lead{Length: 3}}}
	for mode, want := range map[diagram.Mode]lead.Pair{
		diagram.LineNeutral: {Line: 1, Back: 2}, diagram.LineEarth: {Line: 1, Back: 3}, diagram.NeutralEarth: {Line: 2, Back: 3}, diagram.LineLine: {Line: 1, Back: 1},
	} {
		if got := lead.Of(&p, mode); got != want {
			t.Errorf("%s: got %v, want %v", mode, got, want)
		}
		only := p
		only.Modes[mode].Connected = true
		longest := lead.Pair{Line: 1, Back: want.Back}
		if got := lead.Longest(&only); got != longest {
			t.Errorf("%s alone: got %v, want %v", mode, got, longest)
		}
	}
	if got, want := lead.Longest(&p), (lead.Pair{Line: 1, Back: 3}); got != want {
		t.Errorf("no mode stated: got %v, want %v", got, want)
	}
	lead.Shorten(&p, 2)
	if got := [3]float64{p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length}; got != [3]float64{1, 2, 2} {
		t.Errorf("shortened to 2 m: got %v", got)
	}
}

// An earth lead shorter than that of a line is what counts where it alone is in use.
func TestShortEarthLead(t *testing.T) {
	p := diagram.Protector{Leads: diagram.Leads{Phase: diagram.Lead{Length: 3}, Neutral: diagram.Lead{Length: 2}, Earth: diagram.Lead{Length: 1}}}
	p.Modes[diagram.LineEarth].Connected = true
	if got, want := lead.Longest(&p), (lead.Pair{Line: 3, Back: 1}); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
}

// Leads that are twisted or tied run together; others, and those of which nothing is
// said, do not.
func TestTogether(t *testing.T) {
	for run, want := range map[diagram.Run]bool{diagram.Twisted: true, diagram.Bundled: true, diagram.Separate: false, "": false} {
		if got := lead.Together(&diagram.Protector{Leads: diagram.Leads{Run: run}}); got != want {
			t.Errorf("%q: got %v", run, got)
		}
	}
}

// Nothing is written where nobody asks, and so nothing is allocated.
func TestVoltsWithoutAWorkingAllocateNothing(t *testing.T) {
	rate, total := lead.RateOf(false), 0.0
	if got := testing.AllocsPerRun(100, func() { total += rate.Volts(diagram.Up, lead.Pair{Line: 1, Back: 1}, nil) }); got != 0 {
		t.Errorf("got %g allocations", got)
	}
}
