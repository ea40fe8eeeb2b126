package handrule

import (
	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

const (
	leadsOfUp  = "DIN VDE 0100-534, from memory; check your edition"
	leadsOfVPR = "25 V per inch beyond six inches by default; common practice, no source"
)

// AtBus returns the voltage that a protector leaves at its bus in a mode, and
// how much of it its leads add, both in V. A rating of 0 is not known and
// gives 0.
func (r Rule) AtBus(p *diagram.Protector, mode diagram.Mode) (volts, added float64) {
	rating := p.Modes[mode].Level
	if rating <= 0 {
		return 0, 0
	}
	added = r.leadVolts(p, mode, nil)
	return rating + added, added
}

// leadVolts returns what the two leads of a mode add, V.
func (r Rule) leadVolts(p *diagram.Protector, mode diagram.Mode, w *analysis.Working) float64 {
	var told *lead.Told
	switch {
	case w == nil:
	case p.Rating == diagram.Up:
		told = &lead.Told{Working: w, Label: "leads", Source: leadsOfUp}
	default:
		told = &lead.Told{Working: w, Label: "leads", Source: leadsOfVPR}
	}
	return r.Leads.Volts(p.Rating, lead.Of(p, mode), told)
}

// far returns the distance from which a bus is far from a protector, m.
func (r Rule) far(p *diagram.Protector) float64 {
	if p.Rating == diagram.Up {
		return r.FarIEC
	}
	return r.FarUS
}
