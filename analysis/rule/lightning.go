package rule

import (
	"clampline/analysis"
)

// farStructure is the length of a feeder between structures from which on
// NFPA 780 clause 4.20 asks for protectors where it leaves, m (100 ft; from
// memory).
const farStructure = 30

// lightningRules is NFPA 780 on a building with a lightning protection system:
// its service entrances, and the long feeders to other structures.
func lightningRules(p *place) []analysis.Finding {
	supply, ok := p.supply()
	if !ok || !supply.Exposure.Lightning.Present() || !takesBoard(p.node, p.part) {
		return nil
	}
	if p.service() != nil {
		return lightningService(p)
	}
	if p.part.Board.Structure {
		return lightningFeeder(p)
	}
	return nil
}

func lightningService(p *place) []analysis.Finding {
	if p.protectedAt(p.node) {
		return nil
	}
	return []analysis.Finding{p.finding(requirement{
		severity: analysis.Warning, source: nfpa780, accept: atService, hosts: []*analysis.Node{p.node},
		what:   p.name() + ", a service entrance of a building with a lightning protection system, has no type 1 or 2 protector",
		why:    "a lightning protection system needs one at every service entrance",
		remedy: "place one in " + p.name() + " or right beside it, with an In of at least " + kiloamperes(leastWithLightning) + " per line",
	})}
}

// lightningFeeder asks for protectors at both ends of the feeder. What a
// service entrance lacks is told there.
func lightningFeeder(p *place) []analysis.Finding {
	above := p.route().board
	if above == nil {
		return nil
	}
	length := analysis.ToMicrometre(p.node.Total - above.Total)
	if length < farStructure {
		return nil
	}
	var hosts []*analysis.Node
	var names []string
	for _, end := range []*analysis.Node{p.node, above} {
		if p.layout().entrances[end] == nil && !p.protectedAt(end) {
			hosts, names = append(hosts, end), append(names, p.Document.NameOf(end.At.Part))
		}
	}
	if len(hosts) == 0 {
		return nil
	}
	return []analysis.Finding{p.finding(requirement{
		severity: analysis.Warning, source: nfpa780, accept: atService, hosts: hosts,
		what: "The feeder from " + p.Document.NameOf(above.At.Part) + " to " + p.name() + " in another structure is " + p.lengthText(length) +
			" long and has no type 1 or 2 protector at " + inSentence(names),
		why:    "with a lightning protection system a feeder of 100\u00a0ft or more between structures needs them at its ends",
		remedy: "place one at " + inSentence(names),
	})}
}
