package scene

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Distances about tags, in mm.
const (
	tagGap   = 1.3 // between a symbol and its tag
	tagClear = 0.6 // about a tag, to the next thing
	tagStep  = 4   // in which a free place along a bar is looked for
	stagger  = 3   // between the rows of tags under crowded loads
)

// placeTags finds a place for every tag: boards first, then sources and
// transformers, then loads.
func (b *builder) placeTags() {
	for i := range b.parts {
		if b.parts[i].kind.IsBoard() {
			b.placeTag(&b.parts[i])
		}
	}
	for i := range b.parts {
		if p := &b.parts[i]; !p.kind.IsJudged() {
			b.placeTag(p)
		}
	}
	b.placeLoadTags()
}

// placeTag takes the place of the scene before, or else the first that is free,
// or else the first of all.
func (b *builder) placeTag(p *part) {
	if len(p.tag.rows) == 0 {
		return
	}
	if b.keepTag(p) {
		return
	}
	size := p.tag.size
	var first geom.Rect
	place := 0
	for at := range p.places(size) {
		place++
		box := geom.RectOf(at, at.Add(size))
		if place == 1 {
			first = box
		}
		if b.taken.free(box.Grow(tagClear)) {
			p.tag.place = place
			b.settleTag(&p.tag, box)
			return
		}
	}
	b.settleTag(&p.tag, first)
}

// keepTag puts a tag where the scene before had it, and reports whether there
// is room.
func (b *builder) keepTag(p *part) bool {
	if b.before == nil {
		return false
	}
	i, ok := b.before.partAt[p.id]
	if !ok || b.before.parts[i].turn != p.turn {
		return false
	}
	kept, place := b.before.parts[i].tag.place, 0
	for at := range p.places(p.tag.size) {
		place++
		if place < kept {
			continue
		}
		box := geom.RectOf(at, at.Add(p.tag.size))
		if place > kept || !b.taken.free(box.Grow(tagClear)) {
			return false
		}
		p.tag.place = place
		b.settleTag(&p.tag, box)
		return true
	}
	return false
}

func (b *builder) settleTag(t *tag, box geom.Rect) {
	t.box = box
	b.taken.take(box)
}

// places yields where the top left corner of a part's tag may lie, the best
// place first.
func (p *part) places(size geom.Point) func(yield func(geom.Point) bool) {
	if !p.kind.IsBoard() {
		return p.pointPlaces(size)
	}
	return p.barPlaces(size)
}

// barPlaces goes along the underside of a bar from its left end, then beside
// it, along its upper side, and out over its ends.
func (p *part) barPlaces(size geom.Point) func(yield func(geom.Point) bool) {
	box := p.box
	below, above := box.Max.Y+tagGap, box.Min.Y-tagGap-size.Y
	middle := box.Center().Y - size.Y/2
	row := func(y, from, to float64, yield func(geom.Point) bool) bool {
		step := math.Copysign(math.Max(tagStep, math.Abs(to-from)/12), to-from)
		for x := from; (to-x)*step >= 0; x += step {
			if !yield(geom.Pt(x, y)) {
				return false
			}
		}
		return true
	}
	return func(yield func(geom.Point) bool) {
		left, right := box.Min.X+1, box.Max.X-math.Min(size.X, box.Width()/2)
		_ = row(below, left, right, yield) &&
			yield(geom.Pt(box.Max.X+2, middle)) &&
			row(above, left, right, yield) &&
			yield(geom.Pt(box.Min.X-2-size.X, middle)) &&
			row(below, left-1, box.Min.X+8-size.X, yield) &&
			row(above, left-1, box.Min.X+8-size.X, yield) &&
			row(below+size.Y+2, left, right, yield) &&
			row(above-size.Y-2, left, right, yield)
	}
}

// pointPlaces goes round a symbol: right, left, and the corners, then above
// and below its middle.
func (p *part) pointPlaces(size geom.Point) func(yield func(geom.Point) bool) {
	box := p.box
	right, left := box.Max.X+tagGap, box.Min.X-tagGap-size.X
	above, below := box.Min.Y-tagGap-size.Y, box.Max.Y+tagGap
	middle := box.Center().Sub(size.Mul(0.5))
	return func(yield func(geom.Point) bool) {
		for _, y := range []float64{middle.Y, box.Min.Y, box.Max.Y - size.Y, above, below} {
			if !yield(geom.Pt(right, y)) || !yield(geom.Pt(left, y)) {
				return
			}
		}
		_ = yield(geom.Pt(middle.X, above)) && yield(geom.Pt(middle.X, below)) &&
			yield(geom.Pt(middle.X, above-size.Y)) && yield(geom.Pt(middle.X, below+size.Y))
	}
}

// Rows of tags under loads that stand closer than their tags are wide.
const (
	loadRows  = 6
	shadowing = 30 // how far below a load its own column is kept free, mm
)

// placeLoadTags puts the tags of loads below them, row by row: those at the
// edges of a crowd find room in the first row, those between them farther
// down, each with a line to its load. A tag never covers the column under
// another load that still waits. What finds no place is only a badge.
func (b *builder) placeLoadTags() {
	waiting := b.waitingLoads()
	for _, p := range waiting {
		b.taken.keep(p.column(), true)
	}
	for depth := range loadRows {
		left := waiting[:0]
		for _, p := range waiting {
			if !b.placeLoadTag(p, depth) {
				left = append(left, p)
			}
		}
		waiting = left
	}
	for _, p := range waiting {
		b.placeBadge(p)
	}
}

// waitingLoads returns the loads with a tag to place.
func (b *builder) waitingLoads() []*part {
	var waiting []*part
	for i := range b.parts {
		if p := &b.parts[i]; p.kind == diagram.Load && len(p.tag.rows) > 0 {
			waiting = append(waiting, p)
		}
	}
	return waiting
}

// column is the room under a load, through which the line to its tag may have
// to run.
func (p *part) column() geom.Rect {
	foot := p.foot()
	return geom.RectOf(foot.Sub(geom.Pt(1, 0)), foot.Add(geom.Pt(1, shadowing)))
}

// foot is the point under a symbol from which its tag hangs.
func (p *part) foot() geom.Point { return geom.Pt(p.box.Center().X, p.box.Max.Y) }

func (b *builder) placeLoadTag(p *part, depth int) bool {
	size := p.tag.size
	foot := p.foot()
	top := foot.Y + 0.4 + float64(depth)*(size.Y+stagger)
	if depth > 0 && !b.taken.free(geom.RectOf(foot.Add(geom.Pt(0, 1)), geom.Pt(foot.X, top))) {
		return false
	}
	b.taken.keep(p.column(), false)
	const overhang = 3.5
	for _, left := range []float64{foot.X - size.X/2, foot.X + overhang - size.X, foot.X - overhang} {
		box := geom.RectOf(geom.Pt(left, top), geom.Pt(left+size.X, top+size.Y))
		if b.taken.waitedFor(box) || !b.taken.free(box.Grow(tagClear)) {
			continue
		}
		b.settleTag(&p.tag, box)
		if depth > 0 {
			p.tag.leader = geom.Segment{A: foot, B: geom.Pt(foot.X, top)}
			b.taken.take(geom.RectOf(p.tag.leader.A, p.tag.leader.B))
		}
		return true
	}
	b.taken.keep(p.column(), true)
	return false
}

// placeBadge leaves only the letter of a tag, right under its load; a tag
// without one is left out.
func (b *builder) placeBadge(p *part) {
	p.tag.rows = nil
	if p.tag.badge == "" {
		p.tag = tag{}
		return
	}
	p.tag.size = p.tag.measure()
	size := p.tag.size
	at := p.foot().Add(geom.Pt(-size.X/2, 0.4))
	b.settleTag(&p.tag, geom.RectOf(at, at.Add(size)))
}
