package scene

import (
	"maps"
	"math"
	"slices"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Distances of badges from what they belong to, in mm.
const (
	badgeGap   = 0.5                           // to a tag
	badgeHalo  = haloApart + haloWidth/2 + 0.2 // to a symbol, which the halo of a selection lies round
	badgeStep  = 2                             // from one place round it to the next, and from ring to ring
	badgeRings = 8
)

// placeBadges finds a free place for every badge, in the order of the ids: at
// the tag or symbol of a part, at the symbol or label of a protector, beside
// the line of a feeder. It runs last, when all that a badge might cover has its
// place.
func (b *builder) placeBadges() {
	b.badgeAt = make(map[diagram.ID]geom.Point, len(b.badges))
	for _, id := range slices.SortedFunc(maps.Keys(b.badges), diagram.CompareID) {
		if b.badges[id].Count <= 0 {
			continue
		}
		if places := b.badgePlaces(id); places != nil && !b.keepBadge(id) {
			b.settleBadge(id, places)
		}
	}
}

// keepBadge leaves a badge where the scene before had it, where what it belongs
// to is where it was and there is room, and reports whether it did.
func (b *builder) keepBadge(id diagram.ID) bool {
	if b.before == nil {
		return false
	}
	at, ok := b.before.badgeAt[id]
	if !ok || b.before.badgeOwner(id) != b.badgeOwner(id) || !b.taken.free(b.badges[id].box(at).Grow(tagClear)) {
		return false
	}
	b.takeBadge(id, at)
	return true
}

// badgeOwner returns where that lies which a badge belongs to: symbol or line,
// and tag or label.
func (s *Scene) badgeOwner(id diagram.ID) [2]geom.Rect {
	if i, ok := s.partAt[id]; ok {
		return [2]geom.Rect{s.parts[i].box, s.parts[i].tag.box}
	}
	if i, ok := s.feederAt(id); ok {
		return [2]geom.Rect{s.feeders[i].bounds, s.feeders[i].label}
	}
	if i, ok := s.protectorAt(id); ok {
		return [2]geom.Rect{s.protectors[i].box, s.protectors[i].tag.box}
	}
	return [2]geom.Rect{}
}

// takeBadge gives a badge its place.
func (b *builder) takeBadge(id diagram.ID, at geom.Point) {
	b.badgeAt[id] = at
	box := b.badges[id].box(at)
	b.taken.take(box)
	if b.solid != nil {
		b.solid.take(box)
	}
}

// settleBadge takes the first place that is free, or else the first that
// covers nothing but lines, or else the first of all.
func (b *builder) settleBadge(id diagram.ID, places places) {
	badge := b.badges[id]
	at, ok := places.freeIn(b.taken, badge)
	if !ok {
		at, ok = places.freeIn(b.allButLines(), badge)
	}
	if !ok {
		for at = range places {
			break
		}
	}
	b.takeBadge(id, at)
}

// places yields where something may stand, the best place first.
type places func(yield func(geom.Point) bool)

// freeIn returns the first place at which the badge has room.
func (p places) freeIn(s *space, badge Badge) (geom.Point, bool) {
	for at := range p {
		if s.free(badge.box(at).Grow(tagClear)) {
			return at, true
		}
	}
	return geom.Point{}, false
}

// allButLines returns the room that is taken by anything but the lines of
// feeders. It is made where a badge first needs it.
func (b *builder) allButLines() *space {
	if b.solid != nil {
		return b.solid
	}
	b.solid = b.partWalls()
	take := func(box geom.Rect) {
		if box.Width() > 0 {
			b.solid.take(box)
		}
	}
	for i := range b.parts {
		take(b.parts[i].tag.box)
		take(b.parts[i].breakBox())
	}
	for i := range b.feeders {
		take(b.feeders[i].label)
		take(b.feeders[i].room)
	}
	for i := range b.protectors {
		take(b.protectors[i].box)
		take(b.protectors[i].tag.box)
	}
	for id, at := range b.badgeAt {
		take(b.badges[id].box(at))
	}
	return b.solid
}

// badgePlaces returns where the badge of a record may stand, or nil where the
// record is not on the sheet.
func (b *builder) badgePlaces(id diagram.ID) places {
	badge := b.badges[id]
	if i, ok := b.partAt[id]; ok {
		return b.parts[i].badgePlaces(badge)
	}
	if i, ok := b.feederAt(id); ok {
		return b.feeders[i].badgePlaces(badge)
	}
	if i, ok := b.protectorAt(id); ok {
		return b.protectors[i].badgePlaces(badge)
	}
	return nil
}

// badgePlaces goes round the tag and the symbol, from the right top corner of
// the tag on.
func (q *part) badgePlaces(badge Badge) places {
	corner := geom.Pt(q.box.Max.X, q.box.Min.Y)
	if q.tag.placed() {
		corner = geom.Pt(q.tag.box.Max.X, q.tag.box.Min.Y)
	}
	return badge.round(corner, &q.tag, q.box)
}

// badgePlaces goes round the symbol and the label, from across the label on.
func (q *protector) badgePlaces(badge Badge) places {
	side := geom.Pt(q.box.Min.X, q.box.Center().Y)
	if q.tag.placed() && q.tag.box.Min.X < q.box.Center().X {
		side.X = q.box.Max.X
	}
	return badge.round(side, &q.tag, q.box)
}

// round goes in rings about a tag, where it is shown, and a symbol; in each ring
// the places nearest to a point come first.
func (b Badge) round(from geom.Point, t *tag, symbol geom.Rect) places {
	return func(yield func(geom.Point) bool) {
		var ring []geom.Point
		for i := range badgeRings {
			more := float64(i) * badgeStep
			ring = b.ring(ring[:0], symbol, badgeHalo+more)
			if t.placed() {
				ring = b.ring(ring, t.box, badgeGap+more)
			}
			for len(ring) > 0 {
				if !yield(takeNearest(&ring, from)) {
					return
				}
			}
		}
	}
}

// takeNearest takes out of the points the one that is nearest to a place: the
// first ones mostly do, so that sorting all of them would be for nothing.
func takeNearest(points *[]geom.Point, to geom.Point) geom.Point {
	var best int
	list, least := *points, math.Inf(1)
	for i := range list {
		step := list[i].Sub(to)
		if d := step.X*step.X + step.Y*step.Y; d < least {
			best, least = i, d
		}
	}
	out := list[best]
	list[best] = list[len(list)-1]
	*points = list[:len(list)-1]
	return out
}

// ring adds the places at which the badge stands at the gap from a rectangle.
func (b Badge) ring(out []geom.Point, about geom.Rect, gap float64) []geom.Point {
	own := b.box(geom.Point{}).Grow(gap)
	low, high := about.Min.Sub(own.Max), about.Max.Sub(own.Min)
	for x := range stops(low.X, high.X, badgeStep) {
		out = append(out, geom.Pt(x, low.Y), geom.Pt(x, high.Y))
	}
	for y := range stops(low.Y, high.Y, badgeStep) {
		out = append(out, geom.Pt(low.X, y), geom.Pt(high.X, y))
	}
	return out
}

// stops yields places from low to high, both of them included, no farther from
// each other than the step.
func stops(low, high, step float64) func(yield func(float64) bool) {
	count := max(1, math.Ceil((high-low)/step))
	return func(yield func(float64) bool) {
		for i := 0.0; i <= count; i++ {
			if !yield(low + (high-low)*i/count) {
				return
			}
		}
	}
}

// badgePlaces goes along the line from the middle of its longest piece on, and
// away from it ring by ring; where a crowd leaves no room there, on the line.
func (f *feeder) badgePlaces(badge Badge) places {
	piece := f.longest()
	box := badge.box(geom.Point{})
	return func(yield func(geom.Point) bool) {
		for i := range badgeRings {
			for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
				for _, corner := range besidePiece(piece, share, box.Max.Sub(box.Min)) {
					away := corner.Sub(box.Min).Sub(piece.At(share))
					if !yield(piece.At(share).Add(away.Mul(1 + float64(i)/2))) {
						return
					}
				}
			}
		}
		for at := range stops(0, 1, badgeStep/piece.Length()) {
			if !yield(piece.At(at)) {
				return
			}
		}
	}
}

// box returns the room of the badge with its middle at the point, with its rim.
func (b Badge) box(at geom.Point) geom.Rect {
	box := geom.RectOf(geom.Pt(-badgeRadius, -badgeRadius), geom.Pt(badgeRadius, badgeRadius))
	if !b.Wrong {
		box = geom.RectOf(geom.Pt(-triangleHalf, triangleTop), geom.Pt(triangleHalf, triangleFoot))
	}
	return box.Grow(badgeRim).Move(at)
}
