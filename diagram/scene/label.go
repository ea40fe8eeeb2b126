package scene

import (
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// labelClear is the room about the label of a feeder, in mm.
const labelClear = 0.4

// placeLabels finds a place beside its line for the label of every feeder. One
// that has no room is not shown: its length stands in the details.
func (b *builder) placeLabels() {
	if b.options.HideLabels {
		return
	}
	for i := range b.feeders {
		if f := &b.feeders[i]; f.texts[0] != "" {
			b.placeLabel(f)
		}
	}
}

func (b *builder) placeLabel(f *feeder) {
	size := labelSize(f.lines())
	piece := f.longest()
	for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		for _, at := range besidePiece(piece, share, size) {
			box := geom.RectOf(at, at.Add(size))
			if b.taken.free(box.Grow(labelClear)) {
				f.label = box
				b.taken.take(box)
				return
			}
		}
	}
}

func labelSize(texts []string) geom.Point {
	width := 0.0
	for _, text := range texts {
		width = math.Max(width, draw.TextWidth(text, faintSize, false))
	}
	return geom.Pt(width, plainFirst+plainPitch*float64(len(texts)-1)+plainTail)
}

// longest returns the longest piece of the line, leaving out the switch at its
// head.
func (f *feeder) longest() geom.Segment {
	var best geom.Segment
	most := 0.0
	for i := 1; i < len(f.line); i++ {
		piece := geom.Segment{A: f.line[i-1], B: f.line[i]}
		if length := span(piece.A, piece.B); i == 1 && length > switchStub && !f.room.IsEmpty() {
			piece.A = piece.At(switchStub / length)
		}
		if length := span(piece.A, piece.B); length > most {
			best, most = piece, length
		}
	}
	return best
}

// besidePiece returns the places for a box at a share of the piece: right and
// left of one that is upright, above and below one that is level.
func besidePiece(piece geom.Segment, share float64, size geom.Point) [2]geom.Point {
	const off = 1.4
	at := piece.At(share)
	if piece.A.X == piece.B.X {
		y := at.Y - size.Y/2
		return [2]geom.Point{{X: at.X + off, Y: y}, {X: at.X - off - size.X, Y: y}}
	}
	x := at.X - size.X/2
	return [2]geom.Point{{X: x, Y: at.Y - off - size.Y + 0.4}, {X: x, Y: at.Y + off - 0.4}}
}
