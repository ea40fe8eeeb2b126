package edit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

// outlines writes of each item of a picture what it is and the rectangle of its
// ink, in whole millimetres: where it is, not how it looks.
func outlines(p *draw.Picture) string {
	var out strings.Builder
	for _, item := range p.Items() {
		word := "shape"
		switch {
		case item.Text != nil:
			word = "text"
		case item.Stamp != nil:
			word = "symbol"
		case item.Shape.Pen.Role == draw.RoleAccentSoft:
			word = "halo"
		}
		b, round := item.Bounds, func(v float64) float64 { return math.Round(v) + 0 } // no -0
		fmt.Fprintf(&out, "%s from %.0f,%.0f to %.0f,%.0f\n", word, round(b.Min.X), round(b.Min.Y), round(b.Max.X), round(b.Max.Y))
	}
	return out.String()
}

// TestOverlayText writes where things lie over the sheet in each state. Parts stand
// at 0,-60 (supply), 0,0 (switchboard, 60 mm), 0,60 (panel, 40 mm) and 80,60 (load).
func TestOverlayText(t *testing.T) {
	var out strings.Builder
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
	}{
		{"two parts and a feeder selected", func(d *edittest.Driver) { d.Select("panel-1", "load-1", "feeder-2") }},
		{"a board selected alone: two handles", func(d *edittest.Driver) { d.Select("panel-1") }},
		{"a load selected alone: none", func(d *edittest.Driver) { d.Select("load-1") }},
		{"a terminal hovered", func(d *edittest.Driver) { d.Hover(80, 55) }},
		{"the tool for feeders over a board", func(d *edittest.Driver) { d.ArmFeeder(); d.Hover(5, 60) }},
		{"a feeder drawn to a board", func(d *edittest.Driver) { d.Press(80, 55).DragTo(5, 0) }},
		{"a feeder drawn to nothing", func(d *edittest.Driver) { d.Press(80, 55).DragTo(80, 0) }},
		{"the head of a feeder led to a supply", func(d *edittest.Driver) { d.Press(0, 8).DragTo(0, -60) }},
		{"the far end led to a load", func(d *edittest.Driver) { d.Press(0, 50).DragTo(80, 60) }},
		{"a load to be placed, turned", func(d *edittest.Driver) { d.Arm(diagram.Load); d.Hover(-80, 30).Key("R") }},
		{"a protector to be attached to a board", func(d *edittest.Driver) { d.ArmProtector(); d.Hover(9, 60) }},
		{"a protector over nothing", func(d *edittest.Driver) { d.ArmProtector(); d.Hover(-81, 31) }},
		{"a bar pulled", func(d *edittest.Driver) { d.Press(20, 60).DragTo(40, 60) }},
		{"a box pulled", func(d *edittest.Driver) { d.Press(-80, 20).DragTo(-60, 40) }},
		{"a part moved beside another", func(d *edittest.Driver) { d.Press(80, 60).DragTo(0.4, 103) }},
		{"the same without snapping", func(d *edittest.Driver) { d.Hold(edit.Alt).Press(80, 60).DragTo(0.4, 103) }},
		{"a protector slid over a load", func(d *edittest.Driver) { d.Press(20, 7).DragTo(80, 60) }},
	} {
		d := drive(t)
		row.do(d)
		fmt.Fprintf(&out, "# %s\n%s\n", row.name, outlines(d.Overlay()))
	}
	drawtest.Text(t, "overlay.txt", out.String())
}
