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

// settle returns the system of a part at which another arrives. What arrives
// counts; the nameplate of a board speaks where nothing is known, and for an
// earthing that may change on the way: a combined conductor that is split, or
// an outbuilding with an electrode of its own (IEC 60364-1:2005, 312.2, from
// memory).
func settle(part *diagram.Part, arrives diagram.System) diagram.System {
	if !part.Kind.IsBoard() {
		return arrives
	}
	stated := part.System
	switch {
	case !arrives.Known():
		if stated.Known() {
			return stated
		}
	case arrives.Earthing == "" || localEarthing(arrives.Earthing) && localEarthing(stated.Earthing):
		if stated.Earthing != "" {
			arrives.Earthing = stated.Earthing
		}
	}
	return arrives
}

func localEarthing(e diagram.Earthing) bool {
	switch e {
	case diagram.TNS, diagram.TNC, diagram.TNCS, diagram.TT:
		return true
	}
	return false
}
