package extract

import (
	"cmp"

	"clampline/analysis/lead"
	"clampline/diagram"
)

// Vary is how far what a circuit is made from lies off what the sheet says: factors,
// of which 0 and none stand for 1. A nil *Vary is the sheet itself. Nothing is
// calibrated anew: a factor scales what the sheet gives.
type Vary struct {
	Crest     float64                          // of the surge, its voltage and its current alike
	Clamps    map[diagram.ID]float64           // by protector: the volts of its varistors, and at which its gaps fire
	Leads     map[diagram.ID]float64           // by protector: the lengths of its leads
	Feeders   map[diagram.ID]float64           // by feeder: the inductance of a metre, the wave speed staying
	Terminals map[diagram.ID]diagram.Terminals // by load: in place of what is not stated
	Mains     *float64                         // rad, where in its turn the mains is when the surge comes; nil for no mains
}

func (v *Vary) crest() float64 {
	if v == nil {
		return 1
	}
	return cmp.Or(v.Crest, 1)
}

func (v *Vary) clamp(id diagram.ID) float64 {
	if v == nil {
		return 1
	}
	return cmp.Or(v.Clamps[id], 1)
}

func (v *Vary) feeder(id diagram.ID) float64 {
	if v == nil {
		return 1
	}
	return cmp.Or(v.Feeders[id], 1)
}

// withLeads returns the protector with its leads as long as they are.
func (v *Vary) withLeads(p diagram.Protector) diagram.Protector {
	if v != nil {
		lead.Stretch(&p, cmp.Or(v.Leads[p.ID], 1))
	}
	return p
}

func (v *Vary) terminals(part diagram.Part) diagram.Terminals {
	if v == nil {
		return part.Load.Terminals
	}
	return cmp.Or(part.Load.Terminals, v.Terminals[part.ID])
}
