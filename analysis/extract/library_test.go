package extract_test

import (
	"context"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/protector"
	"clampline/diagram"
	"clampline/diagram/library"
)

// Every protector of the library reads its own nameplate back when the test of
// its listing is solved, within the 0.1 % that calibration stops at.
func TestLibraryReadsItsNameplatesBack(t *testing.T) {
	const within = 1e-3
	for _, entry := range library.BuiltIn() {
		p := entry.Protector
		plate, ok := extract.Nameplate(p, p.System)
		if !ok {
			t.Errorf("%s states nothing for a surge", p.ID)
			continue
		}
		model, err := protector.Calibrate(context.Background(), plate)
		if err != nil {
			t.Errorf("%s: %v", p.ID, err)
			continue
		}
		for _, note := range model.Notes {
			t.Errorf("%s: %s", p.ID, note)
		}
		for _, mode := range diagram.Modes() {
			if !plate.Modes[mode].Connected {
				continue
			}
			got, err := model.Test(context.Background(), circuit.Kind(mode))
			if want := p.Modes[mode].Level; err != nil || math.Abs(got-want) > within*want {
				t.Errorf("%s, %s: the test reads %.1f V, and its nameplate %.1f V (%v)", p.ID, mode, got, want, err)
			}
		}
	}
}
