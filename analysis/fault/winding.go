package fault

import "clampline/diagram"

// Shares of the impedance of a whole winding that half of it has on the base of
// its own voltage: of resistance and of reactance (IEEE 141, centre-tapped
// single-phase transformers, from memory), and of the magnitude where that is
// all there is, so that a fault to the neutral has half as much current again
// as one between the lines (point-to-point method, from memory).
const (
	halfResistance = 1.5
	halfReactance  = 1.2
	halfMagnitude  = 4.0 / 3
	halfSource     = "IEEE 141, half of a centre-tapped winding: 1.5 R and 1.2 X on its base; from memory, check your edition"

	halfMagnitudeSource = "point-to-point method: half of a centre-tapped winding gives half as much current again as the whole; from memory, check your edition"
)

// half returns what is seen from a line to the centre tap where whole is what
// is seen between the lines, both in Ω.
func (r rules) half(whole complex128) complex128 {
	if r.point {
		return whole * halfMagnitude / 4
	}
	return complex(real(whole)*halfResistance, imag(whole)*halfReactance) / 4
}

// fork splits a centre-tapped winding into the branch that both halves share
// and that of each half, all seen by one half, so that one half alone has what
// half says and both in series have the whole.
func (r rules) fork(whole complex128) (shared, each complex128) {
	split := func(x, share float64) (float64, float64) { return x * (2 - share) / 4, x * (share - 1) / 2 }
	if r.point {
		a, b := split(real(whole), halfMagnitude)
		return complex(a, 0), complex(b, 0)
	}
	sharedR, eachR := split(real(whole), halfResistance)
	sharedX, eachX := split(imag(whole), halfReactance)
	return complex(sharedR, sharedX), complex(eachR, eachX)
}

// bank returns what is seen from a line to the centre tap of a closed delta of
// three like windings, Ω. above is Z1 of what feeds it and windings Z1 of the
// delta itself, both at its line voltage. Two currents flow: one in the half to
// which the fault lies, and one round through the other two windings and back
// through the other half. What feeds it sees no part that circulates in the
// delta.
func (r rules) bank(above, windings complex128) complex128 {
	whole := 3 * windings
	shared, each := r.fork(whole)
	u := above / 2 // three times above, a sixth of it
	own, round, mutual := each+shared+u, each+shared+2*whole+u, u-shared
	if windings == 0 {
		return u
	}
	return (own*round - mutual*mutual) / (own + round - 2*mutual)
}

// returning is how a fault to the neutral or to earth comes back.
type returning uint8

const (
	noReturn returning = iota // there is none, or it is the loop itself
	zeroSequence
	centreTap
)

// returnOf returns the kind of a system.
func returnOf(s diagram.System) returning {
	switch s.Wiring {
	case diagram.Wye, diagram.TwoOfWye:
		return zeroSequence
	case diagram.Split, diagram.HighLeg:
		return centreTap
	case diagram.Single:
		if !s.Neutral {
			return centreTap
		}
	}
	return noReturn
}

// times returns how often the impedance of a line counts in the way back along
// a feeder: Z0 = 4 Z1 with a neutral like the lines; half of a loop is one.
func (k returning) times() complex128 {
	switch k {
	case zeroSequence:
		return 4
	case centreTap:
		return 1
	}
	return 0
}

// hasReturn reports whether the system has a star point or centre tap that is
// led along or held at earth.
func hasReturn(s diagram.System) bool {
	return returnOf(s) != noReturn && (s.Neutral || s.Earthing.HoldsNeutral())
}

// beginReturn returns the way back at the secondary of a transformer that begins
// one anew, Ω: above is what feeds it and windings its own impedance, both of a
// line at the voltage of its secondary.
func (r rules) beginReturn(s diagram.System, above, windings complex128) complex128 {
	switch s.Wiring {
	case diagram.Wye, diagram.TwoOfWye:
		return windings
	case diagram.HighLeg:
		return r.bank(above, windings) / 2
	}
	return above/4 + r.half(windings)
}
