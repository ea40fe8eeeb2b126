package protector

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// A protector on a mains, once as the circuit of what the surge adds, with the mains
// told of the bus, and once as the circuit of all voltages, in which a source makes the
// mains and everything is charged to it: the peaks are the same, in either polarity.
func TestMainsIsExact(t *testing.T) {
	for name, switching := range map[string]bool{"varistor": false, "gap": true} {
		p := plate(VPR, 0, 1, true, [4]float64{0, 900, 0, 0}, [4]float64{0, 320, 0, 0})
		p.Modes[LineEarth].Switching = switching
		m := calibrated(t, p)
		for _, volts := range []float64{-325, 0, 325} {
			added, all := onMains(t, m, volts, false), onMains(t, m, volts, true)
			if math.Abs(added-all) > 0.002*all {
				t.Errorf("%s, mains at %g V: got %.1f V, in the circuit of all voltages %.1f V", name, volts, added, all)
			}
		}
		if up, down := onMains(t, m, 325, false), onMains(t, m, -325, false); !switching && math.Abs(up-down) < 5 {
			t.Errorf("%s: got %.1f V and %.1f V, want the mains to matter", name, up, down)
		}
	}
}

// onMains returns the peak at a bus with a supply, a load, a protector and an 8/20
// surge through a capacitor, V.
func onMains(t *testing.T, m *Model, volts float64, all bool) float64 {
	t.Helper()
	n := &circuit.Network{}
	bus := addBus(n, "bus", "A")
	a, feed, coupled := bus.Conductors[0].Node, n.AddNode("feed"), n.AddNode("coupled")
	made, charged := 0.0, volts
	if all {
		made = volts
	} else {
		charged = 0
		bus.Mains = []float64{volts}
		n.Buses[0] = bus
	}
	n.Sources = []circuit.Source{
		{Name: "mains", A: feed, B: circuit.Earth, Volts: made, Shape: waveform.Steady(), Ohms: 0.05},
		{Name: "surge", A: coupled, B: circuit.Earth, Volts: 60e3, Shape: waveform.Current8x20(), Ohms: 20},
	}
	n.Inductors = []circuit.Inductor{{Name: "supply", Branches: []circuit.Branch{{A: feed, B: a}}, Henries: []float64{20e-6}, Ohms: []float64{0}}}
	m.Install(n, "spd", bus, alike(0.5, Separate))
	n.Capacitors = append(n.Capacitors,
		circuit.Capacitor{Name: "load", A: a, B: circuit.Earth, Farads: 100e-9, Charged: charged},
		circuit.Capacitor{Name: "coupling", A: a, B: coupled, Farads: 500e-6, Charged: charged})
	for i, c := range n.Capacitors {
		if strings.HasPrefix(c.Name, "spd") {
			n.Capacitors[i].Charged = charged
		}
	}
	return run(t, n, 5e-9, 30e-6).Buses[0][0].Volts
}

// What is scaled needs so much more voltage, and leaves the protector that it was made
// of as it was.
func TestScaled(t *testing.T) {
	p := plate(VPR, 0, 1, true, [4]float64{500, 0, 900, 0}, [4]float64{})
	p.Modes[NeutralEarth].Switching = true
	m := calibrated(t, p)
	before := m.Curves[LineNeutral].Voltage(3000)
	s := m.Scaled(1.1)
	within(t, "voltage at 3 kA", s.Curves[LineNeutral].Voltage(3000), 1.1*before, 1e-9)
	within(t, "sparkover", s.Gaps[NeutralEarth].Sparkover, 1.1*m.Gaps[NeutralEarth].Sparkover, 1e-9)
	within(t, "voltage of the first", m.Curves[LineNeutral].Voltage(3000), before, 1e-12)
	if s.Curves[LineNeutral].Name == m.Curves[LineNeutral].Name {
		t.Error("two curves have one name")
	}
}
