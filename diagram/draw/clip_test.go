package draw_test

import (
	"strings"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// window is what is looked at in these tests: 10 to 30 mm each way.
var window = geom.RectOf(geom.Pt(10, 10), geom.Pt(30, 30))

func TestClip(t *testing.T) {
	pen := draw.Pen{Width: 1}
	line := func(points ...geom.Point) func(*draw.Picture) {
		return func(p *draw.Picture) { p.Stroke(draw.Line(points...), pen) }
	}
	for _, row := range []struct {
		name string
		draw func(*draw.Picture)
		want string // empty for nothing
	}{
		{"a line inside", line(geom.Pt(12, 12), geom.Pt(20, 12)), "stroke ink 1 solid: M 12,12 L 20,12"},
		{"a line across, its ink kept inside", line(geom.Pt(0, 20), geom.Pt(50, 20)), "stroke ink 1 solid: M 10.5,20 L 29.5,20"},
		{"a line that leaves and comes back", line(geom.Pt(12, 12), geom.Pt(12, 40), geom.Pt(20, 40), geom.Pt(20, 12)),
			"stroke ink 1 solid: M 12,12 L 12,29.5\nstroke ink 1 solid: M 20,29.5 L 20,12"},
		{"a slanted line", line(geom.Pt(0, 5), geom.Pt(30, 35)), "stroke ink 1 solid: M 10.5,15.5 L 24.5,29.5"},
		{"a line that passes by", line(geom.Pt(0, 31), geom.Pt(31, 40)), ""},
		{"a fill across a corner", func(p *draw.Picture) {
			p.Fill(draw.Polygon(geom.Pt(20, 20), geom.Pt(40, 20), geom.Pt(40, 40), geom.Pt(20, 40)), draw.RoleHeld)
		}, "fill held: M 20,30 L 20,20 L 30,20 L 30,30 Z"},
		{"a fill elsewhere", func(p *draw.Picture) { p.Fill(draw.Circle(geom.Pt(50, 50), 5), draw.RoleHeld) }, ""},
		{"a text inside", func(p *draw.Picture) { p.Text(draw.Text{At: geom.Pt(12, 20), Size: 3, String: "Bus"}) }, `text ink 3 regular left 12,20: "Bus"`},
		{"a text below the edge", func(p *draw.Picture) { p.Text(draw.Text{At: geom.Pt(12, 30), Size: 3, String: "gap"}) }, ""},
		{"an image across", func(p *draw.Picture) {
			p.Image(draw.Image{Data: "x", Box: geom.RectOf(geom.Pt(5, 12), geom.Pt(15, 20))})
		}, ""},
		{"an image inside", func(p *draw.Picture) {
			p.Image(draw.Image{Data: "x", Box: geom.RectOf(geom.Pt(11, 12), geom.Pt(15, 20))})
		}, "image 11,12 15,20: 1 bytes"},
	} {
		p := draw.NewPicture()
		row.draw(p)
		if got := strings.TrimSpace(draw.Clip(p, window).String()); got != row.want {
			t.Errorf("%s: got\n%s\nwant\n%s", row.name, got, row.want)
		}
	}
}

// Of a text across the edge the letters inside stay where they were, so that two
// windows side by side, which overlap by a letter, show all of it.
func TestClipKeepsLetters(t *testing.T) {
	p := draw.NewPicture()
	const words = "Main switchboard"
	p.Text(draw.Text{At: geom.Pt(20, 20), Size: 4, Align: draw.Center, String: words})
	left := draw.Clip(p, geom.RectOf(geom.Pt(0, 0), geom.Pt(20, 40))).Items()[0]
	right := draw.Clip(p, geom.RectOf(geom.Pt(17, 0), geom.Pt(60, 40))).Items()[0]
	if !strings.HasPrefix(words, left.Text.String) || !strings.HasSuffix(words, right.Text.String) || len(left.Text.String)+len(right.Text.String) < len(words) {
		t.Errorf("got %q and %q", left.Text.String, right.Text.String)
	}
	all := p.Items()[0].Bounds
	if left.Bounds.Min.X-all.Min.X > 1e-9 || left.Bounds.Max.X > 20 || all.Max.X-right.Bounds.Max.X > 1e-9 || right.Bounds.Min.X < 17 {
		t.Errorf("the pieces lie at %v and %v of %v", left.Bounds, right.Bounds, all)
	}
}

// Nothing of a picture is left beyond the window, and a stamp keeps its groups.
func TestClipStaysInside(t *testing.T) {
	symbol := draw.NewPicture()
	symbol.FillStroke(draw.Circle(geom.Pt(0, 0), 4), draw.RoleCard, draw.Pen{Width: 0.5})
	for dash := range 6 {
		symbol.Stroke(draw.Line(geom.Pt(-9, -6), geom.Pt(-9, float64(dash)), geom.Pt(9, 7)), draw.Pen{Width: 1.2, Dash: draw.Dash(dash)})
	}
	p := draw.NewPicture()
	for i := range 8 {
		for k := range 8 {
			p.Begin("panel")
			p.Place("s", symbol, geom.Pt(6*float64(i), 6*float64(k)), i, draw.RoleHeld)
			p.End()
		}
	}
	got := draw.Clip(p, window)
	if b := got.Bounds(); b.IsEmpty() || !window.Grow(1e-9).Holds(b) { // sums are rounded
		t.Errorf("what is left reaches %v", b)
	}
	for _, item := range got.Items() {
		if item.Group != "panel" {
			t.Fatalf("an item lost its group: %+v", item)
		}
	}
}
