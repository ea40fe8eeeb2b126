package sheet

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/diagram/edit"
)

// doubleClick is how soon after the first the second press of a pair follows.
const doubleClick = 400 * time.Millisecond

// doubleClickReach is how far from the first the second may be, in px.
const doubleClickReach = 5

// gesture is what is known of the button that is held. The toolkit does not
// tell a drag's button nor its end where it leaves the widget.
type gesture struct {
	button  edit.Button
	held    bool
	last    fyne.Position
	pressed time.Time // when the last press was, for double clicks
	at      fyne.Position
	focus   fyne.Focusable // what the press gave the focus to, where it is not the sheet
}

var (
	_ fyne.Tappable      = (*Sheet)(nil)
	_ desktop.Mouseable  = (*Sheet)(nil)
	_ desktop.Hoverable  = (*Sheet)(nil)
	_ fyne.Draggable     = (*Sheet)(nil)
	_ fyne.Scrollable    = (*Sheet)(nil)
	_ desktop.Cursorable = (*Sheet)(nil)
)

func (s *Sheet) event(kind edit.EventKind, at fyne.Position, mods fyne.KeyModifier) edit.Event {
	screen := edit.ScreenPoint{X: float64(at.X), Y: float64(at.Y)}
	return edit.Event{
		Kind: kind, Screen: screen, At: s.editor.View().ToSheet(screen),
		Button: s.gesture.button, Modifiers: s.modifiers(mods),
	}
}

// handle hands the event on and repaints what changed.
func (s *Sheet) handle(ev edit.Event) {
	scene, view, over := s.editor.SceneVersion(), s.editor.ViewVersion(), s.editor.OverlayVersion()
	s.editor.Handle(ev)
	if scene != s.editor.SceneVersion() || view != s.editor.ViewVersion() || over != s.editor.OverlayVersion() {
		s.Update()
		if s.Changed != nil {
			s.Changed()
		}
	}
}

// MouseDown begins a gesture and takes the focus.
func (s *Sheet) MouseDown(ev *desktop.MouseEvent) {
	s.focus()
	s.gesture.button = buttonOf(ev.Button)
	s.gesture.held = true
	s.gesture.last = ev.Position
	kind := edit.Press
	if s.isDoubleClick(ev) {
		kind = edit.DoubleClick
	}
	s.handle(s.event(kind, ev.Position, ev.Modifier))
	s.gesture.focus = s.focusedElsewhere()
}

// Tapped ends a click. A double click gives the focus to the details, and the
// toolkit takes it away again from all but what was clicked, as late as when
// the button comes up.
func (s *Sheet) Tapped(*fyne.PointEvent) {
	if s.gesture.focus != nil {
		s.focusOn(s.gesture.focus)
		s.gesture.focus = nil
	}
}

func (s *Sheet) isDoubleClick(ev *desktop.MouseEvent) bool {
	now := s.Now()
	near := ev.Position.Subtract(s.gesture.at)
	double := ev.Button == desktop.MouseButtonPrimary && now.Sub(s.gesture.pressed) < doubleClick &&
		near.X*near.X+near.Y*near.Y <= doubleClickReach*doubleClickReach
	s.gesture.pressed, s.gesture.at = now, ev.Position
	if double {
		s.gesture.pressed = time.Time{}
	}
	return double
}

// MouseUp ends the gesture.
func (s *Sheet) MouseUp(ev *desktop.MouseEvent) {
	s.gesture.last = ev.Position
	s.release(ev.Modifier)
}

// release ends a gesture once, whichever of MouseUp and DragEnd comes first.
func (s *Sheet) release(mods fyne.KeyModifier) {
	if !s.gesture.held {
		return
	}
	s.gesture.held = false
	s.handle(s.event(edit.Release, s.gesture.last, mods))
}

// Dragged moves with the button held.
func (s *Sheet) Dragged(ev *fyne.DragEvent) {
	if s.gesture.held {
		s.gesture.last = ev.Position
		s.handle(s.event(edit.Drag, ev.Position, s.heldKeys()))
	}
}

// DragEnd ends the gesture where the button came up outside the sheet.
func (s *Sheet) DragEnd() { s.release(s.heldKeys()) }

// MouseIn tells the editor that the pointer is back.
func (s *Sheet) MouseIn(ev *desktop.MouseEvent) { s.MouseMoved(ev) }

// MouseMoved hovers, or drags where the toolkit sees no drag in the button. A
// button that came up elsewhere, which the toolkit may not tell, ends the
// gesture.
func (s *Sheet) MouseMoved(ev *desktop.MouseEvent) {
	if ev.Button == 0 {
		s.release(s.heldKeys())
	}
	kind := edit.Hover
	if s.gesture.held {
		kind = edit.Drag
		s.gesture.last = ev.Position
	}
	s.handle(s.event(kind, ev.Position, s.heldKeys()))
}

// MouseOut tells the editor that the pointer left.
func (s *Sheet) MouseOut() { s.handle(edit.Event{Kind: edit.Leave}) }

// Scrolled pans, or zooms with the control key.
func (s *Sheet) Scrolled(ev *fyne.ScrollEvent) {
	out := s.event(edit.Scroll, ev.Position, s.heldKeys())
	out.Delta = edit.ScreenPoint{X: float64(ev.Scrolled.DX), Y: float64(ev.Scrolled.DY)}
	s.handle(out)
}

// Cursor returns the pointer that the editor asks for.
func (s *Sheet) Cursor() desktop.Cursor {
	switch s.editor.Cursor() {
	case edit.Cross:
		return desktop.CrosshairCursor
	case edit.Move, edit.Hand:
		return desktop.PointerCursor
	case edit.ResizeH:
		return desktop.HResizeCursor
	case edit.ResizeV:
		return desktop.VResizeCursor
	}
	return desktop.DefaultCursor
}

func buttonOf(b desktop.MouseButton) edit.Button {
	switch b {
	case desktop.MouseButtonSecondary:
		return edit.Right
	case desktop.MouseButtonTertiary:
		return edit.Middle
	}
	return edit.Left
}

// Carry shows what is dragged in from elsewhere at a place of the window, and
// reports whether that is over the sheet.
func (s *Sheet) Carry(at fyne.Position) bool {
	local, inside := s.local(at)
	if inside {
		s.handle(s.event(edit.Hover, local, 0))
	}
	return inside
}

// Drop clicks at a place of the window where it is over the sheet.
func (s *Sheet) Drop(at fyne.Position) bool {
	local, inside := s.local(at)
	if inside {
		s.focus()
		s.gesture.button = edit.Left
		s.handle(s.event(edit.Press, local, 0))
		s.handle(s.event(edit.Release, local, 0))
	}
	return inside
}

func (s *Sheet) local(at fyne.Position) (fyne.Position, bool) {
	local := at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(s))
	size := s.Size()
	return local, local.X >= 0 && local.Y >= 0 && local.X < size.Width && local.Y < size.Height
}
