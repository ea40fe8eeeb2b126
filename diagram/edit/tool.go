package edit

import "clampline/diagram/scene"

// tool is one state of the editor. Tools take pointer events and say which
// state comes next; they are values, replaced and not altered.
type tool interface {
	// handle takes a pointer event or Cancel and returns the state after it.
	handle(e *Editor, ev Event) tool
	// key takes a key and returns the state after it, and false where the key
	// means nothing to the tool.
	key(e *Editor, ev Event) (tool, bool)
	// busy reports whether a gesture is under way, which Escape drops.
	busy() bool
	// command returns the name of the command that armed the tool, or nothing.
	command() string
	// show adds what the tool draws over the sheet.
	show(e *Editor, o *scene.Overlay)
	// status says what the tool waits for, or what is selected.
	status(e *Editor) string
	cursor(e *Editor) Cursor
}

// quiet is what most tools have in common. Tools embed it and state only what
// differs.
type quiet struct{}

func (quiet) key(*Editor, Event) (tool, bool) { return nil, false }
func (quiet) busy() bool                      { return true }
func (quiet) command() string                 { return "" }
func (quiet) show(*Editor, *scene.Overlay)    {}
func (quiet) status(e *Editor) string         { return e.describeSelection() }
func (quiet) cursor(*Editor) Cursor           { return Arrow }

// Handle takes one event. It is the only way in for what the person does on
// the sheet.
func (e *Editor) Handle(ev Event) {
	switch ev.Kind {
	case Scroll:
		e.scroll(ev)
	case KeyPress:
		e.keyPress(ev)
	case KeyRelease:
		if ev.Key == KeyGlance {
			e.lookBack()
		}
	case Leave:
		e.pointer.known = false
		e.setHovered(scene.Target{})
	case Cancel:
		e.drop()
	default:
		e.point(ev)
	}
}

// point takes an event of the pointer.
func (e *Editor) point(ev Event) {
	e.pointer = pointer{ev.At, true}
	if ev.Kind == Press || ev.Kind == DoubleClick {
		e.setNotice("")
		e.history.seal()
	}
	_, panning := e.tool.(panning)
	moves := ev.Kind == Drag || ev.Kind == Hover
	switch {
	case pans(ev) && e.mayPan():
		e.enter(pan(ev, e.tool))
	case ev.Kind == Press && ev.Button == Right:
		e.pressRight(ev)
	case moves || panning || ev.Button == Left:
		e.enter(e.tool.handle(e, ev))
	}
}

// enter makes a tool the present one.
func (e *Editor) enter(next tool) {
	if e.tool == tool(selecting{}) && next == tool(selecting{}) {
		return // what an idle tool shows is the selection and what is hovered
	}
	e.tool = next
	e.setHovered(scene.Target{})
	e.overlayChanged()
}

// drop drops the gesture that is under way and reports whether there was one.
func (e *Editor) drop() bool {
	was := e.tool.busy()
	for e.tool.busy() {
		e.enter(e.tool.handle(e, Event{Kind: Cancel}))
	}
	return was
}

// escape drops the gesture, or else puts down the tool, or else selects
// nothing.
func (e *Editor) escape() {
	_, idle := e.tool.(selecting)
	switch {
	case e.drop():
	case !idle:
		e.enter(selecting{})
	default:
		e.Select()
	}
}

// arm takes up a tool.
func (e *Editor) arm(next tool) {
	e.drop()
	e.enter(next)
}

// Armed returns the name of the command whose tool waits for the sheet, such as
// "place panel" or "connect", or nothing.
func (e *Editor) Armed() string { return e.tool.command() }

// place returns where the person points: where the pointer is, or the middle
// of the window where it is elsewhere.
func (e *Editor) place() pointer {
	if e.pointer.known {
		return e.pointer
	}
	return pointer{at: e.view.Middle(), known: true}
}
