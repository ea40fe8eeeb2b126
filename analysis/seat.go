package analysis

import "clampline/diagram"

// Seated returns a protector as it works on its bus. One made for a line and
// neutral stands on two lines without a neutral where its voltage is that
// between them, its neutral terminal at the second line; one made for two lines
// without a neutral stands on a line and neutral likewise. Any other is returned
// as it is.
func Seated(p diagram.Protector, bus diagram.System) diagram.Protector {
	switch {
	case onTwoLines(p.System, bus):
		p.Modes = [diagram.ModeCount]diagram.ModeRating{
			diagram.LineEarth: weaker(p.Modes[diagram.LineEarth], p.Modes[diagram.NeutralEarth]),
			diagram.LineLine:  p.Modes[diagram.LineNeutral],
		}
		p.Leads.Phase = longer(p.Leads.Phase, p.Leads.Neutral)
	case onTwoLines(bus, p.System):
		p.Modes = [diagram.ModeCount]diagram.ModeRating{
			diagram.LineNeutral:  p.Modes[diagram.LineLine],
			diagram.LineEarth:    p.Modes[diagram.LineEarth],
			diagram.NeutralEarth: p.Modes[diagram.LineEarth],
		}
		p.Leads.Neutral = p.Leads.Phase
	default:
		return p
	}
	p.System.Wiring, p.System.Neutral = bus.Wiring, bus.Neutral
	return p
}

// weaker returns what two lines of which each has one of the ratings have both:
// the higher level and the lower continuous voltage, or nothing where one of
// them has nothing. A figure that one does not state is not stated.
func weaker(a, b diagram.ModeRating) diagram.ModeRating {
	if !a.Connected || !b.Connected || a.Switching != b.Switching {
		return diagram.ModeRating{}
	}
	out := diagram.ModeRating{Connected: true, Switching: a.Switching, MCOV: min(a.MCOV, b.MCOV)}
	if min(a.Level, b.Level) > 0 {
		out.Level = max(a.Level, b.Level)
	}
	return out
}

func longer(a, b diagram.Lead) diagram.Lead {
	if b.Length > a.Length {
		return b
	}
	return a
}
