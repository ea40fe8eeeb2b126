package handrule_test

import (
	"math"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// What leads add. The VPR rows are 25 V per inch beyond six inches of phase
// and return conductor together (common practice, no source). The Up rows are
// 1 kV for each metre of either lead: 1.5 + 0.6 + 0.7 = 2.8 kV is the worked
// example of DIN VDE 0100-534 (from memory).
func TestLeads(t *testing.T) {
	tests := []struct {
		name                   string
		rating                 diagram.Rating
		level                  float64
		mode                   diagram.Mode
		phase, neutral, earth  float64 // m
		wantVolts, wantByLeads float64
	}{
		{"26 in on a VPR of 400 V", diagram.VPR, 400, diagram.LineNeutral, 26 * inch, 26 * inch, 0, 900, 500},
		{"an empty rating is a VPR", "", 400, diagram.LineNeutral, 26 * inch, 26 * inch, 0, 900, 500},
		{"six inches are in the VPR", diagram.VPR, 400, diagram.LineEarth, 6 * inch, 0, 6 * inch, 400, 0},
		{"shorter leads don't lower it", diagram.VPR, 400, diagram.LineEarth, 0, 0, 0, 400, 0},
		{"unequal leads: their mean", diagram.VPR, 700, diagram.LineEarth, 10 * inch, 99, 30 * inch, 1050, 350},
		{"neutral and earth", diagram.VPR, 700, diagram.NeutralEarth, 99, 8 * inch, 12 * inch, 800, 100},
		{"line to line: the phase lead twice", diagram.VPR, 1200, diagram.LineLine, 16 * inch, 99, 99, 1450, 250},
		{"worked example of an Up", diagram.Up, 1500, diagram.LineEarth, 0.6, 99, 0.7, 2800, 1300},
		{"an Up with line to line", diagram.Up, 1500, diagram.LineLine, 0.25, 99, 99, 2000, 500},
		{"a rating that is not known", diagram.VPR, 0, diagram.LineLine, 1, 1, 1, 0, 0},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := diagram.Protector{Rating: test.rating, Leads: diagram.Leads{
				Phase: diagram.Lead{Length: test.phase}, Neutral: diagram.Lead{Length: test.neutral}, Earth: diagram.Lead{Length: test.earth},
			}}
			p.Modes[test.mode] = diagram.ModeRating{Connected: true, Level: test.level}
			volts, added := handrule.DefaultRule().AtBus(&p, test.mode, nil)
			// Exact but for rounding of the inch.
			if math.Abs(volts-test.wantVolts) > 1e-9*test.wantVolts || math.Abs(added-test.wantByLeads) > 1e-6 {
				t.Errorf("got %g V, %g V of it by leads; want %g, %g", volts, added, test.wantVolts, test.wantByLeads)
			}
		})
	}
}

// The installation of the worked example passes for fixed wiring, 4 kV, and
// not for portable equipment, 2.5 kV, at 230/400 V.
func TestLeadsAgainstWithstand(t *testing.T) {
	for _, test := range []struct {
		category int
		want     analysis.Verdict
	}{{3, analysis.Held}, {2, analysis.Exceeded}} {
		p := protector("spd", "board", tns400, levels{1500, 1500, 1500, 0})
		p.Rating = diagram.Up
		p.Leads.Phase.Length, p.Leads.Earth.Length = 0.6, 0.7
		s := newSheet(t).supply("u", tns400).feed(0).attachTo(p, test.category)
		got := level(t, s.solve(), "board", diagram.LineEarth)
		if math.Abs(got.Volts-2800) > 1e-6 || got.Verdict != test.want || got.Reason != analysis.LongLeads {
			t.Errorf("category %d: got %g V, %s, %s; want 2800 V, %s", test.category, got.Volts, got.Verdict, got.Reason, test.want)
		}
	}
}

// attachTo places a board of the category on the supply "u", with the
// protector.
func (s *sheet) attachTo(p diagram.Protector, cat int) *sheet {
	s.part(diagram.Part{ID: p.Bus, Kind: diagram.Panel, Withstand: category(cat)})
	return s.feed(3, "u > "+string(p.Bus)).attach(p)
}

// Two modes of one protector in series: the current passes the leads of the mode
// that they span, and no other.
func TestLeadsInSeries(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	up := func(ratings levels, phase, neutral, earth float64, gap bool) diagram.Protector {
		p := protector("p", "a", tns400, ratings)
		p.Rating = diagram.Up
		p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = phase, neutral, earth
		p.Modes[ng].Switching = gap
		return p
	}
	other := up(levels{0, 0, 1500, 0}, 9, 0.2, 0.4, false)
	other.ID = "q"
	tests := []struct {
		name  string
		on    []diagram.Protector
		mode  diagram.Mode
		volts float64 // 1 kV for each metre of lead
	}{
		{"3+1, line to earth", []diagram.Protector{up(levels{1400, 0, 1500, 0}, 0.3, 0.1, 0.5, true)}, lg, 1500 + 800},
		{"3+1, line to earth, long neutral lead", []diagram.Protector{up(levels{1400, 0, 1500, 0}, 0.3, 2, 0.5, true)}, lg, 1500 + 800},
		{"3+1 without a gap", []diagram.Protector{up(levels{1400, 0, 1500, 0}, 0.3, 2, 0.5, false)}, lg, 2900 + 800},
		{"4+0, line to neutral", []diagram.Protector{up(levels{0, 1500, 1500, 0}, 0.3, 0.1, 2, false)}, ln, 3000 + 400},
		{"4+0, line to line", []diagram.Protector{up(levels{0, 1500, 1500, 0}, 0.3, 0.1, 2, false)}, ll, 3000 + 600},
		{"line to line by two to neutral", []diagram.Protector{up(levels{1400, 0, 0, 0}, 0.3, 2, 2, false)}, ll, 2800 + 600},
		{"two protectors: every lead of both", []diagram.Protector{up(levels{1400, 0, 0, 0}, 0.3, 0.1, 9, false), other}, lg, 2900 + 0.4e3 + 0.6e3},
	}
	for _, test := range tests {
		s := newSheet(t).supply("u", tns400).boards("a").feed(3, "u > a")
		for _, p := range test.on {
			s.attach(p)
		}
		if got := level(t, s.solve(), "a", test.mode); math.Abs(got.Volts-test.volts) > 1e-6 {
			t.Errorf("%s: got %g V, want %g V", test.name, got.Volts, test.volts)
		}
	}
}

// At a board that joins neutral and earth L-G is what L-N is where that is lower.
// The current then passes the leads of L-N, and the working counts those: not the
// earth lead of 12 m, by which nothing goes back.
func TestWorkingCountsTheLeadsThatCount(t *testing.T) {
	p := protector("p", "a", wye480, levels{0, 1200, 100, 0})
	p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = 16*inch, 16*inch, 12
	s := newSheet(t).supply("u", wye480).part(diagram.Part{ID: "a", Kind: diagram.Panel, Withstand: category(4), Board: diagram.BoardData{Bonded: true}}).
		feed(3, "u > a").attach(p)
	for _, level := range handrule.Explain(s.doc, diagram.FirstPlan, analysis.Trace(s.doc), handrule.DefaultRule(), "a")["a"].Levels {
		if level.Mode != diagram.LineNeutral && level.Mode != diagram.LineEarth {
			continue
		}
		leads, sum := 0.0, 0.0
		for _, step := range level.Working {
			switch step.Label {
			case "leads":
				leads = step.Result
			case "in series":
				sum = step.Result
			}
		}
		if math.Abs(leads-250) > 1e-9 || math.Abs(sum-1550) > 1e-9 || sum != level.Volts {
			t.Errorf("%s: got leads of %g V and %g V in all, want 250 V and 1550 V as the level of %g V says", level.Mode, leads, sum, level.Volts)
		}
	}
}
