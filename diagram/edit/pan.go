package edit

// panning moves the sheet with the pointer and then goes back to the tool that
// was there before, in whatever state it was.
type panning struct {
	quiet
	button Button
	last   ScreenPoint
	then   tool
}

// pans reports whether the event begins a pan: a press of the middle button,
// or of the left one with the space bar held.
func pans(ev Event) bool {
	pressed := ev.Kind == Press || ev.Kind == DoubleClick
	return pressed && (ev.Button == Middle || ev.Button == Left && ev.Modifiers.Has(Space))
}

// mayPan reports whether the present tool can wait while the sheet is moved: a
// gesture with a button held cannot.
func (e *Editor) mayPan() bool {
	_, connecting := e.tool.(connecting)
	return connecting || !e.tool.busy()
}

func pan(ev Event, then tool) tool { return panning{button: ev.Button, last: ev.Screen, then: then} }

func (t panning) handle(e *Editor, ev Event) tool {
	switch {
	case ev.Kind == Drag:
		e.Pan(ev.Screen.Sub(t.last))
		t.last = ev.Screen
	case ev.Kind == Release && ev.Button == t.button, ev.Kind == Cancel:
		return t.then
	}
	return t
}

func (t panning) command() string         { return t.then.command() }
func (t panning) status(e *Editor) string { return t.then.status(e) }
func (panning) cursor(*Editor) Cursor     { return Hand }
