package rule

import (
	"clampline/analysis"
	"clampline/diagram/unit"
)

// farStructure is the length of a feeder between structures from which on
// NFPA 780 clause 4.20 asks for protectors where it leaves, m (100 ft; from
// memory).
const farStructure = 30

// lightningRules is NFPA 780 on a building with a lightning protection system:
// its service entrances, and the long feeders to other structures.
func lightningRules() []record[*place] {
	return where((*place).underLightning,
		tellsIf("required.lightning service", (*place).bareEntrance, sayBareEntrance),
		tellsOne("required.lightning feeder", (*place).bareBetween, sayBareBetween),
	)
}

// underLightning reports whether the part is a board of a building with a
// lightning protection system.
func (p *place) underLightning() bool {
	supply, ok := p.supply()
	return ok && supply.Exposure.Lightning.Present() && takesBoard(p.node, p.part)
}

func (p *place) bareEntrance() bool {
	return p.service() != nil && !p.protectedAt(p.node)
}

func sayBareEntrance(p *place) said {
	return p.missing(said{
		severity: analysis.Warning, source: nfpa780,
		what:   p.name() + ", a service entrance of a building with a lightning protection system, has no type 1 or 2 protector",
		why:    "a lightning protection system needs one at every service entrance",
		remedy: "place one in " + p.name() + " or right beside it, with an In of at least " + kiloamperes(leastWithLightning) + " per line",
	}, atService, p.node)
}

// between is a long feeder between structures, of which ends are bare.
type between struct {
	above  *analysis.Node // where it begins
	length float64        // m
	bare   []*analysis.Node
}

// bareBetween asks for protectors at both ends of the feeder to another structure.
// What a service entrance lacks is told there.
func (p *place) bareBetween() (between, bool) {
	above := p.route().board
	if !p.part.Board.Structure || p.service() != nil || above == nil {
		return between{}, false
	}
	out := between{above: above, length: analysis.ToMicrometre(p.node.Total - above.Total)}
	for _, end := range []*analysis.Node{p.node, above} {
		if p.layout().entrances[end] == nil && !p.protectedAt(end) {
			out.bare = append(out.bare, end)
		}
	}
	return out, out.length >= farStructure && len(out.bare) > 0
}

// sayBareBetween may be about the board above, from which other feeders may leave.
func sayBareBetween(p *place, b between) said {
	ends := unit.Names(p.namesOf(b.bare))
	return p.missing(said{
		severity: analysis.Warning, source: nfpa780, detail: string(p.part.ID),
		what: "The feeder from " + p.Document.NameOf(b.above.At.Part) + " to " + p.name() + " in another structure is " + p.lengthText(b.length) +
			" long and has no type 1 or 2 protector at " + ends,
		why:    "with a lightning protection system a feeder of 100\u00a0ft or more between structures needs them at its ends",
		remedy: "place one at " + ends,
	}, atService, b.bare...)
}
