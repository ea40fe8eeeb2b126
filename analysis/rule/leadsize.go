package rule

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// sizeTolerance is the share by which an area may lie below a size and still be
// that size: areas are typed in rounded.
const sizeTolerance = 0.015

// leadSide is a group of leads with one least size.
type leadSide struct {
	name  string
	verb  string
	leads func(*diagram.Protector) []*diagram.Lead // those in use
	least float64                                  // m²
}

// leadSides returns the groups of leads and their least sizes: of copper, since
// the sheet does not say what leads are made of.
//
// NFPA 70: 14 AWG copper or 12 AWG aluminium for all. IEC 60364-5-53 clause
// 534.4.10, from memory: 6 mm² live and 16 mm² earth side for class I, 2.5 and
// 6 mm² for class II.
func (s *site) leadSides() []leadSide {
	live, earth := 0.0, 0.0
	switch kind := s.protector.Type; {
	case !s.iec:
		return []leadSide{{"leads", "have", allLeads, unit.AWGArea(14)}}
	case kind == diagram.ClassI:
		live, earth = liveOfClassOne, earthOfClassOne
	case kind == diagram.ClassII:
		live, earth = 2.5e-6, 6e-6
	}
	return []leadSide{{"live leads", "have", liveLeads, live}, {"earth lead", "has", earthLeads, earth}}
}

func liveLeads(p *diagram.Protector) []*diagram.Lead {
	out := []*diagram.Lead{&p.Leads.Phase}
	if lead.UsesNeutral(p) {
		out = append(out, &p.Leads.Neutral)
	}
	return out
}

func earthLeads(p *diagram.Protector) []*diagram.Lead {
	if !lead.UsesEarth(p) {
		return nil
	}
	return []*diagram.Lead{&p.Leads.Earth}
}

func allLeads(p *diagram.Protector) []*diagram.Lead { return append(liveLeads(p), earthLeads(p)...) }

// tooThin returns the leads of a known size below the least.
func (side leadSide) tooThin(p *diagram.Protector) []*diagram.Lead {
	var out []*diagram.Lead
	for _, one := range side.leads(p) {
		if one.Area > 0 && one.Length > 0 && one.Area < side.least*(1-sizeTolerance) {
			out = append(out, one)
		}
	}
	return out
}

// thin is a group of leads with some that are too thin.
type thin struct {
	leadSide
	smallest float64 // m²
}

// leadsThin checks the cross-sections.
func (s *site) leadsThin() []thin {
	var out []thin
	for _, side := range s.leadSides() {
		p := s.protector
		leads := side.tooThin(&p)
		if len(leads) == 0 {
			continue
		}
		smallest := slices.MinFunc(leads, func(a, b *diagram.Lead) int { return cmp.Compare(a.Area, b.Area) })
		out = append(out, thin{side, smallest.Area})
	}
	return out
}

// sayThin is certain where the section was found in a public text.
func sayThin(s *site, t thin) said {
	least, source := s.areaText(t.least), s.byRules(leadSizesIEC, s.nfpaOn(leadSize))
	return said{
		severity: ifCertain(!s.iec), detail: t.name,
		what:   fmt.Sprintf("The %s of %s %s %s, and at least %s of copper is required", t.name, s.on(), t.verb, s.areaText(t.smallest), least),
		why:    "a thin lead is torn or melts under the surge or the fault that follows",
		remedy: "use at least " + least + s.byRules("", " of copper, or 12 AWG of aluminium"),
		source: source,
		working: analysis.Working{
			{Label: "size of the " + t.name, Result: inSquareMillimetres(t.smallest), Unit: "mm²", Source: fromSheet},
			{Label: "least size", Result: inSquareMillimetres(t.least), Unit: "mm²", Source: source},
		},
		mend: s.altered(fmt.Sprintf("set the %s of … to %s", t.name, least), func(p *diagram.Protector) {
			for _, one := range t.tooThin(p) {
				one.Area = t.least
			}
		}),
	}
}

func inSquareMillimetres(squareMetres float64) float64 { return squareMetres * 1e6 }
