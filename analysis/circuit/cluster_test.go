package circuit_test

import (
	"testing"

	"clampline/analysis/circuit"

	"github.com/google/go-cmp/cmp"
)

// spread returns a network of nodes 1 to n that nothing joins.
func spread(n int) *circuit.Network {
	out := &circuit.Network{}
	for range n {
		out.AddNode("node")
	}
	return out
}

// Each element joins the nodes that it touches, and a line only those of one
// end. Earth joins nothing.
func TestClusters(t *testing.T) {
	for _, row := range []struct {
		name string
		put  func(n *circuit.Network)
		want [][]circuit.Node
	}{
		{"nothing", func(*circuit.Network) {}, [][]circuit.Node{{1}, {2}, {3}, {4}}},
		{"bus", func(n *circuit.Network) {
			n.Buses = []circuit.Bus{{Conductors: []circuit.Conductor{{'A', 4}, {'N', 2}}}}
		}, [][]circuit.Node{{1}, {2, 4}, {3}}},
		{"line", func(n *circuit.Network) {
			n.Lines = []circuit.Line{{A: []circuit.Node{1, 2}, B: []circuit.Node{3, 4}}}
		}, [][]circuit.Node{{1, 2}, {3, 4}}},
		{"resistor", func(n *circuit.Network) { n.Resistors = []circuit.Resistor{{A: 1, B: 3}} }, [][]circuit.Node{{1, 3}, {2}, {4}}},
		{"resistors to earth", func(n *circuit.Network) { n.Resistors = []circuit.Resistor{{A: 1}, {B: 3}, {A: 2}} },
			[][]circuit.Node{{1}, {2}, {3}, {4}}},
		{"capacitor", func(n *circuit.Network) { n.Capacitors = []circuit.Capacitor{{A: 2, B: 1}} }, [][]circuit.Node{{1, 2}, {3}, {4}}},
		{"inductor", func(n *circuit.Network) {
			n.Inductors = []circuit.Inductor{{Branches: []circuit.Branch{{A: 1}, {A: 4, B: 3}}}}
		}, [][]circuit.Node{{1, 3, 4}, {2}}},
		{"winding", func(n *circuit.Network) {
			n.Windings = []circuit.Winding{{P: circuit.Branch{A: 1}, S: circuit.Branch{A: 3, B: 2}}}
		}, [][]circuit.Node{{1, 2, 3}, {4}}},
		{"source", func(n *circuit.Network) { n.Sources = []circuit.Source{{A: 3, B: 4}} }, [][]circuit.Node{{1}, {2}, {3, 4}}},
		{"varistor", func(n *circuit.Network) { n.Varistors = []circuit.Varistor{{A: 3, B: 2}} }, [][]circuit.Node{{1}, {2, 3}, {4}}},
		{"gap", func(n *circuit.Network) { n.Gaps = []circuit.Gap{{A: 1, B: 2}} }, [][]circuit.Node{{1, 2}, {3}, {4}}},
		{"diode", func(n *circuit.Network) { n.Diodes = []circuit.Diode{{A: 4, B: 2}} }, [][]circuit.Node{{1}, {2, 4}, {3}}},
		{"chain", func(n *circuit.Network) {
			n.Resistors = []circuit.Resistor{{A: 4, B: 3}, {A: 1, B: 2}, {A: 2, B: 3}}
		}, [][]circuit.Node{{1, 2, 3, 4}}},
	} {
		t.Run(row.name, func(t *testing.T) {
			n := spread(4)
			row.put(n)
			var got [][]circuit.Node
			for _, c := range n.Clusters() {
				got = append(got, c.Nodes)
			}
			if diff := cmp.Diff(row.want, got); diff != "" {
				t.Errorf("want - got +\n%s", diff)
			}
		})
	}
}

func TestClustersHoldTheirBuses(t *testing.T) {
	n := spread(5)
	n.Buses = []circuit.Bus{
		{Name: "first", Conductors: []circuit.Conductor{{'A', 5}}},
		{Name: "empty"},
		{Name: "second", Conductors: []circuit.Conductor{{'A', 1}, {'N', 2}}},
		{Name: "third", Conductors: []circuit.Conductor{{'A', 3}}},
	}
	n.Inductors = []circuit.Inductor{{Branches: []circuit.Branch{{A: 2, B: 5}}}}
	want := []circuit.Cluster{
		{Nodes: []circuit.Node{1, 2, 5}, Buses: []int{0, 2}},
		{Nodes: []circuit.Node{3}, Buses: []int{3}},
		{Nodes: []circuit.Node{4}},
	}
	if diff := cmp.Diff(want, n.Clusters()); diff != "" {
		t.Errorf("want - got +\n%s", diff)
	}
	if got := (&circuit.Network{}).Clusters(); len(got) != 0 {
		t.Errorf("got %d clusters of an empty network", len(got))
	}
}
