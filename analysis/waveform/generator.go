package waveform

// Generator is a combination wave generator with lumped elements:
//
//	+----+---- Rs -- L --+---- output
//	C    Rp              Ro
//	+----+---------------+---- return
//
// C is charged when the surge begins and no current flows in L.
type Generator struct {
	C      float64 // F, charged
	Rp     float64 // ohm, across C
	Rs     float64 // ohm, in series with L
	L      float64 // H
	Ro     float64 // ohm, across the output
	Charge float64 // V of C at the start
}

// chargeOverCrest is the voltage of the charge over the crest of the open
// output: the inverse of 0.9429, which follows from the elements.
const chargeOverCrest = 1.0605

// Combination returns the generator whose voltage is 1.2/50 with the crest
// openVolts, in V, when its output is open, and whose current is 8/20 with the
// crest openVolts/ohms, in A, when it is shorted; both times in us, ohms above
// zero. The current goes on to an undershoot of a third of its crest, a little
// more than IEC 61000-4-5 allows (30 %, from memory): the price of so plain a
// circuit.
//
// Elements for 2 ohm: Carobbi and Bonci, IEEE EMC Magazine, 2013 (as quoted in
// a secondary text). For another impedance all of them are scaled, so that the
// two waves stay what they are. IEC 61000-4-5 makes 12 ohm in another way, by
// 10 ohm in series with the generator of 2 ohm, which shortens the current.
func Combination(openVolts, ohms float64) Generator {
	scale := ohms / 2
	return Generator{
		C:      5.93e-6 / scale,
		Rp:     20.2 * scale,
		Rs:     0.814 * scale,
		L:      10.9e-6 * scale,
		Ro:     26.1 * scale,
		Charge: chargeOverCrest * openVolts,
	}
}
