package extract

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/protector"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

const awg12 = 3.31e-6 // m2

// loop returns the inductance of a go and return of two neighbours of m conductors,
// µH/m, and the impedance of that pair.
func loop(f diagram.Feeder, m int) (microhenry, ohms float64) {
	b := makeUp(f, m, waveform.FrontTone)
	l := b.l.Loop(0, 1)
	return l * 1e6, l * b.speed
}

// A loop of two building wires has 0.7 to 0.9 µH/m loose in a conduit (NEC
// chapter 9 table 9, twice the reactance of one; neighbours) and 0.5 to 0.6 from line
// to neutral of a flat cable (derived); the impedance of a pair in cable is 75 to 110 ohm and its speed
// 0.6 to 0.7 of that of light (surge literature, from memory).
func TestLoops(t *testing.T) {
	for _, row := range []struct {
		raceway   diagram.Raceway
		m         int
		low, high float64 // µH/m
	}{
		{diagram.NonmetallicConduit, 4, 0.7, 0.9},
		{diagram.Tray, 4, 0.7, 0.9},
		{diagram.SheathedCable, 2, 0.5, 0.62},
		{diagram.SteelConduit, 4, 0.4, 0.7},  // the images in the wall take some of it away
		{diagram.ArmouredCable, 4, 0.3, 0.6}, // and more in an armour close by
		{diagram.Busway, 4, 0.2, 0.35},       // 0.017 to 0.02 ohm per 1000 ft of a bar at 60 Hz (low-impedance busway, from memory), of two
		{diagram.Overhead, 2, 2, 2.6},        // 0.4 ln(D/r) at 0.3 m
	} {
		got, ohms := loop(diagram.Feeder{Area: awg12, Raceway: row.raceway}, row.m)
		if got < row.low || got > row.high {
			t.Errorf("%s: got %.3f µH/m, want %g to %g", row.raceway, got, row.low, row.high)
		}
		t.Logf("%s: %.3f µH/m, %.0f ohm", row.raceway, got, ohms)
	}
	if _, ohms := loop(diagram.Feeder{Area: awg12, Raceway: diagram.SheathedCable}, 2); ohms < 75 || ohms > 110 {
		t.Errorf("sheathed cable: got %.0f ohm, want 75 to 110", ohms)
	}
}

func TestSpeeds(t *testing.T) {
	for _, row := range []struct {
		raceway   diagram.Raceway
		low, high float64 // of the speed of light
	}{{diagram.NonmetallicConduit, 0.6, 0.7}, {diagram.SheathedCable, 0.53, 0.63}, {diagram.Overhead, 0.95, 1}} {
		got := makeUp(diagram.Feeder{Area: awg12, Raceway: row.raceway}, 3, waveform.FrontTone).speed / lightSpeed
		if got < row.low || got > row.high {
			t.Errorf("%s: got %.3f of the speed of light, want %g to %g", row.raceway, got, row.low, row.high)
		}
	}
}

// Two conductors in a tube are a shielded pair: Z = 120/√e ln(2 v (1 - s²)/(1 + s²))
// with v = h/d and s = h/D of the distance h between them, their diameter d and that
// of the tube inside, D (Reference Data for Radio Engineers, transmission lines; from
// memory).
func TestShieldedPair(t *testing.T) {
	for _, pitch := range []float64{10e-3, 14e-3, 18e-3} {
		const area = 33.6e-6
		// The tube is filled to 40 % with three of them (NEC chapter 9 table 1), or
		// else leaves the two a third of their distance.
		tube := max(protector.InsulatedDiameter(area)*math.Sqrt(3/0.4), 1.5*pitch)
		apart := min(pitch, tube/2)
		v, s := apart/(2*radiusOf(area)), apart/tube
		want := 119.9 * math.Log(2*v*(1-s*s)/(1+s*s)) // 120 is twice the speed of light times 0.2 µH/m
		if got := 2 * inShell(area, 2, pitch).Own * lightSpeed; math.Abs(got-want) > 1e-3*want {
			t.Errorf("pitch %g m: got %.4g ohm, want %.4g", pitch, got, want)
		}
	}
}

// One conductor in the middle of a tube is a coaxial line: Z = 60 ln(D/d); beside the
// middle by b it has ln((T² - b²)/(T r)) of it (textbook line theory).
func TestSingleInTube(t *testing.T) {
	const area = 33.6e-6
	tube := protector.InsulatedDiameter(area) / 2 * math.Sqrt(2/0.4)
	pitch := 1e-9 // hardly beside the middle
	got := inShell(area, 1, pitch)
	want := 0.2e-6 * math.Log(max(tube, 7.9e-3)/radiusOf(area))
	if together := got.Own + got.Mutual; math.Abs(together-want) > 1e-6*want {
		t.Errorf("got %g H/m, want %g", together, want)
	}
}

// All conductors together against the earth conductor: a metal wall close by
// leaves far less inductance than an earth wire like the others.
func TestCommonMode(t *testing.T) {
	together := func(r diagram.Raceway) float64 {
		l := makeUp(diagram.Feeder{Area: awg12, Raceway: r}, 4, waveform.FrontTone).l
		y := l.Inverse(4)
		sum := 0.0
		for i := range y {
			for j := range y {
				sum += y[i][j]
			}
		}
		return 1 / sum
	}
	if steel, plastic := together(diagram.SteelConduit), together(diagram.NonmetallicConduit); steel > plastic/2 {
		t.Errorf("got %g H/m in steel and %g in plastic, want less than half", steel, plastic)
	}
}

// Every make-up is something that can exist: positive inductances, and a speed
// not above that of light.
func TestEveryMakeUp(t *testing.T) {
	for _, raceway := range append(diagram.Raceways(), "") {
		for _, area := range []float64{0.1e-6, 2e-6, 33e-6, 500e-6, 5000e-6} {
			for m := 1; m <= 4; m++ {
				b := makeUp(diagram.Feeder{Area: area, Raceway: raceway, Parallel: 2}, m, waveform.FrontTone)
				n := &circuit.Network{}
				line := circuit.Line{Name: "feeder", Z: b.l.Scaled(b.speed), R: b.r, Delay: 1e-7}
				for range m {
					line.A, line.B = append(line.A, n.AddNode("near")), append(line.B, n.AddNode("far"))
				}
				n.Lines = []circuit.Line{line}
				if err := n.Validate(); err != nil || !(b.r.Own > 0 && b.speed > 0 && b.speed <= lightSpeed) {
					t.Errorf("%q of %g m², %d conductors: got %+v, %v", raceway, area, m, b, err)
				}
			}
		}
	}
}

// A current of the first conductor comes back by the neutral, or another line, or earth where
// neither is there.
func TestWayBack(t *testing.T) {
	for letters, want := range map[string]int{"ABCN": 3, "AN": 1, "ABN": 2, "ABC": 1, "AB": 1, "A": circuit.ToEarth, "N": circuit.ToEarth} {
		if got := backOf(letters); got != want {
			t.Errorf("%s: got %d, want %d", letters, got, want)
		}
	}
}

func TestParallelSets(t *testing.T) {
	one := makeUp(diagram.Feeder{Area: awg12}, 3, waveform.FrontTone)
	two := makeUp(diagram.Feeder{Area: awg12, Parallel: 2}, 3, waveform.FrontTone)
	near(t, "inductance of two sets", two.l[0][1], one.l[0][1]/2, 1e-12)
	near(t, "resistance of two sets", two.r.Own, one.r.Own/2, 1e-12)
	if one.speed != two.speed {
		t.Errorf("got a speed of %g for two sets and %g for one", two.speed, one.speed)
	}
}

// The bars of a busway have the loop twice their own inductance, and all together half
// of one more.
func TestBusway(t *testing.T) {
	b := makeUp(diagram.Feeder{Area: 500e-6, Raceway: diagram.Busway}, 4, waveform.FrontTone)
	if b.l[0][1] <= 0 || 2*b.l[0][1] >= b.l[0][0] || b.r.Mutual != 0 || b.speed < 0.53*lightSpeed || b.speed > 0.63*lightSpeed {
		t.Errorf("got %+v", b)
	}
}
