package analysis_test

import (
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// One line of the exposure decides in each row.
func TestNeedsProtection(t *testing.T) {
	safe := diagram.Exposure{Surroundings: diagram.Urban, FlashDensity: 0.5, LowCable: 1000, Occupancy: diagram.Dwelling} // CRL 1700
	with := func(f func(*diagram.Exposure)) diagram.Exposure { e := safe; f(&e); return e }
	occupied := func(o diagram.Occupancy) diagram.Exposure {
		return with(func(e *diagram.Exposure) { e.Occupancy = o })
	}
	tests := []struct {
		name         string
		exposure     diagram.Exposure
		method       diagram.RiskMethod
		needed, sure bool
	}{
		{"low risk", safe, "", false, false},
		{"low risk, named method", safe, diagram.ByRiskLevel, false, false},
		{"high risk", with(func(e *diagram.Exposure) { e.Surroundings = diagram.Rural }), "", true, true},
		{"high risk wherever it is", with(func(e *diagram.Exposure) { e.Surroundings, e.FlashDensity = "", 2 }), "", true, true},
		{"surroundings not known", with(func(e *diagram.Exposure) { e.Surroundings = "" }), "", true, false},
		{"half of the lines not known", with(func(e *diagram.Exposure) { e.Surroundings, e.FlashDensity, e.LowCable = diagram.Rural, 0.1, 500 }), "", true, false},
		{"the same to a device", with(func(e *diagram.Exposure) {
			e.Surroundings, e.FlashDensity, e.LowCable, e.LinesEnd = diagram.Rural, 0.1, 500, true
		}), "", false, false},
		{"no line known", diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1}, "", true, false},
		{"no density", with(func(e *diagram.Exposure) { e.FlashDensity = 0 }), "", true, false},
		{"nothing known", diagram.Exposure{}, "", true, false},
		{"human life", occupied(diagram.HumanLife), "", true, true},
		{"public service", occupied(diagram.PublicService), "", true, true},
		{"commerce", occupied(diagram.Commerce), "", true, true},
		{"many people", occupied(diagram.Assembly), "", true, true},
		{"sleeping rooms", occupied(diagram.SleepingRooms), "", true, true},
		{"other use", occupied(diagram.OtherUse), "", false, false},
		{"use not known", occupied(""), "", false, false},
		{"lightning protection system", with(func(e *diagram.Exposure) { e.Lightning = diagram.LightningIII }), "", true, true},
		{"none of that", with(func(e *diagram.Exposure) { e.Lightning = diagram.NoLightningSystem }), "", false, false},
		{"declined", diagram.Exposure{Occupancy: diagram.Dwelling, Declined: true}, "", false, false},
		{"declined for what may not decline", diagram.Exposure{Occupancy: diagram.OtherUse, Declined: true}, "", true, false},
		{"declined under a lightning protection system", diagram.Exposure{Occupancy: diagram.Dwelling, Declined: true, Lightning: diagram.LightningI}, "", true, true},
		{"by default", safe, diagram.ByDefault, true, false},
		{"by default, commerce", occupied(diagram.Commerce), diagram.ByDefault, true, true},
		{"by default, declined", with(func(e *diagram.Exposure) { e.Declined = true }), diagram.ByDefault, false, false},
		{"by default, declined for commerce", diagram.Exposure{Occupancy: diagram.Commerce, Declined: true}, diagram.ByDefault, true, true},
		{"by default, declined for other use", diagram.Exposure{Occupancy: diagram.OtherUse, Declined: true}, diagram.ByDefault, true, false},
	}
	for _, test := range tests {
		got := analysis.NeedsProtection(test.exposure, test.method)
		if got.Needed != test.needed || got.Sure != test.sure {
			t.Errorf("%s: got needed %v, sure %v (%s); want %v, %v", test.name, got.Needed, got.Sure, got.Why, test.needed, test.sure)
		}
		source := "IEC 60364-4-44"
		switch {
		case test.exposure.Lightning.Present():
			source = "IEC 62305-3"
		case test.method == diagram.ByDefault:
			source = "BS 7671"
		}
		if !strings.Contains(got.Source, source) {
			t.Errorf("%s: got the source %q, want %s", test.name, got.Source, source)
		}
		if got.Why == "" || got.Source == "" {
			t.Errorf("%s: no reason or no source", test.name)
		}
	}
}

// What the sheet lacks for the risk level is named.
func TestWhatTheRiskLevelLacks(t *testing.T) {
	for _, row := range []struct {
		exposure diagram.Exposure
		want     []string
	}{
		{diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1, LowCable: 1000}, nil},
		{diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1, LowCable: 1, LinesEnd: true}, nil}, // the arrester stands at the wall
		{diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1, LinesEnd: true}, []string{"the lines to 1 km upstream or to an overvoltage device"}},
		{diagram.Exposure{Surroundings: diagram.Rural, LowCable: 1000}, []string{"the lightning flash density"}},
		{diagram.Exposure{FlashDensity: 1, LowCable: 999}, []string{"the surroundings", "the lines to 1 km upstream or to an overvoltage device"}},
	} {
		if got := analysis.NeedsProtection(row.exposure, "").Missing; !slices.Equal(got, row.want) {
			t.Errorf("%+v: got %q, want %q", row.exposure, got, row.want)
		}
	}
}

// The risk level is told to a tenth: 85 / (1 × 0.7) = 121.43 of a kilometre of cable
// in the country, and ten times that in a town (the formula of TestRiskLevel).
func TestRiskLevelInWords(t *testing.T) {
	for place, want := range map[diagram.Surroundings]string{
		diagram.Rural: "the calculated risk level is 121.4, less than 1 000", diagram.Urban: "the calculated risk level is 1 214, not less than 1 000",
	} {
		e := diagram.Exposure{Surroundings: place, FlashDensity: 0.7, LowCable: 1000, Occupancy: diagram.OtherUse}
		if got := strings.ReplaceAll(analysis.NeedsProtection(e, "").Why, "\u00a0", " "); got != want {
			t.Errorf("%s: got %q, want %q", place, got, want)
		}
	}
}

// A low risk does not settle it for a building of which nobody says whom it serves: in
// a hospital protection is needed whatever the risk.
func TestLowRiskOfAnUnknownBuilding(t *testing.T) {
	const asked = "; whom the building serves is not known, and that may ask for protection all the same"
	for occupancy, want := range map[diagram.Occupancy]bool{"": true, diagram.Dwelling: false, diagram.OtherUse: false} {
		e := diagram.Exposure{Surroundings: diagram.Urban, FlashDensity: 0.7, LowCable: 1000, Occupancy: occupancy}
		if got := analysis.NeedsProtection(e, "").Why; strings.HasSuffix(got, asked) != want {
			t.Errorf("%q: got %q", occupancy, got)
		}
	}
}
