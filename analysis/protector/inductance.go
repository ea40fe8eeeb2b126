package protector

import "math"

// perMetre is the permeability of vacuum over 2 pi, H/m.
const perMetre = 2e-7

// SelfInductance returns the partial inductance of a straight round wire at surge
// frequencies, H: the current flows at its surface, so it is the mutual
// inductance of two filaments as far apart as its radius. Length and radius in
// m, above zero. For a long wire it is 0.2 l (ln(2l/r) - 1) in uH: Rosa, The
// self and mutual inductances of linear conductors, Bulletin of the Bureau of
// Standards 4(2), 1908 (formula from memory).
func SelfInductance(length, radius float64) float64 { return abreast(length, radius) }

// MutualInductance returns the mutual inductance of two parallel wires that begin side
// by side, H; all in m, the distance above zero. It is half the sum of those of
// two wires of either length less that of the part by which they differ (Rosa
// and Grover, Formulas and tables for the calculation of mutual and
// self-inductance, Bulletin of the Bureau of Standards 8(1), 1912, from memory).
func MutualInductance(length1, length2, distance float64) float64 {
	sum := abreast(length1, distance) + abreast(length2, distance)
	return (sum - abreast(math.Abs(length1-length2), distance)) / 2
}

// abreast is Neumann's integral for two parallel filaments of one length:
// 0.2 (l ln((l+sqrt(l²+D²))/D) - sqrt(l²+D²) + D) in uH (Rosa, 1908, from memory).
func abreast(length, distance float64) float64 {
	return perMetre * (length*math.Asinh(length/distance) - math.Hypot(length, distance) + distance)
}

// facing returns the distance of two filaments that have the inductance of a
// pair of round wires as go and return. The current of close wires crowds to
// the sides that face each other: the 0.4 acosh(D/d) uH/m of a long pair
// (standard line theory) in place of 0.4 ln(D/r).
func facing(distance, radius float64) float64 {
	inside := math.Max(0, distance*distance-4*radius*radius)
	return (distance + math.Sqrt(inside)) / 2
}

// turn returns the inductance of one round turn of wire at surge frequencies,
// H: mu0 R (ln(8R/r) - 2) (Rosa and Grover, 1912, from memory).
func turn(diameter, radius float64) float64 {
	ring := diameter / 2
	return 2 * math.Pi * perMetre * ring * math.Max(0, math.Log(8*ring/radius)-2)
}

// SurgeResistance returns the resistance of a round wire of a cross-section, m2,
// at a frequency, Hz, that stands for a surge, ohm per metre: that of the skin
// that carries the current, or of the whole wire where it is thinner than two
// skins (derived; textbook skin effect). waveform.ToneOf has the frequency.
func SurgeResistance(area, resistivity, tone float64) float64 {
	skin := math.Sqrt(resistivity / (2 * math.Pi * math.Pi * tone * perMetre))
	radius := math.Sqrt(area / math.Pi)
	if radius <= skin {
		return resistivity / area
	}
	return resistivity / (math.Pi * skin * (2*radius - skin))
}
