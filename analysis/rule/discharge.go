package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Least nominal discharge currents, A.
const (
	leastWithLightning = 20e3 // NFPA 780 clause 4.20, from memory; the reason why UL 1449 has 20 kA for type 1
	leastAtDwelling    = 10e3 // NFPA 70:2023 230.67(E), 215.18(E) and 225.42(E)
)

// nfpa780 is the standard on lightning protection systems.
const nfpa780 = "NFPA 780:2020 clause 4.20 " + recalled

// dischargeRules compare the discharge currents of a protector with what can come,
// by NFPA: what lightning asks for is more than what a dwelling does.
func dischargeRules() []record[*site] {
	lightning := []string{"discharge.lightning unknown", "discharge.lightning"}
	return where((*site).byNFPA, about(analysis.SubjectDischarge,
		tellsIf("discharge.lightning unknown", (*site).lightningUnknown, sayLightningUnknown),
		tellsIf("discharge.lightning", (*site).belowLightning, sayBelowLightning),
		tellsOne("discharge.dwelling unknown", (*site).dwellingUnknown, sayDwellingUnknown).unless(lightning...),
		tellsOne("discharge.dwelling", (*site).belowDwelling, sayBelowDwelling).unless(lightning...),
	)...)
}

// otherCarries reports whether another protector on the part has at least that
// nominal discharge current.
func (s *site) otherCarries(least float64) bool {
	return slices.ContainsFunc(s.protectors, func(p diagram.Protector) bool { return p.ID != s.protector.ID && p.In >= least })
}

// meetsLightning reports whether the protector stands alone at the service of a
// building with a lightning protection system.
func (s *site) meetsLightning() bool {
	return s.exposure().Lightning.Present() && s.atOrigin() && !s.otherCarries(leastWithLightning)
}

const lightningComes = "the building has a lightning protection system: a strike to it drives part of its current out through the supply"

func (s *site) lightningUnknown() bool {
	return s.protector.In <= 0 && s.meetsLightning()
}

func sayLightningUnknown(s *site) said {
	return s.sayInUnknown(lightningComes, "20 kA", nfpa780)
}

func (s *site) sayInUnknown(why, least, source string) said {
	return said{
		severity: analysis.Remark,
		what:     "The In of " + s.on() + " is not stated",
		why:      why,
		remedy:   "read it off the nameplate: it must be at least " + least,
		source:   source,
	}
}

func (s *site) belowLightning() bool {
	in := s.protector.In
	return in > 0 && in < leastWithLightning && s.meetsLightning()
}

// sayBelowLightning tells an error, as it is by IEC, though the clause is from
// memory: what is too small is destroyed by what is sure to come.
func sayBelowLightning(s *site) said {
	in := s.protector.In
	return said{
		severity: analysis.Error,
		who:      s.on(),
		what:     "has an In of " + kiloamperes(in) + ", and the service of this building needs 20 kA",
		why:      lightningComes,
		remedy:   "use one with an In of 20 kA",
		source:   nfpa780,
		working:  s.currentWorking("In", in, leastWithLightning, nfpa780), mend: replaceIt,
	}
}

// asked is where NFPA 70 asks for a protector because people sleep or live there.
type asked struct{ section, whom string }

const dwellingWants = "the protector that the code asks for there must withstand 10 kA in its listing test"

// dwellingUnknown looks at the protector that is asked for: not one of type 3.
func (s *site) dwellingUnknown() (asked, bool) {
	if s.protector.In > 0 || !atService(s.protector) {
		return asked{}, false
	}
	return s.askedFor()
}

func sayDwellingUnknown(s *site, a asked) said {
	return s.sayInUnknown(dwellingWants, "10 kA", s.nfpa(a.section))
}

func (s *site) belowDwelling() (asked, bool) {
	if in := s.protector.In; in <= 0 || in >= leastAtDwelling || !atService(s.protector) {
		return asked{}, false
	}
	return s.askedFor()
}

func sayBelowDwelling(s *site, a asked) said {
	in, source := s.protector.In, s.nfpa(a.section)
	return s.demand(true, said{
		who:     s.on(),
		what:    fmt.Sprintf("has an In of %s, and for %s at least 10 kA is required", kiloamperes(in), a.whom),
		why:     dwellingWants,
		remedy:  "use one with an In of at least 10 kA",
		source:  source,
		working: s.currentWorking("In", in, leastAtDwelling, source), mend: replaceIt,
	})
}

// askedFor returns the section of NFPA 70 that asks for the protector with a
// least In, and for whom, and whether there is one. On a junction it is that of a
// board right beside it. Where another protector there has the current, nothing
// more is asked for.
func (s *site) askedFor() (asked, bool) {
	for _, node := range s.boardsHere() {
		board := s.place
		if node != s.node {
			part, _ := s.Document.Part(node.At.Part)
			board = s.placeOf(part)
		}
		if s.carriedAt(node, leastAtDwelling) || board.service() != nil && board.nextHave(carries(leastAtDwelling)) {
			continue
		}
		if section, whom := board.dwellingSection(); section != "" {
			return asked{section, whom}, true
		}
	}
	return asked{}, false
}

// boardsHere returns the board that the part is, or those that it is right
// beside.
func (s *site) boardsHere() []*analysis.Node {
	if s.part.Kind.IsBoard() {
		return []*analysis.Node{s.node}
	}
	return s.layout().besideBox[s.part.ID]
}

// carriedAt reports whether another protector on the board or right beside it
// has at least that nominal discharge current.
func (s *site) carriedAt(node *analysis.Node, least float64) bool {
	return slices.ContainsFunc(s.protectorsAt(node), func(p diagram.Protector) bool {
		return p.ID != s.protector.ID && carries(least)(p)
	})
}

// carries accepts a protector for a service or a board that has at least that
// nominal discharge current.
func carries(least float64) func(diagram.Protector) bool {
	return func(p diagram.Protector) bool { return atService(p) && p.In >= least }
}

// currentWorking sets a stated current beside the least.
func (s *site) currentWorking(name string, stated, least float64, source string) analysis.Working {
	return analysis.Working{
		{Label: name + " of " + s.name(), Result: stated, Unit: "A", Source: fromSheet},
		{Label: "least " + name, Result: least, Unit: "A", Source: source},
	}
}
