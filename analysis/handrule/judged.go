package handrule

import "clampline/diagram"

// judgedModes returns which modes take part in the verdict of a board or load.
//
// Of a board all that its system has, except that L-L where there is a neutral
// is judged only where a protector in reach is rated for it (common practice,
// no source). Of a load those between its terminals and earth.
func judgedModes(part *diagram.Part, system diagram.System, ratesLine bool) [diagram.ModeCount]bool {
	var out [diagram.ModeCount]bool
	for _, mode := range diagram.Modes() {
		out[mode] = system.HasMode(mode) && (part.Kind != diagram.Load || concerns(part.Load.Connection, mode))
	}
	asBoard := part.Kind != diagram.Load || part.Load.Connection == ""
	if asBoard && system.Neutral && !ratesLine {
		out[diagram.LineLine] = false
	}
	return out
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
