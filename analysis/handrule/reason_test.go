package handrule_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// full rates every mode of a 480Y/277 V protector.
var full = levels{1200, 1200, 1200, 2000}

// Each reason on the smallest sheet that gives it. A level that is not known
// has want 0 volts.
func TestReasons(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	plain := func() *sheet {
		return newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(5, "a > b")
	}
	longLeads := protector("spd", "a", wye480, full)
	longLeads.Leads.Phase.Length, longLeads.Leads.Earth.Length = 26*inch, 26*inch
	europe := protector("spd", "a", wye480, full)
	europe.Rating = diagram.Up
	europe.Leads = diagram.Leads{}
	unrated := protector("spd", "a", wye480, full)
	unrated.Modes[lg].Level = 0
	halfRated := protector("spd", "a", wye480, levels{1200, 0, 1200, 0})
	halfRated.Modes[ng].Level = 0

	tests := []struct {
		name   string
		sheet  *sheet
		bus    diagram.ID
		mode   diagram.Mode
		reason analysis.Reason
		want   analysis.Verdict
		volts  float64
		by     diagram.ID
	}{
		{"at the bus", plain().protect("spd", "a", wye480, full), "a", lg, analysis.AtProtector, analysis.Held, 1200, "spd"},
		{"at the bus with long leads", plain().attach(longLeads), "a", lg, analysis.LongLeads, analysis.Held, 1700, "spd"},
		{"upstream, 5 m: 2 × 5 kV/µs × 5 m / 200 m/µs = 250 V more", plain().protect("spd", "a", wye480, full), "b", lg, analysis.NearProtector, analysis.Held, 1450, "spd"},
		{"upstream, a hair under 30 ft", newSheet(t).supply("u", wye480).boards("a", "b").feed(6, "u > a").feed(9.143, "a > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.NearProtector, analysis.Held, 1657.15, "spd"},
		{"upstream, 30 ft", newSheet(t).supply("u", wye480).boards("a", "b").feed(6, "u > a").feed(9.144, "a > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.Distance, analysis.Held, 1657.2, "spd"},
		{"upstream, 30 ft, with an Up: 10 m counts", newSheet(t).supply("u", wye480).boards("a", "b").feed(6, "u > a").feed(9.144, "a > b").attach(europe),
			"b", lg, analysis.NearProtector, analysis.Held, 1657.2, "spd"},
		{"upstream, 10 m, with an Up", newSheet(t).supply("u", wye480).boards("a", "b").feed(6, "u > a").feed(10, "a > b").attach(europe),
			"b", lg, analysis.Distance, analysis.Held, 1700, "spd"},
		{"far upstream: at most twice the level", newSheet(t).supply("u", wye480).boards("a", "b").feed(6, "u > a").feed(500, "a > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.Distance, analysis.Held, 2400, "spd"},
		{"none anywhere", plain(), "b", lg, analysis.NoProtector, analysis.Unreached, 0, ""},
		{"beyond a transformer",
			newSheet(t).supply("u", wye480).boards("a", "b").transformer("t", wye480, wye208).feed(3, "u > a", "a > t:primary", "t:secondary > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.PastTransformer, analysis.Unreached, 0, "spd"},
		{"beyond two transformers",
			newSheet(t).supply("u", wye480).boards("a", "b").transformer("t", wye480, wye208).transformer("v", wye208, split240).
				feed(3, "u > a", "a > t:primary", "t:secondary > v:primary", "v:secondary > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.PastTransformer, analysis.Unreached, 0, "spd"},
		{"the bus is beyond an open switch", newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").open(3, "a > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.PastSwitch, analysis.Unreached, 0, "spd"},
		{"the protector is beyond an open switch", newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").open(3, "a > b").protect("spd", "b", wye480, full),
			"a", lg, analysis.PastSwitch, analysis.Unreached, 0, "spd"},
		{"within what is dead it counts", newSheet(t).supply("u", wye480).boards("a", "b").open(3, "u > a").feed(5, "a > b").protect("spd", "a", wye480, full),
			"b", lg, analysis.NearProtector, analysis.Held, 1450, "spd"},
		{"just below, 5 m: 25 V/in × 0.35 × 5 m more", plain().protect("spd", "b", wye480, full), "a", lg, analysis.JustBelow, analysis.Held, 1200 + 5*25/inch*0.35, "spd"},
		{"just below, with an Up: 2 kV/m × 0.35 × 5 m more", plain().attach(on(europe, "b")), "a", lg, analysis.JustBelow, analysis.Exceeded, 1200 + 5*2000*0.35, "spd"},
		{"just below, along a feeder of 60 ohm and 200 m/µs: 0.3 µH/m", plain().line(60, 2e8, "a-b").protect("spd", "b", wye480, full),
			"a", lg, analysis.JustBelow, analysis.Held, 1200 + 5*25/inch*0.15, "spd"},
		{"just below, overhead: as leads apart", plain().overhead("a-b").protect("spd", "b", wye480, full), "a", lg, analysis.JustBelow, analysis.Exceeded, 1200 + 5*25/inch, "spd"},
		{"just below, by two feeders of 3 m", newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(3, "u > a", "a > b", "b > c").protect("spd", "c", wye480, full),
			"a", lg, analysis.JustBelow, analysis.Tight, 1200 + 6*25/inch*0.35, "spd"},
		{"below at 30 ft: it counts for nothing", newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(9.144, "a > b").protect("spd", "b", wye480, full),
			"a", lg, analysis.Downstream, analysis.Unreached, 0, "spd"},
		{"below at 10 m, with an Up", newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(10, "a > b").attach(on(europe, "b")),
			"a", lg, analysis.Downstream, analysis.Unreached, 0, "spd"},
		{"just below a transformer", newSheet(t).supply("u", wye480).boards("a", "b").transformer("t", wye480, wye208).
			feed(1, "u > a", "a > t:primary", "t:secondary > b").protect("spd", "b", wye208, full), "a", lg, analysis.NoProtector, analysis.Unreached, 0, ""},
		{"on a sibling, 3 m from the board above: its voltage there, and the distance", plain().boards("c").feed(3, "a > c").protect("spd", "c", wye480, full),
			"b", lg, analysis.NearProtector, analysis.Held, 1200 + 3*25/inch*0.35 + 250, "spd"},
		{"on a sibling, far", plain().boards("c").feed(40, "a > c").protect("spd", "c", wye480, full), "b", lg, analysis.Downstream, analysis.Unreached, 0, "spd"},
		{"made for another voltage", plain().protect("spd", "a", wye208, full), "b", ng, analysis.WrongVoltage, analysis.Unreached, 0, "spd"},
		{"a mode with too low an MCOV", plain().attach(mcov(protector("spd", "a", wye480, full), ln, 276)), "a", lg, analysis.AtProtector, analysis.Held, 1200, "spd"},
		{"a mode with too low an MCOV, two of them", plain().attach(mcov(mcov(protector("spd", "a", wye480, full), ng, 276), ll, 479)), "a", ll, analysis.AtProtector, analysis.Held, 2400, "spd"},
		{"nothing but a mode with too low an MCOV", plain().attach(mcov(protector("spd", "a", wye480, levels{0, 1200, 0, 0}), lg, 250)), "a", lg, analysis.WrongVoltage, analysis.Unreached, 0, "spd"},
		{"made for a star on a high leg", newSheet(t).supply("u", highLeg).boards("a").feed(3, "u > a").protect("spd", "a", wye240, full), "a", ln, analysis.WrongVoltage, analysis.Unreached, 0, "spd"},
		{"the same with an MCOV that the high leg may have", newSheet(t).supply("u", highLeg).boards("a").feed(3, "u > a").attach(mcov(protector("spd", "a", wye240, full), ln, 320)),
			"a", ln, analysis.AtProtector, analysis.Held, 1200, "spd"},
		{"a star on an ungrounded delta", newSheet(t).supply("u", delta480).boards("a").feed(3, "u > a").protect("spd", "a", wye480, full), "a", lg, analysis.WrongEarthing, analysis.Unreached, 0, "spd"},
		{"a star on a corner-grounded delta", newSheet(t).supply("u", corner480).boards("a").feed(3, "u > a").protect("spd", "a", wye480, full), "a", lg, analysis.WrongEarthing, analysis.Unreached, 0, "spd"},
		{"a star on a high-resistance-grounded one", newSheet(t).supply("u", hrg480).boards("a").feed(3, "u > a").attach(mcov(protector("spd", "a", wye480, full), lg, 320)),
			"a", lg, analysis.WrongEarthing, analysis.Unreached, 0, "spd"},
		{"a star with an MCOV for it", newSheet(t).supply("u", hrg480).boards("a").feed(3, "u > a").attach(mcov(protector("spd", "a", wye480, full), lg, 480)),
			"a", lg, analysis.AtProtector, analysis.Held, 1200, "spd"},
		{"TN on IT", newSheet(t).supply("u", it400).boards("a").feed(3, "u > a").protect("spd", "a", tns400, full), "a", lg, analysis.WrongEarthing, analysis.Unreached, 0, "spd"},
		{"a delta on a star", plain().protect("spd", "a", delta480, levels{0, 2000, 0, 2000}), "a", lg, analysis.AtProtector, analysis.Held, 2000, "spd"},
		{"a delta on a star has no neutral", plain().protect("spd", "a", delta480, levels{0, 2000, 0, 2000}), "a", ng, analysis.WrongPhases, analysis.Unreached, 0, "spd"},
		{"single phase on three phases", newSheet(t).supply("u", tns400).boards("a").feed(3, "u > a").protect("spd", "a", single230, full), "a", lg, analysis.WrongPhases, analysis.Unreached, 0, "spd"},
		{"single phase on three phases, neutral to earth", newSheet(t).supply("u", tns400).boards("a").feed(3, "u > a").protect("spd", "a", single230, full), "a", ng, analysis.AtProtector, analysis.Held, 1200, "spd"},
		{"nothing in the mode", plain().protect("spd", "a", wye480, levels{1200, 0, 0, 0}), "b", ng, analysis.MissingMode, analysis.Unreached, 0, "spd"},
		{"its voltage is not stated", plain().attach(unrated).attach(mcov(unrated, ln, 0)), "b", ng, analysis.NearProtector, analysis.Held, 1450, "spd"},
		{"its voltage is not stated, with no way round", plain().attach(withOnly(unrated, lg)), "b", lg, analysis.NoRating, analysis.Unknown, 0, "spd"},
		{"a mode that would be spanned but for a voltage not stated", plain().attach(halfRated), "a", lg, analysis.NoRating, analysis.Unknown, 0, "spd"},
		{"what it withstands is not known", newSheet(t).supply("u", wye480).part(diagram.Part{ID: "a", Kind: diagram.Panel}).feed(3, "u > a").protect("spd", "a", wye480, full),
			"a", lg, analysis.NoWithstand, analysis.Unknown, 1200, "spd"},
		{"the system is not known", newSheet(t).supply("u", diagram.System{}).boards("a").feed(3, "u > a").protect("spd", "a", wye480, full), "a", lg, analysis.NoSystem, analysis.Unknown, 0, ""},
		{"bonded", newSheet(t).supply("u", wye480).bonded("a").feed(3, "u > a"), "a", ng, analysis.Bonded, analysis.Held, 0, ""},
		{"one conductor is both", newSheet(t).supply("u", tnc400).boards("a").feed(3, "u > a"), "a", ng, analysis.Bonded, analysis.Held, 0, ""},
	}
	seen := map[analysis.Reason]bool{}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := level(t, test.sheet.solve(), test.bus, test.mode)
			seen[got.Reason] = true
			known := test.volts > 0 || test.reason == analysis.Bonded
			// Sums of lengths and inches round.
			if got.Known != known || math.Abs(got.Volts-test.volts) > 1e-6 {
				t.Errorf("got %v, %g V; want %v, %g V", got.Known, got.Volts, known, test.volts)
			}
			if got.Reason != test.reason || got.Verdict != test.want || got.Protector != test.by {
				t.Errorf("got %s, %s by %q; want %s, %s by %q", got.Reason, got.Verdict, got.Protector, test.reason, test.want, test.by)
			}
			if got.Why == "" {
				t.Error("there is no sentence")
			}
		})
	}
	for _, reason := range []analysis.Reason{
		analysis.AtProtector, analysis.LongLeads, analysis.JustBelow, analysis.Bonded, analysis.NearProtector, analysis.Distance, analysis.NoProtector,
		analysis.PastTransformer, analysis.PastSwitch, analysis.Downstream, analysis.WrongVoltage, analysis.WrongEarthing,
		analysis.WrongPhases, analysis.MissingMode, analysis.NoWithstand, analysis.NoSystem, analysis.NoRating,
	} {
		if !seen[reason] {
			t.Errorf("no sheet gives the reason %q", reason)
		}
	}
}

// A protector that is too far below tells those above it from those on other branches.
func TestWhyOfOneFarBelow(t *testing.T) {
	result := newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(3, "u > a").feed(40, "a > b", "a > c").protect("spd", "b", wye480, full).solve()
	for bus, want := range map[diagram.ID]string{"a": "is too far downstream to cover it", "c": "is on another branch and does not cover it"} {
		if got := level(t, result, bus, diagram.LineEarth); got.Reason != analysis.Downstream || !strings.HasSuffix(got.Why, want) {
			t.Errorf("%s: got %s, %q, want %q", bus, got.Reason, got.Why, want)
		}
	}
}

// A feeder of which the speed alone or the impedance alone is stated counts as one of
// which neither is.
func TestHalfOfALineIsNone(t *testing.T) {
	below := func() *sheet {
		return newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(5, "a > b").protect("spd", "b", wye480, full)
	}
	want := level(t, below().solve(), "a", diagram.LineEarth).Volts
	for _, stated := range [][2]float64{{0, 1.5e8}, {60, 0}} {
		if got := level(t, below().line(stated[0], stated[1], "a-b").solve(), "a", diagram.LineEarth).Volts; got != want {
			t.Errorf("%g: got %g V, want %g V", stated, got, want)
		}
	}
}

// The working of a feeder to a protector with an Up: 0.7 µH/m against twice 1 µH/m of
// leads at 1000 V/m each are 700 V per metre, of 2 m 1400 V.
func TestWorkingOfAFeederByUp(t *testing.T) {
	p := protector("spd", "b", tns400, full)
	p.Rating = diagram.Up
	s := newSheet(t).supply("u", tns400).boards("a", "b").feed(3, "u > a").feed(2, "a > b").attach(p)
	for _, level := range handrule.Explain(s.doc, diagram.FirstPlan, analysis.Trace(s.doc), handrule.DefaultRule(), "a")["a"].Levels {
		at := slices.IndexFunc(level.Working, func(step analysis.Step) bool { return step.Label == "feeder to the protector" })
		if at < 0 {
			t.Errorf("%s: no step for the feeder", level.Mode)
			continue
		}
		if step := level.Working[at]; step.Numbers != "700\u00a0V/m × 2\u00a0m" || math.Abs(step.Result-1400) > 1e-9 {
			t.Errorf("%s: got %s = %g", level.Mode, step.Numbers, step.Result)
		}
	}
}

// on puts a protector on another bus.
func on(p diagram.Protector, bus diagram.ID) diagram.Protector {
	p.Bus = bus
	return p
}

// line states the surge impedance and the speed of a feeder.
func (s *sheet) line(ohms, speed float64, id diagram.ID) *sheet {
	return s.alter(id, func(f *diagram.Feeder) { f.SurgeImpedance, f.Velocity = ohms, speed })
}

func (s *sheet) overhead(id diagram.ID) *sheet {
	return s.alter(id, func(f *diagram.Feeder) { f.Raceway = diagram.Overhead })
}

func (s *sheet) alter(id diagram.ID, change func(*diagram.Feeder)) *sheet {
	return s.edit(func(tx *diagram.Tx) {
		f, _ := s.doc.Feeder(id)
		change(&f)
		tx.SetFeeder(f)
	})
}

// withOnly leaves a protector one connected mode.
func withOnly(p diagram.Protector, mode diagram.Mode) diagram.Protector {
	for m := range p.Modes {
		if diagram.Mode(m) != mode {
			p.Modes[m] = diagram.ModeRating{}
		}
	}
	return p
}

func TestWhy(t *testing.T) {
	named := func() *sheet {
		s := newSheet(t).supply("u", wye480).transformer("t", wye480, wye208).boards("b")
		s.part(diagram.Part{ID: "a", Kind: diagram.Switchboard, Name: "Main switchboard", Withstand: category(4)})
		s.part(diagram.Part{ID: "t", Kind: diagram.Transformer, Name: "T1", System: wye208, Transformer: diagram.TransformerData{Primary: wye480}})
		p := protector("spd", "a", wye480, full)
		p.Name = "SPD-1"
		return s.feed(3, "u > a", "a > t:primary", "t:secondary > b").attach(p)
	}
	tests := []struct {
		name  string
		sheet *sheet
		bus   diagram.ID
		mode  diagram.Mode
		want  string
	}{
		{"past a transformer", named(), "b", diagram.LineEarth, "Protection by SPD-1 on Main switchboard stops at transformer T1"},
		{"at the bus", named(), "a", diagram.LineEarth, "SPD-1 on Main switchboard limits it"},
		{"by two modes", newSheet(t).supply("u", wye480).boards("a").feed(3, "u > a").protect("spd", "a", wye480, levels{700, 0, 700, 0}), "a", diagram.LineEarth,
			"spd on a limits it by L-N and N-G in series"},
		{"wrong voltage", newSheet(t).supply("u", wye480).boards("a").feed(3, "u > a").protect("spd", "a", wye208, full), "a", diagram.LineEarth,
			"spd on a does not count: it is made for 208Y/120, not for 480Y/277"},
	}
	for _, test := range tests {
		if got := level(t, test.sheet.solve(), test.bus, test.mode).Why; got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}
