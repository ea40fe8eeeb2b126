package rule_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// impulse makes a protector of class I with that Iimp, A.
func impulse(amperes float64) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.Type, p.Iimp = diagram.ClassI, amperes }
}

// The usual table of Iimp by level, of three lines and a neutral: 25, 18.75 and
// 12.5 kA for each pole (IEC 62305-1 annex E, half of 200, 150 and 100 kA).
func TestImpulseByLevel(t *testing.T) {
	tests := []struct {
		name  string
		level diagram.LightningSystem
		least float64
		want  string
	}{
		{"level I", diagram.LightningI, 25e3, "one pole can carry 25 kA"},
		{"level II", diagram.LightningII, 18.75e3, "one pole can carry 18.75 kA"},
		{"level III", diagram.LightningIII, 12.5e3, "one pole can carry 12.5 kA"},
		{"level IV", diagram.LightningIV, 12.5e3, "one pole can carry 12.5 kA"},
		{"level not known", diagram.LightningUnknown, 12.5e3, "one pole can carry 12.5 kA"},
	}
	for _, test := range tests {
		s := clinicSite(t).exposed(level(test.level))
		checkRows(t, analysis.SubjectDischarge, []siteRow{{test.name, s.attach("main", impulse(test.least)), nil}})
		below := clinicSite(t).exposed(level(test.level)).attach("main", impulse(test.least-500))
		f := below.one(analysis.SubjectDischarge)
		if f.Severity != analysis.Error || results(f.Working)["current of one pole"] != test.least {
			t.Errorf("%s: got %s, %v; want an error and %g A", test.name, f.Severity, f.Working, test.least)
		}
		if want := "SPD on main has an Iimp of " + kA(test.least-500) + ", and " + test.want; f.What != want {
			t.Errorf("%s: got %s, want %s", test.name, f.What, want)
		}
	}
}

func kA(amperes float64) string {
	return map[float64]string{24.5e3: "24.5 kA", 18.25e3: "18.25 kA", 12e3: "12 kA"}[amperes]
}

func TestImpulse(t *testing.T) {
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	house := func() *site {
		return newSite(t, single).exposed(level(diagram.LightningIII)).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main")
	}
	flash := level(diagram.LightningI)
	checkRows(t, analysis.SubjectDischarge, []siteRow{
		{"no lightning protection system", clinicSite(t).attach("main", impulse(5e3)), nil},
		{"not at the origin", clinicSite(t).exposed(flash).attach("ward", impulse(5e3)), nil},
		{"none stated, which is told of the nameplate", clinicSite(t).exposed(flash).attach("main", impulse(0)), nil},
		{"two conductors share it", house().attach("main", impulse(25e3)), nil},
		{"two conductors, enough for four", house().attach("main", impulse(12.5e3)), []string{"warning: SPD on main has an Iimp of 12.5 kA, and one pole can carry 25 kA"}},
		{"two conductors, too little for four", house().attach("main", impulse(12e3)), []string{"error: SPD on main has an Iimp of 12 kA, and one pole can carry 25 kA"}},
	})
	f := clinicSite(t).exposed(flash).attach("main", impulse(12.5e3)).one(analysis.SubjectDischarge)
	checkTexts(t, f,
		"SPD on main has an Iimp of 12.5 kA, and one pole can carry 25 kA",
		"half of it leaves by the supply, since the resistances to earth are not known",
		"use one with an Iimp of at least 25 kA for each pole; less may do where other services share the current and a study shows it",
		"IEC 62305-1 annex E, how a flash is shared (from memory; check your edition)")
	if got, want := f.Working[2].Numbers, "200\u00a0000\u00a0A × 0.5 / 4"; got != want {
		t.Errorf("numbers: got %q, want %q", got, want)
	}
}

// Where the resistances to earth are known the current divides by them: of 100 kA five
// sixths leave by a neutral of 2 ohm beside an electrode of 10 ohm, and a fourth part of
// that by each of four conductors.
func TestImpulseByResistance(t *testing.T) {
	s := clinicSite(t).exposed(diagram.Exposure{Lightning: diagram.LightningIII, Electrode: 10, NeutralEarth: 2}).attach("main", impulse(12.5e3))
	checkRows(t, analysis.SubjectDischarge, []siteRow{{"five sixths", s, []string{"error: SPD on main has an Iimp of 12.5 kA, and one pole can carry 20.83 kA"}}})
}

// Without a neutral fewer conductors share what leaves by the supply: of half of
// 100 and of 200 kA each of three lines gets 16.7 and 33.3 kA, each of two lines 25
// kA of 100 (IEC 62305-1 annex E).
func TestImpulseWithoutANeutral(t *testing.T) {
	three := diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.TNS, Frequency: 50}
	two := diagram.System{Wiring: diagram.TwoOfWye, Voltage: 400, Earthing: diagram.TNS, Frequency: 50}
	for _, row := range []struct {
		system diagram.System
		level  diagram.LightningSystem
		share  float64
	}{{three, diagram.LightningIII, 100e3 / 6}, {three, diagram.LightningI, 100e3 / 3}, {two, diagram.LightningIV, 25e3}} {
		with := func(iimp float64) []analysis.Finding {
			return newSite(t, row.system).exposed(level(row.level)).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main").
				attach("main", impulse(iimp)).found(analysis.SubjectDischarge)
		}
		if found := with(row.share + 1); len(found) != 0 {
			t.Errorf("%s, %g A of a share of %g: got %q", row.system, row.share+1, row.share, sayings(found))
		}
		found := with(row.share - 1)
		if len(found) != 1 || found[0].Severity != analysis.Warning || results(found[0].Working)["current of one pole"] != row.share {
			t.Errorf("%s, %g A of a share of %g: got %q", row.system, row.share-1, row.share, sayings(found))
		}
	}
}

func TestNominalAndHighestIEC(t *testing.T) {
	two := func(in, imax float64) func(*diagram.Protector) {
		return func(p *diagram.Protector) { p.Type, p.In, p.Imax = diagram.ClassII, in, imax }
	}
	surges := func(e diagram.SurgeExposure) *site { return clinicSite(t).exposed(diagram.Exposure{Surges: e}) }
	guide := func(imax, exposure, usual string) []string {
		return []string{"note: SPD on main has an Imax of " + imax + ", and for " + exposure + " exposure " + usual + " is usual"}
	}
	checkRows(t, analysis.SubjectDischarge, []siteRow{
		{"In 5 kA", clinicSite(t).attach("main", two(5e3, 0)), nil},
		{"In 3 kA", clinicSite(t).attach("main", two(3e3, 0)), []string{"warning: SPD on main has an In of 3 kA, and at the origin at least 5 kA for each line is required"}},
		{"In 3 kA, not at the origin", clinicSite(t).attach("ward", two(3e3, 0)), nil},
		{"In 3 kA, another has more", clinicSite(t).attach("main", two(5e3, 0)).attach("main", two(3e3, 0)), nil},
		{"In not stated", clinicSite(t).attach("main", two(0, 0)), nil},
		{"In of class III", clinicSite(t).attach("main", of(diagram.ClassIII), carries(3e3)), nil},
		{"Imax, low, 20 kA", surges(diagram.LowExposure).attach("main", two(5e3, 20e3)), nil},
		{"Imax, low, 15 kA", surges(diagram.LowExposure).attach("main", two(5e3, 15e3)), guide("15 kA", "low", "20 kA")},
		{"Imax, medium, 40 kA", surges(diagram.MediumExposure).attach("main", two(5e3, 40e3)), nil},
		{"Imax, medium, 20 kA", surges(diagram.MediumExposure).attach("main", two(5e3, 20e3)), guide("20 kA", "medium", "40 kA")},
		{"Imax, high, 65 kA", surges(diagram.HighExposure).attach("main", two(5e3, 65e3)), nil},
		{"Imax, high, 40 kA", surges(diagram.HighExposure).attach("main", two(5e3, 40e3)), guide("40 kA", "high", "65 kA")},
		{"Imax, exposure not known", clinicSite(t).attach("main", two(5e3, 10e3)), nil},
		{"Imax not stated", surges(diagram.HighExposure).attach("main", two(5e3, 0)), nil},
		{"Imax, not at the origin", surges(diagram.HighExposure).attach("ward", two(5e3, 40e3)), nil},
		{"a type", clinicSite(t).attach("main", carries(3e3)), nil},
	})
	checkTexts(t, clinicSite(t).attach("main", two(3e3, 0)).one(analysis.SubjectDischarge),
		"SPD on main has an In of 3 kA, and at the origin at least 5 kA for each line is required",
		"what comes over the supply meets the protector at the origin first",
		"use one with an In of at least 5 kA",
		"IEC 60364-5-53:2001 with amendment 2:2015, table 534.4 (534.3 of HD 60364-5-534:2016) (from memory; check your edition)")
}

// CT2 leads the lines to neutral and from there through one gap to earth: 10 and
// 20 kA, 25 and 50 kA by IEC 60364-5-53 tables 534.4 and 534.5 (from memory).
func TestNeutralToEarth(t *testing.T) {
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TT, Frequency: 50}
	house := func() *site {
		return newSite(t, single).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main")
	}
	gap := func(kind diagram.Type, in, iimp float64) func(*diagram.Protector) {
		return func(p *diagram.Protector) {
			p.Type, p.In, p.Iimp, p.Modes[diagram.NeutralEarth].Switching = kind, in, iimp, true
		}
	}
	must := func(what string) []string {
		return []string{"note: Between neutral and earth SPD on main must carry " + what}
	}
	checkRows(t, analysis.SubjectDischarge, []siteRow{
		{"three lines, In 20 kA", clinicSite(t).attach("main", gap(diagram.ClassII, 20e3, 0)), nil},
		{"three lines, In 15 kA", clinicSite(t).attach("main", gap(diagram.ClassII, 15e3, 0)), must("20 kA, and an In of 15 kA is stated")},
		{"one line, In 10 kA", house().attach("main", gap(diagram.ClassII, 10e3, 0)), nil},
		{"one line, In 5 kA", house().attach("main", gap(diagram.ClassII, 5e3, 0)), must("10 kA, and an In of 5 kA is stated")},
		{"three lines, Iimp 50 kA", clinicSite(t).attach("main", gap(diagram.ClassI, 20e3, 50e3)), nil},
		{"three lines, Iimp 12.5 kA", clinicSite(t).attach("main", gap(diagram.ClassI, 20e3, 12.5e3)), must("50 kA, and an Iimp of 12.5 kA is stated")},
		{"one line, Iimp 25 kA", house().attach("main", gap(diagram.ClassI, 20e3, 25e3)), nil},
		{"one line, Iimp 12.5 kA", house().attach("main", gap(diagram.ClassI, 20e3, 12.5e3)), must("25 kA, and an Iimp of 12.5 kA is stated")},
		{"level I, three lines", clinicSite(t).exposed(level(diagram.LightningI)).attach("main", gap(diagram.ClassI, 20e3, 25e3)), must("100 kA, and an Iimp of 25 kA is stated")},
		{"class III", clinicSite(t).attach("main", gap(diagram.ClassIII, 3e3, 0)), nil},
		{"CT1", clinicSite(t).attach("main", of(diagram.ClassII), carries(5e3)), nil},
	})
}
