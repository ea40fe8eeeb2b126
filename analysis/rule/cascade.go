package rule

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

// The figures on two protectors in a row.
const (
	// lowerBy is how much lower than the one upstream a protector limits before it
	// takes the surge from it, as a share (common practice, no source): the published
	// work says substantially, and what is usual for one system differs by less.
	lowerBy = 0.2
	// apartLimiting and apartSwitching are how much wiring between two protectors
	// leaves the surge to the one upstream, m, where that limits and where it is a gap.
	apartLimiting, apartSwitching = 10.0, 15.0
)

const cascadeSource = "F. D. Martzloff and J.-S. Lai, Cascading surge-protective devices: coordination versus the IEC 664 staircase, 1991; " +
	"how much wiring is enough: IEC 61643-12 " + recalled

// cascadeRules look at two protectors in a row.
func cascadeRules() []record[*site] {
	return about(analysis.SubjectPlace, tellsOne("place.takes surge", (*site).takesSurge, sayTakesSurge))
}

// cascade is a protector with the one upstream that it takes the surge from.
type cascade struct {
	above      diagram.Protector
	wiring     float64 // between the two, m
	enough     float64 // that would leave the surge to the one upstream, m
	own, other float64 // what they limit to, with their leads, V
	stands     stand   // what the one that takes the surge stands, beside the other
}

// takesSurge finds a protector that limits lower than the one upstream of it, with
// little wiring between, and takes the surge that was meant for that one though it
// stands less.
func (s *site) takesSurge() (cascade, bool) {
	from, upstream := s.upstream()
	if len(upstream) == 0 {
		return cascade{}, false
	}
	wiring, measured := s.wiring(from)
	lowest := slices.MinFunc(upstream, func(a, b diagram.Protector) int { return cmp.Compare(limits(a), limits(b)) })
	c := cascade{lowest, wiring, apartLimiting, limits(s.protector), limits(lowest), standsBeside(s.protector, lowest)}
	if gapAcrossLine(lowest) {
		c.enough = apartSwitching
	}
	near := measured && analysis.ToMicrometre(wiring) < c.enough
	return c, near && c.own <= (1-lowerBy)*c.other && c.stands != standsEnough
}

func sayTakesSurge(s *site, c cascade) said {
	severity := analysis.Warning
	why := "most of the surge flows through it, and it is rated for less: it wears out or fails first, while the other stays idle; wiring between helps only while the current rises"
	if c.stands == standsUnknown {
		severity = analysis.Remark
		why = "most of the surge flows through it; whether it is rated for as much is not stated; wiring between helps only while the current rises"
	}
	name := s.Document.NameOf(c.above.ID)
	return said{
		severity: severity,
		who:      s.on(),
		what: fmt.Sprintf("takes the surge before %s on %s, %s upstream: with its leads it limits to %s, the other to %s", name,
			s.Document.NameOf(c.above.Bus), s.lengthText(c.wiring), wholeVolts(c.own), wholeVolts(c.other)),
		why: why,
		remedy: fmt.Sprintf("put one that limits to about %s or less in place of %s, or shorten its leads; or use one here rated for as much; or have at least %s of wiring between",
			wholeVolts(c.own), name, s.lengthText(c.enough)),
		source:  cascadeSource,
		working: s.cascadeWorking(c, name),
	}
}

func (s *site) cascadeWorking(c cascade, name string) analysis.Working {
	return analysis.Working{
		{Label: "wiring between the two", Result: c.wiring, Unit: "m", Source: fromSheet},
		{Label: "with leads, " + s.name(), Result: c.own, Unit: "V", Source: s.leadSource(tied(s.protector))},
		{Label: "with leads, " + name, Result: c.other, Unit: "V", Source: s.leadSource(tied(c.above))},
		{
			Label: "lower by", Formula: "1 − U / U_upstream", Numbers: "1 − " + wholeVolts(c.own) + " / " + wholeVolts(c.other),
			Result: 100 * (1 - c.own/c.other), Unit: "%", Source: fmt.Sprintf("told from %.0f %% on; %s", 100*lowerBy, commonPractice),
		},
	}
}

// upstream returns the nearest protectors above the place in its zone whose
// levels compare with those of this one, and the number of their terminal on the
// way.
func (s *site) upstream() (at int, found []diagram.Protector) {
	if s.node == nil || limits(s.protector) == 0 {
		return 0, nil
	}
	way := s.way()
	for i := len(way) - 2; i >= 0; i-- {
		all := s.counting(way[i].At.Part)
		if !slices.ContainsFunc(all, anyProtector) {
			continue
		}
		return i, slices.DeleteFunc(slices.Clone(all), func(p diagram.Protector) bool {
			return limits(p) == 0 || (p.Rating == diagram.Up) != (s.protector.Rating == diagram.Up)
		})
	}
	return 0, nil
}

// limits returns the voltage that a protector lets through between a line and
// neutral or earth, with its leads, V; 0 where it is not stated.
func limits(p diagram.Protector) float64 {
	level := lead.LineLevel(&p)
	if level == 0 {
		return 0
	}
	return level + added(p, tied(p))
}

// stand is how what a protector stands compares with another one.
type stand uint8

const (
	standsUnknown stand = iota
	standsEnough
	standsLess
)

// standsBeside compares the currents that two protectors stand, the one upstream
// last.
func standsBeside(p, upstream diagram.Protector) stand {
	switch {
	case forPointOfUse(p.Type), impulseTested(upstream) && !impulseTested(p), p.In > 0 && p.In < upstream.In:
		return standsLess
	case p.In > 0 && upstream.In > 0:
		return standsEnough
	}
	return standsUnknown
}
