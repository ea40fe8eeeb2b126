package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// smallConductors are the greatest overcurrent devices for small copper
// conductors: NFPA 70 section 240.4(D), from memory.
var smallConductors = []struct {
	awg  int
	most float64 // A
}{{14, 15}, {12, 20}, {10, 30}}

// mostForLeads returns the greatest overcurrent device for leads of an area, A,
// or 0 where the section names none.
func mostForLeads(area float64) float64 {
	for _, conductor := range smallConductors {
		if area <= unit.AWGArea(conductor.awg)*(1+sizeTolerance) {
			return conductor.most
		}
	}
	return 0
}

// thinnest returns the area of the thinnest live lead, m², or 0 where none is
// known.
func (s *site) thinnest() float64 {
	area := 0.0
	for _, lead := range liveLeads(&s.protector) {
		if lead.Area > 0 && lead.Length > 0 && (area == 0 || lead.Area < area) {
			area = lead.Area
		}
	}
	return area
}

// allowed is what the code lets protect leads at most.
type allowed struct {
	area float64 // of the thinnest, m²
	most float64 // A
}

// leadsAllow returns what may protect the leads, and whether a breaker of a rating,
// A, is above that. At the point of use on a branch circuit it is the circuit that
// counts.
func (s *site) leadsAllow(rated float64) (a allowed, tooMuch bool) {
	area := s.thinnest()
	if s.iec || area == 0 || s.protector.Breaker.Shared && s.protector.Type == diagram.Type3 {
		return allowed{}, false
	}
	a = allowed{area, mostForLeads(area)}
	return a, a.most > 0 && rated > a.most
}

// breakerForLeads finds a breaker that is too much for the leads.
func (s *site) breakerForLeads() (allowed, bool) { return s.leadsAllow(s.protector.Breaker.Rated) }

func sayBreakerForLeads(s *site, a allowed) said {
	rated, most, source := s.protector.Breaker.Rated, amperes(a.most), s.nfpa("240.4(D)")
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     fmt.Sprintf("is on a breaker of %s with leads of %s, which allow at most %s", amperes(rated), s.areaText(a.area), most),
		why:      "a fault may melt the leads before the breaker opens",
		remedy:   "use a breaker of at most " + most + ", or thicker leads, unless the listing of the protector says otherwise",
		source:   source,
		working: analysis.Working{
			{Label: "breaker of " + s.name(), Result: rated, Unit: "A", Source: fromSheet},
			{Label: "size of the leads", Result: inSquareMillimetres(a.area), Unit: "mm²", Source: fromSheet},
			{Label: "most for leads of this size, of copper", Result: a.most, Unit: "A", Source: source},
		},
	}
}
