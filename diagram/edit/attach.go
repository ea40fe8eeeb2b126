package edit

import (
	"errors"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
)

// attaching waits for the host of a new protector.
type attaching struct {
	at     geom.Point
	host   diagram.ID // under the pointer, or nothing
	offset float64
}

// ArmProtector takes up the tool that attaches a protector to what is clicked
// next.
func (e *Editor) ArmProtector() { e.arm(attaching{}.to(e, e.place().at, false)) }

func (attaching) busy() bool      { return false }
func (attaching) command() string { return commandAttach }

func (t attaching) handle(e *Editor, ev Event) tool {
	t = t.to(e, ev.At, ev.Modifiers.Has(Alt))
	if ev.Kind != Release {
		return t
	}
	return t.put(e, ev)
}

// put attaches the protector and goes on where Shift is held.
func (t attaching) put(e *Editor, ev Event) tool {
	if t.host == "" {
		e.setNotice(errNoHost.Error())
		return t
	}
	if _, err := e.attach(t.host, t.offset); err != nil {
		e.setNotice(err.Error())
		return t
	}
	if ev.Modifiers.Has(Shift) {
		return t
	}
	return selecting{}
}

func (t attaching) to(e *Editor, at geom.Point, free bool) attaching {
	t.at = at
	host, offset, ok := e.Scene().Host(at, e.hostSlack())
	t.host = host
	if ok {
		t.offset = e.offsetOn(host, offset, free)
	}
	return t
}

func (t attaching) key(e *Editor, ev Event) (tool, bool) {
	if at, ok := e.stepPointer(ev); ok {
		return t.to(e, at, true), true
	}
	switch {
	case ev.Key == KeyEnter:
		return t.put(e, ev), true
	case ev.Key == KeyTab && ev.Modifiers == 0:
		return t.next(e, 1), true
	case ev.Key == KeyTab && ev.Modifiers == Shift:
		return t.next(e, -1), true
	}
	return nil, false
}

// next points at the middle of the host that follows the present one, or
// precedes it, and brings it into view.
func (t attaching) next(e *Editor, by int) tool {
	host, ok := e.neighbour(t.host, by, diagram.Kind.TakesProtector)
	if !ok {
		e.setNotice(errNoHost.Error())
		return t
	}
	t.host, t.offset = host.ID, 0
	e.show(host.ID)
	t.at, _, _ = e.Scene().HostPoint(host.ID, 0)
	e.pointer = pointer{t.at, true}
	return t
}

func (t attaching) show(e *Editor, o *scene.Overlay) {
	at, turn, ok := e.Scene().HostPoint(t.host, t.offset)
	if !ok {
		at, turn = t.at, 0
	}
	o.Hover, _ = e.Scene().Box(t.host)
	o.Ghosts = append(o.Ghosts, scene.GhostProtector(at, turn))
}

func (attaching) status(*Editor) string {
	return "Click the board, load or junction, or Tab to it and Enter; Shift goes on, Escape stops"
}

func (attaching) cursor(*Editor) Cursor { return Cross }

var errNoHost = errors.New("a protector goes on a board, load or junction; there is none here")

// DropProtector attaches a protector to what lies at the point, as after a
// drag from the strip of parts, and returns its id.
func (e *Editor) DropProtector(at geom.Point) (diagram.ID, error) {
	t := attaching{}.to(e, at, false)
	if t.host == "" {
		return "", errNoHost
	}
	return e.attach(t.host, t.offset)
}

// AttachTo attaches a protector to the middle of a part and returns its id.
func (e *Editor) AttachTo(host diagram.ID) (diagram.ID, error) { return e.attach(host, 0) }

func (e *Editor) attach(host diagram.ID, offset float64) (diagram.ID, error) {
	part, ok := e.doc.Part(host)
	if !ok || !part.Kind.TakesProtector() {
		return "", errNoHost
	}
	var id diagram.ID
	err := e.changeSelecting("attach protector to "+e.nameOf(host), func(tx *diagram.Tx) ([]diagram.ID, error) {
		protector := e.newProtector(part)
		protector.ID = tx.NewProtectorID()
		protector.Plan, protector.Bus, protector.Offset = e.plan, host, offset
		if protector.Name == "" {
			protector.Name = tx.Document().NewProtectorName(e.plan)
		}
		tx.SetProtector(protector)
		id = protector.ID
		return []diagram.ID{id}, nil
	})
	return id, err
}
