package sheet

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

var pump = geom.Pt(0, 100)

func TestDragMovesAPart(t *testing.T) {
	h := newHand(t, house(t))
	h.drag(pump, geom.Pt(60, 120))
	if got, want := h.part("load-1").At, geom.Pt(60, 120); got.Distance(want) > 0.01 {
		t.Errorf("got %v, want %v", got, want)
	}
	h.editor.Undo()
	if h.editor.CanUndo() || h.part("load-1").At != pump {
		t.Error("the drag is more than one entry")
	}
	if h.focused() != fyne.Focusable(h.Sheet) {
		t.Errorf("%T has the focus, want the sheet", h.focused())
	}
}

// Where the button comes up over something else, the toolkit tells of the end
// of the drag and of nothing more.
func TestReleaseOutsideEndsTheGesture(t *testing.T) {
	h := newHand(t, house(t))
	from, to := h.on(pump), h.on(geom.Pt(60, 120))
	h.press(from, desktop.MouseButtonPrimary)
	h.moves(from, to, desktop.MouseButtonPrimary)
	h.MouseOut()
	h.DragEnd()
	moved := h.part("load-1").At
	if moved == pump || !h.editor.CanUndo() {
		t.Fatal("the drag was lost")
	}
	h.MouseIn(h.mouse(h.on(geom.Pt(-30, 20)), 0))
	h.MouseMoved(h.mouse(h.on(geom.Pt(-60, 20)), 0))
	if got := h.part("load-1").At; got != moved {
		t.Errorf("it goes on moving, to %v", got)
	}
}

// Of the right button the toolkit does not even tell that.
func TestReleaseOfAnotherButtonOutside(t *testing.T) {
	h := newHand(t, house(t))
	at := h.on(geom.Pt(-40, 20))
	h.press(at, desktop.MouseButtonSecondary)
	h.moves(at, fyne.NewPos(-50, 20), desktop.MouseButtonSecondary)
	h.MouseOut()
	h.MouseIn(h.mouse(h.on(pump), 0))
	if h.gesture.held {
		t.Error("the button counts as held")
	}
	before := h.editor.OverlayVersion()
	h.MouseMoved(h.mouse(h.on(geom.Pt(-40, 20)), 0))
	if h.editor.OverlayVersion() == before {
		t.Error("nothing is hovered")
	}
}

func TestSmallMoveIsAClick(t *testing.T) {
	h := newHand(t, house(t))
	from := h.on(pump)
	h.dragPixels(desktop.MouseButtonPrimary, from, from.AddXY(2, 0))
	if h.editor.CanUndo() || !slices.Equal(h.editor.Selection(), []diagram.ID{"load-1"}) {
		t.Errorf("selected %v, changed: %t; want a click", h.editor.Selection(), h.editor.CanUndo())
	}
}

func TestModifiersOfAClick(t *testing.T) {
	h := newHand(t, house(t))
	h.click(pump)
	h.wait()
	h.held = fyne.KeyModifierShift
	h.click(geom.Pt(-20, 50))
	if got, want := h.editor.Selection(), []diagram.ID{"load-1", "panel-1"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	h.held = 0
	h.wait()
	h.click(geom.Pt(-60, 20))
	if got := h.editor.Selection(); len(got) > 0 {
		t.Errorf("a click on nothing leaves %v selected", got)
	}
}

// A modifier that is held while dragging comes from outside: the toolkit does
// not tell.
func TestModifiersOfADrag(t *testing.T) {
	h := newHand(t, house(t))
	from, to := h.on(pump), h.on(geom.Pt(61.3, 118.7))
	h.press(from, desktop.MouseButtonPrimary)
	h.held = fyne.KeyModifierAlt
	h.moves(from, to, desktop.MouseButtonPrimary)
	h.MouseUp(h.mouse(to, desktop.MouseButtonPrimary))
	h.DragEnd()
	if got, want := h.part("load-1").At, geom.Pt(61.3, 118.7); got.Distance(want) > 0.01 {
		t.Errorf("got %v, want %v, without snapping", got, want)
	}
}

func TestPan(t *testing.T) {
	for name, pan := range map[string]func(h *hand){
		"middle drag": func(h *hand) {
			h.dragPixels(desktop.MouseButtonTertiary, fyne.NewPos(300, 300), fyne.NewPos(340, 320))
		},
		"space and drag": func(h *hand) {
			h.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
			h.dragPixels(desktop.MouseButtonPrimary, fyne.NewPos(300, 300), fyne.NewPos(340, 320))
			h.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
		},
		"scroll": func(h *hand) { h.scroll(pump, 40, 20) },
	} {
		t.Run(name, func(t *testing.T) {
			h := newHand(t, house(t))
			before := h.editor.View().ToScreen(geom.Point{})
			pan(h)
			after := h.editor.View().ToScreen(geom.Point{})
			if step := after.Sub(before); step.Sub(edit.ScreenPoint{X: 40, Y: 20}).Length() > 0.01 {
				t.Errorf("the sheet moves by %v, want 40, 20", step)
			}
			if h.editor.CanUndo() || len(h.editor.Selection()) > 0 {
				t.Error("it did more than that")
			}
		})
	}
}

func TestZoomAtThePointer(t *testing.T) {
	h := newHand(t, house(t))
	before, at := h.editor.View(), h.editor.View().ToScreen(pump)
	h.held = fyne.KeyModifierShortcutDefault
	h.scroll(pump, 0, 25)
	view := h.editor.View()
	if view.Scale <= before.Scale {
		t.Errorf("the scale goes from %g to %g, want larger", before.Scale, view.Scale)
	}
	if step := view.ToScreen(pump).Sub(at); step.Length() > 0.01 {
		t.Errorf("the place under the pointer moves by %v", step)
	}
	h.scroll(pump, 0, -50)
	if view := h.editor.View(); view.Scale >= before.Scale {
		t.Errorf("the scale goes from %g to %g, want smaller", before.Scale, view.Scale)
	}
}

func TestDoubleClick(t *testing.T) {
	for _, row := range []struct {
		name  string
		after time.Duration
		off   float32 // px beside the first
		want  int
	}{
		{"soon and near", 200 * time.Millisecond, 3, 1},
		{"late", 500 * time.Millisecond, 0, 0},
		{"apart", 200 * time.Millisecond, 8, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			h := newHand(t, house(t))
			asked := 0
			h.SetEditor(edit.New(house(t), edit.Options{FocusDetails: func() { asked++ }}))
			h.editor.ZoomFit()
			click := func(off float32) {
				at := h.on(pump).AddXY(off, 0)
				h.press(at, desktop.MouseButtonPrimary)
				h.MouseUp(h.mouse(at, desktop.MouseButtonPrimary))
			}
			click(0)
			h.clock = h.clock.Add(row.after)
			click(row.off)
			if asked != row.want {
				t.Errorf("the details were asked for %d times, want %d", asked, row.want)
			}
			h.clock = h.clock.Add(100 * time.Millisecond)
			click(row.off)
			if row.want == 1 && asked != 1 {
				t.Errorf("a third click asks for them %d times", asked)
			}
		})
	}
}

func TestRightClicksAreNoDoubleClick(t *testing.T) {
	h := newHand(t, house(t))
	asked := 0
	h.SetEditor(edit.New(house(t), edit.Options{FocusDetails: func() { asked++ }}))
	h.editor.ZoomFit()
	h.clickWith(desktop.MouseButtonSecondary, pump)
	h.clickWith(desktop.MouseButtonSecondary, pump)
	if asked > 0 || !slices.Equal(h.editor.Selection(), []diagram.ID{"load-1"}) {
		t.Errorf("the details were asked for %d times, selected %v", asked, h.editor.Selection())
	}
}

// A double click that leads to a field gives it the focus for good: the
// toolkit takes it away both when the button goes down and when it comes up.
func TestDoubleClickGivesTheFocusAway(t *testing.T) {
	h := newHand(t, house(t))
	field := widget.NewEntry()
	h.window.SetContent(above(h.Sheet, field))
	h.SetEditor(edit.New(house(t), edit.Options{FocusDetails: func() { h.window.Canvas().Focus(field) }}))
	h.editor.ZoomFit()
	at := h.on(pump)
	for range 2 {
		h.MouseDown(h.mouse(at, desktop.MouseButtonPrimary))
		h.unfocus()
		h.MouseUp(h.mouse(at, desktop.MouseButtonPrimary))
		h.unfocus()
		h.Tapped(&fyne.PointEvent{Position: at})
	}
	if h.focused() != fyne.Focusable(field) {
		t.Errorf("%T has the focus, want the field", h.focused())
	}
	h.wait()
	h.click(geom.Pt(-60, 20))
	if h.focused() != fyne.Focusable(h.Sheet) {
		t.Errorf("after another click %T has the focus, want the sheet", h.focused())
	}
}

// unfocus does what the toolkit's window does after it has told of a button:
// only what was clicked may have the focus.
func (h *hand) unfocus() {
	if h.focused() != fyne.Focusable(h.Sheet) {
		h.window.Canvas().Unfocus()
	}
}

func TestCursor(t *testing.T) {
	h := newHand(t, house(t))
	for _, row := range []struct {
		name string
		at   geom.Point
		want desktop.Cursor
	}{
		{"over nothing", geom.Pt(-60, 20), desktop.DefaultCursor},
		{"over a part", pump, desktop.PointerCursor},
		{"over the end of a bus", geom.Pt(30, 50), desktop.HResizeCursor},
	} {
		h.MouseMoved(h.mouse(h.on(row.at), 0))
		if got := h.Cursor(); got != row.want {
			t.Errorf("%s: got %v, want %v", row.name, got, row.want)
		}
	}
	h.editor.Arm(diagram.Load)
	if got := h.Cursor(); got != desktop.CrosshairCursor {
		t.Errorf("with a part to place: got %v", got)
	}
}

func TestCarryAndDrop(t *testing.T) {
	h := newHand(t, house(t))
	h.editor.Arm(diagram.Load)
	outside := fyne.NewPos(-5, 100)
	if h.Carry(outside) || h.Drop(outside) || h.editor.CanUndo() {
		t.Error("something was placed off the sheet")
	}
	to := geom.Pt(60, 20)
	if !h.Carry(h.on(to)) || !h.Drop(h.on(to)) {
		t.Fatal("the place counts as off the sheet")
	}
	if got := h.part("load-2").At; got.Distance(to) > 0.01 {
		t.Errorf("placed at %v, want %v", got, to)
	}
	if h.focused() != fyne.Focusable(h.Sheet) {
		t.Error("the sheet has not the focus")
	}
}

func TestChangedIsToldOnce(t *testing.T) {
	h := newHand(t, house(t))
	told := 0
	h.Changed = func() { told++ }
	h.MouseMoved(h.mouse(h.on(geom.Pt(-60, 20)), 0))
	h.MouseMoved(h.mouse(h.on(geom.Pt(-61, 20)), 0))
	if told != 0 {
		t.Errorf("told %d times of a move over nothing", told)
	}
	h.MouseMoved(h.mouse(h.on(pump), 0))
	if told != 1 {
		t.Errorf("told %d times of a part that lights up, want once", told)
	}
}
