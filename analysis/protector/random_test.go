package protector

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/transient"
)

// Any nameplate gives a model of finite numbers that can be installed and
// solved, or an error; never a number that is none, and never no end.
func TestRandomNameplates(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 23))
	rounds := 400
	if testing.Short() {
		rounds = 50
	}
	met := 0
	for range rounds {
		p := randomPlate(r)
		m, err := Calibrate(context.Background(), p)
		if err != nil {
			if p.check() == nil {
				t.Errorf("%+v: %v", p, err)
			}
			continue
		}
		checkModel(t, p, m)
		if len(m.Notes) == 0 {
			met++
		}
		n := &circuit.Network{}
		bus := addBus(n, "bus", []string{"ABCN", "ABN", "ABC", "AN", "A"}[r.IntN(5)])
		m.Install(n, "spd", bus, alike(5*r.Float64(), Run(r.IntN(3))))
		l := &listing{network: n, outer: circuit.Pair{From: 0, To: circuit.ToEarth}, gap: none}
		l.driveCombination()
		result, err := solve(context.Background(), n, transient.Options{Step: 50e-9, Duration: 5e-6})
		if err != nil || !finite(result.Buses[0][0].Volts) {
			t.Errorf("%+v: installed: %v", p, err)
		}
	}
	t.Logf("%d of %d nameplates are met", met, rounds)
	if met < rounds/10 {
		t.Errorf("only %d of %d nameplates are met", met, rounds)
	}
}

func randomPlate(r *rand.Rand) Nameplate {
	p := Nameplate{Rating: Rating(r.IntN(2)), Lines: 1 + r.IntN(3), Neutral: r.IntN(3) > 0, In: 20e3 * math.Floor(3*r.Float64()) / 2}
	for mode := range Mode(ModeCount) {
		if r.IntN(4) == 0 {
			continue
		}
		plate := ModePlate{Connected: true, Level: 300 + 2500*r.Float64(), MCOV: 700 * math.Floor(2*r.Float64()) * r.Float64(), Switching: r.IntN(5) == 0}
		switch r.IntN(12) {
		case 0:
			plate.Level = 1
		case 1:
			plate.Level = 40e3
		case 2:
			plate.Level = math.Pow(10, 6*r.Float64())
		case 3:
			plate.Level = -100 * r.Float64()
		}
		if mode != LineEarth && !p.Neutral && mode != LineLine || mode == LineLine && p.Lines < 2 {
			plate.Connected = r.IntN(20) == 0
		}
		p.Modes[mode] = plate
	}
	return p
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// checkModel looks at every number of a model.
func checkModel(t *testing.T, p Nameplate, m *Model) {
	t.Helper()
	told := map[bool]int{}
	for mode := range Mode(ModeCount) {
		plate := p.Modes[mode]
		switch {
		case !plate.Connected:
			if m.Curves[mode] != nil || m.Gaps[mode] != nil || m.Readings[mode] != 0 {
				t.Errorf("%+v: mode %s is not connected and has a component", p, mode)
			}
			continue
		case plate.Switching != (m.Gaps[mode] != nil) || plate.Switching == (m.Curves[mode] != nil):
			t.Errorf("%+v: mode %s has the wrong component", p, mode)
		}
		if !finite(m.Readings[mode]) || !(m.Readings[mode] > 0) || !finite(m.Farads[mode]) {
			t.Errorf("%+v: mode %s reads %g V, has %g F", p, mode, m.Readings[mode], m.Farads[mode])
		}
		told[math.Abs(math.Log(m.Readings[mode]/plate.Level)) > tolerance]++
	}
	if told[true] != len(m.Notes) {
		t.Errorf("%+v: %d modes read something else, and %d notes: %q", p, told[true], len(m.Notes), m.Notes)
	}
}
