package mark_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func TestBandLine(t *testing.T) {
	for want, band := range map[string]analysis.Band{
		"1 180–1 420 V, holds in 93 %": {Low: 1183, High: 1416, Withstand: 1500, Holds: 0.928},
		"92.1–109 V":                   {Low: 92.06, High: 109.4},
		"900–1 100 V, holds in 99 %":   {Low: 900, High: 1100, Withstand: 1, Holds: 0.9999},
		"900–1 100 V, holds in 100 %":  {Low: 900, High: 1100, Withstand: 1, Holds: 1},
		"900–1 100 V, holds in 1 %":    {Low: 900, High: 1100, Withstand: 1, Holds: 0.0001},
		"0–0 V, holds in 0 %":          {Withstand: 1},
	} {
		if got := plain(mark.BandLine(band, unit.IEC)); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestRangeText(t *testing.T) {
	doc := diagram.New()
	r := analysis.BandRange{Record: "spd", What: "lead length", Volts: 183.4}
	if got := plain(mark.RangeText(doc, r, unit.IEC)); got != "lead length of spd ±180 V" {
		t.Errorf("got %q", got)
	}
	r = analysis.BandRange{What: "crest of the surge", Volts: 7.48}
	if got := plain(mark.RangeText(doc, r, unit.IEC)); got != "crest of the surge ±7.5 V" {
		t.Errorf("got %q", got)
	}
}

// The line is added to the tags of those that have a band, and the marks stay as they
// were without it.
func TestWithBands(t *testing.T) {
	before := scene.Marks{Parts: map[diagram.ID]scene.Mark{"a": {Lines: []string{"900 V"}}, "b": {Lines: []string{"800 V"}}}}
	after := mark.WithBands(before, map[diagram.ID]analysis.Band{"a": {Low: 1, High: 2}, "b": {Low: 440, High: 880, Withstand: 1000}, "gone": {}}, unit.IEC)
	if got := after.Parts["a"].Lines; len(got) != 2 || plain(got[1]) != "1–2 V" {
		t.Errorf("got %q", got)
	}
	if g := after.Parts["b"].Gauge; math.Abs(g.Low-0.4) > 1e-9 || math.Abs(g.High-0.8) > 1e-9 || math.Abs(g.Limit-1/1.1) > 1e-9 {
		t.Errorf("got %+v, want 0.4 to 0.8 of a scale up to 1100 V", g)
	}
	if after.Parts["a"].Gauge != (scene.Gauge{}) {
		t.Error("there is a gauge without a withstand")
	}
	if len(after.Parts) != 2 || len(after.Parts["b"].Lines) != 2 || len(before.Parts["a"].Lines) != 1 {
		t.Errorf("got %v, and before %v", after.Parts, before.Parts)
	}
}
