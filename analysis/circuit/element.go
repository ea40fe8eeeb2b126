package circuit

import "clampline/analysis/waveform"

// Line is a lossless travelling-wave line with its resistance at the two ends:
// a bundle of conductors, each at its own place, with the earth conductor as return.
//
// With Z its surge impedance and Delay the time along it, the wave that leaves
// one end, v/Z + i, arrives at the other one delay later. All modes travel at
// one speed, so it is as many ordinary lines, one between every two of its conductors
// and one from each to earth, with the admittances of the inverse of Z.
type Line struct {
	Name   string
	A, B   []Node   // the two ends, conductor by conductor, 1 to MaxConductors of them
	Z      Matrix   // ohm; positive definite
	R      Balanced // ohm in all, half of it in series at each end; not below zero
	Delay  float64  // s
	Length float64  // m; only told in results
}

// Resistor is a resistance.
type Resistor struct {
	Name string
	A, B Node
	Ohms float64 // above zero
}

// Capacitor is a capacitance that may be charged when the surge begins.
type Capacitor struct {
	Name    string
	A, B    Node
	Farads  float64 // above zero
	Charged float64 // V at the start, of A against B
}

// Branch is a way from one node to another.
type Branch struct{ A, B Node }

// Inductor is a set of coupled inductances, each with a resistance in series: the
// leads of a protector, a short feeder, a bond.
type Inductor struct {
	Name     string
	Branches []Branch
	Henries  []float64 // matrix row by row, symmetric and positive definite
	Ohms     []float64 // in series with each branch, not below zero
}

// Mutual returns the inductance between two branches, H; the self inductance
// where they are the same.
func (c Inductor) Mutual(i, j int) float64 { return c.Henries[i*len(c.Branches)+j] }

// Winding is a pair of windings on one core: an ideal transformer without
// magnetising current, with its leakage in series on the secondary side.
//
// The current i leaves at the dot of the secondary, S.A, and i/Ratio enters at
// the dot of the primary, P.A: (v(P.A)-v(P.B))/Ratio - (v(S.A)-v(S.B)) =
// Henries di/dt + Ohms i.
type Winding struct {
	Name    string
	P, S    Branch
	Ratio   float64 // turns of the primary over those of the secondary, above zero
	Henries float64 // above zero
	Ohms    float64 // not below zero
}

// Source drives a wave through a resistance: an electromotive force of
// Volts times the shape, plus at A, in series with Ohms.
type Source struct {
	Name  string
	A, B  Node
	Volts float64
	Shape waveform.Shape
	Ohms  float64 // above zero
}

// Varistor is a voltage-limiting component.
type Varistor struct {
	Name  string
	A, B  Node
	Curve *Curve
}

// Diode conducts from A to B: one resistance where A is above B, another where
// it is below.
type Diode struct {
	Name string
	A, B Node
	On   float64 // ohm from A to B, above zero
	Off  float64 // ohm back, above On
}

// Gap is a voltage-switching component: a spark gap or gas tube. It is open
// until the voltage across it reaches Sparkover, then holds Arc plus Ohms times
// its current. It opens again once the current, having been above Hold, falls
// below it or turns; where Hold is zero the arc outlasts the surge.
type Gap struct {
	Name      string
	A, B      Node
	Sparkover float64 // V, above Arc
	Arc       float64 // V, above zero
	Ohms      float64 // ohm of the arc, above zero
	Hold      float64 // A, not below zero
	Off       float64 // ohm while it is open, above zero
}
