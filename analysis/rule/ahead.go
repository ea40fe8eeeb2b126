package rule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// mostUnasked is the largest overcurrent device that the trade gives a protector
// whose instructions are not known, A (common practice, no source).
const mostUnasked = 60

// instructions is where the bounds of an overcurrent device come from.
const instructions = "instructions of the protector, " + fromSheet

// smallestAhead returns the overcurrent device of the lowest known rating on the
// way; its rating is 0 where that of none is known.
func (s *site) smallestAhead() device {
	var out device
	for _, d := range s.devices() {
		if d.rated > 0 && (out.rated == 0 || d.rated < out.rated) {
			out = d
		}
	}
	return out
}

// largeAheadOf returns the predicate that finds a protector of a type that has no
// device of its own and does not say how large the one ahead may be, where that is a
// large one: for type 3, one that is not that of a branch circuit.
func largeAheadOf(kind diagram.Type) func(*site) (device, bool) {
	return func(s *site) (device, bool) {
		if b := s.protector.Breaker; s.iec || s.protector.Type != kind || b.Rated > 0 || b.Most > 0 {
			return device{}, false
		}
		smallest := s.smallestAhead()
		return smallest, smallest.rated > mostUnasked
	}
}

func sayLargeBranch(s *site, a device) said {
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what:     fmt.Sprintf("is type 3, and the smallest overcurrent device ahead of it, that of %s, is %s", a.name, amperes(a.rated)),
		why:      "type 3 belongs behind the breaker of a branch circuit: behind a larger one, a fault inside it may not clear before it bursts",
		remedy:   "enter its breaker, or put it on a branch-circuit breaker",
		source:   s.nfpaOn(typeThreePlace),
	}
}

func sayLargeAhead(s *site, a device) said {
	return said{
		severity: analysis.Remark,
		who:      s.on(),
		what:     fmt.Sprintf("has no breaker of its own, and the device ahead of it, that of %s, is %s", a.name, amperes(a.rated)),
		why:      "a type 2 protector may rely on the device ahead to clear its failure, and how large that may be is not stated",
		remedy:   "state the largest overcurrent device that its instructions allow, or give it a breaker",
		source:   s.nfpaOn(typeTwoPlace) + "; from what size on it is asked is " + commonPractice,
	}
}

// aheadUnknown finds a protector of type 2 that states nothing of its overcurrent
// device, where the rating of none ahead of it is known either.
func (s *site) aheadUnknown() bool {
	b := s.protector.Breaker
	states := b.Rated > 0 || b.Most > 0 || b.Poles > 0 || b.Shared
	return !s.iec && s.protector.Type == diagram.Type2 && !states && s.smallestAhead().rated <= 0
}

func sayAheadUnknown(s *site) said {
	return said{
		severity: analysis.Remark,
		what:     "No breaker or fuse is stated for " + s.on() + ", and the rating of none ahead of it is known",
		why:      "a type 2 protector may rely on an overcurrent device that its instructions name: without it, it may burst when it fails",
		remedy:   "see what its instructions ask for; state its breaker, or the largest device ahead that they allow",
		source:   s.nfpaOn(typeTwoPlace) + "; UL 1449",
	}
}

// asksForOneAhead reports whether a protector asks for a device of at most some size
// and states none of its own.
func (s *site) asksForOneAhead() bool {
	b := s.protector.Breaker
	return b.Rated <= 0 && b.Most > 0
}

// noneSmallEnough finds that the device ahead is larger than the protector asks for.
func (s *site) noneSmallEnough() (device, bool) {
	if !s.asksForOneAhead() {
		return device{}, false
	}
	smallest := s.smallestAhead()
	return smallest, smallest.rated > s.protector.Breaker.Most
}

func sayNoneSmallEnough(s *site, a device) said {
	return s.sayAsksForSmaller(analysis.Warning, fmt.Sprintf("and the device ahead of it, that of %s, is %s", a.name, amperes(a.rated)))
}

// noneKnown finds that no device is known for a protector that asks for one.
func (s *site) noneKnown() bool { return s.asksForOneAhead() && s.smallestAhead().rated <= 0 }

func sayNoneKnown(s *site) said {
	return s.sayAsksForSmaller(analysis.Remark, "and what stands ahead of it is not known")
}

func (s *site) sayAsksForSmaller(severity analysis.Severity, ahead string) said {
	most := amperes(s.protector.Breaker.Most)
	return said{
		severity: severity,
		who:      s.on(),
		what:     fmt.Sprintf("asks for an overcurrent device of at most %s: none of its own is stated, %s", most, ahead),
		why:      "a fault inside the protector may not be cleared before it bursts",
		remedy:   "state its breaker, or give it one of " + most + " or less",
		source:   instructions,
	}
}

// aheadTooSmall finds a protector that has no overcurrent device of its own and
// relies on one ahead that its surges blow.
func (s *site) aheadTooSmall() (device, bool) {
	p := s.protector
	if p.Type == "" || isIEC(p.Type) != s.iec || p.Breaker.Rated > 0 || p.Breaker.Least <= 0 {
		return device{}, false
	}
	smallest := s.smallestAhead()
	return smallest, smallest.rated > 0 && smallest.rated < p.Breaker.Least
}

func sayAheadTooSmall(s *site, a device) said {
	least := s.protector.Breaker.Least
	return said{
		severity: analysis.Warning,
		who:      s.on(),
		what: fmt.Sprintf("asks for an overcurrent device of at least %s, and the one ahead of it, that of %s, is %s",
			amperes(least), a.name, amperes(a.rated)),
		why:    "a surge that the protector can take opens that device, and all that it feeds goes dead",
		remedy: "use one that is content with " + amperes(a.rated) + ", or connect it where " + amperes(least) + " are ahead",
		source: instructions,
		working: analysis.Working{
			{Label: "device of " + a.name, Result: a.rated, Unit: "A", Source: fromSheet},
			{Label: "at least", Result: least, Unit: "A", Source: instructions},
		},
	}
}
