package rule

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const (
	// protectedWiring is how much wiring may lie between a protector and equipment,
	// m, unless it limits to protectedShare of what that stands. IEC 60364-5-53 clause
	// 534.4.9, as OVE-Fachinformation E09 (2022) summarises what Austria took over.
	protectedWiring = 10
	protectedShare  = 0.5
)

// distant is equipment that is too far from the protectors that hold it.
type distant struct {
	load      diagram.Part
	wiring    float64 // m, of the feeders whose length is known
	withstand float64 // rated impulse voltage, V
}

// tooFar is equipment far from the protectors that hold it.
type tooFar struct {
	held diagram.Protector // that limits lowest
	far  []distant         // what stands the least first
}

// distanceRules is on how far from equipment a protector may stand.
func distanceRules() []record[*place] {
	return where((*place).byIEC, about(analysis.SubjectPlace, tellsOne("place.far from equipment", (*place).tooFar, sayTooFar))...)
}

// tooFar finds equipment far from the nearest protectors upstream of it, which
// stand on the part, where none of them limits to half of what it stands. The
// clause says should.
func (p *place) tooFar() (tooFar, bool) {
	fed := p.layout().heldFrom(p.sheet)[p.part.ID]
	held, ok := lowestUp(p.counting(p.part.ID))
	if len(fed) == 0 || !ok {
		return tooFar{}, false
	}
	out := tooFar{held: held}
	for _, d := range fed {
		if d.wiring > protectedWiring && limits(held) > protectedShare*d.withstand+margin {
			out.far = append(out.far, d)
		}
	}
	slices.SortStableFunc(out.far, func(a, b distant) int {
		return cmp.Or(cmp.Compare(a.withstand, b.withstand), cmp.Compare(b.wiring, a.wiring))
	})
	return out, len(out.far) > 0
}

// lowestUp returns the protector that limits lowest of those that state an Up.
func lowestUp(all []diagram.Protector) (diagram.Protector, bool) {
	var out diagram.Protector
	for _, p := range all {
		if v := limits(p); p.Rating == diagram.Up && v > 0 && (out.ID == "" || v < limits(out)) {
			out = p
		}
	}
	return out, out.ID != ""
}

// heldFrom returns the equipment whose rated impulse voltage is known by the part
// with the nearest protectors upstream of it. It is found once.
func (l *layout) heldFrom(s *sheet) map[diagram.ID][]distant {
	if l.held != nil {
		return l.held
	}
	l.held = map[diagram.ID][]distant{}
	for load := range s.Document.Parts() {
		node := s.Topology.Node(load)
		if load.Kind != diagram.Load || node == nil {
			continue
		}
		volts := impulseRating(load.Withstand, node.System)
		if host := s.holder(node); host != nil && volts > 0 {
			l.held[host.At.Part] = append(l.held[host.At.Part], distant{load, analysis.ToMicrometre(node.Total - host.Total), volts})
		}
	}
	return l.held
}

// holder returns the nearest terminal up the zone on whose part a protector
// stands, or nil.
func (s *sheet) holder(node *analysis.Node) *analysis.Node {
	for at := node; at != nil && at.Zone == node.Zone; at = at.Up {
		if slices.ContainsFunc(s.counting(at.At.Part), anyProtector) {
			return at
		}
	}
	return nil
}

// impulseRating returns the rated impulse voltage of equipment on a system, V;
// 0 where it is not stated as one.
func impulseRating(w diagram.Withstand, system diagram.System) float64 {
	switch w.Kind {
	case diagram.ByVolts:
		return w.Volts
	case diagram.ByCategory:
		return analysis.ImpulseVoltage(system.HighestToEarth(), w.Category)
	}
	return 0
}

func sayTooFar(p *place, t tooFar) said {
	severity, records, names := analysis.Remark, []diagram.ID{p.part.ID}, []string(nil)
	for _, d := range t.far {
		records, names = append(records, d.load.ID), append(names, p.Document.NameOf(d.load.ID))
		if d.load.Load.Critical {
			severity = analysis.Warning
		}
	}
	return said{
		severity: severity, records: records, critical: severity == analysis.Warning,
		what: fmt.Sprintf("More than %s of wiring lies between %s on %s, which with leads limits to %s, and %s",
			p.lengthText(protectedWiring), p.Document.NameOf(t.held.ID), p.name(), wholeVolts(limits(t.held)), unit.Names(names)),
		why:     "beyond " + p.lengthText(protectedWiring) + " of wiring the voltage can swing to twice that of the protector, so that should be at most half of what the equipment withstands",
		remedy:  "place another protector close to the equipment, or use one here whose Up with its leads is at most " + wholeVolts(protectedShare*t.far[0].withstand),
		source:  protectedLength,
		working: p.distantWorking(t.held, t.far[0]),
	}
}

func (p *place) distantWorking(held diagram.Protector, d distant) analysis.Working {
	name, s := p.Document.NameOf(d.load.ID), p.site(held)
	return analysis.Working{
		{Label: "wiring to " + name, Result: d.wiring, Unit: "m", Source: fromSheet},
		{Label: "most wiring", Result: protectedWiring, Unit: "m", Source: protectedLength},
		{Label: "rated impulse voltage of " + name, Result: d.withstand, Unit: "V", Source: "from the sheet; a category by IEC 60664-1:2007 table F.1"},
		{
			Label: "half of it", Formula: "Uw / 2", Numbers: wholeVolts(d.withstand) + " / 2",
			Result: protectedShare * d.withstand, Unit: "V", Source: protectedLength,
		},
		{
			Label: "Up with its leads", Formula: "Up + k (l1 + l2)", Numbers: wholeVolts(lead.LineLevel(&held)) + " + " + wholeVolts(added(held, tied(held))),
			Result: limits(held), Unit: "V", Source: s.leadSource(tied(held)),
		},
	}
}
