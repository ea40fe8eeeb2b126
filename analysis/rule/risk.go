package rule

import (
	"clampline/analysis"
	"clampline/diagram"
)

// riskRules says where the origin of a supply needs a protector by the rules of
// IEC and has none. Whether one that is there is strong enough is a matter of
// dischargeRules.
func riskRules(p *place) []analysis.Finding {
	if !p.iec || p.part.Kind != diagram.Supply {
		return nil
	}
	bare, names := p.bareOrigins()
	if len(bare) == 0 {
		return nil
	}
	need := NeedsProtection(p.part.Exposure, p.codes.Risk)
	if !need.Needed {
		return nil
	}
	out := analysis.Finding{
		Severity: analysis.Error, Subject: analysis.SubjectRisk, Records: []diagram.ID{p.part.ID},
		What: p.name() + " comes in at " + inSentence(names) + " without a protector of class I or II",
		Why:  need.Why, Remedy: remedyAtOrigin(p.part.Exposure, need, inSentence(names)), Source: need.Source, Working: need.Working,
	}
	if !need.Sure {
		out.Severity = analysis.Warning
	}
	for _, node := range bare {
		out.Records = append(out.Records, node.At.Part)
		out.Critical = out.Critical || p.sheet.critical[node.At.Part]
	}
	out.Mend = p.placeUsual(atService, forLightning(p.part.Exposure.Lightning), bare...)
	return []analysis.Finding{out}
}

// bareOrigins returns the boards at which the supply comes in and that have no
// protector, with their names.
func (p *place) bareOrigins() ([]*analysis.Node, []string) {
	var bare []*analysis.Node
	var names []string
	for _, node := range p.layout().services[p.part.ID].entrances { // a supply is a source of its own
		if !p.protectedAt(node) {
			bare, names = append(bare, node), append(names, p.Document.NameOf(node.At.Part))
		}
	}
	return bare, names
}

func remedyAtOrigin(e diagram.Exposure, need Need, where string) string {
	out := "place a protector of class I or II at " + where
	switch {
	case e.Lightning.Present():
		return "place a protector of class I at " + where
	case need.Sure:
		return out
	case need.Source == sourceDefault:
		return out + ", or record that the owner of a single dwelling declines it"
	}
	return out + ", or state the density of ground flashes"
}

// forLightning makes the usual protector one of class I where the building has
// a lightning protection system.
func forLightning(l diagram.LightningSystem) func(*diagram.Protector) {
	if !l.Present() {
		return nil
	}
	return func(p *diagram.Protector) {
		conductors := p.System.Lines()
		if p.System.Neutral {
			conductors++
		}
		least := leastImpulse(sumToEarth(*p), p.System.Phases()).line
		p.Type, p.Iimp = diagram.ClassI, max(shareOfPole(flashCurrent(l), conductors), least)
	}
}
