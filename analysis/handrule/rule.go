package handrule

// Rule holds the figures of the hand rule. The zero value is not usable: start
// from DefaultRule. Front and Speed must be above zero, the rest not below it.
type Rule struct {
	LeadVoltsVPR float64 // V per metre of lead beyond FreeLeadVPR, phase and return counted together
	FreeLeadVPR  float64 // length of each lead that a VPR includes, m
	LeadVoltsUp  float64 // V per metre of lead, each of the two counted, added to an Up
	SurgeVoltage float64 // crest of the surge that arrives, V
	Front        float64 // its front time, s
	Speed        float64 // of a wave in building wiring, m/s
	FarUS        float64 // distance from which a bus is far from a protector with a VPR, m
	FarIEC       float64 // the same for a protector with an Up, m
}

const inch = 0.0254 // m

// DefaultRule returns the usual figures.
//
// 25 V per inch beyond six inches is common practice, no source; six inches is
// the lead with which a VPR is measured (UL 1449). 1 kV per metre is that of
// DIN VDE 0100-534 and IEC 61643-12 (from memory). 6 kV with a front of 1.2 µs
// is the open-circuit voltage of the combination wave of IEEE C62.41.2-2002,
// category B (from memory). 200 m/µs is two thirds of the speed of light, as
// in touching insulated conductors. 30 ft is the distance from which UL 1449
// puts a protector at the point of use; 10 m is that of IEC 60364-5-53,
// 534.4.9 (from memory).
func DefaultRule() Rule {
	return Rule{
		LeadVoltsVPR: 25 / inch,
		FreeLeadVPR:  6 * inch,
		LeadVoltsUp:  1000,
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
