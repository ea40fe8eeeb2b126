package waveform

// Generator is a combination wave generator with lumped elements:
//
//	+----+---- Rs -- L -- D --+---- output
//	C    Rp                   Ro
//	+----+--------------------+---- return
//
// C is charged when the surge begins and no current flows in L. D is a diode
// that lets the current of L go on but not turn; not every generator has one.
type Generator struct {
	C      float64 // F, charged
	Rp     float64 // ohm, across C
	Rs     float64 // ohm, in series with L
	L      float64 // H
	Ro     float64 // ohm, across the output
	Charge float64 // V of C at the start
	On     float64 // ohm of D for the current of the charge; 0 without D
	Off    float64 // ohm of D against it; 0 without D
}

// chargeOverCrest is the voltage of the charge over the crest of the open
// output: the inverse of 0.9429, which follows from the elements.
const chargeOverCrest = 1.0605

// Combination returns the generator of a laboratory, whose voltage is 1.2/50 with the crest
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

// What a diode lacks to be ideal, in ohms of its generator. At the crest of the
// shorted current 1e-5 takes a hundred-thousandth of the open voltage, 60 mV of
// 6 kV. Once it blocks, a third of the charge is left on C, and 1e6 lets through
// of it what is 30 mV across Ro. Neither is seen in a peak. A diode nearer to
// the ideal tells no more, and ngspice no longer gets over the end of its
// current (tried: 1e7).
const (
	diodeOn  = 1e-5
	diodeOff = 1e6
)

// OneSided returns that generator with a diode: the current rises and falls as
// by Combination and does not turn, as that of lightning does not. With an open
// output the current of L never turns, so 1.2/50 is the same.
//
// IEEE C62.41.2-2002 gives the 8/20 as a formula without an undershoot (from
// memory); that of the laboratory is what a plain circuit cannot avoid.
func OneSided(openVolts, ohms float64) Generator {
	g := Combination(openVolts, ohms)
	g.On, g.Off = diodeOn*ohms, diodeOff*ohms
	return g
}
