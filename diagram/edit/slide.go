package edit

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/symbol"
)

// sliding moves a protector along its bus bar or to another host. Where no
// host is under the pointer the protector is where it was.
type sliding struct {
	quiet
	protector diagram.Protector // at the mark
	hold      geom.Point        // from the pointer to where the protector meets its bus
	sheet     *scene.Scene      // at the mark
	host      diagram.ID        // under the pointer, or nothing
}

func slide(e *Editor, id diagram.ID, from geom.Point) tool {
	if !e.IsSelected(id) {
		e.toggle(id)
	}
	t := sliding{sheet: e.Scene()}
	t.protector, _ = e.doc.Protector(id)
	if meets, ok := t.sheet.ProtectorAt(id); ok {
		t.hold = meets.Sub(from)
	}
	e.begin()
	return t
}

func (t sliding) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Drag:
		return t.to(e, ev)
	case Release:
		e.commit("move "+e.describe([]diagram.ID{t.protector.ID}), "")
		return selecting{}
	case Cancel:
		e.revert()
		return selecting{}
	}
	return t
}

func (t sliding) to(e *Editor, ev Event) tool {
	next := t.protector
	host, offset, ok := t.sheet.Host(ev.At.Add(t.hold), e.hostSlack())
	if !ok {
		host, offset, ok = t.sheet.Host(ev.At, e.hostSlack())
	}
	t.host = host
	if ok {
		next.Bus = host
		next.Offset = e.offsetOn(host, offset, ev.Modifiers.Has(Alt))
	}
	if err := e.alter(func(tx *diagram.Tx) error { tx.SetProtector(next); return nil }); err != nil {
		e.setNotice(err.Error())
	}
	return t
}

// hostSlack returns how far beside a host a protector may be dropped, in mm:
// more than for a click, for it is the only thing that counts.
func (e *Editor) hostSlack() float64 { return 2 * e.slack() }

// offsetOn returns the offset on the grid, unless snapping is suspended, and
// within the bus bar.
func (e *Editor) offsetOn(host diagram.ID, offset float64, free bool) float64 {
	if !free {
		offset = math.Round(offset/gridPitch) * gridPitch
	}
	part, _ := e.doc.Part(host)
	return clamp(offset, symbol.Span(part)/2)
}

func (t sliding) show(_ *Editor, o *scene.Overlay) { o.Hover, _ = t.sheet.Box(t.host) }

func (t sliding) status(e *Editor) string {
	if t.host == "" {
		return "Drop the protector on a board, load or junction"
	}
	return "Drop the protector on " + e.nameOf(t.host)
}

func (sliding) cursor(*Editor) Cursor { return Move }
