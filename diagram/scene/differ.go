package scene

import (
	"fmt"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
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
	frameApart  = 0.6 // from a symbol to the frame round it
	frameWidth  = 0.45
	signRadius  = 1.7
	signSize    = 3.4
	mostChanges = 3 // lines of a label that say what changed
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

// differences are those of the protectors of the plan by their ids.
func differences(list []diagram.PlanDifference) map[diagram.ID]diagram.PlanDifference {
	if len(list) == 0 {
		return nil
	}
	out := make(map[diagram.ID]diagram.PlanDifference, len(list))
	for _, d := range list {
		if d.After != nil {
			out[d.After.ID] = d
		}
	}
	return out
}

// kindOf returns how a protector differs that may stand in the plan.
func kindOf(d diagram.PlanDifference) Differ {
	switch {
	case d.Before == nil && d.After == nil:
		return Alike
	case d.Before == nil:
		return Added
	case d.After == nil:
		return Gone
	}
	return Altered
}

// changeLines is the label of a protector with what of it differs, in few words.
func (b *builder) changeLines(record *diagram.Protector, d diagram.PlanDifference) []string {
	lines := b.marks.Protectors[record.ID]
	if kindOf(d) != Altered {
		return lines
	}
	var out []string
	if record.Name != "" {
		out = append(out, record.Name)
	}
	changes := d.Lines(b.options.Convention)
	if more := len(changes) - mostChanges; more > 0 {
		changes = append(changes[:mostChanges:mostChanges], fmt.Sprintf("and %d more", more))
	}
	return append(out, changes...)
}

// hangGone places what the plan no longer has, after what it has: pale, and with its
// name.
func (b *builder) hangGone() {
	for _, d := range b.marks.Differences {
		if kindOf(d) != Gone {
			continue
		}
		host, ok := b.partAt[d.Before.Bus]
		if !ok || !b.parts[host].kind.TakesProtector() {
			continue
		}
		p := b.hang(d.Before, host, []string{nameOr(d.Before.Name, "protector") + " removed"}, Gone)
		b.gone = append(b.gone, p)
	}
}

func nameOr(name, other string) string {
	if name == "" {
		return other
	}
	return name
}

// frame returns the frame round a protector that differs; its end at the bus stays
// outside.
func (p *protector) frame() geom.Rect { return p.needs().Grow(frameApart) }

// signAt is where the middle of the sign stands: on the edge of the frame, below.
func (p *protector) signAt() geom.Point {
	frame := p.frame()
	return geom.Pt(frame.Center().X, frame.Max.Y)
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
