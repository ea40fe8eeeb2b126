package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// rated sets the SCCR, A.
func rated(amperes float64) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.SCCR = amperes }
}

func TestFaultCurrent(t *testing.T) {
	flowing := func(amperes float64) *site { return served(t).flows("main", analysis.Fault{LineLine: amperes}) }
	marked := func(amperes float64) *site {
		return newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, FaultCurrent: amperes}).wire(5, "", "supply > main")
	}
	unknown := of(diagram.Type3)
	checkRows(t, analysis.SubjectFault, []siteRow{
		{"enough", flowing(22000).attach("main", rated(22e3)), nil},
		{"as much but for rounding", flowing(22100).attach("main", rated(22e3)), nil},
		{"too low beyond rounding", flowing(22120).attach("main", rated(22e3)), []string{"error: SPD on main has an SCCR of 22 kA, and 22.12 kA can flow there"}},
		{"too low by a step", flowing(25000).attach("main", rated(22e3)), []string{"error: SPD on main has an SCCR of 22 kA, and 25 kA can flow there"}},
		{"the highest counts", served(t).flows("main", analysis.Fault{ThreePhase: 9e3, LineNeutral: 11e3}).attach("main", rated(10e3)),
			[]string{"error: SPD on main has an SCCR of 10 kA, and 11 kA can flow there"}},
		{"estimated", served(t).flows("main", analysis.Fault{LineLine: 14e3, Estimated: true}).attach("main", rated(10e3)),
			[]string{"warning: SPD on main has an SCCR of 10 kA, and about 14 kA can flow there"}},
		{"marked on the board", marked(14e3).attach("main", rated(10e3)), []string{"error: SPD on main has an SCCR of 10 kA, and 14 kA can flow there"}},
		{"the higher of the two, marked", marked(14e3).flows("main", analysis.Fault{LineLine: 8e3, Estimated: true}).attach("main", rated(10e3)),
			[]string{"error: SPD on main has an SCCR of 10 kA, and 14 kA can flow there"}},
		{"the higher of the two, computed", marked(8e3).flows("main", analysis.Fault{LineLine: 14e3}).attach("main", rated(10e3)),
			[]string{"error: SPD on main has an SCCR of 10 kA, and 14 kA can flow there"}},
		{"marked and enough", marked(10e3).attach("main", rated(10e3)), nil},
		{"SCCR not stated", flowing(10e3).attach("main", rated(0)), []string{"warning: The SCCR of SPD on main is not stated, and 10 kA can flow there"}},
		{"SCCR not stated, and what flows is estimated", served(t).flows("main", analysis.Fault{LineLine: 15.61e3, Estimated: true}).attach("main", rated(0)),
			[]string{"warning: The SCCR of SPD on main is not stated, and about 15.61 kA can flow there"}},
		{"nothing known", served(t).attach("main", rated(0)), []string{"note: Neither the SCCR of SPD on main nor the fault current there is known"}},
		{"what flows is not known", served(t).attach("main", rated(10e3)), []string{"note: The fault current at main is not known, and SPD has an SCCR of 10 kA"}},
		{"what flows is not known, and it clears all", served(t).attach("main", rated(200e3)), nil},
		{"a receptacle needs no mark", flowing(10e3).attach("main", unknown, rated(0)), nil},
		{"a receptacle that states one", flowing(10e3).attach("main", unknown, rated(5e3)), []string{"error: SPD on main has an SCCR of 5 kA, and 10 kA can flow there"}},
	})
}

func TestFaultTexts(t *testing.T) {
	f := served(t).by(diagram.NEC2020).flows("main", analysis.Fault{LineLine: 26e3}).attach("main", rated(22e3)).one(analysis.SubjectFault)
	checkTexts(t, f,
		"SPD on main has an SCCR of 22 kA, and 26 kA can flow there",
		"when it fails it may burst rather than clear the fault",
		"use one with an SCCR of at least 30 kA; a current-limiting device ahead helps only where the protector is listed with it",
		"NFPA 70:2020 section 242.10 (check your edition)")
	want := map[string]float64{"fault current": 26e3, "SCCR of SPD": 22e3, "SCCR in per cent of what can flow": 100 * 22.0 / 26}
	if diff := cmp.Diff(want, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
	if got, want := f.Working[2].Numbers, "22\u00a0000\u00a0A / 26\u00a0000\u00a0A"; got != want {
		t.Errorf("numbers: got %q, want %q", got, want)
	}
}

// What an estimate asks for is an estimate too.
func TestEstimateSaysAbout(t *testing.T) {
	s := served(t).flows("main", analysis.Fault{LineLine: 15.61e3, Estimated: true}).attach("main", rated(0))
	if got, want := s.one(analysis.SubjectFault).Remedy, "read the SCCR off the nameplate: it must be at least about 15.61 kA"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What the fault current itself says is missing stands in the reason.
func TestFaultUnknown(t *testing.T) {
	s := served(t).attach("main", rated(10e3))
	at := diagram.End{Part: "main"}
	s.faults[at] = analysis.Fault{At: at, Why: "the fault current of supply is not stated"}
	checkTexts(t, s.one(analysis.SubjectFault),
		"The fault current at main is not known, and SPD has an SCCR of 10 kA",
		"whether its SCCR is enough cannot be said: the fault current of supply is not stated",
		"state the fault current of the supply, or the one marked on the board",
		"NFPA 70:2023 section 242.8 (check your edition)")
}

func TestFaultMend(t *testing.T) {
	tests := []struct {
		name       string
		flows      float64
		label      string
		mended     bool
		sccr       float64
		stillFound int
	}{
		{"more than it clears", 26e3, "replace SPD by one that fits", true, 200e3, 0},
		{"the highest step", 200e3, "replace SPD by one that fits", true, 200e3, 0},
		{"beyond all steps", 202e3, "", false, 0, 1},
	}
	for _, test := range tests {
		s := served(t).flows("main", analysis.Fault{LineLine: test.flows}).attach("main", rated(10e3))
		f := s.one(analysis.SubjectFault)
		if f.Mend.IsThere() != test.mended || f.Mend.Label != test.label {
			t.Errorf("%s: got a mend %v, %q; want %v, %q", test.name, f.Mend.IsThere(), f.Mend.Label, test.mended, test.label)
			continue
		}
		if test.mended {
			s.apply(f)
			if p, _ := s.doc.Protector("protector-1"); p.SCCR != test.sccr {
				t.Errorf("%s: got an SCCR of %g, want %g", test.name, p.SCCR, test.sccr)
			}
		}
		if got := len(s.found(analysis.SubjectFault)); got != test.stillFound {
			t.Errorf("%s: %d findings left, want %d", test.name, got, test.stillFound)
		}
	}
}

func TestFollowCurrent(t *testing.T) {
	gap := func(modes ...diagram.Mode) func(*diagram.Protector) {
		return func(p *diagram.Protector) {
			p.Type, p.Iimp, p.SCCR = diagram.ClassI, 25e3, 100e3
			for _, mode := range modes {
				p.Modes[mode].Switching = true
			}
		}
	}
	varistor := func(p *diagram.Protector) {
		p.Type, p.In, p.Modes[diagram.LineNeutral].Switching = diagram.ClassII, 5e3, true
	}
	flowing := func() *site { return clinicSite(t).flows("main", analysis.Fault{ThreePhase: 16e3}) }
	told := []string{"note: SPD on main has a gap at its lines, and 16 kA can follow a surge through it"}
	checkRows(t, analysis.SubjectFault, []siteRow{
		{"a gap to neutral", flowing().attach("main", gap(diagram.LineNeutral)), told},
		{"a gap to earth", flowing().attach("main", gap(diagram.LineEarth)), told},
		{"a gap between neutral and earth", flowing().attach("main", gap(diagram.NeutralEarth)), nil},
		{"in series with the varistors of L-N", flowing().attach("main", gap(diagram.LineEarth, diagram.NeutralEarth)), nil},
		{"no gap", flowing().attach("main", gap()), nil},
		{"not tested with Iimp", flowing().attach("main", varistor), nil},
		{"what flows is not known", clinicSite(t).attach("main", gap(diagram.LineNeutral)), []string{"note: The fault current at main is not known, and SPD has an SCCR of 100 kA"}},
		{"by NFPA 70", served(t).flows("main", analysis.Fault{LineLine: 16e3}).attach("main", gap(diagram.LineNeutral)), nil},
	})
}
