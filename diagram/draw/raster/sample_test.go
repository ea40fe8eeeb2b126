package raster

import (
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Symbols as tests need them: lines along the axes and aslant, curves, fills
// and a letter.

var fine = draw.Pen{Role: draw.RoleInk, Width: 0.4}

func box(x0, y0, x1, y1 float64) geom.Rect {
	return geom.RectOf(geom.Pt(x0, y0), geom.Pt(x1, y1))
}

func protector() *draw.Picture {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(0, -8), geom.Pt(0, -4)), fine)
	p.FillStroke(draw.Rectangle(box(-1.6, -4, 1.6, 4), 0), draw.RolePaper, fine)
	p.Stroke(draw.Line(geom.Pt(-3.2, 3), geom.Pt(-2.2, 3), geom.Pt(2.6, -4)), fine)
	p.Stroke(draw.Line(geom.Pt(0, 4), geom.Pt(0, 7)), fine)
	for i, half := range []float64{2.4, 1.6, 0.8} {
		y := 7 + 0.9*float64(i)
		p.Stroke(draw.Line(geom.Pt(-half, y), geom.Pt(half, y)), fine)
	}
	return p
}

func windings() *draw.Picture {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(0, -9), geom.Pt(0, -6.2)), fine)
	p.Stroke(draw.Line(geom.Pt(0, 6.2), geom.Pt(0, 9)), fine)
	p.Stroke(draw.Circle(geom.Pt(0, -2.4), 3.8), fine)
	p.Stroke(draw.Circle(geom.Pt(0, 2.4), 3.8), fine)
	return p
}

func machine() *draw.Picture {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(0, 3.6), geom.Pt(0, 9)), fine)
	p.FillStroke(draw.Circle(geom.Pt(0, 0), 3.6), draw.RoleCard, fine)
	p.Fill(draw.Polygon(geom.Pt(-1, 7), geom.Pt(1, 7), geom.Pt(0, 9)), draw.RoleInk)
	p.Text(draw.Text{At: geom.Pt(0, 1.3), Size: 3.6, Bold: true, Align: draw.Center, String: "G"})
	return p
}

// sample returns a picture with each kind of item, line and verdict.
func sample() *draw.Picture {
	p := draw.NewPicture()
	verdicts := []draw.Role{draw.RoleHeld, draw.RoleTight, draw.RoleExceeded, draw.RoleUnreached, draw.RoleUnknown, draw.RoleAccent}
	dashes := []draw.Dash{draw.Solid, draw.Dashed, draw.Double, draw.Hatched, draw.Dotted, draw.LongDash}
	for i, role := range verdicts {
		y := 11 * float64(i)
		p.Begin(role.String())
		p.Stroke(draw.Line(geom.Pt(0, y), geom.Pt(40, y)), draw.Pen{Role: role, Width: 2, Dash: dashes[i]})
		p.Stroke(draw.Line(geom.Pt(3, y), geom.Pt(3, y+4), geom.Pt(9, y+4), geom.Pt(9, y+8)), draw.Pen{Role: role, Width: 0.8, Dash: dashes[i]})
		p.FillStroke(draw.Rectangle(box(12, y+2.5, 36, y+8.5), 1), draw.RoleCard, draw.Pen{Role: role, Width: 0.4})
		p.Text(draw.Text{At: geom.Pt(14, y+6.5), Size: 3, Bold: i%2 == 0, String: "LP-" + role.String()})
		p.End()
	}
	for turn := range 4 {
		y := 10 + 20*float64(turn)
		p.Place("protector", protector(), geom.Pt(55, y), turn, draw.RoleHeld)
		p.Place("windings", windings(), geom.Pt(75, y), turn, draw.RoleInk)
		p.Place("machine", machine(), geom.Pt(95, y), turn, draw.RoleExceeded)
	}
	return p
}
