package circuit_test

import (
	"testing"

	"clampline/analysis/circuit"

	"github.com/google/go-cmp/cmp"
)

func TestPairs(t *testing.T) {
	const earth = circuit.ToEarth
	for _, row := range []struct {
		name  string
		m     int
		pairs []circuit.Pair
		names []string
	}{
		{"one conductor", 1, []circuit.Pair{{0, earth}}, []string{"AG"}},
		{"two", 2, []circuit.Pair{{0, earth}, {1, earth}, {0, 1}}, []string{"AG", "BG", "AB"}},
		{"three", 3, []circuit.Pair{{0, earth}, {1, earth}, {2, earth}, {0, 1}, {0, 2}, {1, 2}},
			[]string{"AG", "BG", "CG", "AB", "AC", "BC"}},
		{"four", 4, []circuit.Pair{{0, earth}, {1, earth}, {2, earth}, {3, earth}, {0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}},
			[]string{"AG", "BG", "CG", "NG", "AB", "AC", "AN", "BC", "BN", "CN"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := circuit.Pairs(row.m)
			if diff := cmp.Diff(row.pairs, got); diff != "" {
				t.Errorf("pairs, want - got +\n%s", diff)
			}
			bus := circuit.Bus{Conductors: []circuit.Conductor{{'A', 1}, {'B', 2}, {'C', 3}, {'N', 4}}[:row.m]}
			var names []string
			for _, p := range got {
				names = append(names, bus.PairName(p))
			}
			if diff := cmp.Diff(row.names, names); diff != "" {
				t.Errorf("names, want - got +\n%s", diff)
			}
		})
	}
}

func TestNodesAreNumberedFromOne(t *testing.T) {
	n := &circuit.Network{}
	if got := n.NodeCount(); got != 0 {
		t.Errorf("got %d nodes in an empty network", got)
	}
	for want := circuit.Node(1); want <= 3; want++ {
		if got := n.AddNode("node"); got != want {
			t.Errorf("got node %d, want %d", got, want)
		}
	}
	if got := n.NodeCount(); got != 3 {
		t.Errorf("got %d nodes, want 3", got)
	}
	if n.Names[circuit.Earth] != "earth" {
		t.Errorf("got %q for the name of earth", n.Names[circuit.Earth])
	}
}
