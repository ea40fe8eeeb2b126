package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// carries sets the nominal discharge current, A.
func carries(in float64) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.In = in }
}

func TestDischargeAtService(t *testing.T) {
	flash := level(diagram.LightningUnknown)
	const low = "error: SPD on main has an In of 10 kA, and the service of this building asks for 20 kA"
	checkRows(t, analysis.SubjectDischarge, []siteRow{
		{"20 kA", served(t).exposed(flash).attach("main", carries(20e3)), nil},
		{"10 kA", served(t).exposed(flash).attach("main", carries(10e3)), []string{low}},
		{"10 kA without a lightning protection system", served(t).exposed(level(diagram.NoLightningSystem)).attach("main", carries(10e3)), nil},
		{"whether there is one is not known", served(t).attach("main", carries(10e3)), nil},
		{"not at the service", served(t).exposed(flash).attach("sub", carries(10e3)), nil},
		{"another there has it", served(t).exposed(flash).attach("main", carries(20e3)).attach("main", carries(10e3)), nil},
		{"not stated", served(t).exposed(flash).attach("main", carries(0)), []string{"note: The In of SPD on main is not stated"}},
	})
	f := served(t).exposed(flash).attach("main", carries(10e3)).one(analysis.SubjectDischarge)
	checkTexts(t, f,
		"SPD on main has an In of 10 kA, and the service of this building asks for 20 kA",
		"the building has a lightning protection system: a flash to it drives part of its current out through the supply",
		"take one with an In of 20 kA",
		"NFPA 780:2020 clause 4.20 (from memory; check your edition)")
	if diff := cmp.Diff(map[string]float64{"In of SPD": 10e3, "least In": 20e3}, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}

func TestDischargeAtDwelling(t *testing.T) {
	home := diagram.Exposure{Occupancy: diagram.Dwelling}
	rooms := diagram.Exposure{Occupancy: diagram.SleepingRooms}
	flat := func(use diagram.Use) *site {
		s := served(t)
		s.use("sub", use)
		return s
	}
	const low = "error: SPD on main has an In of 5 kA, and for a service to dwelling units 10 kA are asked for"
	checkRows(t, analysis.SubjectDischarge, []siteRow{
		{"10 kA", served(t).exposed(home).attach("main", carries(10e3)), nil},
		{"5 kA", served(t).exposed(home).attach("main", carries(5e3)), []string{low}},
		{"5 kA in 2020", served(t).exposed(home).by(diagram.NEC2020).attach("main", carries(5e3)), nil},
		{"5 kA in commerce", served(t).exposed(diagram.Exposure{Occupancy: diagram.Commerce}).attach("main", carries(5e3)), nil},
		{"5 kA, use not known", served(t).attach("main", carries(5e3)), nil},
		{"sleeping rooms", served(t).exposed(rooms).attach("main", carries(5e3)), []string{"error: SPD on main has an In of 5 kA, and for a service to sleeping rooms 10 kA are asked for"}},
		{"not at the service", served(t).exposed(home).attach("sub", carries(5e3)), nil},
		{"another there has it", served(t).exposed(home).attach("main", carries(10e3)).attach("main", carries(5e3)), nil},
		{"not stated", served(t).exposed(home).attach("main", carries(0)), nil},
		{"at the point of use", served(t).exposed(home).attach("main", of(diagram.Type3), carries(5e3)), nil},
		{"a board of a dwelling unit", flat(diagram.DwellingUnitUse).attach("sub", carries(5e3)), []string{"error: SPD on sub has an In of 5 kA, and for a feeder to a dwelling unit 10 kA are asked for"}},
		{"a board of sleeping rooms", flat(diagram.SleepingRoomsUse).attach("sub", carries(5e3)), []string{"error: SPD on sub has an In of 5 kA, and for a feeder to sleeping rooms 10 kA are asked for"}},
		{"a board of something else", flat(diagram.EmergencyUse).attach("sub", carries(5e3)), nil},
	})
	if got, want := served(t).exposed(home).attach("main", carries(5e3)).one(analysis.SubjectDischarge).Source, "NFPA 70:2023 section 230.67(E) (check your edition)"; got != want {
		t.Errorf("source: got %s, want %s", got, want)
	}
}
