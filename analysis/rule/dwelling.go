package rule

import (
	"clampline/analysis"
	"clampline/diagram"
)

// dwellingRules are sections 230.67, 215.18 and 225.42: boards that supply
// dwelling units and, from 2023 on, sleeping rooms. Before 2020 there was none.
func dwellingRules(p *place) []analysis.Finding {
	if !takesBoard(p.node, p.part) || p.nec() == diagram.NEC2017 {
		return nil
	}
	if of := p.service(); of != nil {
		return dwellingService(p, of)
	}
	if p.nec() == diagram.NEC2023 {
		return dwellingFeeder(p)
	}
	return nil
}

// dwellingService is section 230.67. 2020: dwelling units; 2023: sleeping rooms
// too, and a least current.
func dwellingService(p *place, of *service) []analysis.Finding {
	sleeping := of.sleeping && p.nec() == diagram.NEC2023
	whom := occupants(of.dwelling, sleeping)
	if whom == "" || p.protectedAt(p.node) || p.protectedNext() {
		return nil
	}
	return []analysis.Finding{p.finding(requirement{
		severity: analysis.Error, source: p.nfpa("230.67"), accept: atService, hosts: []*analysis.Node{p.node},
		what:   p.name() + ", the service equipment for " + whom + ", has no protector of type 1 or 2",
		why:    "a service that supplies " + whom + " has to have one, when it is new and when its equipment is replaced",
		remedy: "place one in " + p.name() + " or right beside it, or one at each of the boards next downstream" + p.atLeast(),
	})}
}

// protectedNext reports whether each of the boards next downstream has a
// protector: they may stand in for the service equipment.
func (p *place) protectedNext() bool {
	next := p.layout().next[p.part.ID]
	for _, node := range next {
		if !p.protectedAt(node) {
			return false
		}
	}
	return len(next) > 0
}

// dwellingFeeder is sections 215.18 and, for an outside feeder, 225.42 of 2023:
// the board that holds the branch overcurrent devices.
func dwellingFeeder(p *place) []analysis.Finding {
	whom := occupants(p.part.Use == diagram.DwellingUnitUse, p.part.Use == diagram.SleepingRoomsUse)
	if whom == "" || p.protectedAt(p.node) || !p.holdsBranches() {
		return nil
	}
	feeders, section := "feeders", "215.18"
	if p.part.Board.Structure || p.route().structure {
		feeders, section = "outside feeders", "225.42"
	}
	return []analysis.Finding{p.finding(requirement{
		severity: analysis.Error, source: p.nfpa(section), accept: atService, hosts: []*analysis.Node{p.node},
		what:   p.name() + ", which supplies " + whom + ", has no protector of type 1 or 2",
		why:    "where " + feeders + " supply " + whom + ", the board with the branch breakers has to have one, when it is new and when it is replaced",
		remedy: "place one in " + p.name() + " or right beside it" + p.atLeast(),
	})}
}

// holdsBranches reports whether the board feeds more than further boards for
// the same use.
func (p *place) holdsBranches() bool {
	l := p.layout()
	if l.feedsLoad[p.part.ID] {
		return true
	}
	for _, node := range l.next[p.part.ID] {
		if below, _ := p.Document.Part(node.At.Part); below.Use == p.part.Use {
			return false
		}
	}
	return true
}

// occupants says whom a board supplies, or nothing.
func occupants(dwelling, sleeping bool) string {
	switch {
	case dwelling && sleeping:
		return "dwelling units and sleeping rooms"
	case dwelling:
		return "dwelling units"
	case sleeping:
		return "sleeping rooms"
	}
	return ""
}

// atLeast ends a remedy with the least nominal discharge current: there is one
// since 2023.
func (p *place) atLeast() string {
	if p.nec() != diagram.NEC2023 {
		return ""
	}
	return ", with an In of at least " + kiloamperes(leastAtDwelling)
}
