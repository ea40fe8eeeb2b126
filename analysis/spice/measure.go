package spice

import (
	"strings"

	"clampline/analysis/circuit"
)

// Kind is what a Measure tells. Its text begins the names of such measures.
type Kind string

// The kinds of measures, in SI units.
const (
	PeakVolts Kind = "peak"   // greatest magnitude of a voltage of a bus, V
	PeakTime  Kind = "time"   // when it is first reached, s
	PeakAmps  Kind = "amps"   // greatest magnitude of the current of a varistor or gap, A
	Charge    Kind = "charge" // integral of that magnitude, C
	Energy    Kind = "energy" // what the varistor or gap has taken, J
)

// Measure is one number that a deck prints.
type Measure struct {
	Name     string // in the deck: "peak_ln_main_switchboard"; unique
	Kind     Kind
	Bus      int    // of the network, or -1
	Mode     string // of a bus: "L-N", "L-G", "N-G" or "L-L"; the worst of its conductors
	Varistor int    // of the network, or -1
	Gap      int    // of the network, or -1
}

// Measures returns what the deck of a network prints, in that order: bus by
// bus, then varistors, then gaps.
func Measures(n *circuit.Network) []Measure {
	var out []Measure
	for _, m := range busMeasures(n) {
		for _, kind := range []Kind{PeakVolts, PeakTime} {
			out = append(out, Measure{Name: m.named(kind), Kind: kind, Bus: m.bus, Mode: m.mode, Varistor: -1, Gap: -1})
		}
	}
	for _, m := range limiterMeasures(n) {
		for _, kind := range []Kind{PeakAmps, Charge, Energy} {
			out = append(out, Measure{Name: m.named(kind), Kind: kind, Bus: -1, Varistor: m.varistor, Gap: m.gap})
		}
	}
	return out
}

// busMeasure is what is measured of one mode of a bus.
type busMeasure struct {
	bus   int
	slug  string
	mode  string
	pairs []circuit.Pair
}

func (m busMeasure) named(k Kind) string {
	mode := strings.ToLower(strings.ReplaceAll(m.mode, "-", ""))
	return string(k) + "_" + mode + "_" + m.slug
}

// busMeasures returns the modes of all buses.
func busMeasures(n *circuit.Network) []busMeasure {
	names := make([]string, len(n.Buses))
	for i, bus := range n.Buses {
		names[i] = bus.Name
	}
	var out []busMeasure
	for i, s := range distinct("bus", names) {
		for kind := range circuit.Kind(circuit.KindCount) {
			if pairs := pairsOf(n.Buses[i], kind); len(pairs) > 0 {
				out = append(out, busMeasure{i, s, kind.String(), pairs})
			}
		}
	}
	return out
}

// pairsOf returns the pairs of conductors of a bus that are of a kind.
func pairsOf(bus circuit.Bus, kind circuit.Kind) []circuit.Pair {
	var out []circuit.Pair
	for _, p := range circuit.Pairs(len(bus.Conductors)) {
		if bus.Kind(p) == kind {
			out = append(out, p)
		}
	}
	return out
}

// limiterMeasure is what is measured of a varistor or gap.
type limiterMeasure struct {
	name, slug    string
	varistor, gap int // one of them is -1
	element       string
	a, b          circuit.Node
}

func (m limiterMeasure) named(k Kind) string { return string(k) + "_" + m.slug }

// limiterMeasures returns all varistors and gaps.
func limiterMeasures(n *circuit.Network) []limiterMeasure {
	var out []limiterMeasure
	for i, v := range n.Varistors {
		out = append(out, limiterMeasure{name: v.Name, varistor: i, gap: -1, element: varistorName(n, i), a: v.A, b: v.B})
	}
	for i, g := range n.Gaps {
		out = append(out, limiterMeasure{name: g.Name, varistor: -1, gap: i, element: gapName(n, i), a: g.A, b: g.B})
	}
	names := make([]string, len(out))
	for i, m := range out {
		names[i] = m.name
	}
	for i, s := range distinct("limiter", names) {
		out[i].slug = s
	}
	return out
}
