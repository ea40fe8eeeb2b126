package scene

import (
	"math"
	"slices"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// protector is a protector in its place.
type protector struct {
	id   diagram.ID
	host int        // number of its part
	at   geom.Point // where its symbol begins
	from geom.Point // where it meets its part: at, but for a lead to the side
	turn int
	box  geom.Rect
	tag  tag

	differ Differ // from another plan, where that is marked
}

// hangProtectors places the protectors of the plan: as near to its offset as
// each has room clear of feeders, first with its label, then without.
func (b *builder) hangProtectors(doc *diagram.Document, plan diagram.ID) {
	for record := range doc.ProtectorsOf(plan) {
		host, ok := b.partAt[record.Bus]
		if !ok || !b.parts[host].kind.TakesProtector() {
			continue
		}
		b.protectors = append(b.protectors, b.hang(&record, host))
	}
}

func (b *builder) hang(record *diagram.Protector, host int) protector {
	part := &b.parts[host]
	label := protectorTag(b.marks.Protectors[record.ID])
	if b.options.HideLabels {
		label = tag{}
	}
	for _, withLabel := range []bool{true, false} {
		for offset := range part.offsets(record.Offset) {
			p := part.hold(record.ID, host, offset)
			if !b.taken.free(p.needs()) {
				continue
			}
			if !withLabel || b.beside(&p, label) {
				return b.occupy(p)
			}
		}
	}
	return b.occupy(part.hold(record.ID, host, record.Offset))
}

// occupy takes the room of a protector and of its label.
func (b *builder) occupy(p protector) protector {
	b.taken.take(p.box)
	if p.from != p.at {
		b.taken.take(geom.RectOf(p.from, p.at))
	}
	if p.tag.placed() {
		b.taken.take(p.tag.box)
	}
	return p
}

// hold returns the protector as it would stand at an offset.
func (p *part) hold(id diagram.ID, number int, offset float64) protector {
	from, at := p.hostPoints(offset)
	out := protector{id: id, host: number, at: at, from: from, turn: p.turn}
	out.box = geom.Turn(out.turn).Then(geom.Translate(at)).ApplyRect(symbol.Protector().Outline)
	return out
}

// needs returns the room that must be free for the protector: its symbol but
// for the end that touches the bus.
func (p *protector) needs() geom.Rect {
	outline := symbol.Protector().Outline
	outline.Min.Y += 1
	return geom.Turn(p.turn).Then(geom.Translate(p.at)).ApplyRect(outline)
}

// sideLead is how far beside a load or junction the first protector hangs, and
// each further one from the one before, in mm.
const sideLead = 8

// hostPoints returns where a protector at the offset meets the part, and where
// its symbol begins: on a bus bar both are one point on its edge. Beyond a
// bar's end, and on other parts, a lead runs to the side.
func (p *part) hostPoints(offset float64) (from, at geom.Point) {
	if p.kind.IsBoard() {
		reach := p.halfSpan()
		edge := p.at.Add(p.outward().Mul(p.symbol.Outline.Max.Y))
		at = edge.Add(p.axis().Mul(offset))
		if math.Abs(offset) <= reach {
			return at, at
		}
		lead := p.at.Add(p.axis().Mul(offset))
		return p.at.Add(p.axis().Mul(math.Copysign(reach, offset))), lead
	}
	if math.Abs(offset) < sideLead {
		offset = math.Copysign(sideLead, offset)
	}
	from = p.frame().Apply(p.symbol.Terminals[0].At)
	return from, from.Add(p.axis().Mul(offset))
}

// shiftStep is the step in which a free place along a bus bar is looked for,
// in mm.
const shiftStep = 2.5

// offsets yields the offsets to try for a protector: its own and then, on both
// sides by turns, farther and farther ones; of a crowded bar at last those
// beyond its ends.
func (p *part) offsets(own float64) func(yield func(float64) bool) {
	step, reach := shiftStep, p.halfSpan()
	if !p.kind.IsBoard() {
		step, reach = sideLead, 4*sideLead
		own = math.Copysign(sideLead, own)
	}
	own = math.Max(-reach, math.Min(reach, own))
	return func(yield func(float64) bool) {
		if !yield(own) {
			return
		}
		for by := step; by <= 2*reach; by += step {
			for _, offset := range []float64{own + by, own - by} {
				if math.Abs(offset) <= reach && !yield(offset) {
					return
				}
			}
		}
		for out := reach + sideLead; p.kind.IsBoard() && out <= reach+3*sideLead; out += sideLead {
			if !yield(math.Copysign(out, own)) || !yield(-math.Copysign(out, own)) {
				return
			}
		}
	}
}

// beside puts the label to the right of the symbol or else to its left, where
// there is room, and reports whether there is.
func (b *builder) beside(p *protector, label tag) bool {
	if len(label.rows) == 0 {
		return true
	}
	size := label.size
	middle := p.box.Center().Y - size.Y/2
	const gap = haloApart + haloWidth/2 + 0.2 // the halo of a selection does not cover the label
	places := []geom.Point{{X: p.box.Max.X + gap, Y: middle}, {X: p.box.Min.X - gap - size.X, Y: middle}}
	at := slices.IndexFunc(places, func(at geom.Point) bool { return b.taken.free(geom.RectOf(at, at.Add(size))) })
	if at < 0 {
		return false
	}
	p.tag = label
	p.tag.box = geom.RectOf(places[at], places[at].Add(size))
	return true
}
