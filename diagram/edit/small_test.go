package edit_test

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

// set replaces a part by what change makes of it.
func set(t *testing.T, d *edittest.Driver, id diagram.ID, change func(*diagram.Part)) {
	t.Helper()
	must(t, d.Change("set", func(tx *diagram.Tx) error {
		part, _ := tx.Part(id)
		change(&part)
		tx.SetPart(part)
		return nil
	}))
}

func TestArrangeOffTheGrid(t *testing.T) {
	d := drive(t)
	set(t, d, "load-1", func(p *diagram.Part) { p.At = geom.Pt(81.5, 60) })
	d.Select("load-1")
	d.Key("R", "R", "R", "R", "R")
	if got, _ := d.Document().Part("load-1"); got.At != geom.Pt(81.5, 60) || got.Turn != 1 {
		t.Errorf("turned five times: got %v and %d quarter turns, want it where it was and 1", got.At, got.Turn)
	}
	// Four middles from -60 to 100: a third of 160 apart, each to the nearest mm.
	set(t, d, "load-1", func(p *diagram.Part) { p.At = geom.Pt(80, 100) })
	d.Select("load-1", "panel-1", "supply-1", "switchboard-1")
	d.Key("Alt+V")
	for id, want := range map[diagram.ID]float64{"supply-1": -60, "switchboard-1": -7, "panel-1": 47, "load-1": 100} {
		if got, _ := d.Document().Part(id); got.At.Y != want {
			t.Errorf("%s stands at %g, want %g", id, got.At.Y, want)
		}
	}
	for _, pick := range [][]diagram.ID{nil, {"load-1"}, {"load-1", "panel-1"}} {
		d.Select(pick...)
		before := places(d.Document())
		must(t, d.DistributeHorizontally())
		if got := changed(before, places(d.Document())); got != "" {
			t.Errorf("%d parts have nothing between them: %s", len(pick), got)
		}
	}
	d.Select("load-1", "panel-1", "supply-1")
	d.Key("Alt+V")
	if got, _ := d.Document().Part("panel-1"); got.At.Y != 20 {
		t.Errorf("between -60 and 100: got %g, want 20", got.At.Y)
	}
}

// Keys lead the pointer to the next point of the grid, with Shift by a millimetre,
// and the view follows.
func TestKeysLeadThePointer(t *testing.T) {
	for _, row := range []struct {
		name string
		keys []string
		want string
	}{
		{"onto the grid", []string{"7", edit.KeyRight, edit.KeyEnter}, "+load-2 at -75,120"},
		{"finely", []string{"7", "Shift+" + edit.KeyUp, edit.KeyEnter}, "+load-2 at -81,121"},
		{"a protector finely", []string{"P", "Shift+" + edit.KeyLeft, edit.KeyEnter}, ""},
		{"not with Control", []string{"7", "Ctrl+" + edit.KeyRight, edit.KeyEnter}, "+load-2 at -80,120"},
		{"Control and R turn nothing", []string{"7", "Ctrl+R", edit.KeyEnter}, "+load-2 at -80,120"},
	} {
		d := drive(t)
		before := places(d.Document())
		d.Hover(-81, 122).Key(row.keys...)
		if got := changed(before, places(d.Document())); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
	d := drive(t)
	d.Hover(9, 60).Key("P", edit.KeyEnter)
	d.Hover(9, 60).Key("Ctrl+Shift+A", "P", "Shift+"+edit.KeyRight, edit.KeyEnter)
	for id, want := range map[diagram.ID]float64{"protector-2": 10, "protector-3": 10} {
		if got, _ := d.Document().Protector(id); got.Bus != "panel-1" || got.Offset != want {
			t.Errorf("%s hangs at %g on %s, want %g", id, got.Offset, got.Bus, want)
		}
	}
	d.Hover(9, 60).Key("Ctrl+Shift+A", "P", "Shift+"+edit.KeyRight, "Shift+"+edit.KeyRight, edit.KeyEnter)
	if got, _ := d.Document().Protector("protector-4"); got.Offset != 11 {
		t.Errorf("two millimetres from 9: got %g, want 11", got.Offset)
	}
	d.Hover(9, 60).Key("7")
	for range 60 {
		d.Key(edit.KeyRight)
	}
	if at := geom.Pt(305, 60); !d.View().Rect().Contains(at) {
		t.Errorf("the pointer was led to %v, out of the view %v", at, d.View().Rect())
	}
	d.Key(edit.KeyEscape, "Ctrl+Shift+A", "P", edit.KeyTab)
	if box, _ := d.Scene().Box("switchboard-1"); !d.View().Rect().Holds(box) {
		t.Error("Tab led a protector to a board out of view")
	}
}

func TestNudgeOnAnUprightBar(t *testing.T) {
	d := drive(t)
	set(t, d, "switchboard-1", func(p *diagram.Part) { p.Turn = 1 })
	d.Select("protector-1")
	d.Key(edit.KeyUp, edit.KeyLeft)
	if got, _ := d.Document().Protector("protector-1"); got.Offset != 15 {
		t.Errorf("up an upright bar by one step: got the offset %g, want 15", got.Offset)
	}
	d.Select("protector-1", "load-1")
	d.Key(edit.KeyUp)
	load, _ := d.Document().Part("load-1")
	if got, _ := d.Document().Protector("protector-1"); got.Offset != 15 || load.At.Y != 55 {
		t.Errorf("with a part: the protector hangs at %g and the part stands at %g, want 15 and 55", got.Offset, load.At.Y)
	}
}

// Whatever else is selected begins a new entry, also by keys and by a list.
func TestSelectingEndsARow(t *testing.T) {
	for name, pick := range map[string]func(d *edittest.Driver){
		"by Tab": func(d *edittest.Driver) { d.Key(edit.KeyTab, "Shift+"+edit.KeyTab) },
		"by a list": func(d *edittest.Driver) {
			d.Select("load-1")
			d.Select("panel-1")
		},
	} {
		d := drive(t)
		d.Select("panel-1")
		d.Key(edit.KeyRight)
		pick(d)
		d.Key(edit.KeyRight)
		d.Undo()
		if got, _ := d.Document().Part("panel-1"); got.At.X != 5 {
			t.Errorf("%s: undo leads to %g, want 5", name, got.At.X)
		}
	}
}

func TestUndoAndRedoOfNothing(t *testing.T) {
	d := drive(t)
	before := places(d.Document())
	d.Undo()
	d.Redo()
	if places(d.Document()) != before || d.CanUndo() || d.CanRedo() {
		t.Error("something was undone")
	}
	for _, name := range []string{"next attached", "previous attached"} {
		command, _ := edittest.Find(name)
		must(t, command.Run(d.Editor)) // with nothing selected
	}
	empty := edittest.New(t, diagram.New(), edit.Options{})
	empty.Key(edit.KeyTab)
	if got := selected(empty); got != "" {
		t.Errorf("on an empty sheet: Tab selects %q", got)
	}
}

// A gesture under way is dropped by redo, and can be undone before it changed
// anything that lasts.
func TestGestureUnderWay(t *testing.T) {
	d := drive(t)
	must(t, d.Change("rename", rename("panel-1", "Workshop")))
	d.Undo()
	d.Press(80, 60).DragTo(120, 60)
	if !d.CanUndo() || !d.CanRedo() {
		t.Error("the gesture cannot be undone, or nothing redone")
	}
	d.Redo()
	load, _ := d.Document().Part("load-1")
	if name := d.Document().NameOf("panel-1"); name != "Workshop" || load.At.X != 80 {
		t.Errorf("redo led to %q, with the load at %g", name, load.At.X)
	}
	d = drive(t)
	d.Press(80, 60).DragTo(81, 60) // snaps to where it was
	if !d.IsSaved() {
		t.Error("a drag that has moved nothing yet counts as unsaved")
	}
	d.Release()
	d.Press(80, 60).DragTo(120, 60)
	d.Select("panel-1")
	d.Key(edit.KeyEscape)
	if got := selected(d); got != "load-1" {
		t.Errorf("after Escape %q is selected, want what was before the gesture", got)
	}
}

// What a change takes away is selected no more, and is not shown.
func TestFocusAfterAChange(t *testing.T) {
	d := drive(t)
	_, err := d.AddPlan("Other", "")
	must(t, err)
	d.Select("panel-1", "load-1")
	must(t, d.Change("remove", func(tx *diagram.Tx) error { tx.Remove("panel-1", d.Plan()); return nil }))
	if selected(d) != "load-1" || d.Plan() != diagram.FirstPlan {
		t.Errorf("selected %q in plan %s, want load-1 in %s", selected(d), d.Plan(), diagram.FirstPlan)
	}
}

func TestBracketsGoRoundTheFedPart(t *testing.T) {
	d := drive(t)
	d.Select("panel-1")
	for _, want := range []string{"feeder-2", "panel-1", "feeder-2"} {
		if d.Key("]"); selected(d) != want {
			t.Errorf("]: got %q, want %s", selected(d), want)
		}
	}
	d.Select("feeder-2")
	d.Pan(edit.ScreenPoint{X: 5000})
	if d.Key("["); selected(d) == "feeder-2" {
		t.Error("[ leads nowhere")
	}
}

func TestDetailsOfANewNote(t *testing.T) {
	asked := 0
	d := edittest.New(t, house(t), edit.Options{FocusDetails: func() { asked++ }})
	for _, row := range []struct {
		kind diagram.Kind
		at   geom.Point
		want int
	}{{diagram.Load, geom.Pt(-80, 30), 0}, {diagram.Note, geom.Pt(-80, 90), 1}, {diagram.Note, geom.Pt(1e9, 0), 1}} {
		_, _ = d.DropPart(row.kind, row.at)
		if asked != row.want {
			t.Errorf("after a %s at %v: details were asked for %d times, want %d", row.kind, row.at, asked, row.want)
		}
	}
}

// A drag begins 3 px from the press; before that it is a click.
func TestWhereADragBegins(t *testing.T) {
	const mm = 1 / edit.FullScale // of a pixel at 100 %
	for _, row := range []struct {
		px    float64
		moved bool
	}{{2.9, false}, {3.1, true}} {
		d := drive(t)
		d.Hold(edit.Alt).Press(80, 60).DragTo(80+row.px*mm, 60).Release()
		if load, _ := d.Document().Part("load-1"); (load.At.X != 80) != row.moved {
			t.Errorf("%g px: the load stands at %g", row.px, load.At.X)
		}
		d = drive(t)
		d.ArmFeeder()
		d.Press(5, 60).DragTo(5+row.px*mm, 60).Release()
		if waits := strings.HasPrefix(d.Status(), "From Lab to: "); waits == row.moved {
			t.Errorf("%g px with the tool for feeders: %q", row.px, d.Status())
		}
	}
}

// A feeder is held near an end to lead that end elsewhere; in the middle a box is
// pulled.
func TestHoldingAFeeder(t *testing.T) {
	for _, row := range []struct {
		y    float64 // the feeder leads from 0 to 60
		want string
	}{
		{17, "-feeder-2 switchboard-1 to panel-1\n+feeder-2 load-1 to panel-1"},
		{20, ""}, {40, ""},
		{43, "-feeder-2 switchboard-1 to panel-1\n+feeder-2 switchboard-1 to load-1"},
	} {
		d := drive(t)
		before := places(d.Document())
		d.Drag(0, row.y, 80, 60)
		if got := changed(before, places(d.Document())); got != row.want {
			t.Errorf("held at %g: got %q, want %q", row.y, got, row.want)
		}
	}
	d := drive(t)
	d.Press(0, 50).DragTo(80, 0).DragTo(5, 60).Release() // back to where it was
	if d.CanUndo() || !strings.HasPrefix(d.Status(), "Feeder from Main to Lab") {
		t.Errorf("led back: changed %t, status %q", d.CanUndo(), d.Status())
	}
}

// What was under the pointer before a tool was taken up is not pointed at after it.
func TestHoverEndsWithATool(t *testing.T) {
	d := drive(t)
	d.Hover(80, 60).Key("7").Hover(-80, 30).Key(edit.KeyEscape)
	if d.Cursor() != edit.Arrow || !d.Overlay().Bounds().IsEmpty() {
		t.Errorf("over nothing: cursor %d, shown %v", d.Cursor(), d.Overlay().Bounds())
	}
}

func TestCursorOfAPulledEnd(t *testing.T) {
	for turn, want := range []edit.Cursor{edit.ResizeH, edit.ResizeV, edit.ResizeH, edit.ResizeV} {
		d := drive(t)
		set(t, d, "panel-1", func(p *diagram.Part) { p.Turn = turn })
		end := geom.Turn(turn).Apply(geom.Pt(20, 0)).Add(geom.Pt(0, 60))
		d.Hover(end.X, end.Y)
		if d.Cursor() != want {
			t.Errorf("%d quarter turns: over the end the cursor is %d, want %d", turn, d.Cursor(), want)
		}
		d.Press(end.X, end.Y).DragTo(end.X*1.5, 60+(end.Y-60)*1.5)
		if d.Cursor() != want || d.Status() != "Pull the end to its place; Alt suspends snapping" {
			t.Errorf("%d quarter turns: while it is pulled the cursor is %d, want %d (%s)", turn, d.Cursor(), want, d.Status())
		}
	}
}

// A protector may be dropped 12 px beside its host, twice as far as a click may miss.
func TestDropBesideAHost(t *testing.T) {
	const mm = 1 / edit.FullScale // of a pixel at 100 %
	for px, want := range map[float64]bool{11: true, 13: false} {
		d := drive(t)
		if _, err := d.DropProtector(geom.Pt(0, 60.9+px*mm)); (err == nil) != want {
			t.Errorf("%g px below a bar of 1.8 mm: %v", px, err)
		}
	}
}

// Whatever is fitted has 24 px clear at either side of what fills the window.
func TestMarginOfAFit(t *testing.T) {
	v := edit.View{Scale: 1, Width: 448, Height: 248}
	for _, row := range []struct {
		name string
		r    geom.Rect
		want geom.Rect // px
	}{
		{"wide", geom.RectOf(geom.Pt(0, 0), geom.Pt(200, 10)), geom.RectOf(geom.Pt(24, 114), geom.Pt(424, 134))},
		{"high", geom.RectOf(geom.Pt(0, 0), geom.Pt(10, 100)), geom.RectOf(geom.Pt(214, 24), geom.Pt(234, 224))},
	} {
		fitted := v.Fit(row.r, 99)
		low, high := fitted.ToScreen(row.r.Min), fitted.ToScreen(row.r.Max)
		if got := geom.RectOf(geom.Pt(low.X, low.Y), geom.Pt(high.X, high.Y)); got.Min.Distance(row.want.Min) > near || got.Max.Distance(row.want.Max) > near {
			t.Errorf("%s: shown at %v, want %v", row.name, got, row.want)
		}
	}
}

func TestArmedWhileAFeederIsDrawn(t *testing.T) {
	d := drive(t)
	d.ArmFeeder()
	d.Press(5, 60).DragTo(-80, 30)
	if d.Armed() != "connect" {
		t.Errorf("with the tool: armed %q", d.Armed())
	}
	d.PanBy(edit.Middle, 5, 5)
	d.Key(edit.KeyEscape, edit.KeyEscape)
	if d.Press(80, 55).DragTo(-80, 30); d.Armed() != "" {
		t.Errorf("without it: armed %q", d.Armed())
	}
}
