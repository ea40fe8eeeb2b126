package edittest

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/file"
	"clampline/diagram/geom"
)

// Size of the window that a driver opens, in pixels.
const (
	Width  = 1200
	Height = 800
)

// Driver is a hand on the mouse and the keys of one editor. Places are mm on
// the sheet. Modifiers stay held until they are changed.
type Driver struct {
	*edit.Editor
	t      testing.TB
	at     geom.Point
	button edit.Button
	held   edit.Modifiers
}

// New returns a driver of an editor of the document, in a window that shows
// the sheet at 100 % about its origin.
func New(t testing.TB, doc *diagram.Document, options edit.Options) *Driver {
	t.Helper()
	d := &Driver{Editor: edit.New(doc, options), t: t}
	d.Resize(Width, Height)
	d.Pan(edit.ScreenPoint{X: Width / 2, Y: Height / 2})
	return d
}

// Hold holds these modifiers and no others during what follows.
func (d *Driver) Hold(modifiers edit.Modifiers) *Driver {
	d.held = modifiers
	return d
}

// Let lets go of all modifiers.
func (d *Driver) Let() *Driver { return d.Hold(0) }

// Hover moves the pointer with no button held.
func (d *Driver) Hover(x, y float64) *Driver { return d.point(edit.Hover, x, y) }

// Press presses the left button.
func (d *Driver) Press(x, y float64) *Driver { return d.PressWith(edit.Left, x, y) }

// PressWith presses a button.
func (d *Driver) PressWith(button edit.Button, x, y float64) *Driver {
	d.button = button
	return d.point(edit.Press, x, y)
}

// DragTo moves the pointer with the button held, in steps as a hand does.
func (d *Driver) DragTo(x, y float64) *Driver {
	const steps = 4
	from := d.at
	for i := 1; i <= steps; i++ {
		at := geom.Segment{A: from, B: geom.Pt(x, y)}.At(float64(i) / steps)
		d.point(edit.Drag, at.X, at.Y)
	}
	return d
}

// Release lets the button up where the pointer is.
func (d *Driver) Release() *Driver {
	d.point(edit.Release, d.at.X, d.at.Y)
	d.button = edit.Left
	return d
}

// Click presses and releases the left button.
func (d *Driver) Click(x, y float64) *Driver { return d.Press(x, y).Release() }

// ShiftClick clicks with Shift held.
func (d *Driver) ShiftClick(x, y float64) *Driver {
	before := d.held
	return d.Hold(before|edit.Shift).Click(x, y).Hold(before)
}

// RightClick presses and releases the right button.
func (d *Driver) RightClick(x, y float64) *Driver { return d.PressWith(edit.Right, x, y).Release() }

// DoubleClick clicks twice.
func (d *Driver) DoubleClick(x, y float64) *Driver {
	return d.Click(x, y).point(edit.DoubleClick, x, y).Release()
}

// Drag presses the left button at one place and releases it at another.
func (d *Driver) Drag(x, y, toX, toY float64) *Driver {
	return d.Hover(x, y).Press(x, y).DragTo(toX, toY).Release()
}

// Scroll turns the wheel, or moves two fingers, by pixels at the pointer.
func (d *Driver) Scroll(dx, dy float64) *Driver {
	return d.send(edit.Event{Kind: edit.Scroll, Delta: edit.ScreenPoint{X: dx, Y: dy}})
}

// PanBy drags with a button across the window, by pixels.
func (d *Driver) PanBy(button edit.Button, dx, dy float64) *Driver {
	d.PressWith(button, d.at.X, d.at.Y)
	to := d.View().ToScreen(d.at)
	to.X, to.Y = to.X+dx, to.Y+dy
	for _, kind := range []edit.EventKind{edit.Drag, edit.Release} {
		d.Handle(edit.Event{
			Kind: kind, Screen: to, At: d.View().ToSheet(to), Button: button, Modifiers: d.held,
		})
	}
	d.at, d.button = d.View().ToSheet(to), edit.Left
	return d
}

// Leave moves the pointer off the sheet.
func (d *Driver) Leave() *Driver { return d.send(edit.Event{Kind: edit.Leave}) }

// Cancel takes the window away from under the gesture.
func (d *Driver) Cancel() *Driver { return d.send(edit.Event{Kind: edit.Cancel}) }

// Key presses keys one after the other, each with the held modifiers. A key
// may bring its own, as in "Ctrl+Shift+Z".
func (d *Driver) Key(names ...string) *Driver {
	for _, name := range names {
		held := d.held
		for word, m := range map[string]edit.Modifiers{"Ctrl+": edit.Control, "Alt+": edit.Alt, "Shift+": edit.Shift} {
			if strings.Contains(name, word) {
				name = strings.Replace(name, word, "", 1)
				held |= m
			}
		}
		before := d.held
		d.Hold(held).send(edit.Event{Kind: edit.KeyPress, Key: name}).Hold(before)
	}
	return d
}

// Do runs a command by its name and fails the test where it is refused.
func (d *Driver) Do(name string) *Driver {
	d.t.Helper()
	command, ok := Find(name)
	if !ok {
		d.t.Fatalf("there is no command %q", name)
	}
	if !command.MayRun(d.Editor) {
		d.t.Fatalf("command %q may not run", name)
	}
	if err := command.Run(d.Editor); err != nil {
		d.t.Fatalf("command %q: %v", name, err)
	}
	d.check()
	return d
}

func (d *Driver) point(kind edit.EventKind, x, y float64) *Driver {
	d.at = geom.Pt(x, y)
	return d.send(edit.Event{Kind: kind})
}

// send completes an event with where the pointer is and what is held.
func (d *Driver) send(ev edit.Event) *Driver {
	ev.At, ev.Button, ev.Modifiers = d.at, d.button, d.held
	ev.Screen = d.View().ToScreen(d.at)
	if ev.Kind == edit.Scroll {
		defer func() { d.at = d.View().ToSheet(ev.Screen) }()
	}
	d.Handle(ev)
	d.check()
	return d
}

func (d *Driver) check() {
	d.t.Helper()
	for _, problem := range d.Document().Check() {
		d.t.Fatalf("the document is not valid: %s", problem)
	}
	if status := d.Status(); status == "" || strings.Contains(status, "\n") {
		d.t.Fatalf("the status is not one line: %q", status)
	}
}

// Text returns the document as its file, to be compared.
func Text(t testing.TB, doc *diagram.Document) string {
	t.Helper()
	var out strings.Builder
	if err := file.Write(&out, doc); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// Find returns the command of that name.
func Find(name string) (edit.Command, bool) {
	for _, command := range edit.Commands() {
		if command.Name == name {
			return command, true
		}
	}
	return edit.Command{}, false
}
