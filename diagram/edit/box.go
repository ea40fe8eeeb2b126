package edit

import (
	"slices"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
)

// boxing pulls a box and selects what lies wholly in it.
type boxing struct {
	quiet
	from   geom.Point
	to     geom.Point
	before []diagram.ID // selected when the box was begun
	keep   bool         // what was selected stays so
}

func box(e *Editor, from Event) tool {
	return boxing{from: from.At, to: from.At, before: e.selected, keep: from.Modifiers.Has(Shift)}
}

func (t boxing) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Drag:
		t.to = ev.At
		t.choose(e)
	case Release:
		return selecting{}
	case Cancel:
		e.Select(t.before...)
		return selecting{}
	}
	return t
}

func (t boxing) choose(e *Editor) {
	inside := e.Scene().Within(geom.RectOf(t.from, t.to))
	if t.keep {
		inside = slices.Concat(t.before, inside)
	}
	e.Select(inside...)
}

func (t boxing) show(_ *Editor, o *scene.Overlay) { o.Box = geom.RectOf(t.from, t.to) }
