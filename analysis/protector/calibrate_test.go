package protector

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
)

// plate returns a nameplate with varistors; a level of 0 leaves a mode out.
func plate(rating Rating, amps float64, lines int, neutral bool, levels, mcov [ModeCount]float64) Nameplate {
	p := Nameplate{Rating: rating, Lines: lines, Neutral: neutral, In: amps}
	for mode, level := range levels {
		if level > 0 {
			p.Modes[mode] = ModePlate{Connected: true, Level: level, MCOV: mcov[mode]}
		}
	}
	return p
}

// calibrated returns the model of a nameplate that can be met.
func calibrated(t testing.TB, p Nameplate) *Model {
	t.Helper()
	m, err := Calibrate(context.Background(), p)
	if err != nil {
		t.Fatalf("%+v: %v", p, err)
	}
	return m
}

// named is a nameplate with a name for tests.
type named struct {
	name  string
	plate Nameplate
}

// typical returns what panel protectors for the usual systems state: typical of
// the trade.
func typical() []named {
	type volts = [ModeCount]float64
	out := []named{
		{"120/240 split", plate(VPR, 20e3, 2, true, volts{700, 700, 700, 1200}, volts{150, 150, 150, 300})},
		{"120 single", plate(VPR, 20e3, 1, true, volts{700, 700, 700, 0}, volts{150, 150, 150, 0})},
		{"208Y/120", plate(VPR, 20e3, 3, true, volts{700, 700, 700, 1200}, volts{150, 150, 150, 300})},
		{"240/120 high leg", plate(VPR, 20e3, 3, true, volts{1200, 1200, 700, 1200}, volts{320, 320, 150, 320})},
		{"240 delta", plate(VPR, 20e3, 3, false, volts{0, 1200, 0, 1200}, volts{0, 320, 0, 320})},
		{"480Y/277", plate(VPR, 20e3, 3, true, volts{1200, 1200, 1200, 2000}, volts{320, 320, 320, 640})},
		{"600Y/347", plate(VPR, 20e3, 3, true, volts{1800, 1800, 1800, 3000}, volts{420, 420, 420, 840})},
		{"480 delta", plate(VPR, 20e3, 3, false, volts{0, 2000, 0, 2000}, volts{0, 550, 0, 550})},
		{"600 delta", plate(VPR, 20e3, 3, false, volts{0, 2500, 0, 2500}, volts{0, 690, 0, 690})},
	}
	for _, amps := range []float64{5e3, 20e3} {
		earthed := plate(Up, amps, 3, true, volts{1500, 1500, 1500, 0}, volts{275, 275, 255, 0})
		gap := plate(Up, amps, 3, true, volts{1500, 0, 1500, 0}, volts{275, 0, 255, 0})
		gap.Modes[NeutralEarth].Switching = true
		single := earthed
		single.Lines = 1
		out = append(out,
			named{"230/400", earthed}, named{"230/400 with gap", gap}, named{"230 single", single},
			named{"230/400 isolated", plate(Up, amps, 3, true, volts{2500, 2500, 2500, 0}, volts{440, 440, 440, 0})})
	}
	return out
}

// The listing test of every usual protector reads its nameplate, solved at half
// the step by which it was calibrated: 0.2 % are the calibration's, the rest the
// step's.
func TestNameplateIsReadBack(t *testing.T) {
	for _, row := range typical() {
		t.Run(row.name, func(t *testing.T) {
			m := calibrated(t, row.plate)
			if len(m.Notes) > 0 {
				t.Errorf("notes %q, want none", m.Notes)
			}
			for mode := range Mode(ModeCount) {
				plate := row.plate.Modes[mode]
				if !plate.Connected {
					continue
				}
				got, err := m.Test(context.Background(), mode)
				if err != nil {
					t.Fatal(err)
				}
				within(t, mode.String(), got, plate.Level, 0.01)
				within(t, mode.String()+" as told", m.Readings[mode], plate.Level, 0.002)
			}
		})
	}
}

// An Up protector of one mode at its terminals is the curve itself at In, but
// for the wiring inside: its 40 nH add little at the crest of 5 kA.
func TestUpIsTheCurveAtIn(t *testing.T) {
	m := calibrated(t, plate(Up, 0, 1, true, [4]float64{1500, 0, 0, 0}, [4]float64{275, 0, 0, 0}))
	within(t, "voltage at 5 kA", m.Curves[LineNeutral].Voltage(5e3), 1500, 0.005)
	m = calibrated(t, plate(Up, 20e3, 1, true, [4]float64{1500, 0, 0, 0}, [4]float64{275, 0, 0, 0}))
	if got := m.Curves[LineNeutral].Voltage(20e3); got >= 1500 || got < 1400 {
		t.Errorf("voltage at 20 kA: got %.0f V, want a little below 1500 V", got)
	}
}

// What a nameplate cannot mean is told, and the mode has its level at the
// current of the test.
func TestNotes(t *testing.T) {
	type volts = [ModeCount]float64
	mcov := volts{150, 150, 150, 300}
	for _, row := range []struct {
		name   string
		levels volts
		mode   Mode
		want   string
	}{
		{"leads alone give more", volts{1, 700, 700, 0}, LineNeutral, "L-N: the nameplate states 1 V, but the simulated test reads"},
		{"two in series hold it", volts{700, 700, 700, 4000}, LineLine, "other modes in series hold it lower"},
		{"two of the three hold it", volts{700, 700, 4000, 1200}, NeutralEarth, "other modes in series hold it lower"},
		{"never so high", volts{40000, 0, 0, 0}, LineNeutral, "the test has no more than 6000 V"},
	} {
		m := calibrated(t, plate(VPR, 0, 3, true, row.levels, mcov))
		if len(m.Notes) == 0 || !strings.Contains(strings.Join(m.Notes, "\n"), row.want) {
			t.Errorf("%s: got %q, want %q among them", row.name, m.Notes, row.want)
		}
		within(t, row.name, m.Curves[row.mode].Voltage(3000), row.levels[row.mode], 1e-3)
		got, err := m.Test(context.Background(), row.mode)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got/row.levels[row.mode]-1) < 0.01 {
			t.Errorf("%s: the test reads the level, %.0f V, after all", row.name, got)
		}
	}
}

func TestErrors(t *testing.T) {
	good := typical()[0].plate
	for _, row := range []struct {
		name   string
		change func(*Nameplate)
		want   string
	}{
		{"no level", func(p *Nameplate) { p.Modes[LineEarth].Level = 0 }, "mode L-G: the level is 0 V; state one above zero"},
		{"level below zero", func(p *Nameplate) { p.Modes[LineLine].Level = -700 }, "mode L-L: the level is -700 V"},
		{"level no number", func(p *Nameplate) { p.Modes[LineNeutral].Level = math.NaN() }, "mode L-N"},
		{"endless MCOV", func(p *Nameplate) { p.Modes[NeutralEarth].MCOV = math.Inf(1) }, "mode N-G: the MCOV"},
		{"no neutral", func(p *Nameplate) { p.Neutral = false }, "mode L-N: the protector has no neutral"},
		{"one line", func(p *Nameplate) { p.Lines = 1 }, "mode L-L: the protector has one line only"},
		{"four lines", func(p *Nameplate) { p.Lines = 4 }, "4 lines"},
		{"no modes", func(p *Nameplate) { p.Modes = [ModeCount]ModePlate{} }, "no mode"},
		{"In below zero", func(p *Nameplate) { p.In = -1 }, "nominal discharge current"},
		{"no such rating", func(p *Nameplate) { p.Rating = 7 }, "rating"},
	} {
		p := good
		row.change(&p)
		if _, err := Calibrate(context.Background(), p); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: got error %v, want %q in it", row.name, err, row.want)
		}
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Calibrate(ended, good); !errors.Is(err, context.Canceled) {
		t.Errorf("after the context has ended: got error %v, want %v", err, context.Canceled)
	}
	m := calibrated(t, plate(VPR, 0, 3, true, [4]float64{700, 0, 0, 0}, [4]float64{}))
	if _, err := m.Test(context.Background(), LineLine); err == nil {
		t.Error("a mode that is not connected was tested")
	}
}

// A gap of a nameplate fires at a terminal voltage that is the level, whether
// or not the leads take a part, and holds the arc after.
func TestGap(t *testing.T) {
	for _, rating := range []Rating{VPR, Up} {
		p := Nameplate{Rating: rating, Lines: 1, Neutral: true}
		p.Modes[NeutralEarth] = ModePlate{Connected: true, Level: 1500, Switching: true}
		m := calibrated(t, p)
		got, err := m.Test(context.Background(), NeutralEarth)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "fires at", got, 1500, 0.002)
		gap := m.Gaps[NeutralEarth]
		if gap.Sparkover > 1500 || gap.Sparkover < 1400 || m.Curves[NeutralEarth] != nil {
			t.Errorf("got %+v, want a gap of a little under 1500 V and no curve", gap)
		}
	}
}

func BenchmarkCalibrate(b *testing.B) {
	for _, row := range []named{typical()[2], typical()[5], typical()[10]} {
		b.Run(row.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				calibrated(b, row.plate)
			}
		})
	}
}
