package handrule

import (
	"clampline/analysis"
	"clampline/diagram"
)

// refusal returns why a protector does not count in a mode at a bus, of which
// so many lines lead to the part that it is on, or nothing where it does.
func refusal(p *diagram.Protector, mode diagram.Mode, bus diagram.System, lines int) analysis.Reason {
	made := p.System
	switch {
	case !bus.Known():
		return analysis.NoSystem
	case made.Known() && !analysis.SameNominal(made, bus):
		return analysis.WrongVoltage
	case lacksLine(made, mode, lines):
		return analysis.WrongPhases
	case !p.Modes[mode].Connected:
		return missing(made, mode)
	}
	if reason := stands(p.Modes[mode], made, mode, bus); reason != "" {
		return reason
	}
	if p.Modes[mode].Level <= 0 {
		return analysis.NoRating
	}
	return ""
}

// lacksLine reports whether a protector has fewer lines than there are and so
// leaves a line open in the mode.
func lacksLine(made diagram.System, mode diagram.Mode, lines int) bool {
	return mode != diagram.NeutralEarth && made.Lines() > 0 && made.Lines() < lines
}

// missing tells a protector that has no terminal for the neutral from one that
// merely has nothing in the mode.
func missing(made diagram.System, mode diagram.Mode) analysis.Reason {
	ofNeutral := mode == diagram.LineNeutral || mode == diagram.NeutralEarth
	if ofNeutral && made.Known() && !made.Neutral {
		return analysis.WrongPhases
	}
	return analysis.MissingMode
}

// stands reports whether a mode bears the voltage that the bus can have across
// it for as long as it runs: by its MCOV, or else by the system it is made
// for. Between neutral and earth the system tells nothing.
func stands(r diagram.ModeRating, made diagram.System, mode diagram.Mode, bus diagram.System) analysis.Reason {
	bears := r.MCOV
	if bears <= 0 {
		if !made.Known() || mode == diagram.NeutralEarth {
			return ""
		}
		bears = made.ModeVoltage(mode) * (1 + analysis.VoltageTolerance)
	}
	switch {
	case bears >= bus.ModeVoltage(mode):
		return ""
	case mode == diagram.LineEarth && bears >= bus.HighestToNeutral():
		return analysis.WrongEarthing // it would do if the neutral were held
	}
	return analysis.WrongVoltage
}

// spans returns the pairs of modes that, in series, span a mode. Between
// neutral and earth no pair is taken.
func spans(mode diagram.Mode) [][2]diagram.Mode {
	switch mode {
	case diagram.LineNeutral:
		return [][2]diagram.Mode{{diagram.LineEarth, diagram.NeutralEarth}}
	case diagram.LineEarth:
		return [][2]diagram.Mode{{diagram.LineNeutral, diagram.NeutralEarth}}
	case diagram.LineLine:
		return [][2]diagram.Mode{{diagram.LineNeutral, diagram.LineNeutral}, {diagram.LineEarth, diagram.LineEarth}}
	}
	return nil
}
