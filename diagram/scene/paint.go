package scene

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// Pens of the sheet, in mm.
const (
	feederWidth = symbol.LineWidth
	leadWidth   = 0.45
	leaderWidth = 0.2
)

// hatchedShare makes the ticks of a hatched bar longer than it is thick, so
// that it weighs as much on the sheet as a solid one.
const hatchedShare = 1.35

// paint draws the scene from the back to the front: feeders, parts,
// protectors, then all text, and the badges over it.
func (s *Scene) paint() *draw.Picture {
	p := draw.NewPicture()
	records := len(s.parts) + len(s.feeders) + len(s.protectors)
	p.Grow(draw.Room{Shapes: records, Texts: records, Stamps: records, Groups: records})
	cards := cards{}
	for i := range s.feeders {
		s.feeders[i].paint(p)
	}
	for i := range s.parts {
		s.parts[i].paint(p)
	}
	for i := range s.gone {
		s.gone[i].paintGone(p)
	}
	for i := range s.protectors {
		s.protectors[i].paint(p)
	}
	for i := range s.feeders {
		s.feeders[i].paintLabel(p)
	}
	for i := range s.parts {
		s.paintTag(p, &s.parts[i], cards)
	}
	s.paintBadges(p)
	if s.options.Legend {
		s.paintLegend(p)
	}
	return p
}

// paintLegend puts the legend below the drawing, at its left edge.
func (s *Scene) paintLegend(p *draw.Picture) {
	bounds := p.Bounds()
	if bounds.IsEmpty() {
		bounds = geom.Rect{}
	}
	p.Append(Legend(s.legend), geom.Translate(geom.Pt(bounds.Min.X, bounds.Max.Y+8)))
}

func (f *feeder) paint(p *draw.Picture) {
	p.Begin(string(f.id))
	defer p.End()
	drawn := 0.0
	for _, piece := range f.pieces {
		f.stroke(p, drawn, piece.From, draw.RoleInk, draw.Solid)
		f.stroke(p, piece.From, piece.To, piece.Role, piece.Dash)
		drawn = piece.To
	}
	f.stroke(p, drawn, 1, draw.RoleInk, draw.Solid)
	if !f.room.IsEmpty() {
		symbol.Switch(f.head).Place(p, f.line[0], f.headTurn(), f.headRole())
	}
}

func (f *feeder) stroke(p *draw.Picture, from, to float64, role draw.Role, dash draw.Dash) {
	if from < to {
		p.Stroke(f.cut(from, to), draw.Pen{Role: role, Width: feederWidth, Dash: dash})
	}
}

// cut returns the part of the line between two shares of its length.
func (f *feeder) cut(from, to float64) draw.Path {
	if from <= 0 && to >= 1 {
		return draw.Line(f.line...)
	}
	total := 0.0
	for i := 1; i < len(f.line); i++ {
		total += span(f.line[i-1], f.line[i])
	}
	out := make([]geom.Point, 0, len(f.line)+1)
	start, end, walked := from*total, to*total, 0.0
	for i := 1; i < len(f.line); i++ {
		piece := geom.Segment{A: f.line[i-1], B: f.line[i]}
		length := span(piece.A, piece.B)
		if walked+length > start && walked < end {
			if len(out) == 0 {
				out = append(out, piece.At(max(0, (start-walked)/length)))
			}
			out = append(out, piece.At(min(1, (end-walked)/length)))
		}
		walked += length
	}
	return draw.Line(out...)
}

// span is the distance between two points of one piece, which is parallel to an
// axis: no root need be taken.
func span(a, b geom.Point) float64 { return math.Abs(a.X-b.X) + math.Abs(a.Y-b.Y) }

func (f *feeder) paintLabel(p *draw.Picture) {
	if f.label.Width() == 0 {
		return
	}
	p.Begin(string(f.id))
	defer p.End()
	for i, text := range f.lines() {
		at := f.label.Min.Add(geom.Pt(0, plainFirst+plainPitch*float64(i)))
		p.Text(draw.Text{At: at, Size: faintSize, Role: draw.RoleFaint, String: text})
	}
}

func (q *part) paint(p *draw.Picture) {
	p.Begin(string(q.id))
	defer p.End()
	if q.kind.IsBoard() {
		pen := draw.Pen{Role: q.role, Width: symbol.Thickness(q.kind), Dash: q.dash}
		if q.dash == draw.Hatched {
			pen.Width *= hatchedShare
		}
		p.Stroke(draw.Line(q.barEnd(-1), q.barEnd(1)), pen)
		return
	}
	q.symbol.Place(p, q.at, q.turn, q.role)
	if q.breakBox().Width() > 0 {
		symbol.Break().Place(p, q.breakAt(), q.turn, draw.RoleUnreached)
	}
}

// breakAt is where across a transformer's secondary lead the sign stands at
// which cover ends.
func (q *part) breakAt() geom.Point { return q.frame().Apply(geom.Pt(0, 9.9)) }

// breakBox returns the room of that sign, of no width where there is none.
func (q *part) breakBox() geom.Rect {
	if q.ends == "" || q.kind != diagram.Transformer {
		return geom.Rect{}
	}
	return geom.Turn(q.turn).Then(geom.Translate(q.breakAt())).ApplyRect(symbol.Break().Outline)
}

func (q *protector) paint(p *draw.Picture) {
	p.Begin(string(q.id))
	defer p.End()
	if q.from != q.at {
		p.Stroke(draw.Line(q.from, q.at), draw.Pen{Role: draw.RoleInk, Width: leadWidth})
	}
	symbol.Protector().Place(p, q.at, q.turn, draw.RoleInk)
	q.paintDiffer(p)
	if q.tag.placed() {
		q.tag.paint(p, nil)
	}
}

func (s *Scene) paintTag(p *draw.Picture, q *part, cards cards) {
	if !q.tag.placed() {
		return
	}
	p.Begin(string(q.id))
	defer p.End()
	q.tag.paint(p, cards)
}

func (t *tag) paint(p *draw.Picture, cards cards) {
	if t.leader != (geom.Segment{}) {
		p.Stroke(draw.Line(t.leader.A, t.leader.B), draw.Pen{Role: draw.RoleFaint, Width: leaderWidth})
	}
	first, pitch, left := plainFirst, plainPitch, 0.0
	if t.card {
		first, pitch, left = rowFirst, rowPitch, t.textLeft()
		cards.place(p, t)
	}
	for i, r := range t.rows {
		at := t.box.Min.Add(geom.Pt(left, first+pitch*float64(i)))
		p.Text(draw.Text{At: at, Size: r.size, Bold: r.bold, Role: r.role, String: r.text})
		if r.right != "" {
			end := geom.Pt(t.box.Max.X-cardPad, at.Y)
			p.Text(draw.Text{At: end, Size: faintSize, Align: draw.Right, Role: draw.RoleFaint, String: r.right})
		}
	}
	if t.hasGauge() {
		t.paintGauge(p)
	}
}
