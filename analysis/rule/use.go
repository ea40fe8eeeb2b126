package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// useRules are the sections that ask for a protector by what a board or load
// is for.
func useRules(p *place) []analysis.Finding {
	if p.system.Voltage > lowVoltage {
		return nil
	}
	switch p.part.Use {
	case diagram.EmergencyUse:
		return emergencyBoard(p)
	case diagram.CriticalPowerUse:
		return criticalPower(p)
	}
	if p.layout().usedBelow[purpose{p.part.ID, p.part.Use}] {
		return nil // the equipment itself is drawn below
	}
	switch p.part.Use {
	case diagram.FirePumpUse:
		return firePump(p)
	case diagram.ElevatorUse:
		return elevator(p)
	case diagram.MachineSafetyUse:
		return machineSafety(p)
	case diagram.CriticalDataUse:
		return criticalData(p)
	case diagram.WindTurbineFeedUse:
		return windTurbine(p)
	}
	return nil
}

// missing returns the finding that the part has no protector, by a section of
// NFPA 70.
func (p *place) missing(severity analysis.Severity, section, what, why string) []analysis.Finding {
	return []analysis.Finding{p.finding(requirement{
		severity: severity, what: what, why: why, source: p.nfpa(section), accept: anyProtector,
		remedy: "place a listed one on " + p.name(), hosts: []*analysis.Node{p.node},
	})}
}

// emergencyBoard is section 700.8, since 2014: in or on the board itself.
func emergencyBoard(p *place) []analysis.Finding {
	if !takesBoard(p.node, p.part) || p.protected() {
		return nil
	}
	return p.missing(p.demanded(), "700.8", p.name()+", a board of an emergency system, has no protector",
		"every switchboard and panel of an emergency system has to have one in or on it")
}

// firePump is section 695.15, since 2017: in or on the controller, which is
// the load.
func firePump(p *place) []analysis.Finding {
	if p.protected() {
		return nil
	}
	return p.missing(p.demanded(), "695.15", p.name()+", a fire pump, has no protector",
		"the controller of a fire pump has to have one in or on it")
}

// protectedNear reports whether a protector stands on the part, or in its
// transformer zone on the board that feeds it: where the section does not say
// at which of the two.
func (p *place) protectedNear() bool {
	r := p.route()
	if p.protected() || r.box != "" {
		return true
	}
	return r.board != nil && r.board.Zone == p.node.Zone && slices.ContainsFunc(p.counting(r.board.At.Part), anyProtector)
}

// nowhereNear ends what is said of a part where protectedNear is false.
const nowhereNear = ", has no protector, on it or on the board that feeds it"

// elevator is section 620.51(E), since 2017: where the disconnect supplies a
// load of an emergency system. It does where a board of that system feeds it, on
// either side of a transfer switch, and where what is below it belongs to that.
// Behind a transfer switch that is likely, and the sheet does not say it.
func elevator(p *place) []analysis.Finding {
	if p.protectedNear() {
		return nil
	}
	const section, why = "620.51(E)", "where the disconnect of an elevator supplies a load of an emergency system, it has to have one"
	switch board, transfer := p.emergencySource(); {
	case board != "":
		return p.missing(p.demanded(), section, p.name()+", an elevator fed from "+p.Document.NameOf(board)+" of the emergency system"+nowhereNear, why)
	case p.layout().usedBelow[purpose{p.part.ID, diagram.EmergencyUse}]:
		return p.missing(p.demanded(), section, p.name()+", which feeds an elevator and a load of the emergency system"+nowhereNear, why)
	case transfer:
		return p.missing(analysis.Warning, section, p.name()+", an elevator behind a transfer switch"+nowhereNear, why)
	}
	return nil
}

// emergencySource returns a board of an emergency system by which the part is
// fed, on the normal side or on the emergency side of a transfer switch above it,
// and whether there is such a switch.
func (p *place) emergencySource() (board diagram.ID, transfer bool) {
	if r := p.route(); r.emergency != nil {
		return r.emergency.At.Part, r.transfer
	}
	for node := p.node; node != nil; node = node.Up {
		part, _ := p.Document.Part(node.At.Part)
		if part.Kind != diagram.TransferSwitch {
			continue
		}
		transfer = true
		side := p.Topology.Nodes[diagram.End{Part: part.ID, Port: diagram.Emergency}]
		if side == nil {
			continue
		}
		if above := p.layout().spots[side].above.emergency; above != nil {
			return above.At.Part, true
		}
	}
	return "", transfer
}

// machineSafety is section 670.6, since 2017. The wording of 2023 is from
// memory.
func machineSafety(p *place) []analysis.Finding {
	if p.protectedNear() {
		return nil
	}
	why := "industrial machinery with safety interlock circuits has to have one"
	if p.nec() == diagram.NEC2023 {
		why = "industrial machinery with safety circuits that nothing else protects has to have one"
	}
	return p.missing(p.demanded(), "670.6", p.name()+", machinery with safety circuits"+nowhereNear, why)
}

// criticalData is section 645.18, since 2017.
func criticalData(p *place) []analysis.Finding {
	if p.protectedNear() {
		return nil
	}
	return p.missing(p.demanded(), "645.18", p.name()+", of a critical operations data system"+nowhereNear,
		"a critical operations data system has to have one")
}

// windTurbine is section 694.7(D), since 2011 (from memory): between the
// turbine and the loads, anywhere behind the service disconnect.
func windTurbine(p *place) []analysis.Finding {
	if p.protected() || p.route().covered {
		return nil
	}
	return p.missing(analysis.Warning, "694.7(D)", "No protector stands on "+p.name()+", which a wind turbine feeds, or above it",
		"between a wind turbine and the loads that it serves there has to be one")
}

// criticalPower is section 708.20(D): every voltage level of the system. That
// it is every level is from memory.
func criticalPower(p *place) []analysis.Finding {
	var out []analysis.Finding
	for _, l := range p.layout().levels[p.part.ID] {
		if l.protected {
			continue
		}
		host := p.Document.NameOf(l.at.At.Part)
		out = append(out, p.finding(requirement{
			severity: analysis.Warning, source: p.nfpa("708.20(D)"), accept: anyProtector, hosts: []*analysis.Node{l.at},
			what: "The critical operations power system has no protector on its level of " + l.at.System.String() + ", from " + host + " on",
			why:  "a critical operations power system has to have one at every voltage level", remedy: "place a listed one on " + host,
		}))
	}
	return out
}
