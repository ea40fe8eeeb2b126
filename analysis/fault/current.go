package fault

import (
	"math"
	"math/cmplx"

	"clampline/analysis"
	"clampline/diagram"
)

// seen is what a fault at a terminal sees, Ω at its voltage.
type seen struct {
	line    complex128 // of a line
	back    complex128 // way back
	hasBack bool
}

// currents puts into f what flows in a system at a part, in A. Three phases:
// V / (√3 Z1), √3/2 of that between two lines where Z1 = Z2, √3 V / (Z1 + Z2 + Z0)
// to neutral. One phase: the voltage over the loop. What needs conductors that the
// part does not have is left out.
func (r rules) currents(f *analysis.Fault, part *device, s diagram.System, z seen, w *writer) {
	three, two, one := carries(part)
	between := 0.0
	if s.Phases() == 3 && three {
		f.ThreePhase = over(r.driving(s.Voltage)/math.Sqrt(3), z.line)
		w.lineCurrent("three-phase fault current", "√3 Z1", "1.732", s, z, f.ThreePhase, "symmetrical components")
	}
	if s.Lines() > 1 {
		between = over(r.driving(s.Voltage)/2, z.line)
	}
	if two {
		f.LineLine = between
		w.lineCurrent("line-to-line fault current", "2 Z", "2", s, z, f.LineLine, "symmetrical components, Z1 = Z2")
	}
	volts, loop := r.toNeutral(s, z)
	if s.Neutral && one {
		f.LineNeutral = over(volts, loop)
	}
	switch {
	case s.Earthing == diagram.Corner:
		f.LineEarth = between
	case holdsEarth(s):
		f.LineEarth = over(volts, loop)
	}
	w.neutralCurrent(f, s, z, volts, loop)
}

// steepest returns the ratio of reactance to resistance of the highest of the
// currents.
func (r rules) steepest(f *analysis.Fault, s diagram.System, z seen) float64 {
	if max(f.LineNeutral, f.LineEarth) > max(f.ThreePhase, f.LineLine) {
		_, loop := r.toNeutral(s, z)
		return ratio(loop)
	}
	return ratio(z.line)
}

// toNeutral returns the voltage and the impedance of a fault from one line to
// the neutral or to the earth that holds it; no impedance where there is none.
func (r rules) toNeutral(s diagram.System, z seen) (volts float64, loop complex128) {
	volts = r.driving(s.Voltage)
	switch {
	case s.Wiring == diagram.Single && s.Neutral:
		return volts, 2 * z.line
	case !z.hasBack || !hasReturn(s):
		return 0, 0
	case returnOf(s) == zeroSequence:
		return math.Sqrt(3) * volts, 2*z.line + z.back
	}
	return volts / 2, 2 * z.back
}

// holdsEarth reports whether a fault from one line to earth flows as one to the
// neutral does. Electrodes limit one on a TT system.
func holdsEarth(s diagram.System) bool {
	return s.Earthing.HoldsNeutral() && s.Earthing != diagram.TT && s.Wiring != diagram.Delta
}

// over returns the current that a voltage drives, A; 0 where there is no
// impedance.
func over(volts float64, z complex128) float64 {
	if z == 0 {
		return 0
	}
	return volts / cmplx.Abs(z)
}

// ratio returns reactance over resistance, or 0 where one of them is missing.
func ratio(z complex128) float64 {
	if real(z) <= 0 || imag(z) <= 0 {
		return 0
	}
	return min(imag(z)/real(z), 1e6)
}

// toNeutralVoltage returns the voltage from a line to the neutral as it follows
// from that between lines, V.
func toNeutralVoltage(s diagram.System) float64 {
	switch {
	case s.Lines() == 1:
		return s.Voltage
	case returnOf(s) == zeroSequence || s.Wiring == diagram.Delta:
		return s.Voltage / math.Sqrt(3)
	}
	return s.Voltage / 2
}

// carries reports whether a part has the conductors for a fault of three lines, of
// two, and of one and the neutral.
func carries(part *device) (three, two, one bool) {
	if part.Kind == diagram.Load {
		switch part.Load.Connection {
		case diagram.ToNeutral:
			return false, false, true
		case diagram.BetweenLines:
			return false, true, false
		case diagram.ThreeWire:
			return true, true, false
		}
	}
	return true, true, true
}

// earthReason says why no current to earth is found in a system, or nothing
// where it is.
func earthReason(part *device, s diagram.System) fact {
	out := fact{record: part.ID, source: noSource}
	switch {
	case !known(s) || holdsEarth(s):
		return fact{}
	case s.Earthing == diagram.Corner:
		out.text = "has one line earthed: an earth fault is a fault between lines"
	case s.Earthing == diagram.TT:
		out.text = "is earthed by electrodes of its own, which limit an earth fault: its current is not computed"
	case s.Earthing == diagram.Impedance:
		out.text = "is earthed through an impedance, which limits a first earth fault: its current is not computed"
	case s.Earthing == "":
		out.text = "does not say how its system is earthed: the current of an earth fault is not computed"
	default:
		out.text = "has no earthed point: a first earth fault returns through capacitance alone, and its current is not computed"
	}
	return out
}
