package details

import (
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

func TestAlong(t *testing.T) {
	at := func(share, volts float64, v analysis.Verdict) analysis.Sample {
		return analysis.Sample{Share: share, Known: v != analysis.Unreached, Volts: volts, Verdict: v}
	}
	for _, row := range []struct {
		name    string
		samples []analysis.Sample
		want    string
	}{
		{"one verdict", []analysis.Sample{at(0, 2300, analysis.Held), at(1, 2700, analysis.Held)}, "2 300 V to 2 700 V; Held all along"},
		{"three", []analysis.Sample{at(0, 2300, analysis.Held), at(0.2, 3300, analysis.Tight), at(0.5, 4100, analysis.Exceeded), at(1, 4600, analysis.Exceeded)},
			"2 300 V to 4 600 V; Held to 20 m, Tight to 50 m, then Exceeded"},
		{"exactly at its limit at the head", []analysis.Sample{at(0, 2000, analysis.Held), at(1e-9, 2000, analysis.Tight), at(1, 2400, analysis.Tight)}, "2 000 V to 2 400 V; Tight all along"},
		{"no cover", []analysis.Sample{at(0, 0, analysis.Unreached), at(1, 0, analysis.Unreached)}, "Unreached all along"},
		{"a protector at the far end", []analysis.Sample{at(0, 0, analysis.Unreached), at(0.999, 0, analysis.Unreached), at(1, 1200, analysis.Held)}, "Unreached all along"},
	} {
		f := diagram.Feeder{ID: "f", Length: 100}
		result := &analysis.Result{Feeders: map[diagram.ID]analysis.FeederResult{"f": {ID: "f", Samples: row.samples}}}
		if got := strings.ReplaceAll(along(f, result, unit.IEC), "\u00a0", " "); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
	if got := along(diagram.Feeder{ID: "f"}, nil, unit.IEC); got != "" {
		t.Errorf("without a result: got %q", got)
	}
}
