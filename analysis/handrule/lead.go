package handrule

import "clampline/diagram"

// AtBus returns the voltage that a protector leaves at its bus in a mode, and
// how much of it its leads add, both in V. A rating of 0 is not known and
// gives 0.
//
// A VPR includes six inches of lead; each metre beyond adds LeadVoltsVPR, in
// which phase and return conductor are counted together, so that the length of
// a mode is the mean of its two leads. An Up is that at the terminals, and
// each metre of either lead adds LeadVoltsUp.
func (r Rule) AtBus(p *diagram.Protector, mode diagram.Mode) (volts, added float64) {
	rating := p.Modes[mode].Level
	if rating <= 0 {
		return 0, 0
	}
	added = r.leadVolts(p, mode)
	return rating + added, added
}

func (r Rule) leadVolts(p *diagram.Protector, mode diagram.Mode) float64 {
	a, b := leadsOf(p, mode)
	if p.Rating == diagram.Up {
		return r.LeadVoltsUp * (a + b)
	}
	return r.LeadVoltsVPR * max(0, (a+b)/2-r.FreeLeadVPR)
}

// leadsOf returns the lengths of the two leads through which a mode acts, m.
func leadsOf(p *diagram.Protector, mode diagram.Mode) (a, b float64) {
	phase, neutral, earth := p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length
	switch mode {
	case diagram.LineNeutral:
		return phase, neutral
	case diagram.LineEarth:
		return phase, earth
	case diagram.NeutralEarth:
		return neutral, earth
	}
	return phase, phase
}

// far returns the distance from which a bus is far from a protector, m.
func (r Rule) far(p *diagram.Protector) float64 {
	if p.Rating == diagram.Up {
		return r.FarIEC
	}
	return r.FarUS
}
