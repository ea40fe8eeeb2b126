package extract

import (
	"slices"

	"clampline/analysis/circuit"
	"clampline/diagram"
)

// winding is one winding of a side: its ends and its nominal voltage.
type winding struct {
	circuit.Branch
	volts float64
}

// windingPair is two windings on one core. share is how many such pairs make
// up the power of the transformer.
type windingPair struct {
	p, s  winding
	share float64
}

// pairs lists the windings that share a core. Where the two sides do not fit
// it says that nothing is coupled.
func (x *extractor) pairs(part diagram.Part, primary, secondary side) []windingPair {
	p, s := x.windings(primary, true), x.windings(secondary, false)
	var out []windingPair
	switch {
	case len(p) == 0 || len(s) == 0:
	case len(p) >= 3 && len(s) >= 3:
		for i := range s {
			out = append(out, windingPair{p[min(i, 2)], s[i], shareOf(i, len(s))})
		}
	case secondary.system.Wiring == diagram.TwoOfWye:
		for i := range min(len(s), len(p)-1) { // of a bank of three, two are led on
			out = append(out, windingPair{p[i], s[i], 3})
		}
	case secondary.system.Phases() == 1:
		first := x.singleWinding(primary, p)
		for i := range s {
			out = append(out, windingPair{first, s[i], float64(len(s))})
		}
	}
	if len(out) == 0 {
		x.assume(part.ID, "is taken to couple by its capacitances alone: its two sides do not fit each other, or one is not known", "from the sheet")
	}
	return out
}

// shareOf returns how many such windings make up the power: three, or six of
// the halves of a high-leg delta, which come last of four.
func shareOf(i, n int) float64 {
	if n == 4 && i >= 2 {
		return 6
	}
	return 3
}

// windings returns the windings of a side, in the order in which phases pair. Of
// a high-leg delta the one with the centre tap is in two halves, last, on the
// secondary side.
func (x *extractor) windings(s side, primary bool) []winding {
	v := s.system.Voltage
	switch s.system.Wiring {
	case diagram.Wye:
		u := s.system.LineToNeutral()
		return slices.Concat(x.toStar(s, 'A', u), x.toStar(s, 'B', u), x.toStar(s, 'C', u))
	case diagram.TwoOfWye:
		if primary {
			return x.between(s, 'A', 'B', v)
		}
		u := s.system.LineToNeutral()
		return slices.Concat(x.toStar(s, 'A', u), x.toStar(s, 'B', u))
	case diagram.HighLeg:
		if !primary {
			return slices.Concat(x.between(s, 'A', 'B', v), x.between(s, 'B', 'C', v), x.toStar(s, 'C', v/2), x.fromStar(s, 'A', v/2))
		}
		fallthrough
	case diagram.Delta:
		return slices.Concat(x.between(s, 'A', 'B', v), x.between(s, 'B', 'C', v), x.between(s, 'C', 'A', v))
	case diagram.Split:
		if primary {
			return x.between(s, 'A', 'B', v)
		}
		return slices.Concat(x.toStar(s, 'A', v/2), x.fromStar(s, 'B', v/2))
	case diagram.Single:
		if s.system.Neutral {
			return x.toStar(s, 'A', v)
		}
		return x.between(s, 'A', 'B', v)
	}
	return nil
}

// between returns the winding between two lines, or none.
func (x *extractor) between(s side, a, b byte, volts float64) []winding {
	from, okA := x.conductor(s.bus, a)
	to, okB := x.conductor(s.bus, b)
	if !okA || !okB || volts <= 0 {
		return nil
	}
	return []winding{{circuit.Branch{A: from, B: to}, volts}}
}

// toStar returns the winding from a line to the point where all meet, or none.
func (x *extractor) toStar(s side, letter byte, volts float64) []winding {
	node, ok := x.conductor(s.bus, letter)
	if !ok || volts <= 0 || !s.hasMid {
		return nil
	}
	return []winding{{circuit.Branch{A: node, B: s.star}, volts}}
}

// fromStar returns the winding the other way round.
func (x *extractor) fromStar(s side, letter byte, volts float64) []winding {
	out := x.toStar(s, letter, volts)
	for i, w := range out {
		out[i].Branch = circuit.Branch{A: w.B, B: w.A}
	}
	return out
}

// singleWinding returns the primary winding of a single-phase transformer: that
// of its own wiring, or one between two lines of three phases.
func (x *extractor) singleWinding(s side, all []winding) winding {
	if s.system.Phases() == 1 {
		return all[0]
	}
	if pair := x.between(s, 'A', 'B', s.system.Voltage); len(pair) > 0 {
		return pair[0]
	}
	return all[0]
}
