package scene

import (
	"cmp"
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
		if places := b.badgePlaces(id); len(places) > 0 {
			b.settleBadge(id, places)
		}
	}
}

// settleBadge takes the first place that is free, or else the first that
// covers nothing but lines, or else the first of all.
func (b *builder) settleBadge(id diagram.ID, places []geom.Point) {
	badge := b.badges[id]
	freeOf := func(s *space) int {
		return slices.IndexFunc(places, func(at geom.Point) bool { return s.free(badge.box(at).Grow(tagClear)) })
	}
	i := freeOf(b.taken)
	if i < 0 {
		i = freeOf(b.allButLines())
	}
	at := places[max(i, 0)]
	b.badgeAt[id] = at
	b.taken.take(badge.box(at))
}

// allButLines returns the room that is taken by anything but the lines of
// feeders.
func (b *builder) allButLines() *space {
	out := b.partWalls()
	take := func(box geom.Rect) {
		if box.Width() > 0 {
			out.take(box)
		}
	}
	for i := range b.parts {
		take(b.parts[i].tag.box)
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
	return out
}

// badgePlaces returns where the badge of a record may stand, the best place
// first.
func (b *builder) badgePlaces(id diagram.ID) []geom.Point {
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
func (q *part) badgePlaces(badge Badge) []geom.Point {
	corner := geom.Pt(q.box.Max.X, q.box.Min.Y)
	if q.tag.placed() {
		corner = geom.Pt(q.tag.box.Max.X, q.tag.box.Min.Y)
	}
	return badge.round(corner, &q.tag, q.box)
}

// badgePlaces goes round the symbol and the label, from across the label on.
func (q *protector) badgePlaces(badge Badge) []geom.Point {
	side := geom.Pt(q.box.Min.X, q.box.Center().Y)
	if q.tag.placed() && q.tag.box.Min.X < q.box.Center().X {
		side.X = q.box.Max.X
	}
	return badge.round(side, &q.tag, q.box)
}

// round returns the places in rings about a tag, where it is shown, and a
// symbol; in each ring those nearest to a point first.
func (b Badge) round(from geom.Point, t *tag, symbol geom.Rect) []geom.Point {
	var out []geom.Point
	for i := range badgeRings {
		more := float64(i) * badgeStep
		ring := b.ring(symbol, badgeHalo+more)
		if t.placed() {
			ring = append(ring, b.ring(t.box, badgeGap+more)...)
		}
		slices.SortStableFunc(ring, func(p, q geom.Point) int { return cmp.Compare(p.Distance(from), q.Distance(from)) })
		out = append(out, ring...)
	}
	return out
}

// ring returns places at which the badge stands at the gap from a rectangle.
func (b Badge) ring(about geom.Rect, gap float64) []geom.Point {
	own := b.box(geom.Point{}).Grow(gap)
	low, high := about.Min.Sub(own.Max), about.Max.Sub(own.Min)
	var out []geom.Point
	for _, x := range stops(low.X, high.X, badgeStep) {
		out = append(out, geom.Pt(x, low.Y), geom.Pt(x, high.Y))
	}
	for _, y := range stops(low.Y, high.Y, badgeStep) {
		out = append(out, geom.Pt(low.X, y), geom.Pt(high.X, y))
	}
	return out
}

// stops returns places from low to high, both of them included, no farther from
// each other than the step.
func stops(low, high, step float64) []float64 {
	count := max(1, math.Ceil((high-low)/step))
	out := make([]float64, 0, int(count)+1)
	for i := 0.0; i <= count; i++ {
		out = append(out, low+(high-low)*i/count)
	}
	return out
}

// badgePlaces goes along the line from the middle of its longest piece on, and
// away from it ring by ring; where a crowd leaves no room there, on the line.
func (f *feeder) badgePlaces(badge Badge) []geom.Point {
	if len(f.line) < 2 {
		return nil
	}
	piece := f.longest()
	box := badge.box(geom.Point{})
	var out []geom.Point
	for i := range badgeRings {
		for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
			for _, corner := range besidePiece(piece, share, box.Max.Sub(box.Min)) {
				away := corner.Sub(box.Min).Sub(piece.At(share))
				out = append(out, piece.At(share).Add(away.Mul(1+float64(i)/2)))
			}
		}
	}
	for _, at := range stops(0, 1, badgeStep/piece.Length()) {
		out = append(out, piece.At(at))
	}
	return out
}

// box returns the room of the badge with its middle at the point, with its rim.
func (b Badge) box(at geom.Point) geom.Rect {
	box := geom.RectOf(geom.Pt(-badgeRadius, -badgeRadius), geom.Pt(badgeRadius, badgeRadius))
	if !b.Wrong {
		box = geom.RectOf(geom.Pt(-triangleHalf, triangleTop), geom.Pt(triangleHalf, triangleFoot))
	}
	return box.Grow(badgeRim).Move(at)
}
