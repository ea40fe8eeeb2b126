package transient

import (
	"fmt"
	"math"
	"math/rand/v2"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// wild makes a network that nobody would draw: a tree or mesh of 2 to 40 buses
// of 1 to 4 conductors, 1 m to 1 km apart, with everything that can be on them.
type wild struct {
	*rand.Rand
	n       *circuit.Network
	letters string
	buses   []circuit.Bus
	step    float64 // s, not longer than any line
}

// random returns the network of a seed, and a step that suits it. Where it is
// linear, nothing in it limits or switches.
func random(seed uint64, linear bool) (*circuit.Network, float64) {
	r := rand.New(rand.NewPCG(seed, 2024))
	w := &wild{Rand: r, n: &circuit.Network{}, letters: []string{"A", "AN", "ABN", "ABCN"}[r.IntN(4)], step: 10e-9}
	count := int(math.Round(w.between(2, 40)))
	for i := range count {
		b := addBus(w.n, fmt.Sprintf("bus %d", i), w.letters)
		if i > 0 {
			w.connect(w.buses[w.IntN(i)], b)
		}
		w.load(b)
		w.buses = append(w.buses, b)
	}
	for range count / 8 {
		if a, b := w.IntN(count), w.IntN(count); a != b {
			w.line(w.buses[a], w.buses[b])
		}
	}
	w.bond()
	if linear {
		w.surge(waveform.Combination)
	} else {
		w.surge(waveform.OneSided)
		w.protect()
	}
	return w.n, w.step
}

// between returns a number whose logarithm is even between two bounds.
func (w *wild) between(low, high float64) float64 {
	return low * math.Pow(high/low, w.Float64())
}

func (w *wild) connect(a, b circuit.Bus) {
	switch x := w.Float64(); {
	case x < 0.75:
		w.line(a, b)
	case x < 0.9:
		w.short(a, b)
	default:
		w.transformer(a, b)
	}
}

func (w *wild) line(a, b circuit.Bus) {
	length := w.between(1, 1000)
	own := w.between(20, 200)
	w.n.Lines = append(w.n.Lines, circuit.Line{
		Name: fmt.Sprintf("line %d", len(w.n.Lines)), A: nodes(a), B: nodes(b), Length: length,
		Z: w.impedance(own, len(a.Conductors)), Delay: length / w.between(1.5e8, 3e8),
		R: circuit.Balanced{Own: w.between(1e-4, 0.02) * length, Mutual: w.between(1e-4, 0.02) * length},
	})
	w.step = min(w.step, w.n.Lines[len(w.n.Lines)-1].Delay)
}

// impedance returns that of conductors at their own distances: of like ones, each
// current and each voltage by a factor of its own.
func (w *wild) impedance(own float64, m int) circuit.Matrix {
	out := circuit.Balanced{Own: own, Mutual: own * w.Float64()}.Matrix(m)
	for i := range m {
		for j := range m {
			out[i][j] *= (1 + 0.3*math.Sin(own+float64(2*i))) * (1 + 0.3*math.Sin(own+float64(2*j)))
		}
	}
	return out
}

// short joins two buses by coupled inductors.
func (w *wild) short(a, b circuit.Bus) {
	m, own := len(a.Conductors), w.between(0.1e-6, 2e-6)
	coupling := 0.8 * w.Float64()
	c := circuit.Inductor{Name: fmt.Sprintf("short feeder %d", len(w.n.Inductors)), Henries: make([]float64, m*m), Ohms: make([]float64, m)}
	for i := range m {
		c.Branches = append(c.Branches, circuit.Branch{A: a.Conductors[i].Node, B: b.Conductors[i].Node})
		c.Ohms[i] = w.between(1e-4, 0.1)
		for j := range m {
			c.Henries[i*m+j] = own * coupling
		}
		c.Henries[i*m+i] = own
	}
	w.n.Inductors = append(w.n.Inductors, c)
}

// transformer joins two buses by a winding for each conductor, against the
// neutral where there is one.
func (w *wild) transformer(a, b circuit.Bus) {
	m := len(a.Conductors)
	ratio, henries := w.between(0.25, 4), w.between(10e-6, 200e-6)
	neutral := func(bus circuit.Bus) circuit.Node {
		if m == 1 {
			return circuit.Earth
		}
		return bus.Conductors[m-1].Node
	}
	for i := range max(1, m-1) {
		p, s := a.Conductors[i].Node, b.Conductors[i].Node
		w.n.Windings = append(w.n.Windings, circuit.Winding{
			Name: fmt.Sprintf("winding %d", len(w.n.Windings)), P: circuit.Branch{A: p, B: neutral(a)}, S: circuit.Branch{A: s, B: neutral(b)},
			Ratio: ratio, Henries: henries, Ohms: w.between(1e-3, 0.1),
		})
		store(w.n, p, s, w.between(0.1e-9, 5e-9), 0)
		store(w.n, s, circuit.Earth, w.between(0.1e-9, 5e-9), 0)
	}
	if m > 1 { // the secondary's neutral is bonded
		wind(w.n, neutral(b), circuit.Earth, w.between(0.1e-6, 3e-6), 0.001)
	}
}

func (w *wild) load(b circuit.Bus) {
	m := len(b.Conductors)
	for _, p := range circuit.Pairs(m) {
		to := circuit.Earth
		if p.To != circuit.ToEarth {
			to = b.Conductors[p.To].Node
		}
		if w.Float64() < 0.2 {
			resist(w.n, b.Conductors[p.From].Node, to, w.between(1, 1e5))
		}
		if w.Float64() < 0.3 {
			store(w.n, b.Conductors[p.From].Node, to, w.between(0.1e-9, 1e-6), 0)
		}
	}
}

// bond joins the neutral of the first bus to earth.
func (w *wild) bond() {
	if c := w.buses[0].Conductors; len(c) > 1 {
		wind(w.n, c[len(c)-1].Node, circuit.Earth, w.between(0.1e-6, 5e-6), 0.001)
	}
}

// surge puts one to three generators on buses, the first on the first, combination
// waves from what makes them.
func (w *wild) surge(make func(volts, ohms float64) waveform.Generator) {
	for i := range 1 + w.IntN(3) {
		bus := w.buses[0]
		if i > 0 {
			bus = w.buses[w.IntN(len(w.buses))]
		}
		at, volts := bus.Conductors[w.IntN(len(bus.Conductors))].Node, w.between(500, 20*kilo)
		switch w.IntN(3) {
		case 0:
			w.n.AddCombination(fmt.Sprintf("generator %d", i), at, circuit.Earth, make(volts, w.between(1, 42)))
		case 1:
			drive(w.n, at, volts, w.between(12, 50), waveform.Ring100kHz())
		default:
			drive(w.n, at, 2*volts, w.between(2, 200), waveform.Current8x20())
		}
	}
}

// protect puts protectors of all kinds on a third of the buses.
func (w *wild) protect() {
	for i, b := range w.buses {
		name := fmt.Sprintf("protector %d", i)
		switch w.IntN(9) {
		case 0:
			addProtector(w.n, name, b, w.between(0.05, 2), disc150().curve(8))
		case 1:
			addProtector(w.n, name, b, w.between(0.05, 2), power(name, w.between(300, 3000), 3000, w.between(10, 50), 0.01))
		case 2:
			w.gap(name, b)
		}
	}
}

// gap puts a varistor from each line to a point, and a gap from there to earth.
func (w *wild) gap(name string, b circuit.Bus) {
	star, inner := w.n.AddNode(name+" star"), w.n.AddNode(name+" inner")
	for i, c := range b.Conductors {
		w.n.Varistors = append(w.n.Varistors, circuit.Varistor{Name: fmt.Sprintf("%s %d", name, i), A: c.Node, B: star, Curve: disc320().curve(8)})
	}
	wind(w.n, star, inner, w.between(0.05e-6, 1e-6), 0.001)
	spark := w.between(600, 4*kilo)
	w.n.Gaps = append(w.n.Gaps, circuit.Gap{
		Name: name, A: inner, Sparkover: spark, Arc: w.between(10, 300), Ohms: w.between(0.005, 0.1), Hold: w.between(0.1, 5), Off: 1e9,
	})
}
