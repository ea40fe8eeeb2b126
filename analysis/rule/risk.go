package rule

import (
	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// riskRules says where the origin of a supply needs a protector by the rules of
// IEC and has none. Whether one that is there is strong enough is a matter of
// dischargeRules.
func riskRules() []record[*place] {
	return where((*place).byIEC, about(analysis.SubjectRisk,
		tellsOne("risk.origin", (*place).bareOrigin, sayBareOrigin),
		tellsOne("risk.other structure", (*place).bareStructure, sayBareStructure),
	)...)
}

// bareStructure finds the first board of another structure without a
// protector where the building has a lightning protection system: IEC 62305-4 and
// IEC 60364-5-53 clause 534.4.1 (from memory). What an entrance lacks is told at the
// supply.
func (p *place) bareStructure() (diagram.LightningSystem, bool) {
	if !p.part.Board.Structure || !p.underLightning() {
		return "", false
	}
	supply, _ := p.supply()
	return supply.Exposure.Lightning, p.layout().entrances[p.node] == nil && !p.protectedAt(p.node)
}

func sayBareStructure(p *place, level diagram.LightningSystem) said {
	var alter func(*diagram.Protector)
	if p.atOrigin() {
		supply, _ := p.supply()
		alter = forFlash(supply.Exposure)
	}
	return said{
		severity: analysis.Warning,
		what:     p.name() + ", the first board of another structure, has no class I or II protector",
		why:      "the building that feeds it has a lightning protection system: a flash lifts its earth, and part of the current leaves over the feeder between the two",
		remedy:   "place a class I or II protector at " + p.name() + "; class I if the other structure has a lightning protection system too",
		source:   "IEC 62305-4:2010 and " + classes,
		mend:     p.placeUsual(atService, alter, p.node),
	}
}

// origin is where a supply comes in without a protector that is needed.
type origin struct {
	bare []*analysis.Node
	need analysis.Need
}

func (p *place) bareOrigin() (origin, bool) {
	if p.part.Kind != diagram.Supply {
		return origin{}, false
	}
	out := origin{bare: p.bareEntrances()}
	if len(out.bare) > 0 {
		out.need = analysis.NeedsProtection(p.part.Exposure, p.codes.Risk)
	}
	return out, out.need.Needed
}

func sayBareOrigin(p *place, o origin) said {
	names := unit.Names(p.namesOf(o.bare))
	boards, critical := p.hosts(o.bare)
	return p.demand(o.need.Sure, said{
		records: append([]diagram.ID{p.part.ID}, boards...), critical: critical,
		what: p.name() + " comes in at " + names + " without a class I or II protector",
		why:  o.need.Why, remedy: p.remedyAtOrigin(o.need, names), source: o.need.Source, working: o.need.Working,
		mend: p.placeAtOrigin(o.bare),
	})
}

// bareEntrances returns the boards at which the supply comes in and that have no
// protector.
func (p *place) bareEntrances() []*analysis.Node {
	var bare []*analysis.Node
	for _, node := range p.layout().services[p.part.ID].entrances { // a supply is a source of its own
		if !p.protectedAt(node) {
			bare = append(bare, node)
		}
	}
	return bare
}

func (p *place) remedyAtOrigin(need analysis.Need, where string) string {
	out := "place a class I or II protector at " + where
	switch {
	case p.part.Exposure.Lightning.Present():
		return "place a class I protector at " + where
	case need.Sure:
		return out
	case p.codes.Risk == diagram.ByDefault:
		return out + ", or record that the owner of a single dwelling declines it"
	}
	return out + ", or state " + unit.Names(need.Missing)
}

// placeAtOrigin is the change that places the usual protector on each of the
// boards, or none where the current of a flash asks for more than is usual.
func (p *place) placeAtOrigin(bare []*analysis.Node) analysis.Mend {
	exposure := p.part.Exposure
	if !exposure.Lightning.Present() {
		return p.placeUsual(atService, nil, bare...)
	}
	for _, node := range bare {
		if usualImpulse(exposure, node.System) == 0 {
			return analysis.Mend{}
		}
	}
	return p.placeUsual(atService, forFlash(exposure), bare...)
}

// forFlash makes of the usual protector one for the current of a flash to the
// building.
func forFlash(exposure diagram.Exposure) func(*diagram.Protector) {
	return func(protector *diagram.Protector) { makeClassOne(protector, exposure) }
}

// usualImpulse returns the lowest usual Iimp that carries the share of a pole of
// the system, A, or 0 where none does.
func usualImpulse(exposure diagram.Exposure, system diagram.System) float64 {
	least := max(leastImpulse, analysis.ShareOfFlash(exposure, system).Pole)
	return iimpOfClass.first(func(iimp float64) bool { return iimp >= least })
}

// Least sizes of the leads of class I, m2: IEC 60364-5-53 clause 534.4.10, from
// memory.
const (
	liveOfClassOne  = 6e-6
	earthOfClassOne = 16e-6
)

// backup is the overcurrent device that a protector of class I asks for, A, as
// those of the library do: at least what its Iimp does not blow, at most that with
// which it fails safely (typical of the trade, no listing).
type backup struct{ least, most float64 }

func backupOf(iimp float64) backup {
	if iimp > leastImpulse {
		return backup{250, 315}
	}
	return backup{125, 160}
}

// makeClassOne makes of the usual protector one of class I for a flash to the building.
func makeClassOne(p *diagram.Protector, exposure diagram.Exposure) {
	p.Type, p.Iimp = diagram.ClassI, usualImpulse(exposure, p.System)
	device := backupOf(p.Iimp)
	p.Breaker.Rated, p.Breaker.Least, p.Breaker.Most = device.least, device.least, device.most
	for _, lead := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral} {
		lead.Area = max(lead.Area, liveOfClassOne)
	}
	p.Leads.Earth.Area = max(p.Leads.Earth.Area, earthOfClassOne)
}
