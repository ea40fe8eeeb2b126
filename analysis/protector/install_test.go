package protector

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"github.com/google/go-cmp/cmp"
)

// addBus adds a bus with conductors of the letters.
func addBus(n *circuit.Network, name, letters string) circuit.Bus {
	bus := circuit.Bus{Name: name}
	for _, letter := range []byte(letters) {
		node := n.AddNode(name + " " + string(letter))
		bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letter, Node: node})
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: name + " leak " + string(letter), A: node, Ohms: leakOhms})
	}
	n.Buses = append(n.Buses, bus)
	return bus
}

// modes names what was placed.
func modes(all []Placed) string {
	var out []string
	for _, p := range all {
		out = append(out, string(p.From)+string(p.To))
	}
	return strings.Join(out, " ")
}

func TestInstall(t *testing.T) {
	all := [ModeCount]float64{700, 700, 700, 1200}
	wye := calibrated(t, plate(VPR, 0, 3, true, all, [4]float64{}))
	split := calibrated(t, plate(VPR, 0, 2, true, all, [4]float64{}))
	delta := calibrated(t, plate(VPR, 0, 3, false, [4]float64{0, 1200, 0, 1200}, [4]float64{}))
	lines := calibrated(t, plate(VPR, 0, 3, true, [4]float64{700, 0, 0, 0}, [4]float64{}))
	bond := calibrated(t, plate(VPR, 0, 3, true, [4]float64{0, 0, 700, 0}, [4]float64{}))
	three := plate(Up, 0, 3, true, [4]float64{1500, 0, 1500, 0}, [4]float64{})
	three.Modes[NeutralEarth].Switching = true
	gap := calibrated(t, three)
	for _, row := range []struct {
		name            string
		model           *Model
		bus             string
		varistors, gaps string
		leads           int
	}{
		{"all ten modes", wye, "ABCN", "AN BN CN AG BG CG NG AB AC BC", "", 5},
		{"two lines on three", split, "ABCN", "AN BN AG BG NG AB", "", 4},
		{"three lines on two", wye, "ABN", "AN BN AG BG NG AB", "", 4},
		{"no neutral on the bus", wye, "ABC", "AG BG CG AB AC BC", "", 4},
		{"one line", wye, "A", "AG", "", 2},
		{"no neutral in the protector", delta, "ABCN", "AG BG CG AB AC BC", "", 4},
		{"no earth lead without a mode to earth", lines, "ABCN", "AN BN CN", "", 4},
		{"neutral to earth only", bond, "ABCN", "NG", "", 2},
		{"nothing fits", lines, "ABC", "", "", 0},
		{"a gap", gap, "ABCN", "AN BN CN", "NG", 5},
	} {
		n := &circuit.Network{}
		bus := addBus(n, "bus", row.bus)
		installed := row.model.Install(n, "first", bus, Leads{})
		if got := modes(installed.Varistors); got != row.varistors {
			t.Errorf("%s: got varistors %s, want %s", row.name, got, row.varistors)
		}
		if got := modes(installed.Gaps); got != row.gaps {
			t.Errorf("%s: got gaps %s, want %s", row.name, got, row.gaps)
		}
		leads := 0
		for _, coil := range n.Inductors {
			leads += len(coil.Branches)
		}
		if leads != row.leads {
			t.Errorf("%s: got %d leads, want %d", row.name, leads, row.leads)
		}
		row.model.Install(n, "second", bus, Leads{Run: Twisted})
		if err := n.Validate(); err != nil {
			t.Errorf("%s: %v", row.name, err)
		}
		if name := twice(n); name != "" {
			t.Errorf("%s: the name %q is there twice", row.name, name)
		}
	}
}

// twice returns a name of an element or node that is there more than once.
func twice(n *circuit.Network) string {
	seen := map[string]bool{}
	names := append([]string{}, n.Names...)
	for _, x := range n.Inductors {
		names = append(names, x.Name)
	}
	for _, x := range n.Varistors {
		names = append(names, x.Name)
	}
	for _, x := range n.Gaps {
		names = append(names, x.Name)
	}
	for _, x := range n.Capacitors {
		names = append(names, x.Name)
	}
	for _, name := range names {
		if seen[name] {
			return name
		}
		seen[name] = true
	}
	return ""
}

// An element lies between the nodes that its Placed says, and has its own
// capacitance: that of the material over the scale of its curve.
func TestPlaced(t *testing.T) {
	p := plate(VPR, 0, 2, true, [4]float64{700, 700, 0, 0}, [4]float64{150, 150, 0, 0})
	m := calibrated(t, p)
	n := &circuit.Network{}
	bus := addBus(n, "bus", "ABN")
	other := circuit.Varistor{Name: "other", A: bus.Conductors[0].Node, Curve: m.Curves[0]}
	n.Varistors = append(n.Varistors, other)
	installed := m.Install(n, "spd", bus, Leads{})
	want := []Placed{{1, LineNeutral, 'A', 'N'}, {2, LineNeutral, 'B', 'N'}, {3, LineEarth, 'A', 'G'}, {4, LineEarth, 'B', 'G'}}
	if diff := cmp.Diff(want, installed.Varistors); diff != "" {
		t.Errorf("placed (-want +got):\n%s", diff)
	}
	for i, placed := range installed.Varistors {
		v, c := n.Varistors[placed.Index], n.Capacitors[i]
		wantName := fmt.Sprintf("spd %c-%c", placed.From, placed.To)
		if v.Name != wantName || n.Names[v.A] != "spd inside "+string(placed.From) || n.Names[v.B] != "spd inside "+string(placed.To) {
			t.Errorf("got %s from %s to %s, want %s between the ends of its leads", v.Name, n.Names[v.A], n.Names[v.B], wantName)
		}
		if c.A != v.A || c.B != v.B {
			t.Errorf("the capacitance of %s is elsewhere", v.Name)
		}
		product := c.Farads * v.Curve.Voltage(1)
		block := material(t, "block 40 mm, 150 V")
		within(t, "capacitance times voltage", product, block.Farads*block.Voltage(1), 1e-3)
	}
}

// The coil's branches all point from the bus to the protector, so that all
// mutual inductances are above zero, and the earth lead has its own length.
func TestEarthLead(t *testing.T) {
	m := calibrated(t, plate(VPR, 0, 1, false, [4]float64{0, 700, 0, 0}, [4]float64{}))
	n := &circuit.Network{}
	m.Install(n, "spd", addBus(n, "bus", "A"), Leads{Phase: Lead{Length: 1}, Earth: Lead{Length: 3}})
	coil := n.Inductors[0]
	radius := math.Sqrt(usual / math.Pi)
	within(t, "phase", coil.Mutual(0, 0), SelfInductance(1, radius)+inside, 1e-9)
	within(t, "earth", coil.Mutual(1, 1), SelfInductance(3, radius)+inside, 1e-9)
	within(t, "mutual", coil.Mutual(0, 1), MutualInductance(1, 3, facing(separation, radius)), 1e-9)
	if coil.Branches[0].A == circuit.Earth || coil.Branches[1].A != circuit.Earth {
		t.Errorf("got branches %v, want the second from earth to the protector", coil.Branches)
	}
}
