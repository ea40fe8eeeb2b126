package protector

import (
	"cmp"
	"math"
	"slices"

	"clampline/analysis/circuit"
)

// Material is the published typical curve of a varistor:
//
//	log V = B1 + B2 x + B3 e^-x + B4 e^x,  x = log I
//
// with logarithms to base 10, V in V and I in A, from 1 mA on; below that it
// is a resistance. Single parts differ from it by up to 10 %.
type Material struct {
	Name           string  // kind, diameter and rated voltage
	Diameter       float64 // m
	Rated          float64 // V rms, that it stands for ever
	Farads         float64 // F, from side to side
	B1, B2, B3, B4 float64 // no unit
}

// lowest is the current, in A, at which the formula begins.
const lowest = 1e-3

// Voltage returns the voltage at a current, V; amps not below zero.
func (m Material) Voltage(amps float64) float64 {
	if amps < lowest {
		return m.Voltage(lowest) * amps / lowest
	}
	x := math.Log10(amps)
	return math.Pow(10, m.B1+m.B2*x+m.B3*math.Exp(-x)+m.B4*math.Exp(x))
}

// Curve returns the formula as straight pieces, all voltages times scale. They
// are within 0.1 % of it in voltage from 1 mA to 100 kA.
func (m Material) Curve(name string, scale float64) *circuit.Curve {
	out := &circuit.Curve{Name: name, Volts: []float64{0}, Amps: []float64{0}}
	add := func(decade float64) {
		amps := math.Pow(10, decade)
		out.Amps, out.Volts = append(out.Amps, amps), append(out.Volts, scale*m.Voltage(amps))
	}
	const coarse, fine = 8, 16 // points per decade: the knee above 10 A needs more
	for i := -3 * coarse; i < coarse; i++ {
		add(float64(i) / coarse)
	}
	for i := fine; float64(i)/fine < highest; i++ {
		add(float64(i) / fine)
	}
	add(highest)
	return out
}

// highest is the decade of the last point, 200 kA.
const highest = 5.30103

// nearest returns the block whose rated voltage is nearest to a voltage, in
// ratio: of those with one rating the one of 40 mm, usual in panel protectors.
func nearest(rated float64) Material {
	away := func(m Material) float64 {
		ratio := math.Abs(math.Log(m.Rated / rated))
		if m.Diameter != 40e-3 {
			ratio += 1e-3
		}
		return ratio
	}
	return slices.MinFunc(Published(), func(a, b Material) int { return cmp.Compare(away(a), away(b)) })
}
