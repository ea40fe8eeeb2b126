package protector

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"clampline/analysis/conductor"
	"clampline/analysis/waveform"
)

// countdown is a context that has ended at one of the times it is asked, and at no other.
type countdown struct {
	context.Context
	asked, at int
}

func (c *countdown) Err() error {
	c.asked++
	if c.asked == c.at {
		return context.Canceled
	}
	return nil
}

// Whichever solution of a calibration fails, that is told, and no model comes of it.
func TestAnySolutionThatFailsIsTold(t *testing.T) {
	gapped := Nameplate{Rating: VPR, Lines: 1, Neutral: true}
	gapped.Modes[NeutralEarth] = ModePlate{Connected: true, Level: 300, Switching: true}
	for _, p := range []Nameplate{typical()[0].plate, typical()[4].plate, gapped} {
		whole := &countdown{Context: context.Background()}
		if _, err := Calibrate(whole, p); err != nil {
			t.Fatal(err)
		}
		for at := 1; at <= whole.asked; at += 50 { // a solution asks a hundred times or more
			m, err := Calibrate(&countdown{Context: context.Background(), at: at}, p)
			if !errors.Is(err, context.Canceled) || m != nil || !strings.HasPrefix(err.Error(), "mode ") {
				t.Errorf("where the context ends at %d of %d: got %v and a model: %t", at, whole.asked, err, m != nil)
			}
		}
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	m := calibrated(t, gapped)
	if got, err := m.Test(ended, NeutralEarth); err == nil || got != 0 {
		t.Errorf("a test that was not solved reads %g V, %v", got, err)
	}
	for _, mode := range []Mode{-1, ModeCount, LineLine} {
		if got, err := m.Test(context.Background(), mode); err == nil || got != 0 {
			t.Errorf("mode %d: reads %g V, %v", mode, got, err)
		}
	}
}

// On the front the leads take a part of the voltage: a gap of a low level must fire at
// another voltage than that, and then the test reads the level. Its arc is 25 V, or
// half of what fires it where that is less; it takes 5 pF (as stated beside them).
func TestGapsOfAnyLevel(t *testing.T) {
	for _, level := range []float64{250, 300, 400, 2500, 5000} {
		p := Nameplate{Rating: VPR, Lines: 1, Neutral: true}
		p.Modes[NeutralEarth] = ModePlate{Connected: true, Level: level, Switching: true}
		m := calibrated(t, p)
		if len(m.Notes) > 0 {
			t.Errorf("%g V: notes %q, want none", level, m.Notes)
		}
		within(t, "reads", m.Readings[NeutralEarth], level, 0.001)
		if gap := m.Gaps[NeutralEarth]; gap.Arc != 25 || gap.Ohms != 0.02 || m.Farads[NeutralEarth] != 5e-12 {
			t.Errorf("%g V: got %+v and %g F", level, gap, m.Farads[NeutralEarth])
		}
		if gap := m.Gaps[NeutralEarth]; level <= 300 && !(gap.Sparkover > level+0.4) {
			t.Errorf("%g V: fires at %.2f V, want above it", level, gap.Sparkover)
		}
	}
	p := Nameplate{Rating: Up, Lines: 1, Neutral: true}
	p.Modes[LineNeutral] = ModePlate{Connected: true, Level: 30, Switching: true}
	if gap := calibrated(t, p).Gaps[LineNeutral]; gap.Sparkover != 30 || gap.Arc != 15 {
		t.Errorf("30 V: got %+v, want an arc of half of it", gap)
	}
}

// Each reason that a note gives, where it is the reason.
func TestReasons(t *testing.T) {
	const (
		leads  = "the leads of the test, or another mode, alone give more than the level"
		wiring = "its own wiring, or another mode, alone gives more than the level"
		most   = "the test has no more than 6000 V"
		series = "other modes in series hold it lower"
	)
	type volts = [ModeCount]float64
	gap := func(p Nameplate, mode Mode) Nameplate { p.Modes[mode].Switching = true; return p }
	mcov := volts{150, 150, 150, 150}
	for _, row := range []struct {
		name string
		p    Nameplate
		want []string // how the notes begin and end
	}{
		{"all is met", plate(Up, 0, 1, true, volts{700, 700, 700, 0}, mcov), nil},
		{"a VPR below its leads", plate(VPR, 0, 1, true, volts{1, 0, 0, 0}, mcov), []string{"L-N: the nameplate states 1 V", leads}},
		{"an Up below its wiring", plate(Up, 0, 1, true, volts{1, 0, 0, 0}, mcov), []string{"L-N: the nameplate states 1 V", wiring}},
		{"an Up that two others hold", plate(Up, 0, 3, true, volts{700, 700, 700, 40000}, mcov), []string{"L-L: the nameplate states 40000 V", series}},
		{"a VPR that two others hold", plate(VPR, 0, 3, true, volts{700, 700, 700, 4000}, mcov), []string{"L-L: the nameplate states 4000 V", series}},
		{"a VPR above the test", plate(VPR, 0, 1, true, volts{40000, 0, 0, 0}, mcov), []string{"L-N: the nameplate states 40000 V", most}},
		{"a gap above the test", gap(plate(Up, 0, 1, true, volts{40000, 0, 0, 0}, mcov), LineNeutral), []string{"L-N: the nameplate states 40000 V", most}},
		{"an Up of 40 kV is met by a current", plate(Up, 0, 1, true, volts{40000, 0, 0, 0}, mcov), nil},
		{"a gap that two others hold", gap(plate(VPR, 0, 1, true, volts{700, 1600, 700, 0}, mcov), LineEarth), []string{"L-G: the nameplate states 1600 V", series}},
	} {
		m := calibrated(t, row.p)
		if row.want == nil && len(m.Notes) == 0 {
			continue
		}
		if len(row.want) == 0 || len(m.Notes) != 1 || !strings.HasPrefix(m.Notes[0], row.want[0]) || !strings.HasSuffix(m.Notes[0], row.want[1]) {
			t.Errorf("%s: got %q, want %q", row.name, m.Notes, row.want)
		}
	}
}

// The bounds themselves are taken, and what lies beyond is not; nothing stated of In
// is 5 kA.
func TestBoundsOfANameplate(t *testing.T) {
	base := plate(Up, 0, 1, true, [ModeCount]float64{1500, 0, 0, 0}, [ModeCount]float64{275, 0, 0, 0})
	for _, row := range []struct {
		name   string
		change func(*Nameplate)
		taken  bool
	}{
		{"a level of a million", func(p *Nameplate) { p.Modes[LineNeutral].Level = 1e6 }, true},
		{"a level beyond", func(p *Nameplate) { p.Modes[LineNeutral].Level = 1.1e6 }, false},
		{"an In of a million", func(p *Nameplate) { p.In = 1e6 }, true},
		{"an In beyond", func(p *Nameplate) { p.In = 1.1e6 }, false},
		{"an MCOV of a million", func(p *Nameplate) { p.Modes[LineNeutral].MCOV = 1e6 }, true},
		{"an MCOV beyond", func(p *Nameplate) { p.Modes[LineNeutral].MCOV = 1.1e6 }, false},
		{"an MCOV below zero", func(p *Nameplate) { p.Modes[LineNeutral].MCOV = -1 }, false},
		{"three lines", func(p *Nameplate) { p.Lines = 3 }, true},
		{"no line", func(p *Nameplate) { p.Lines = 0 }, false},
		{"to earth without a neutral", func(p *Nameplate) {
			p.Neutral = false
			p.Modes[LineEarth], p.Modes[LineNeutral] = p.Modes[LineNeutral], ModePlate{}
		}, true},
		{"neutral to earth without a neutral", func(p *Nameplate) {
			p.Neutral = false
			p.Modes[NeutralEarth], p.Modes[LineNeutral] = p.Modes[LineNeutral], ModePlate{}
		}, false},
	} {
		p := base
		row.change(&p)
		if err := p.check(); (err == nil) != row.taken {
			t.Errorf("%s: got %v", row.name, err)
		}
	}
	stated := base
	stated.In = 5e3
	if a, b := calibrated(t, base), calibrated(t, stated); !slices.Equal(a.Curves[LineNeutral].Volts, b.Curves[LineNeutral].Volts) {
		t.Error("nothing stated of In is not 5 kA")
	}
	// Where no MCOV is stated, the block is that of a third of the level.
	small := plate(Up, 0, 1, true, [ModeCount]float64{960, 0, 0, 0}, [ModeCount]float64{0.5, 0, 0, 0})
	if got := calibrated(t, small).Curves[LineNeutral].Name; !strings.HasPrefix(got, "L-N, block 32 mm, 130 V x ") {
		t.Errorf("an MCOV of half a volt is of the least block: got %q", got)
	}
	unrated := plate(Up, 0, 1, true, [ModeCount]float64{960, 0, 0, 0}, [ModeCount]float64{})
	if got := calibrated(t, unrated).Curves[LineNeutral].Name; !strings.HasPrefix(got, "L-N, block 40 mm, 320 V x ") {
		t.Errorf("960 V without an MCOV: got %q", got)
	}
}

// A long pair of leads has 0.4 acosh(D/d) uH/m (standard line theory): apart by 0.2 m,
// by 1.25 diameters in a bundle, by one where they touch. Turns below none are none.
func TestLongLeads(t *testing.T) {
	cover, copper := InsulatedDiameter(usual), 2*math.Sqrt(usual/math.Pi)
	for run, apart := range map[Run]float64{Separate: 0.2, Bundled: 1.25 * cover, Twisted: cover} {
		leads := alike(1000, run)
		within(t, "long pair, H/m", loop(leads, "AN")/1000, 0.4e-6*math.Acosh(apart/copper), 1e-3)
		leads.Coils = -1
		within(t, "turns below none", loop(leads, "AN"), loop(alike(1000, run), "AN"), 1e-12)
	}
	coiled := alike(0.5, Separate)
	plain := loop(coiled, "AN")
	coiled.Coils = 3
	within(t, "three turns of 0.15 m in each", loop(coiled, "AN")-plain, 6*0.390e-6, 5e-3)
	thick := alike(1, Separate) // thicker than the usual distance: they touch
	thick.Phase.Area, thick.Neutral.Area = 0.1, 0.1
	cover, copper = InsulatedDiameter(0.1), 2*math.Sqrt(0.1/math.Pi)
	within(t, "thick ones", loop(thick, "AN"), 2*(SelfInductance(1, copper/2)-MutualInductance(1, 1, facing(cover, copper/2))), 1e-9)
}

// What a model says that its tests read is what they read by the steps of the
// calibration, also of a mode that is not met; a gap is read by fine steps always.
func TestReadingsAreThoseOfTheModel(t *testing.T) {
	type volts = [ModeCount]float64
	plates := typical()
	for _, levels := range []volts{{700, 700, 700, 4000}, {700, 700, 4000, 1200}, {1, 700, 700, 1200}, {40000, 0, 0, 0}, {330, 400, 500, 600}} {
		plates = append(plates, named{"odd levels", plate(VPR, 0, 3, true, levels, volts{150, 150, 150, 300})})
	}
	gap := plate(VPR, 0, 1, true, volts{700, 1600, 700, 0}, volts{150, 0, 150, 0})
	gap.Modes[LineEarth].Switching = true
	for _, row := range append(plates, named{"a gap that others hold", gap}) {
		m := calibrated(t, row.plate)
		for mode := range Mode(ModeCount) {
			if !row.plate.Modes[mode].Connected {
				continue
			}
			got, err := m.read(context.Background(), mode, coarseStep)
			if err != nil {
				t.Fatal(err)
			}
			within(t, row.name+" "+mode.String(), m.Readings[mode], got, 1e-9)
			fine, err := m.Test(context.Background(), mode)
			if err != nil {
				t.Fatal(err)
			}
			if m.Gaps[mode] != nil && fine != got {
				t.Errorf("%s, %s: a gap reads %g V by fine steps and %g V else", row.name, mode, fine, got)
			}
		}
	}
}

// A block of another thickness has a capacitance that goes against its voltage, down to
// a quarter of it.
func TestCapacitanceGoesAgainstTheVoltage(t *testing.T) {
	block := material(t, "block 40 mm, 320 V")
	for _, level := range []float64{500, 1500, 3000} {
		m := calibrated(t, plate(Up, 0, 1, true, [ModeCount]float64{level, 0, 0, 0}, [ModeCount]float64{320, 0, 0, 0}))
		within(t, "capacitance times voltage", m.Farads[LineNeutral]*m.Curves[LineNeutral].Voltage(1), block.Farads*block.Voltage(1), 1e-3)
	}
	least := calibrated(t, plate(Up, 0, 1, true, [ModeCount]float64{100, 0, 0, 0}, [ModeCount]float64{320, 0, 0, 0}))
	within(t, "the most capacitance", least.Farads[LineNeutral], 4*block.Farads, 1e-9)
}

// Of thick turns the formula of thin ones would fall below nothing: mu0 R (ln(8R/r) - 2).
// Aluminium in a thin wire is that of IEC 60889.
func TestThickTurnsAndAluminium(t *testing.T) {
	within(t, "a turn of wire a third of it thick", turn(0.15, 0.025), 4e-7*math.Pi*0.075*(math.Log(24)-2), 1e-9)
	within(t, "a turn of wire half as thick", turn(0.15, 0.05), 4e-7*math.Pi*0.075*(math.Log(12)-2), 1e-9)
	if got := turn(0.15, 0.1); got != 0 {
		t.Errorf("a turn with no hole: got %g H", got)
	}
	within(t, "thin aluminium", SurgeResistance(1e-8, conductor.Aluminium, waveform.FrontTone), 2.82, 1e-9)
}
