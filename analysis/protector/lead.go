package protector

import (
	"cmp"
	"math"

	"clampline/analysis/conductor"
	"clampline/analysis/waveform"
)

// Run is how the leads of a protector lie to each other.
type Run int

// The runs. The zero value is Separate.
const (
	Separate Run = iota // each by itself, a hand's breadth or more apart
	Bundled             // tied together all the way
	Twisted             // touching all the way
)

// Lead is one conductor from the bus to the protector.
type Lead struct {
	Length float64 // m; anything shorter counts as 10 mm
	Area   float64 // cross-section of the copper, m2; 0 stands for 10 AWG, 5.26 mm2
}

// Leads are the conductors from the bus to the protector. All line conductors
// are alike.
type Leads struct {
	Phase, Neutral, Earth Lead
	Run                   Run
	Coils                 int     // full turns of slack in each of them
	Tone                  float64 // Hz, that stands for the surge in SurgeResistance; 0 for waveform.FrontTone
}

const (
	shortest = 0.01    // m: nothing connects without a length
	usual    = 5.26e-6 // m2, 10 AWG (ASTM B258)
	// separation makes about 1 uH/m of each of two leads of 26 in, the figure
	// behind the trade's 25 V per inch at 6 kV and 3 kA (derived).
	separation = 0.2  // m
	tied       = 1.25 // distance over diameter in a bundle: not all can touch all (common practice, no source)
	slack      = 0.15 // m, diameter of a turn of slack (common practice, no source)
	// inside is what the wiring between a terminal and the varistors adds to a
	// lead: 19 to 30 nH are usual of varistor blocks (P. Kronberger's library of
	// varistor models, TU Graz, 1995).
	inside = 20e-9 // H
)

// straightened returns the lead with its defaults in place.
func (l Lead) straightened() Lead {
	out := Lead{Length: shortest, Area: usual}
	if l.Length > shortest {
		out.Length = l.Length
	}
	if l.Area > 0 {
		out.Area = l.Area
	}
	return out
}

// radius returns that of the copper, m.
func (l Lead) radius() float64 { return math.Sqrt(l.Area / math.Pi) }

// diameter returns that of the insulation, m.
func (l Lead) diameter() float64 { return InsulatedDiameter(l.Area) }

// InsulatedDiameter returns the outside diameter of an insulated conductor of a
// cross-section, m. It is within 8 % of the THHN wires of NEC chapter 9 table 5
// from 14 AWG to 500 kcmil (from memory).
func InsulatedDiameter(area float64) float64 { return 1.33*2*math.Sqrt(area/math.Pi) + 0.75e-3 }

// of returns the lead of a conductor.
func (l Leads) of(letter byte) Lead {
	switch letter {
	case 'G':
		return l.Earth.straightened()
	case 'N':
		return l.Neutral.straightened()
	}
	return l.Phase.straightened()
}

// distance returns that of every lead from every other, m. One for all, larger
// than every radius, keeps the inductances those of something that can exist:
// 1/sqrt(x²+D²) is a positive definite function of x, so the matrix of all
// leads at the distance D is not negative, and the smaller radius adds to its
// diagonal.
func (l Leads) distance(letters string) float64 {
	widest, thickest := 0.0, 0.0
	for i := range letters {
		lead := l.of(letters[i])
		widest, thickest = max(widest, lead.diameter()), max(thickest, lead.radius())
	}
	switch l.Run {
	case Bundled:
		return facing(tied*widest, thickest)
	case Twisted:
		return facing(widest, thickest)
	}
	return facing(max(separation, widest), thickest)
}

// bundle returns the inductances of the leads of some conductors, H, as a
// matrix row by row, and their resistances, ohm. All leads point from the bus
// to the protector.
func (l Leads) bundle(letters string) (henries, ohms []float64) {
	n, distance := len(letters), l.distance(letters)
	henries, ohms = make([]float64, n*n), make([]float64, n)
	for i := range n {
		one := l.of(letters[i])
		for j := range n {
			henries[i*n+j] = MutualInductance(one.Length, l.of(letters[j]).Length, distance)
		}
		henries[i*n+i] = SelfInductance(one.Length, one.radius()) + inside
		if l.Run == Separate { // elsewhere the turns of go and return cancel
			henries[i*n+i] += float64(max(0, l.Coils)) * turn(slack, one.radius())
		}
		ohms[i] = one.Length * SurgeResistance(one.Area, conductor.Copper, cmp.Or(l.Tone, waveform.FrontTone))
	}
	return henries, ohms
}

// terminals is the bundle of a protector that is tested at its terminals: its
// own wiring only.
func terminals(letters string) (henries, ohms []float64) {
	n := len(letters)
	henries, ohms = make([]float64, n*n), make([]float64, n)
	for i := range n {
		henries[i*n+i] = inside
	}
	return henries, ohms
}
