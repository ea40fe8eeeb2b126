package analysis_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

var wye = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS}

// Half of 100, 150 and 200 kA on four conductors are 12.5, 18.75 and 25 kA, the Iimp
// that IEC 60364-5-53 table 534.5 and IEC 62305-4 go by (from memory); with resistances
// the current divides as among conductors in parallel.
func TestShareOfFlash(t *testing.T) {
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TT}
	for _, row := range []struct {
		exposure           diagram.Exposure
		system             diagram.System
		share, pole, lines float64
		known              bool
		says               string
	}{
		{diagram.Exposure{Lightning: diagram.LightningIII}, wye, 0.5, 12.5e3, 37.5e3, false, "half of it"},
		{diagram.Exposure{Lightning: diagram.LightningII}, wye, 0.5, 18.75e3, 56.25e3, false, "half of it"},
		{diagram.Exposure{Lightning: diagram.LightningI}, wye, 0.5, 25e3, 75e3, false, "half of it"},
		{diagram.Exposure{Lightning: diagram.LightningIV}, single, 0.5, 25e3, 25e3, false, "half of it"},
		{diagram.Exposure{Lightning: diagram.LightningIII, Electrode: 10}, wye, 0.5, 12.5e3, 37.5e3, false, "half of it"},
		{diagram.Exposure{Lightning: diagram.LightningIII, Electrode: 10, NeutralEarth: 10}, wye, 0.5, 12.5e3, 37.5e3, true, "50\u00a0% of it leaves by the supply"},
		{diagram.Exposure{Lightning: diagram.LightningIII, Electrode: 10, NeutralEarth: 2}, wye, 5.0 / 6, 100e3 * 5 / 24, 100e3 * 5 / 8, true, "83\u00a0%"},
		{diagram.Exposure{Lightning: diagram.LightningIII, Electrode: 10, NeutralEarth: 2, OtherEarth: 2.5}, wye, 0.5, 12.5e3, 37.5e3, true, "other services 2.5\u00a0Ω"},
		{diagram.Exposure{Lightning: diagram.NoLightningSystem}, wye, 0.5, 0, 0, false, "half of it"},
		{diagram.Exposure{Lightning: diagram.LightningI}, diagram.System{}, 0.5, 0, 0, false, "half of it"},
	} {
		got := analysis.ShareOfFlash(row.exposure, row.system)
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Abs(b) }
		if !near(got.Supply, row.share) || !near(got.Pole, row.pole) || !near(got.Lines(row.system), row.lines) || got.Known != row.known {
			t.Errorf("%+v: got %+v, %g A in the lines", row.exposure, got, got.Lines(row.system))
		}
		if !strings.Contains(got.Why(), row.says) {
			t.Errorf("%+v: says %q, want %q", row.exposure, got.Why(), row.says)
		}
	}
}
