package scene

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// Differ is how a protector differs from another plan: each kind has a sign of its
// own and a frame of its own, so that they are told apart without colour.
type Differ uint8

// The kinds of difference.
const (
	Alike Differ = iota
	Added
	Altered
	Gone // drawn pale where it was
)

// Sizes of the marks of differences, in mm.
const (
	frameApart = 0.6 // from a symbol to the frame round it
	frameWidth = 0.45
	signRadius = 1.9
	signSize   = 3.8
)

// sign stands for the kind on the sheet and in the legend.
func (d Differ) sign() string { return [...]string{"", "+", "≠", "−"}[d] }

// dash is the pattern of the frame.
func (d Differ) dash() draw.Dash {
	return [...]draw.Dash{draw.Solid, draw.Solid, draw.LongDash, draw.Dashed}[d]
}

// role is the colour of sign and frame.
func (d Differ) role() draw.Role {
	if d == Gone {
		return draw.RoleFaint
	}
	return draw.RoleInk
}

// DifferenceLegend explains the marks of differences from a plan of the name.
func DifferenceLegend(name string) []LegendEntry {
	return []LegendEntry{
		{Differ: Added, Text: "Not in " + shorten(name, faintSize, false)},
		{Differ: Altered, Text: "Changed"},
		{Differ: Gone, Text: "Removed"},
	}
}

// markDifferences marks how the protectors differ from another plan. It runs when all
// else but the badges has its place, so that nothing moves for it.
func (b *builder) markDifferences() {
	for _, d := range b.marks.Differences {
		switch {
		case d.After == nil:
			b.hangGone(d.Before)
		case d.Before == nil:
			b.markProtector(d.After, Added, nil)
		default:
			b.markProtector(d.After, Altered, d.Lines(b.options.Convention))
		}
	}
}

// markProtector marks one of the plan, and puts what changed on its label.
func (b *builder) markProtector(record *diagram.Protector, differ Differ, changes []string) {
	i, ok := b.protectorAt(record.ID)
	if !ok {
		return
	}
	p := &b.protectors[i]
	p.differ = differ
	b.taken.take(p.signBox())
	if len(changes) == 0 || b.options.HideLabels {
		return
	}
	for _, label := range changeLabels(record.Name, len(b.marks.Protectors[record.ID]), changes) {
		if b.relabel(p, label) {
			return
		}
	}
}

// changeLabels are what the label of a changed protector may say, the best first:
// under its name as many changes as it had lines, the first one and how many more, or
// only how many there are.
func changeLabels(name string, lines int, changes []string) []tag {
	var head []string
	if name != "" {
		head = []string{name}
	}
	label := func(told ...string) tag { return protectorTag(slices.Concat(head, told)) }
	most := min(len(changes), max(1, lines-len(head)))
	full := slices.Clone(changes[:most])
	if more := len(changes) - most; more > 0 {
		full[most-1] += fmt.Sprintf(", %d more", more)
	}
	first := changes[:1:1]
	if more := len(changes) - 1; more > 0 {
		first = append(first, fmt.Sprintf("and %d more", more))
	}
	return []tag{label(full...), label(first...), label(unit.CountOf(len(changes), "change"))}
}

// relabel puts another label where that of a protector is, or where there is none,
// beside it, and reports whether there is room.
func (b *builder) relabel(p *protector, label tag) bool {
	if !p.tag.placed() {
		if !b.beside(p, label) {
			return false
		}
		b.taken.take(p.tag.box)
		return true
	}
	old, box := p.tag.box, p.tag.box
	box.Max.Y = box.Min.Y + label.size.Y
	strip := box // what it takes besides, away from the symbol
	if old.Min.X > p.box.Center().X {
		box.Max.X = box.Min.X + label.size.X
		strip.Min.X, strip.Max.X = old.Max.X, box.Max.X
	} else {
		box.Min.X = box.Max.X - label.size.X
		strip.Min.X, strip.Max.X = box.Min.X, old.Min.X
	}
	if box.Height() > old.Height() || strip.Width() > 0 && !b.taken.free(strip) {
		return false
	}
	b.taken.take(box)
	p.tag = label
	p.tag.box = box
	return true
}

// hangGone places what the plan no longer has: near where it was, pale, and with its
// name where there is room.
func (b *builder) hangGone(record *diagram.Protector) {
	host, ok := b.partAt[record.Bus]
	if !ok || !b.parts[host].kind.TakesProtector() {
		return
	}
	part := &b.parts[host]
	p := part.hold(record.ID, host, record.Offset)
	for offset := range part.offsets(record.Offset) {
		if at := part.hold(record.ID, host, offset); b.taken.free(at.needs()) {
			p = at
			break
		}
	}
	p.differ = Gone
	if label := protectorTag([]string{cmp.Or(record.Name, "protector") + " removed"}); !b.options.HideLabels {
		b.beside(&p, label)
	}
	b.gone = append(b.gone, b.occupy(p))
	b.taken.take(p.signBox())
}

// frame returns the frame round a protector that differs; its end at the bus stays
// outside.
func (p *protector) frame() geom.Rect { return p.needs().Grow(frameApart) }

// signAt is where the middle of the sign stands: on the edge of the frame, below.
func (p *protector) signAt() geom.Point {
	frame := p.frame()
	return geom.Pt(frame.Center().X, frame.Max.Y)
}

// signBox returns the room of the sign.
func (p *protector) signBox() geom.Rect {
	return geom.Rect{Min: p.signAt(), Max: p.signAt()}.Grow(signRadius)
}

// paintDiffer frames a protector that differs, and puts the sign on the frame.
func (p *protector) paintDiffer(to *draw.Picture) {
	if p.differ == Alike {
		return
	}
	to.Stroke(draw.Rectangle(p.frame(), haloRadius), draw.Pen{Role: p.differ.role(), Width: frameWidth, Dash: p.differ.dash()})
	p.differ.paintSign(to, p.signAt())
}

func (d Differ) paintSign(to *draw.Picture, at geom.Point) {
	to.FillStroke(draw.Circle(at, signRadius), d.role(), draw.Pen{Role: draw.RolePaper, Width: badgeRim})
	to.Text(draw.Text{
		At: at.Add(geom.Pt(0, draw.CapHeight(signSize)/2)), Size: signSize, Bold: true,
		Align: draw.Center, Role: draw.RolePaper, String: d.sign(),
	})
}

// paintGone draws what the plan no longer has.
func (p *protector) paintGone(to *draw.Picture) {
	if p.from != p.at {
		to.Stroke(draw.Line(p.from, p.at), draw.Pen{Role: draw.RoleFaint, Width: leadWidth, Dash: draw.Dashed})
	}
	symbol.Protector().Place(to, p.at, p.turn, draw.RoleFaint)
	p.paintDiffer(to)
	if p.tag.placed() {
		p.tag.paint(to, nil)
	}
}

// paintDifferSample draws how a difference looks in the legend.
func (e LegendEntry) paintDifferSample(p *draw.Picture, at geom.Point) {
	box := geom.RectOf(at, at.Add(geom.Pt(legendSample, legendBadge)))
	p.Stroke(draw.Rectangle(box, haloRadius), draw.Pen{Role: e.Differ.role(), Width: frameWidth, Dash: e.Differ.dash()})
	e.Differ.paintSign(p, box.Center())
}
