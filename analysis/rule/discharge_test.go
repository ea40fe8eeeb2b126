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
	const low = "error: SPD on main has an In of 10 kA, and the service of this building needs 20 kA"
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
		"SPD on main has an In of 10 kA, and the service of this building needs 20 kA",
		"the building has a lightning protection system: a strike to it drives part of its current out through the supply",
		"use one with an In of 20 kA",
		"NFPA 780:2020 clause 4.20 (from memory; check your edition)")
	if diff := cmp.Diff(map[string]float64{"In of SPD": 10e3, "least In": 20e3}, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}

// homeOf is a service to dwellings, in a plan after the building as found.
func homeOf(t *testing.T, e diagram.Exposure) *site {
	s := served(t).exposed(e)
	s.later()
	return s
}

func TestDischargeAtDwelling(t *testing.T) {
	home := diagram.Exposure{Occupancy: diagram.Dwelling}
	rooms := diagram.Exposure{Occupancy: diagram.SleepingRooms}
	flat := func(use diagram.Use) *site {
		s := homeOf(t, diagram.Exposure{}).attach("main", carries(10e3))
		s.use("sub", use)
		return s
	}
	const low = "error: SPD on main has an In of 5 kA, and for a service to dwelling units at least 10 kA is required"
	const below = "error: SPD on sub has an In of 5 kA, and for a service to dwelling units at least 10 kA is required"
	checkRows(t, analysis.SubjectDischarge, []siteRow{
		{"10 kA", homeOf(t, home).attach("main", carries(10e3)), nil},
		{"5 kA", homeOf(t, home).attach("main", carries(5e3)), []string{low}},
		{"5 kA in the building as found", served(t).exposed(home).attach("main", carries(5e3)), []string{"warning" + low[len("error"):]}},
		{"5 kA in 2020", homeOf(t, home).by(diagram.NEC2020).attach("main", carries(5e3)), nil},
		{"5 kA in commerce", homeOf(t, diagram.Exposure{Occupancy: diagram.Commerce}).attach("main", carries(5e3)), nil},
		{"5 kA, use not known", homeOf(t, diagram.Exposure{}).attach("main", carries(5e3)), nil},
		{"sleeping rooms", homeOf(t, rooms).attach("main", carries(5e3)), []string{"error: SPD on main has an In of 5 kA, and for a service to sleeping rooms at least 10 kA is required"}},
		{"next downstream of a service with one", homeOf(t, home).attach("main", carries(10e3)).attach("sub", carries(5e3)), nil},
		{"next downstream of a bare service", homeOf(t, home).attach("sub", carries(5e3)), []string{below}},
		{"next downstream of a bare service, another has none", homeOf(t, home).board("side", diagram.BoardData{}).wire(9, "", "main > side").attach("sub", carries(5e3)), nil},
		{"next downstream of a bare service, 10 kA", homeOf(t, home).attach("sub", carries(10e3)), nil},
		{"5 kA at the service, 10 kA at each of the next boards", homeOf(t, home).attach("main", carries(5e3)).attach("sub", carries(10e3)), nil},
		{"farther down", homeOf(t, home).board("far", diagram.BoardData{}).wire(9, "", "sub > far").attach("far", carries(5e3)), nil},
		{"right beside the service", tapOf(t, 1).attach("box", carries(5e3), of(diagram.Type1)), []string{"error: SPD on box has an In of 5 kA, and for a service to dwelling units at least 10 kA is required"}},
		{"right beside it, 10 kA", tapOf(t, 1).attach("box", carries(10e3), of(diagram.Type1)), nil},
		{"right beside it, not stated", tapOf(t, 1).attach("box", carries(0), of(diagram.Type1)), []string{"note: The In of SPD on box is not stated"}},
		{"right beside it, 10 kA at the service", tapOf(t, 1).attach("box", carries(5e3), of(diagram.Type1)).attach("main", carries(10e3)), nil},
		{"far ahead of the service", tapOf(t, 30).attach("box", carries(5e3), of(diagram.Type1)), nil},
		{"another there has it", homeOf(t, home).attach("main", carries(10e3)).attach("main", carries(5e3)), nil},
		{"not stated", homeOf(t, home).attach("main", carries(0)), []string{"note: The In of SPD on main is not stated"}},
		{"not stated in 2020", homeOf(t, home).by(diagram.NEC2020).attach("main", carries(0)), nil},
		{"not stated, another there has it", homeOf(t, home).attach("main", carries(10e3)).attach("main", carries(0)), nil},
		{"at the point of use", homeOf(t, home).attach("main", of(diagram.Type3), carries(5e3)), nil},
		{"a board of a dwelling unit", flat(diagram.DwellingUnitUse).attach("sub", carries(5e3)), []string{"error: SPD on sub has an In of 5 kA, and for a feeder to dwelling units at least 10 kA is required"}},
		{"a board of sleeping rooms", flat(diagram.SleepingRoomsUse).attach("sub", carries(5e3)), []string{"error: SPD on sub has an In of 5 kA, and for a feeder to sleeping rooms at least 10 kA is required"}},
		{"a service to a board of a dwelling unit", flat(diagram.DwellingUnitUse).attach("main", carries(5e3)), nil},
		{"a board of something else", flat(diagram.EmergencyUse).attach("sub", carries(5e3)), nil},
	})
}

// tapOf is a service to a dwelling with a junction that far ahead of it, m.
func tapOf(t *testing.T, metres float64) *site {
	s := newSite(t, splitOf240).exposed(diagram.Exposure{Occupancy: diagram.Dwelling}).kind(diagram.Junction, "box").board("main", diagram.BoardData{Service: true}).
		wire(5, "", "supply > box").wire(metres, "", "box > main")
	s.later()
	return s
}

// The sections that name the least In, each with its subsection (E), as a public
// summary of the edition has them.
func TestDischargeSections(t *testing.T) {
	home := diagram.Exposure{Occupancy: diagram.Dwelling}
	flat := func(data diagram.BoardData) *site {
		s := served(t).attach("main", carries(10e3))
		s.use("sub", diagram.DwellingUnitUse).alter("sub", func(p *diagram.Part) { p.Board = data })
		return s.attach("sub", carries(5e3))
	}
	for want, s := range map[string]*site{
		"230.67(E)": served(t).exposed(home).attach("main", carries(5e3)),
		"215.18(E)": flat(diagram.BoardData{}),
		"225.42(E)": flat(diagram.BoardData{Structure: true}),
	} {
		if got, want := s.one(analysis.SubjectDischarge).Source, "NFPA 70:2023 section "+want+" (check your edition)"; got != want {
			t.Errorf("source: got %s, want %s", got, want)
		}
	}
	checkTexts(t, served(t).exposed(home).attach("main", carries(0)).one(analysis.SubjectDischarge),
		"The In of SPD on main is not stated",
		"the protector that the code asks for there must withstand 10 kA in its listing test",
		"read it off the nameplate: it must be at least 10 kA",
		"NFPA 70:2023 section 230.67(E) (check your edition)")
}
