package transient

import (
	"context"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// alone returns the network with all sources and charges but one silent; their
// impedances stay. Sources are counted first.
func alone(n *circuit.Network, keep int) *circuit.Network {
	out := *n
	out.Sources = append([]circuit.Source(nil), n.Sources...)
	out.Capacitors = append([]circuit.Capacitor(nil), n.Capacitors...)
	count := 0
	for i := range out.Sources {
		if count != keep {
			out.Sources[i].Volts = 0
		}
		count++
	}
	for i := range out.Capacitors {
		if out.Capacitors[i].Charged == 0 {
			continue
		}
		if count != keep {
			out.Capacitors[i].Charged = 0
		}
		count++
	}
	return &out
}

// drivers returns how many sources and charges a network has.
func drivers(n *circuit.Network) int {
	count := len(n.Sources)
	for _, c := range n.Capacitors {
		if c.Charged != 0 {
			count++
		}
	}
	return count
}

// Without varistors and gaps, several surges together are the sum of each
// alone. Tolerance: rounding over thousands of steps.
func TestSuperposition(t *testing.T) {
	worst, tried := 0.0, 0
	for seed := range uint64(networks) {
		n, step := random(seed, true)
		count := drivers(n)
		if count < 2 {
			continue
		}
		tried++
		together := waves(t, n, step, 5*microsec)
		parts := make([][]waveform.Trace, count)
		for i := range parts {
			parts[i] = waves(t, alone(n, i), step, 5*microsec)
		}
		for bus, w := range together {
			crest, _ := w.Peak()
			for k, got := range w.Values {
				want := 0.0
				for _, p := range parts {
					want += p[bus].Values[k]
				}
				worst = max(worst, math.Abs(got-want)/max(1, math.Abs(crest)))
			}
		}
	}
	t.Logf("worst of %d networks: %.3g of the crest", tried, worst)
	if tried < networks/2 || worst > exact {
		t.Errorf("got sums wrong by up to %.3g of the crest in %d networks", worst, tried)
	}
}

// quick is the current of a subsequent lightning stroke, 0.25/100 µs. Constants of
// IEC 62305-1:2010 annex B, from memory.
var quick = waveform.Shape{Name: "0.25/100", Form: waveform.Heidler, Scale: 1 / 0.993, Rise: 0.454 * microsec, Fall: 143 * microsec, Front: 0.25 * microsec, Tail: 100 * microsec}

// A current driven into one conductor makes the same voltage at another as the
// same current there does here, at every step.
func TestReciprocity(t *testing.T) {
	worst := 0.0
	for seed := range uint64(networks) {
		n, step := random(seed, true)
		n.Sources = nil
		for i := range n.Capacitors {
			n.Capacitors[i].Charged = 0
		}
		near := n.Buses[0].Conductors[0].Node
		far := n.Buses[len(n.Buses)-1].Conductors
		there := far[len(far)-1].Node
		drive(n, near, kilo, 50, quick)
		drive(n, there, kilo, 50, quick)
		last := Probe{len(n.Buses) - 1, circuit.Pair{From: len(far) - 1, To: circuit.ToEarth}}
		first := Probe{0, circuit.Pair{From: 0, To: circuit.ToEarth}}
		out := run(t, alone(n, 0), Options{Step: step, Duration: 5 * microsec, Record: []Probe{last}}).Traces[0]
		back := run(t, alone(n, 1), Options{Step: step, Duration: 5 * microsec, Record: []Probe{first}}).Traces[0]
		crest, _ := out.Peak()
		for k, v := range out.Values {
			worst = max(worst, math.Abs(v-back.Values[k])/max(1, math.Abs(crest)))
		}
	}
	t.Logf("worst of %d networks: %.3g of the crest", networks, worst)
	if worst > exact {
		t.Errorf("got voltages that differ by up to %.3g of the crest", worst)
	}
}

// A cluster solved as one sum gives what its elements give one by one.
func TestFusedIsThatOfItsElements(t *testing.T) {
	worst, fusedClusters := 0.0, 0
	for seed := range uint64(networks) {
		n, step := random(seed, false)
		var out [2][]waveform.Trace
		for i := range out {
			s, err := New(context.Background(), n, Options{Step: step, Duration: 5 * microsec, Record: toEarth(n)})
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range s.clusters {
				if c.fused != nil && i == 0 {
					fusedClusters++
				}
				if i == 1 {
					c.fused = nil
				}
			}
			result, err := s.Run(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			out[i] = result.Traces
		}
		for bus, w := range out[0] {
			crest, _ := w.Peak()
			for k, got := range w.Values {
				worst = max(worst, math.Abs(got-out[1][bus].Values[k])/max(1, math.Abs(crest)))
			}
		}
	}
	t.Logf("worst of %d networks: %.3g of the crest", networks, worst)
	if worst > exact || fusedClusters < networks {
		t.Errorf("got voltages that differ by up to %.3g of the crest, in %d clusters", worst, fusedClusters)
	}
}
