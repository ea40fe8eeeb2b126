package edit_test

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// The label of a selected feeder lies over the rails beside its line, which would
// cover its first figure.
func TestLabelOfASelectedFeederIsSeen(t *testing.T) {
	d := drive(t)
	d.Select("feeder-2")
	got := d.Overlay().String()
	feeder, _ := d.Document().Feeder("feeder-2")
	label := unit.Format(feeder.Length, unit.Length, unit.NorthAmerican)
	if rail, text := strings.Index(got, "accent"), strings.Index(got, label); rail < 0 || text < rail {
		t.Errorf("the rails begin at %d and the label %q at %d of %s", rail, label, text, got)
	}
}

// TestOverlayReaches checks for each state that what lies over the sheet is
// where the work is, and nowhere else.
func TestOverlayReaches(t *testing.T) {
	rect := func(x, y, toX, toY float64) geom.Rect { return geom.RectOf(geom.Pt(x, y), geom.Pt(toX, toY)) }
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want geom.Rect // within a margin; empty: nothing is shown
	}{
		{"idle", func(d *edittest.Driver) { d.Hover(-80, 30) }, geom.Empty()},
		{"a part hovered", func(d *edittest.Driver) { d.Hover(80, 60) }, rect(76, 55, 84, 65)},
		{"a terminal hovered", func(d *edittest.Driver) { d.Hover(80, 55) }, rect(76, 55, 84, 65)},
		{"a part selected", func(d *edittest.Driver) { d.Select("load-1") }, rect(76, 55, 84, 65)},
		{"a feeder selected", func(d *edittest.Driver) { d.Select("feeder-2") }, rect(0, 0, 0, 60)},
		{"a board selected", func(d *edittest.Driver) { d.Select("panel-1") }, rect(-20, 60, 20, 60)},
		{"placing", func(d *edittest.Driver) { d.Arm(diagram.Load); d.Hover(-80, 30) }, rect(-84, 25, -76, 35)},
		{"attaching over nothing", func(d *edittest.Driver) { d.ArmProtector(); d.Hover(-80, 30) }, rect(-84, 30, -76, 44)},
		{"attaching over a bus", func(d *edittest.Driver) { d.ArmProtector(); d.Hover(10, 60) }, rect(-20, 60, 20, 75)},
		{"ready to connect", func(d *edittest.Driver) { d.ArmFeeder(); d.Hover(80, 60) }, rect(76, 55, 84, 65)},
		{"connecting", func(d *edittest.Driver) { d.Press(80, 55).DragTo(80, 0) }, rect(76, 0, 84, 65)},
		{"reconnecting the head", func(d *edittest.Driver) { d.Press(0, 8).DragTo(-60, 30) }, rect(-60, 0, 0, 60)},
		{"pulling a box", func(d *edittest.Driver) { d.Press(-80, 20).DragTo(-60, 40) }, rect(-80, 20, -60, 40)},
		{"pulling an end", func(d *edittest.Driver) { d.Press(20, 60).DragTo(40, 60) }, rect(-20, 60, 40, 60)},
		{"sliding over a load", func(d *edittest.Driver) { d.Press(20, 7).DragTo(80, 60) }, rect(76, 55, 90, 70)},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			const margin = 8 // mm: halos, handles, and the way round parts
			got := d.Overlay().Bounds()
			switch {
			case row.want.IsEmpty():
				if !got.IsEmpty() {
					t.Errorf("got %v, want nothing", got)
				}
			case !got.Grow(margin).Holds(row.want) || !row.want.Grow(margin).Holds(got):
				t.Errorf("got %v, want about %v", got, row.want)
			}
		})
	}
}

func TestGuidesAreShown(t *testing.T) {
	d := drive(t)
	d.Press(80, 60).DragTo(0.4, 103)
	var with, without int
	with = d.Overlay().Len()
	d.Hold(edit.Alt).DragTo(0.4, 103)
	without = d.Overlay().Len()
	if with <= without {
		t.Errorf("%d items with guides, %d without", with, without)
	}
}

func TestSceneFollows(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
	}{
		{"a change", func(d *edittest.Driver) { d.Select("load-1"); d.Key(edit.KeyRight) }},
		{"marks", func(d *edittest.Driver) {
			d.SetMarks(scene.Marks{Parts: map[diagram.ID]scene.Mark{"panel-1": {Letter: "H", Lines: []string{"1 240 V L-G"}}}})
		}},
		{"options", func(d *edittest.Driver) { d.SetOptions(scene.Options{Convention: unit.IEC, HideLabels: true}) }},
		{"the plan", func(d *edittest.Driver) { d.Do("new plan") }},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			before, version := d.Scene(), d.SceneVersion()
			if d.Scene() != before {
				t.Fatal("the scene is made anew where nothing has changed")
			}
			text := before.Picture().String()
			row.do(d)
			if d.SceneVersion() == version || d.Scene().Picture().String() == text {
				t.Error("the scene shows what was before")
			}
		})
	}
}

func TestOptionsSetTheConventionOfNewFeeders(t *testing.T) {
	d := drive(t)
	d.SetOptions(scene.Options{Convention: unit.IEC})
	id, err := d.Connect("panel-1", "load-1")
	must(t, err)
	if got, _ := d.Document().Feeder(id); got.Length != 10 {
		t.Errorf("length: got %g m, want 10", got.Length)
	}
}

func TestSetView(t *testing.T) {
	d := drive(t)
	d.SetView(edit.View{Scale: 2, Origin: geom.Pt(-10, 20), Width: 1, Height: 1})
	want := edit.View{Scale: 2, Origin: geom.Pt(-10, 20), Width: edittest.Width, Height: edittest.Height}
	if got := d.View(); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
	d.SetView(edit.View{Scale: 1e9})
	if got := d.View().Percent(); got > 1600.001 {
		t.Errorf("a remembered view zoomed to %g %%", got)
	}
}

func TestLabels(t *testing.T) {
	d := drive(t)
	d.Drag(80, 60, 80, 90)
	if got := d.UndoLabel() + "|" + d.RedoLabel(); got != "move Pump|" {
		t.Errorf("got %q", got)
	}
	d.Undo()
	if got := d.UndoLabel() + "|" + d.RedoLabel(); got != "|move Pump" {
		t.Errorf("after undo: got %q", got)
	}
}

// TestScrollTakesTheGestureAlong scrolls in the middle of a drag: the part
// stays under the pointer.
func TestScrollTakesTheGestureAlong(t *testing.T) {
	d := drive(t)
	d.Press(80, 60).DragTo(80, 80).Scroll(0, -100).Release()
	const moved = 100 / edit.FullScale // mm that 100 px are at 100 %
	part, _ := d.Document().Part("load-1")
	if want := 80 + moved; part.At.Y < want-5 || part.At.Y > want+5 {
		t.Errorf("the part stands at %g, want it under the pointer at about %g", part.At.Y, want)
	}
	if strings.Contains(d.Status(), "Moving") {
		t.Error("the gesture goes on after the release")
	}
}
