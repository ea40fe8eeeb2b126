package handrule

import (
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// reach is what protectors give at a place and downstream of it. Places
// without a protector of their own share that of the place above.
type reach struct {
	fronts    [diagram.ModeCount]front
	refused   [diagram.ModeCount]*refused
	ratesLine bool // one of them rates L-L directly
}

// refused is the nearest protector that does not count in a mode, and why.
type refused struct {
	protector *diagram.Protector
	host      int
	reason    analysis.Reason
}

// nearest returns the cover by a protector closest to the places that the reach
// holds for, in any mode, or nil.
func (r *reach) nearest() *cover {
	var out *cover
	for _, f := range r.fronts {
		for _, c := range f {
			if !c.isBond() && (out == nil || c.total > out.total) {
				out = c
			}
		}
	}
	return out
}

// walk goes from the sources down and notes what reaches each place.
func (s *solver) walk() {
	for i := range s.places {
		s.own(i)
	}
	s.climb()
	for i := range s.places {
		p := &s.places[i]
		s.enter(p)
		if p.here != nil {
			p.reach = s.host(i)
		}
		s.credit(p)
		if joined(p) {
			p.reach = s.bonding(i)
		}
	}
	for _, r := range s.regions {
		if c := r.any(); c != nil && r.edge.reason == analysis.PastSwitch && r.parent.behind == nil {
			r.parent.behind = &beyond{c, r.edge}
		}
	}
}

// enter takes over what reaches the place above, or begins a region.
func (s *solver) enter(p *place) {
	if p.up == none {
		p.region, p.reach = &region{}, &reach{}
		s.regions = append(s.regions, p.region)
		return
	}
	up := &s.places[p.up]
	edge, apart := s.edgeAbove(p)
	if !apart {
		p.region, p.reach = up.region, up.reach
		return
	}
	p.region, p.reach = &region{parent: up.region, edge: edge, reach: up.reach, past: up.region.past}, &reach{}
	if c := up.reach.nearest(); c != nil {
		p.region.past = &beyond{c, edge}
	}
	s.regions = append(s.regions, p.region)
}

// own notes what the protectors on a place give there.
func (s *solver) own(i int) {
	p := &s.places[i]
	on := s.protectors[p.part.ID]
	if len(on) == 0 {
		return
	}
	p.here = s.ratings(p, on)
	for _, mode := range diagram.Modes() {
		if !p.node.System.HasMode(mode) && p.node.System.Known() {
			continue
		}
		p.own[mode] = s.placed(i, s.cover(p.here, mode, joined(p)))
	}
	s.flat(i, on)
}

// placed returns a cover as it counts at the place of its protectors; nil stays nil.
func (s *solver) placed(i int, c *cover) *cover {
	if c != nil {
		c.host, c.from, c.total, c.atHost, c.limit = i, i, s.places[i].node.Total, c.volts, 2*c.volts
		c.far = s.farOf(c)
	}
	return c
}

// flat notes what those of the protectors on a place give that state a VPR, where others
// state an Up: above them a metre of feeder adds less to it, so that it may be the lower
// there although it is the higher here.
func (s *solver) flat(i int, on []*diagram.Protector) {
	rest := slices.DeleteFunc(slices.Clone(on), func(p *diagram.Protector) bool { return p.Rating == diagram.Up })
	p := &s.places[i]
	if len(rest) == 0 || len(rest) == len(on) {
		return
	}
	here := s.ratings(p, rest)
	for mode, own := range p.own {
		if own != nil && own.rise(s.rule, 1) > s.rule.feederRise(rest[0], 1) {
			p.flat[mode] = s.placed(i, s.cover(here, diagram.Mode(mode), joined(p)))
		}
	}
}

// host returns what reaches a place with protectors of its own.
func (s *solver) host(i int) *reach {
	p := &s.places[i]
	out := *p.reach
	for _, mode := range diagram.Modes() {
		if !p.node.System.HasMode(mode) && p.node.System.Known() {
			continue
		}
		if own := p.here.refusal(mode); own != nil {
			own.host = i
			out.refused[mode] = own
		}
		c := p.own[mode]
		if c == nil {
			continue
		}
		out.fronts[mode] = out.fronts[mode].with(c, s.slope)
		out.ratesLine = out.ratesLine || mode == diagram.LineLine && p.here.best[mode] != nil
		if p.region.first[mode] == nil {
			p.region.first[mode] = c
		}
	}
	return &out
}

// bonding returns what reaches a place where neutral and earth are joined: no
// voltage stands between them there, and what the wiring adds beyond is at most
// what arrives, or what the lines have to earth, since a line couples no more
// than its own voltage onto the neutral beside it (derived).
func (s *solver) bonding(i int) *reach {
	p := &s.places[i]
	out := *p.reach
	c := &cover{host: i, from: i, total: p.node.Total, bond: true, limit: s.rule.SurgeVoltage, far: math.Inf(1)}
	for _, line := range out.fronts[diagram.LineEarth] {
		c.limit = min(c.limit, line.limit)
	}
	out.fronts[diagram.NeutralEarth] = out.fronts[diagram.NeutralEarth].with(c, s.slope)
	return &out
}

func (s *solver) farOf(c *cover) float64 {
	far := s.rule.far(c.first.protector)
	if c.second.protector != nil {
		far = min(far, s.rule.far(c.second.protector))
	}
	return far
}

// joined reports whether neutral and earth are one at a place: by a bond, or
// because one conductor is both (TN-C).
func joined(p *place) bool {
	s := p.node.System
	return s.Neutral && (p.part.Kind.IsBoard() && p.part.Board.Bonded || s.Earthing == diagram.TNC)
}
