package handrule

import "clampline/diagram"

// Judged returns which modes of a board or load of a system can be judged: of a
// board all that its system has, of a load those between its terminals and
// earth.
func Judged(part diagram.Part, system diagram.System) [diagram.ModeCount]bool {
	return judgedModes(&part, system, true)
}

// judgedModes returns which modes take part in the verdict of a board or load.
//
// Of a board all that its system has, of a load those between its terminals
// and earth. Where a neutral is connected, L-L is judged only where a protector
// in reach is rated for it (common practice, no source).
func judgedModes(part *diagram.Part, system diagram.System, ratesLine bool) [diagram.ModeCount]bool {
	var out [diagram.ModeCount]bool
	for _, mode := range diagram.Modes() {
		out[mode] = system.HasMode(mode) && (part.Kind != diagram.Load || concerns(part.Load.Connection, mode))
	}
	if usesNeutral(part) && system.Neutral && !ratesLine {
		out[diagram.LineLine] = false
	}
	return out
}

// usesNeutral reports whether the neutral, where there is one, is connected.
func usesNeutral(part *diagram.Part) bool {
	c := part.Load.Connection
	return part.Kind != diagram.Load || c != diagram.BetweenLines && c != diagram.ThreeWire
}

// concerns reports whether a load with the connection sees the mode.
func concerns(c diagram.Connection, mode diagram.Mode) bool {
	switch c {
	case diagram.ToNeutral:
		return mode != diagram.LineLine
	case diagram.BetweenLines, diagram.ThreeWire:
		return mode == diagram.LineEarth || mode == diagram.LineLine
	}
	return true
}
