package edit

import (
	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/symbol"
)

// placing waits for the place of a new part.
type placing struct {
	kind   diagram.Kind
	turn   int
	at     geom.Point
	guides []geom.Segment
}

// Arm takes up the tool that places a part of the kind at the next click.
func (e *Editor) Arm(kind diagram.Kind) {
	e.arm(placing{kind: kind}.to(e, e.place().at, false))
}

func (placing) busy() bool        { return false }
func (t placing) command() string { return placeCommand(t.kind) }

func (t placing) handle(e *Editor, ev Event) tool {
	t = t.to(e, ev.At, ev.Modifiers.Has(Alt))
	if ev.Kind != Release {
		return t
	}
	return t.put(e, ev)
}

// put places the part and goes on where Shift is held.
func (t placing) put(e *Editor, ev Event) tool {
	if _, err := e.placePart(t.kind, t.at, t.turn); err != nil {
		e.setNotice(err.Error())
		return t
	}
	if ev.Modifiers.Has(Shift) {
		return t
	}
	return selecting{}
}

func (t placing) to(e *Editor, at geom.Point, free bool) placing {
	t.at, t.guides = at, nil
	if !free {
		box := geom.Turn(t.turn).ApplyRect(symbol.For(diagram.Part{Kind: t.kind}).Outline).Move(at)
		var more geom.Point
		more, t.guides = e.Scene().Snap(box, nil, e.slack(), gridPitch)
		t.at = at.Add(more)
	}
	return t
}

func (t placing) key(e *Editor, ev Event) (tool, bool) {
	if at, ok := e.stepPointer(ev); ok {
		return t.to(e, at, ev.Modifiers.Has(Shift)), true
	}
	switch ev.Key {
	case KeyEnter:
		return t.put(e, ev), true
	case "R":
		if ev.Modifiers&^Shift != 0 {
			return nil, false
		}
		t.turn = (t.turn + 1) % 4
		if ev.Modifiers.Has(Shift) {
			t.turn = (t.turn + 2) % 4
		}
		return t, true
	}
	return nil, false
}

func (t placing) show(_ *Editor, o *scene.Overlay) {
	o.Ghosts = append(o.Ghosts, scene.Ghost(t.kind, t.at, t.turn))
	o.Guides = t.guides
}

func (t placing) status(*Editor) string {
	return "Click where the " + string(t.kind) + " goes; R turns it, Shift goes on, Escape stops"
}

func (placing) cursor(*Editor) Cursor { return Cross }

// DropPart places a part of the kind at the point of the grid nearest to at,
// as after a drag from the strip of parts, and returns its id.
func (e *Editor) DropPart(kind diagram.Kind, at geom.Point) (diagram.ID, error) {
	return e.placePart(kind, placing{kind: kind}.to(e, at, false).at, 0)
}

func (e *Editor) placePart(kind diagram.Kind, at geom.Point, turn int) (diagram.ID, error) {
	var id diagram.ID
	err := e.changeSelecting("place "+string(kind), func(tx *diagram.Tx) ([]diagram.ID, error) {
		part := newPart(tx, kind, e.options.Scene.Convention)
		part.At, part.Turn = at, turn
		tx.SetPart(part)
		id = part.ID
		return []diagram.ID{id}, nil
	})
	if err == nil && kind == diagram.Note {
		e.focusDetails() // a note is nothing without its text
	}
	return id, err
}
