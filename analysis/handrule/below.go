package handrule

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Inductance of a loop of two conductors, H/m. Two that run apart have 1 µH/m
// each, as the leads of a protector (common practice, no source). Two that run
// together in a conduit or a cable have 0.7: table 9 of chapter 9 of NFPA 70 gives
// one conductor in a steel conduit a reactance of 0.35 to 0.45 µH/m times the
// angular frequency from 1 AWG on, two of them twice that; in the waves of a
// surge, which stay at the surface, it is less (derived).
const (
	loopApart    = 2e-6
	loopTogether = 0.7e-6
)

// loopInductance returns that of a feeder, H/m: as its surge impedance and its
// speed give it where both are stated.
func loopInductance(f *diagram.Feeder) float64 {
	switch {
	case f.SurgeImpedance > 0 && f.Velocity > 0:
		return f.SurgeImpedance / f.Velocity
	case f.Raceway == diagram.Overhead:
		return loopApart
	}
	return loopTogether
}

// feederRise returns what a metre of feeder adds for the place above, where the
// protector stands below it, V/m: what a metre of its two leads would add, in the
// ratio of the inductances (derived).
func (r Rule) feederRise(p *diagram.Protector, inductance float64) float64 {
	apart := r.Leads.VPR
	if p.Rating == diagram.Up {
		apart = 2 * r.Leads.Up
	}
	return apart * inductance / loopApart
}

// rise is feederRise for whatever a cover is made of: the greater of two.
func (c *cover) rise(rule Rule, inductance float64) float64 {
	out := rule.feederRise(c.first.protector, inductance)
	if c.second.protector != nil {
		out = max(out, rule.feederRise(c.second.protector, inductance))
	}
	return out
}

// climb credits every protector to the places above it: for them the feeder that
// leads to it is lead, up to the distance from which a protector is far.
func (s *solver) climb() {
	for i := range s.places {
		p := &s.places[i]
		for mode := range p.own {
			for _, own := range [2]*cover{p.own[mode], p.flat[mode]} {
				for c := own; c != nil; {
					c = s.climbed(c, diagram.Mode(mode))
				}
			}
		}
	}
}

// climbed returns the cover as it counts at the place above, and notes it there,
// or nil where it does not count or another is better.
func (s *solver) climbed(c *cover, mode diagram.Mode) *cover {
	p := &s.places[c.from]
	if p.up == none {
		return nil
	}
	length, metre, apart := s.stepUp(p, c)
	if apart || c.run+length >= s.farOf(c) {
		return nil
	}
	up := &s.places[p.up]
	out := *c
	out.from, out.via, out.total = p.up, c.from, up.node.Total
	out.run, out.metre = c.run+length, metre
	out.volts += metre * length
	out.limit, out.far = 2*out.volts, s.farOf(c)-out.run
	if slices.ContainsFunc(up.under[mode], func(old *cover) bool {
		return old.volts <= out.volts && old.far >= out.far && old.rise(s.rule, 1) <= out.rise(s.rule, 1)
	}) {
		return nil
	}
	up.under[mode] = append(up.under[mode], &out)
	return &out
}

// stepUp returns the length of wiring to the place above, what each metre of it
// adds to a cover, and whether anything parts the two.
func (s *solver) stepUp(p *place, c *cover) (length, metre float64, apart bool) {
	if _, apart := s.edgeAbove(p); apart || p.node.Feeder == "" && p.part.Kind == diagram.Transformer {
		return 0, 0, true
	}
	if p.node.Feeder == "" {
		return 0, 0, false
	}
	f := &s.feeders[s.feeder[p.node.Feeder]]
	return f.Length, c.rise(s.rule, loopInductance(f)), false
}

// credit adds to what reaches a place the protectors just below it.
func (s *solver) credit(p *place) {
	var out *reach
	for mode, covers := range p.under {
		for _, c := range covers {
			if out == nil {
				shared := *p.reach
				out = &shared
			}
			out.fronts[mode] = out.fronts[mode].with(c, s.slope)
			out.ratesLine = out.ratesLine || diagram.Mode(mode) == diagram.LineLine && c.direct()
		}
	}
	if out != nil {
		p.reach = out
	}
}

// noteNext notes at each board whether boards stand next downstream of it, and
// whether one of them has no protector.
func (s *solver) noteNext() {
	for i := range s.places {
		p := &s.places[i]
		if !p.part.Kind.IsBoard() {
			continue
		}
		at := p.up
		for region := p.region; at != none && s.places[at].region == region; at = s.places[at].up {
			if up := &s.places[at]; up.part.Kind.IsBoard() {
				up.next = true
				up.bareNext = up.bareNext || len(s.protectors[p.part.ID]) == 0
				break
			}
		}
	}
}

// standsIn reports whether protectors stand in for one at a service board: NFPA
// 70-2023, 230.67(B), exception, lets it have none where each board next
// downstream has one.
func (p *place) standsIn(reason analysis.Reason) bool {
	below := reason == analysis.Downstream || reason == analysis.JustBelow
	return below && p.part.Kind.IsBoard() && p.part.Board.Service && p.next && !p.bareNext
}

// along returns the voltage of a cover at a distance down the feeder that leads
// to its protector, V.
func (c *cover) along(x float64) float64 { return c.volts - c.metre*x }
