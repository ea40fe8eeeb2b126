package analysis

import "clampline/diagram"

// across returns the system on the far side of a transformer, as its record
// states it. An autotransformer changes the voltage but not the earthing.
func across(part *diagram.Part, forward bool, arrives diagram.System) diagram.System {
	out := part.System
	if !forward {
		out = part.Transformer.Primary
	}
	if part.Transformer.Auto && arrives.Known() {
		out.Earthing = arrives.Earthing
	}
	return out
}

// systemAt returns the system of a part at which another arrives. What arrives
// counts, and of it as many conductors as a nameplate states. A nameplate
// speaks alone where nothing is known, and for an earthing that may change on
// the way: a combined conductor that is split, or an outbuilding with an
// electrode of its own (IEC 60364-1:2005, 312.2, from memory). Nothing makes TN
// of TT again: no earth conductor comes along.
func systemAt(part *diagram.Part, arrives diagram.System) diagram.System {
	if !states(part.Kind) {
		return arrives
	}
	stated := part.System
	switch {
	case !arrives.Known():
		if stated.Known() {
			return stated
		}
	case arrives.Earthing == "" || arrives.Earthing != diagram.TT && localEarthing(arrives.Earthing) && localEarthing(stated.Earthing):
		if stated.Earthing != "" {
			arrives.Earthing = stated.Earthing
		}
	}
	return reduced(stated, arrives)
}

// states reports whether a nameplate of the kind says which conductors lead to
// it.
func states(kind diagram.Kind) bool { return kind.IsBoard() || kind == diagram.Junction }

func localEarthing(e diagram.Earthing) bool {
	switch e {
	case diagram.TNS, diagram.TNC, diagram.TNCS, diagram.TT:
		return true
	}
	return false
}

// reduced returns the part of what arrives that a nameplate states: fewer lines,
// or none of the neutral. What it states otherwise does not count.
func reduced(stated, arrives diagram.System) diagram.System {
	if !stated.Known() || !arrives.Known() || differs(stated, arrives) != "" {
		return arrives
	}
	out := arrives
	out.Neutral = stated.Neutral
	switch lines := stated.Lines(); {
	case lines == arrives.Lines():
	case lines == 1:
		out.Wiring, out.Voltage = diagram.Single, arrives.LineToNeutral()
	case lines == 2:
		out.Wiring = pairOf(arrives.Wiring)
	}
	return out
}

// pairOf returns the wiring of two of three lines. Of a high-leg delta they are
// the ordinary ones, with the centre tap between them.
func pairOf(three diagram.Wiring) diagram.Wiring {
	switch three {
	case diagram.Wye:
		return diagram.TwoOfWye
	case diagram.HighLeg:
		return diagram.Split
	}
	return diagram.Single
}
