package edit

import (
	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/symbol"
)

// gridPitch is the pitch of the grid in mm.
const gridPitch = symbol.Pitch

// moving moves the selected parts with the pointer. It computes every place
// from those at the mark.
type moving struct {
	quiet
	from   geom.Point // where the pointer took hold
	parts  []diagram.Part
	moved  map[diagram.ID]bool
	box    geom.Rect    // of the part under the pointer, at the mark
	sheet  *scene.Scene // at the mark: what stays is what it snaps to
	delta  geom.Point
	guides []geom.Segment
}

// move begins a move of the selection by the given part. A part that is not
// selected, as after a press with Shift held, joins it.
func move(e *Editor, held diagram.Part, from geom.Point) tool {
	if !e.IsSelected(held.ID) {
		e.toggle(held.ID)
	}
	t := moving{from: from, parts: e.selectedParts(), moved: map[diagram.ID]bool{}, sheet: e.Scene()}
	t.box, _ = t.sheet.Box(held.ID)
	for _, part := range t.parts {
		t.moved[part.ID] = true
	}
	e.begin()
	return t
}

func (t moving) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Drag:
		return t.to(e, ev)
	case Release:
		e.commit("move "+e.describe(idsOf(t.parts)), "")
		return selecting{}
	case Cancel:
		e.revert()
		return selecting{}
	}
	return t
}

func (t moving) to(e *Editor, ev Event) tool {
	delta := ev.At.Sub(t.from)
	t.guides = nil
	if !ev.Modifiers.Has(Alt) {
		var more geom.Point
		more, t.guides = t.sheet.Snap(t.box.Move(delta), t.moved, e.slack(), gridPitch)
		delta = delta.Add(more)
	}
	if delta == t.delta {
		return t
	}
	if err := e.alter(shifted(t.parts, delta)); err != nil {
		e.setNotice(err.Error())
		return t
	}
	t.delta = delta
	return t
}

// shifted returns the change that sets the parts beside where they were.
func shifted(parts []diagram.Part, by geom.Point) func(*diagram.Tx) error {
	return func(tx *diagram.Tx) error {
		for _, part := range parts {
			part.At = part.At.Add(by)
			tx.SetPart(part)
		}
		return nil
	}
}

func (t moving) show(_ *Editor, o *scene.Overlay) { o.Guides = t.guides }

func (t moving) status(e *Editor) string {
	return "Moving " + e.describe(idsOf(t.parts)) + "; Alt suspends snapping, Escape puts back"
}

func (moving) cursor(*Editor) Cursor { return Move }

func idsOf(parts []diagram.Part) []diagram.ID {
	out := make([]diagram.ID, len(parts))
	for i, part := range parts {
		out[i] = part.ID
	}
	return out
}
