package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// largeAhead is the largest overcurrent device that the trade gives a protector
// whose instructions are not known, A (common practice, no source).
const largeAhead = 60

// aheadTooLarge reports a protector that has no overcurrent device of its own and
// does not say how large the one ahead may be, where that is a large one. Type 3
// belongs behind the breaker of a branch circuit, which such a one is not.
func (s *site) aheadTooLarge() []analysis.Finding {
	b := s.protector.Breaker
	name, rated := s.smallestAhead()
	switch {
	case b.Rated > 0 || b.Most > 0 || rated <= largeAhead:
		return nil
	case s.protector.Type == diagram.Type3:
		return placeFinding(analysis.Warning,
			fmt.Sprintf("%s is type 3, and the smallest overcurrent device ahead of it, that of %s, is %s", s.on(), name, amperes(rated)),
			"type 3 belongs behind the breaker of a branch circuit: behind a larger one, a fault inside it may not clear before it bursts",
			"enter its breaker, or put it on a branch-circuit breaker",
			s.nfpaOn(typeThreePlace))
	}
	return placeFinding(analysis.Remark,
		fmt.Sprintf("%s has no breaker of its own, and the device ahead of it, that of %s, is %s", s.on(), name, amperes(rated)),
		"a type 2 protector may rely on the device ahead to clear its failure, and how large that may be is not stated",
		"state the largest overcurrent device that its instructions allow, or give it a breaker",
		s.nfpaOn(typeTwoPlace)+"; from what size on it is asked is "+commonPractice)
}

// aheadUnknown reports a protector of type 2 that states nothing of its
// overcurrent device, where the rating of none ahead of it is known either. That
// none stands ahead at all is told of its place.
func (s *site) aheadUnknown() []analysis.Finding {
	b := s.protector.Breaker
	_, rated := s.smallestAhead()
	if s.iec || s.protector.Type != diagram.Type2 || b.Rated > 0 || b.Poles > 0 || b.Shared || rated > 0 || s.typeTells() {
		return nil
	}
	return breakerFinding(analysis.Remark,
		fmt.Sprintf("No breaker or fuse is stated for %s, and the rating of none ahead of it is known", s.on()),
		"a type 2 protector may rely on an overcurrent device that its instructions name: without it, it may burst when it fails",
		"see what its instructions ask for; state its breaker, or the largest device ahead that they allow",
		s.nfpaOn(typeTwoPlace)+"; UL 1449")
}

// aheadTooSmall reports a protector that has no overcurrent device of its own and
// relies on one ahead that its surges blow.
func (s *site) aheadTooSmall() []analysis.Finding {
	b := s.protector.Breaker
	name, rated := s.smallestAhead()
	if b.Rated > 0 || b.Least <= 0 || rated <= 0 || rated >= b.Least {
		return nil
	}
	const source = "instructions of the protector, " + fromSheet
	out := breakerFinding(analysis.Warning,
		fmt.Sprintf("%s asks for an overcurrent device of at least %s, and the one ahead of it, that of %s, is %s", s.on(), amperes(b.Least), name, amperes(rated)),
		"a surge that the protector can take opens that device, and all that it feeds goes dead",
		"use one that is content with "+amperes(rated)+", or connect it where "+amperes(b.Least)+" are ahead",
		source)
	out[0].Working = analysis.Working{
		{Label: "device of " + name, Result: rated, Unit: "A", Source: fromSheet},
		{Label: "at least", Result: b.Least, Unit: "A", Source: source},
	}
	return out
}
