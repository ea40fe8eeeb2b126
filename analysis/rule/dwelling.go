package rule

import (
	"slices"

	"clampline/diagram"
)

// dwellingRules are sections 230.67, 215.18 and 225.42: boards that supply
// dwelling units and, from 2023 on, sleeping rooms. Before 2020 there was none.
func dwellingRules() []record[*place] {
	return where((*place).mayFeedDwelling,
		tellsOne("required.dwelling service", (*place).bareService, sayBareService),
		tellsOne("required.dwelling feeder", (*place).bareFeeder, sayBareFeeder),
	)
}

func (p *place) mayFeedDwelling() bool {
	return takesBoard(p.node, p.part) && p.nec() != diagram.NEC2017
}

// bareService is section 230.67. 2020: dwelling units; 2023: sleeping rooms
// too, and a least current.
func (p *place) bareService() (whom string, found bool) {
	of := p.service()
	if of == nil {
		return "", false
	}
	whom = p.occupantsOf(of)
	return whom, whom != "" && !p.protectedAt(p.node) && !p.protectedNext()
}

func sayBareService(p *place, whom string) said {
	return p.missing(p.demand(true, said{
		source: p.nfpa("230.67"),
		what:   p.name() + ", the service equipment for " + whom + ", has no type 1 or 2 protector",
		why:    "a service that supplies " + whom + " has to have one, when it is new and when its equipment is replaced",
		remedy: "place one in " + p.name() + " or right beside it, or one at each of the boards next downstream" + p.atLeast(),
	}), atService, p.node)
}

// protectedNext reports whether each of the boards next downstream has a
// protector: they may stand in for the service equipment.
func (p *place) protectedNext() bool {
	l := p.layout()
	known, ok := l.stoodIn[p.part.ID]
	if !ok {
		known = p.nextHave(atService)
		l.stoodIn[p.part.ID] = known
	}
	return known
}

// nextHave reports whether there are boards next downstream and each of them has
// a protector that is meant. One behind a transformer holds nothing at the service
// and cannot stand in.
func (p *place) nextHave(meant func(diagram.Protector) bool) bool {
	next := p.layout().next[p.part.ID]
	for _, node := range next {
		if node.Zone != p.node.Zone || !slices.ContainsFunc(p.protectorsAt(node), meant) {
			return false
		}
	}
	return len(next) > 0
}

// fed is a board at the end of a feeder for people who live or sleep there.
type fed struct {
	whom    string
	section string // on its feeder
}

// bareFeeder is sections 215.18 and, for an outside feeder, 225.42 of 2023:
// the board that holds the branch overcurrent devices.
func (p *place) bareFeeder() (fed, bool) {
	if p.nec() != diagram.NEC2023 || p.service() != nil {
		return fed{}, false
	}
	whom := p.fedOccupants()
	return fed{whom, p.feederSection()}, whom != "" && !p.protectedAt(p.node)
}

func sayBareFeeder(p *place, f fed) said {
	feeders := "feeders"
	if f.section == outsideFeeder {
		feeders = "outside feeders"
	}
	return p.missing(p.demand(true, said{
		source: p.nfpa(f.section),
		what:   p.name() + ", which supplies " + f.whom + ", has no type 1 or 2 protector",
		why:    "where " + feeders + " supply " + f.whom + ", the board with the branch breakers has to have one, when it is new and when it is replaced",
		remedy: "place one in " + p.name() + " or right beside it" + p.atLeast(),
	}), atService, p.node)
}

// Sections on feeders, inside and outside the building.
const (
	insideFeeder  = "215.18"
	outsideFeeder = "225.42"
)

// feederSection returns the section on the feeder that leads to the board.
func (p *place) feederSection() string {
	if p.part.Board.Structure || p.route().structure {
		return outsideFeeder
	}
	return insideFeeder
}

// fedOccupants says whom the branch breakers of a board supply, or nothing.
func (p *place) fedOccupants() string {
	whom := occupants(p.part.Use == diagram.DwellingUnitUse, p.part.Use == diagram.SleepingRoomsUse)
	if whom == "" || !p.holdsBranches() {
		return ""
	}
	return whom
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

// occupantsOf says whom a service supplies, of those that the edition names, or
// nothing.
func (s *sheet) occupantsOf(of *service) string {
	return occupants(of.dwelling, of.sleeping && s.nec() == diagram.NEC2023)
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

// dwellingSection returns the section of NFPA 70 that asks for a least In of a
// protector on the board or right beside it, and for whom, or nothing. Only the
// edition of 2023 names one.
func (p *place) dwellingSection() (section, whom string) {
	if p.nec() != diagram.NEC2023 || !takesBoard(p.node, p.part) {
		return "", ""
	}
	if of := p.service(); of != nil {
		return p.serviceSection(of)
	}
	if whom := p.fedOccupants(); whom != "" {
		return p.feederSection() + "(E)", "a feeder to " + whom
	}
	return p.standsIn()
}

// standsIn is dwellingSection for a board next downstream of service equipment
// that has no protector: those of the next boards stand in for it.
func (p *place) standsIn() (section, whom string) {
	above := p.route().board
	if above == nil || p.protectedAt(above) {
		return "", ""
	}
	part, _ := p.Document.Part(above.At.Part)
	service := p.placeOf(part)
	of := service.service()
	if of == nil || !service.protectedNext() {
		return "", ""
	}
	return p.serviceSection(of)
}

// serviceSection is dwellingSection for service equipment, or for what stands in
// for it.
func (s *sheet) serviceSection(of *service) (section, whom string) {
	if whom := s.occupantsOf(of); whom != "" {
		return "230.67(E)", "a service to " + whom
	}
	return "", ""
}

// atLeast ends a remedy with the least nominal discharge current: there is one
// since 2023.
func (p *place) atLeast() string {
	if p.nec() != diagram.NEC2023 {
		return ""
	}
	return ", with an In of at least " + kiloamperes(leastAtDwelling)
}
