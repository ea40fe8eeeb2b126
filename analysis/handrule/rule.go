package handrule

import "clampline/analysis/lead"

// Rule holds the figures of the hand rule. The zero value is not usable: start
// from DefaultRule. Front and Speed must be above zero, the rest not below it.
type Rule struct {
	Leads        lead.Rate
	SurgeVoltage float64 // crest of the surge that arrives, V
	Front        float64 // its front time, s
	Speed        float64 // of a wave in building wiring, m/s
	FarUS        float64 // distance from which a bus is far from a protector with a VPR, m
	FarIEC       float64 // the same for a protector with an Up, m
}

// DefaultRule returns the usual figures.
//
// Leads are taken as apart. 6 kV with a front of 1.2 µs is the open-circuit voltage
// of the combination wave of IEEE C62.41.2-2002, category B (from memory). 200 m/µs is
// two thirds of the speed of light, as in touching insulated conductors. 30 ft is the
// distance from which UL 1449 puts a protector at the point of use; 10 m is that of
// IEC 60364-5-53, 534.4.9 (from memory).
func DefaultRule() Rule {
	return Rule{
		Leads:        lead.RateOf(false),
		SurgeVoltage: 6000,
		Front:        1.2e-6,
		Speed:        2e8,
		FarUS:        9.144,
		FarIEC:       10,
	}
}

// steepness returns the slope of the surge that arrives, in V/s.
func (r Rule) steepness() float64 { return r.SurgeVoltage / r.Front }

// check panics for figures that no result can be made from.
func (r Rule) check() {
	if r.Front <= 0 || r.Speed <= 0 {
		panic("handrule: the front and the speed of a rule must be above zero")
	}
}
