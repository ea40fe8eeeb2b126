package extract

import (
	"math"

	"clampline/analysis/circuit"
	"clampline/analysis/protector"
)

// wires are the places of the wires of a run across it, m: its conductors in their
// order, last the earth wire, which is one like them.
type wires []complex128

// sheathed returns those of a sheathed cable. One of up to three conductors is flat: side by
// side, with the bare earth wire in the middle, between line and neutral where
// there is one line, else between the second line and what follows it (flat twin
// and three-core cable with earth). One of four is round, with an earth wire like
// them in a ring (common practice, no source).
func sheathed(area float64, m int) wires {
	if m > 3 {
		return tight(area, m)
	}
	var out wires
	at, od := 0.0, protector.InsulatedDiameter(area)
	for range (m + 1) / 2 {
		out, at = append(out, complex(at, 0)), at+od
	}
	at += radiusOf(area) - od/2 // next to the bare wire
	earth := complex(at, 0)
	at += radiusOf(area) + od/2
	for len(out) < m {
		out, at = append(out, complex(at, 0)), at+od
	}
	return append(out, earth)
}

// inRow returns m conductors and the earth wire behind the last of them, side by side.
func inRow(m int, pitch float64) wires {
	var out wires
	for k := range m + 1 {
		out = append(out, complex(float64(k)*pitch, 0))
	}
	return out
}

// inRing returns m conductors and the earth wire round an axis, in this order.
func inRing(m int, radius float64) wires {
	var out wires
	for k := range m + 1 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(m+1))
		out = append(out, complex(radius*cos, radius*sin))
	}
	return out
}

// tight returns m insulated conductors and an earth wire like them that touch: a
// triangle, a square, and a ring of five, which is the closest that five like
// circles lie (derived).
func tight(area float64, m int) wires {
	return inRing(m, protector.InsulatedDiameter(area)/2/math.Sin(math.Pi/float64(m+1)))
}

// loose returns such wires spread along the wall of the conduit that holds them.
func loose(area float64, m int) wires {
	return inRing(m, conduitRadius(area, m+1)-protector.InsulatedDiameter(area)/2)
}

// conduitRadius returns the inside radius of a conduit that n wires fill to 40 % (NEC
// chapter 9 table 1, from memory), m; the smallest has 7.9 mm (table 4 there, from memory).
func conduitRadius(area float64, n int) float64 {
	return max(protector.InsulatedDiameter(area)/2*math.Sqrt(float64(n)/0.4), 7.9e-3)
}

// inductance returns what the conductors have with the earth wire as return, H/m:
// 0.2 µH/m ln(d_i0 d_j0/(d_ij r)) of wires of the radius r (Paul, Analysis of
// Multiconductor Transmission Lines, 2007, chapter 5: n wires with one as
// reference), less what the currents save by crowding to where the field of
// the others drives them. In a field E across it a round wire is a pair of currents of
// the moment r² E (derived; textbook cylinder in a uniform field), which takes r² E·E' of it.
func (w wires) inductance(r float64) (out circuit.Matrix) {
	earth := len(w) - 1
	for i := range earth {
		for j := range earth {
			apart := w.apart(i, earth, r) + w.apart(j, earth, r) - w.apart(i, j, r)
			out[i][j] = 0.2e-6 * (apart - r*r*w.crowding(i, j))
		}
	}
	return out
}

// apart returns the logarithm of a distance over the radius; 0 of a wire itself.
func (w wires) apart(i, j int, r float64) float64 {
	if i == j {
		return 0
	}
	between := w[i] - w[j]
	return math.Log(math.Hypot(real(between), imag(between)) / r)
}

// crowding returns the sum over all wires of E·E', 1/m²: of the fields that a
// current in i and one in j, each back by the earth wire, make there.
func (w wires) crowding(i, j int) float64 {
	sum, earth := 0.0, len(w)-1
	for k := range w {
		a, b := w.field(i, k)-w.field(earth, k), w.field(j, k)-w.field(earth, k)
		sum += real(a)*real(b) + imag(a)*imag(b)
	}
	return sum
}

// field returns that of a wire at another one, 1/m.
func (w wires) field(from, at int) complex128 {
	if from == at {
		return 0
	}
	return 1 / (w[at] - w[from])
}
