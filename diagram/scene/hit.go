package scene

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Hit returns what lies under p, or within slack of it where nothing does: what a
// badge belongs to, for that lies over all else, then a protector before the end of a bus bar, that before a part, a part before a
// tag and a tag before a feeder. The end of a bar reaches as far as slack in
// any case. Hit never returns OnTerminal; ask Terminal.
func (s *Scene) Hit(p geom.Point, slack float64) (Target, bool) {
	if target, ok := s.hitBadge(p); ok {
		return target, true
	}
	if target, ok := s.hitWithin(p, 0, slack); ok {
		return target, true
	}
	return s.hitWithin(p, slack, slack)
}

func (s *Scene) hitWithin(p geom.Point, slack, slackAtEnds float64) (Target, bool) {
	if target, ok := s.hitProtector(p, slack); ok {
		return target, true
	}
	if target, ok := s.hitBarEnd(p, slackAtEnds); ok {
		return target, true
	}
	if target, ok := s.hitPart(p, slack); ok {
		return target, true
	}
	if target, ok := s.hitTag(p); ok {
		return target, true
	}
	return s.hitFeeder(p, slack)
}

// nearest keeps the candidate that is nearest so far, and of equals the
// smallest.
type nearest struct {
	target      Target
	found       bool
	away, width float64
}

func (n *nearest) offer(target Target, away, width float64) {
	if !n.found || away < n.away || away == n.away && width < n.width {
		*n = nearest{target, true, away, width}
	}
}

// away returns how far p lies outside r, in mm; 0 inside.
func away(r geom.Rect, p geom.Point) float64 {
	dx := max(0, r.Min.X-p.X, p.X-r.Max.X)
	dy := max(0, r.Min.Y-p.Y, p.Y-r.Max.Y)
	if dx == 0 || dy == 0 {
		return dx + dy
	}
	return math.Sqrt(dx*dx + dy*dy)
}

func (s *Scene) hitProtector(p geom.Point, slack float64) (Target, bool) {
	var best nearest
	for i := range s.protectors {
		q := &s.protectors[i]
		if d := away(q.box, p); d <= slack {
			best.offer(Target{Kind: OnProtector, ID: q.id}, d, q.box.Center().Distance(p))
		}
	}
	return best.target, best.found
}

// endShare bounds how much of a bus bar counts as its end, so that a small one
// seen from afar can still be moved.
const endShare = 0.12

func (s *Scene) hitBarEnd(p geom.Point, slack float64) (Target, bool) {
	var best nearest
	for i := range s.parts {
		q := &s.parts[i]
		if !q.kind.IsBoard() || away(q.box, p) > slack {
			continue
		}
		reach := math.Min(slack+q.symbol.Outline.Max.Y, 2*endShare*q.halfSpan())
		for _, side := range []int{-1, 1} {
			if d := q.barEnd(side).Distance(p); d <= reach {
				best.offer(Target{Kind: OnBarEnd, ID: q.id, Side: side}, d, 0)
			}
		}
	}
	return best.target, best.found
}

func (s *Scene) hitPart(p geom.Point, slack float64) (Target, bool) {
	var best nearest
	for i := range s.parts {
		q := &s.parts[i]
		if d := away(q.box, p); d <= slack {
			best.offer(Target{Kind: OnPart, ID: q.id}, d, q.box.Width()*q.box.Height())
		}
	}
	return best.target, best.found
}

// hitBadge returns what the badge under p belongs to.
func (s *Scene) hitBadge(p geom.Point) (Target, bool) {
	var best nearest
	for id, at := range s.badgeAt {
		if !s.badges[id].box(at).Contains(p) {
			continue
		}
		target := Target{Kind: OnTag, ID: id}
		if i, ok := s.feederAt(id); ok {
			target = Target{Kind: OnFeeder, ID: id, Share: s.feeders[i].share(p)}
		} else if _, ok := s.protectorAt(id); ok {
			target.Kind = OnProtector
		}
		best.offer(target, at.Distance(p), 0)
	}
	return best.target, best.found
}

func (s *Scene) hitTag(p geom.Point) (Target, bool) {
	for i := len(s.parts) - 1; i >= 0; i-- { // what is drawn last lies on top
		if q := &s.parts[i]; q.tag.placed() && q.tag.box.Contains(p) {
			return Target{Kind: OnTag, ID: q.id}, true
		}
	}
	for i := range s.protectors {
		if q := &s.protectors[i]; q.tag.placed() && q.tag.box.Contains(p) {
			return Target{Kind: OnProtector, ID: q.id}, true
		}
	}
	return Target{}, false
}

func (s *Scene) hitFeeder(p geom.Point, slack float64) (Target, bool) {
	var best nearest
	reach := slack + feederWidth/2
	for i := range s.feeders {
		f := &s.feeders[i]
		if f.label.Width() > 0 && f.label.Contains(p) {
			best.offer(Target{Kind: OnFeeder, ID: f.id, Share: f.share(p)}, 0, 0)
		}
		if away(f.bounds, p) > reach {
			continue
		}
		if d := f.line.Distance(p); d <= reach {
			best.offer(Target{Kind: OnFeeder, ID: f.id, Share: f.share(p)}, d, 0)
		}
	}
	return best.target, best.found
}

// share returns how far along the line the point nearest to p lies, 0 to 1.
func (f *feeder) share(p geom.Point) float64 {
	walked, at, best := 0.0, 0.0, math.Inf(1)
	for i := 1; i < len(f.line); i++ {
		piece := geom.Segment{A: f.line[i-1], B: f.line[i]}
		length := piece.Length()
		if d := piece.Distance(p); d < best {
			best, at = d, walked+length*piece.Nearest(p)
		}
		walked += length
	}
	return at / walked
}

// Terminal returns the terminal nearest to p within slack, at which a feeder
// may begin or end, and where on the sheet it would. Along a bus bar that is
// the place nearest to p.
func (s *Scene) Terminal(p geom.Point, slack float64) (diagram.End, geom.Point, bool) {
	var end diagram.End
	var at geom.Point
	best := math.Inf(1)
	for i := range s.parts {
		q := &s.parts[i]
		if away(q.box, p) > slack {
			continue
		}
		for _, t := range q.symbol.Terminals {
			where := q.nearestOn(q.frame().Apply(t.At), t.Span, p)
			if d := math.Max(0, where.Distance(p)-q.thickness()); d <= slack && d < best {
				end, at, best = diagram.End{Part: q.id, Port: t.Port}, where, d
			}
		}
	}
	return end, at, !math.IsInf(best, 1)
}

// thickness is how far from its line a bus bar reaches to a side.
func (q *part) thickness() float64 {
	if q.kind.IsBoard() {
		return q.symbol.Outline.Max.Y
	}
	return 0
}

// nearestOn returns the point of a terminal nearest to p.
func (q *part) nearestOn(middle geom.Point, span float64, p geom.Point) geom.Point {
	axis := q.axis()
	step := p.Sub(middle)
	along := math.Max(-span, math.Min(span, step.X*axis.X+step.Y*axis.Y))
	return middle.Add(axis.Mul(along))
}
