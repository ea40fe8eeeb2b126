package raster

import (
	"image"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// axis draws lines along the axes as whole pixels.
func (b *brush) axis(role draw.Role, strand draw.Strand) {
	run := run{surface: b.surface, role: role}
	run.width, run.cover = thickness(strand.Width * b.device.scale)
	run.pattern(strand.Ink*b.device.scale, strand.Gap*b.device.scale)
	b.chain = b.chain[:0]
	strand.Path.Each(func(verb draw.Verb, points []geom.Point) {
		switch verb {
		case draw.Move:
			run.draw(b.chain, false)
			b.chain = append(b.chain[:0], b.device.pixel(points[0]))
		case draw.To:
			b.chain = append(b.chain, b.device.pixel(points[0]))
		case draw.Close:
			start := b.chain[0]
			run.draw(append(b.chain, start), true)
			b.chain = append(b.chain[:0], start)
		}
	})
	run.draw(b.chain, false)
}

// run draws one chain of lines along the axes, in pixels.
type run struct {
	surface  surface
	role     draw.Role
	width    int
	cover    uint8
	ink, gap int // zero gap: solid
	walked   int // along the chain so far, for the pattern
}

// leastPeriod is the length of ink and gap together, in pixels, below which a
// pattern is drawn as an unbroken line of the same greyness.
const leastPeriod = 3

// pattern sets the lengths of ink and gap, given in pixels.
func (r *run) pattern(ink, gap float64) {
	switch {
	case gap <= 0:
	case ink+gap < leastPeriod:
		r.cover = uint8(float64(r.cover) * ink / (ink + gap))
	default:
		r.ink, r.gap = max(1, whole(ink)), max(1, whole(gap))
	}
}

// draw draws the chain; closed says that its ends are one corner.
func (r *run) draw(chain []image.Point, closed bool) {
	r.walked = 0
	corners := r.gap == 0 || r.ink >= r.width // a tick does not turn a corner
	last := len(chain) - 2
	for i := 0; i <= last; i++ {
		piece := newPiece(chain[i], chain[i+1], r.width)
		piece.cornerFrom, piece.cornerTo = corners && (i > 0 || closed), corners && (i < last || closed)
		r.piece(piece)
		r.walked += piece.length
	}
}

func (r *run) piece(p piece) {
	if r.gap == 0 {
		r.surface.rect(r.role, p.part(0, p.length), r.cover)
		return
	}
	period := r.ink + r.gap
	first, end := p.shown(r.surface.bounds())
	for at := (r.walked+first)/period*period - r.walked; at < end; at += period {
		if at+r.ink > 0 {
			r.surface.rect(r.role, p.part(max(at, 0), min(at+r.ink, p.length)), r.cover)
		}
	}
}

// piece is one line along an axis.
type piece struct {
	from, step           image.Point // step: the unit of its direction
	length, width        int
	cornerFrom, cornerTo bool // whether the square of a corner belongs to it
}

func newPiece(a, b image.Point, width int) piece {
	d := b.Sub(a)
	p := piece{from: a, width: width, length: max(d.X, -d.X, d.Y, -d.Y)}
	switch {
	case d.X > 0:
		p.step.X = 1
	case d.X < 0:
		p.step.X = -1
	case d.Y > 0:
		p.step.Y = 1
	case d.Y < 0:
		p.step.Y = -1
	}
	return p
}

// part returns the pixels from one distance along the piece to another. A part
// that reaches a corner takes in its square.
func (p piece) part(from, to int) image.Rectangle {
	half := p.width / 2
	r := image.Rectangle{p.from.Add(p.step.Mul(from)), p.from.Add(p.step.Mul(to))}.Canon()
	low, high := p.cornerFrom && from == 0, p.cornerTo && to == p.length
	if p.step.X < 0 || p.step.Y < 0 {
		low, high = high, low
	}
	along := image.Pt(p.step.X*p.step.X, p.step.Y*p.step.Y)
	across := image.Pt(1-along.X, 1-along.Y)
	r.Min = r.Min.Sub(across.Mul(half))
	r.Max = r.Max.Add(across.Mul(p.width - half))
	if low {
		r.Min = r.Min.Sub(along.Mul(half))
	}
	if high {
		r.Max = r.Max.Add(along.Mul(p.width - half))
	}
	return r
}

// shown returns the distances along the piece between which it can lie in the
// bounds.
func (p piece) shown(bounds image.Rectangle) (first, end int) {
	bounds = bounds.Inset(-p.width)
	near, far := bounds.Min.Sub(p.from), bounds.Max.Sub(p.from)
	a, b := near.X*p.step.X+near.Y*p.step.Y, far.X*p.step.X+far.Y*p.step.Y
	return max(0, min(a, b)), min(p.length, max(a, b))
}
