package rule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// useRules are the sections that ask for a protector by what a board or load
// is for.
func useRules() []record[*place] {
	equipment := func(id string, use diagram.Use, protected func(*place) bool, say func(*place) said) record[*place] {
		return tellsIf(id, func(p *place) bool { return p.isFor(use) && !protected(p) }, say)
	}
	return where((*place).lowVoltage,
		tellsIf("required.emergency board", (*place).bareEmergencyBoard, sayEmergencyBoard),
		tells("required.critical power", (*place).bareLevels, sayBareLevel),
		equipment("required.fire pump", diagram.FirePumpUse, (*place).protected, sayFirePump),
		tellsOne("required.elevator", (*place).bareElevator, sayElevator),
		equipment("required.machine safety", diagram.MachineSafetyUse, (*place).protectedNear, sayMachineSafety),
		equipment("required.critical data", diagram.CriticalDataUse, (*place).protectedNear, sayCriticalData),
		equipment("required.wind turbine", diagram.WindTurbineFeedUse, (*place).protectedOrCovered, sayWindTurbine),
	)
}

func (p *place) lowVoltage() bool { return !(p.system.Voltage > lowVoltage) }

// isFor reports whether the part has a use and is the equipment itself, which is
// not drawn below it.
func (p *place) isFor(use diagram.Use) bool {
	return p.part.Use == use && !p.layout().usedBelow[purpose{p.part.ID, use}]
}

// missingBy says that the part has no protector, by a section of NFPA 70 that
// names no type.
func (p *place) missingBy(section string, sure bool, what, why string) said {
	return p.missing(p.demand(sure, said{
		what: what, why: why, source: p.nfpa(section), remedy: "place a listed one on " + p.name(),
	}), anyProtector, p.node)
}

// bareEmergencyBoard is section 700.8, since 2014: in or on the board itself.
func (p *place) bareEmergencyBoard() bool {
	return p.part.Use == diagram.EmergencyUse && takesBoard(p.node, p.part) && !p.protected()
}

func sayEmergencyBoard(p *place) said {
	return p.missingBy("700.8", true, p.name()+", a board of an emergency system, has no protector",
		"every switchboard and panel of an emergency system has to have one in or on it")
}

// sayFirePump is section 695.15, since 2017: in or on the controller, which is
// the load.
func sayFirePump(p *place) said {
	return p.missingBy("695.15", true, p.name()+", a fire pump, has no protector",
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

// elevator is one of which the disconnect supplies a load of an emergency system,
// or may.
type elevator struct {
	board    diagram.ID // of the emergency system, which feeds it; or nothing
	feeds    bool       // a load of that system is below it
	transfer bool       // it is behind a transfer switch
}

// bareElevator is section 620.51(E), since 2017: where the disconnect supplies a
// load of an emergency system. It does where a board of that system feeds it, on
// either side of a transfer switch, and where what is below it belongs to that.
// Behind a transfer switch that is likely, and the sheet does not say it.
func (p *place) bareElevator() (elevator, bool) {
	if !p.isFor(diagram.ElevatorUse) || p.protectedNear() {
		return elevator{}, false
	}
	board, transfer := p.emergencySource()
	feeds := p.layout().usedBelow[purpose{p.part.ID, diagram.EmergencyUse}]
	return elevator{board, feeds, transfer}, board != "" || feeds || transfer
}

func sayElevator(p *place, e elevator) said {
	sure, what := true, p.name()
	switch {
	case e.board != "":
		what += ", an elevator fed from " + p.Document.NameOf(e.board) + " of the emergency system"
	case e.feeds:
		what += ", which feeds an elevator and a load of the emergency system"
	default:
		sure, what = false, what+", an elevator behind a transfer switch"
	}
	return p.missingBy("620.51(E)", sure, what+nowhereNear,
		"where the disconnect of an elevator supplies a load of an emergency system, it has to have one")
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

// sayMachineSafety is section 670.6, since 2017. The wording of 2023 is from
// memory.
func sayMachineSafety(p *place) said {
	why := "industrial machinery with safety interlock circuits has to have one"
	if p.nec() == diagram.NEC2023 {
		why = "industrial machinery with safety circuits that nothing else protects has to have one"
	}
	return p.missingBy("670.6", true, p.name()+", machinery with safety circuits"+nowhereNear, why)
}

// sayCriticalData is section 645.18, since 2017.
func sayCriticalData(p *place) said {
	return p.missingBy("645.18", true, p.name()+", of a critical operations data system"+nowhereNear,
		"a critical operations data system has to have one")
}

// protectedOrCovered reports whether a protector stands on the part or above it.
func (p *place) protectedOrCovered() bool { return p.protected() || p.route().covered }

// sayWindTurbine is section 694.7(D), since 2011 (from memory): between the
// turbine and the loads, anywhere behind the service disconnect.
func sayWindTurbine(p *place) said {
	return p.missingBy("694.7(D)", false, "No protector stands on "+p.name()+", which a wind turbine feeds, or above it",
		"between a wind turbine and the loads that it serves there has to be one")
}

// bareLevels is section 708.20(D): every voltage level of the system. That
// it is every level is from memory.
func (p *place) bareLevels() []*level {
	if p.part.Use != diagram.CriticalPowerUse {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(p.layout().levels[p.part.ID]), func(l *level) bool { return l.protected })
}

func sayBareLevel(p *place, l *level) said {
	host := p.Document.NameOf(l.at.At.Part)
	return p.missing(said{
		severity: analysis.Warning, source: p.nfpa("708.20(D)"),
		what:   "The critical operations power system has no protector on its level of " + l.at.System.String() + ", from " + host + " on",
		why:    "a critical operations power system has to have one at every voltage level",
		remedy: "place a listed one on " + host,
	}, anyProtector, l.at)
}
