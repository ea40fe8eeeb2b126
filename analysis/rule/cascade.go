package rule

import (
	"fmt"
	"slices"

	"clampline/analysis"
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

// cascadeRules reports a protector that limits lower than the one upstream of it,
// with little wiring between, and takes the surge that was meant for that one
// though it stands less.
func cascadeRules(s *site) []analysis.Finding {
	from, upstream := s.upstream()
	if len(upstream) == 0 {
		return nil
	}
	wiring, measured := s.wiring(from)
	if !measured {
		return nil
	}
	lowest := slices.MinFunc(upstream, func(a, b diagram.Protector) int { return int(limits(a) - limits(b)) })
	enough := apartLimiting
	if gapAcrossLine(lowest) {
		enough = apartSwitching
	}
	if analysis.ToMicrometre(wiring) >= enough || limits(s.protector) > (1-lowerBy)*limits(lowest) {
		return nil
	}
	return s.takesSurge(lowest, wiring, enough)
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
	level := lineLevel(p)
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
	small := p.Type == diagram.Type3 || p.Type == diagram.ClassIII
	switch {
	case small, impulseTested(upstream) && !impulseTested(p), p.In > 0 && p.In < upstream.In:
		return standsLess
	case p.In > 0 && upstream.In > 0:
		return standsEnough
	}
	return standsUnknown
}

func (s *site) takesSurge(above diagram.Protector, wiring, enough float64) []analysis.Finding {
	severity := analysis.Warning
	why := "most of the surge flows through it, and it is rated for less: it wears out or fails first, while the other stays idle; wiring between helps only while the current rises"
	switch standsBeside(s.protector, above) {
	case standsEnough:
		return nil
	case standsUnknown:
		severity = analysis.Remark
		why = "most of the surge flows through it; whether it is rated for as much is not stated; wiring between helps only while the current rises"
	}
	own, other, name := limits(s.protector), limits(above), s.Document.NameOf(above.ID)
	out := placeFinding(severity,
		fmt.Sprintf("%s takes the surge before %s on %s, %s upstream: with its leads it limits to %s, the other to %s", s.on(), name,
			s.Document.NameOf(above.Bus), s.lengthText(wiring), wholeVolts(own), wholeVolts(other)),
		why,
		fmt.Sprintf("put one that limits to about %s or less in place of %s, or shorten its leads; or use one here rated for as much; or have at least %s of wiring between",
			wholeVolts(own), name, s.lengthText(enough)),
		cascadeSource)
	out[0].Working = analysis.Working{
		{Label: "wiring between the two", Result: wiring, Unit: "m", Source: fromSheet},
		{Label: "with leads, " + s.name(), Result: own, Unit: "V", Source: s.leadSource(tied(s.protector))},
		{Label: "with leads, " + name, Result: other, Unit: "V", Source: s.leadSource(tied(above))},
		{
			Label: "lower by", Formula: "1 − U / U_upstream", Numbers: "1 − " + wholeVolts(own) + " / " + wholeVolts(other),
			Result: 100 * (1 - own/other), Unit: "%", Source: fmt.Sprintf("told from %.0f %% on; %s", 100*lowerBy, commonPractice),
		},
	}
	return out
}
