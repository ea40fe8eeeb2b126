package edit

import (
	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
)

// dragPixels is how far the pointer must move with a button held before that
// is a drag and no longer a click.
const dragPixels = 3

// selecting is the idle tool: it waits for a press.
type selecting struct{ quiet }

func (selecting) busy() bool { return false }

func (t selecting) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Press:
		return press(e, ev)
	case DoubleClick:
		if target := e.hit(ev.At); target.Kind != scene.OnNothing {
			e.Select(target.ID)
			e.focusDetails()
		}
	case Hover:
		e.setHovered(e.hit(ev.At))
	}
	return t
}

func (selecting) show(e *Editor, o *scene.Overlay) {
	o.Hover, _ = e.Scene().Box(e.hovered.ID)
	if e.hovered.Kind == scene.OnTerminal {
		if _, at, ok := e.Scene().Terminal(e.pointer.at, e.slack()); ok {
			o.Terminals = append(o.Terminals, at)
		}
	}
}

func (selecting) cursor(e *Editor) Cursor {
	switch e.hovered.Kind {
	case scene.OnPart, scene.OnTag, scene.OnProtector:
		return Move
	case scene.OnTerminal:
		return Cross
	case scene.OnBarEnd:
		if part, _ := e.doc.Part(e.hovered.ID); part.Turn%2 == 1 {
			return ResizeV
		}
		return ResizeH
	}
	return Arrow
}

// hit returns what lies under a point for the idle tool. A terminal counts
// where it is a point beside the symbol: along a bus bar, and on a junction,
// a drag moves the part.
func (e *Editor) hit(at geom.Point) scene.Target {
	target, _ := e.Scene().Hit(at, e.slack())
	if target.Kind == scene.OnProtector || target.Kind == scene.OnBarEnd {
		return target
	}
	end, place, ok := e.Scene().Terminal(at, e.slack())
	part, _ := e.doc.Part(end.Part)
	if ok && !part.Kind.IsBoard() && part.Kind != diagram.Junction && place.Distance(at) <= terminalReach {
		return scene.Target{Kind: scene.OnTerminal, ID: end.Part, End: end}
	}
	return target
}

// terminalReach bounds the slack at a terminal in mm, so that a small symbol
// seen from afar can still be moved.
const terminalReach = 1.5

func (e *Editor) setHovered(target scene.Target) {
	target.Share = 0 // moves with the pointer, and nothing shows it
	if target != e.hovered {
		e.hovered = target
		e.overlayChanged()
	}
}

// pressed waits to see whether a press becomes a click or a drag.
type pressed struct {
	quiet
	target scene.Target
	from   Event
}

func press(e *Editor, ev Event) tool {
	target := e.hit(ev.At)
	if target.Kind != scene.OnNothing && !ev.Modifiers.Has(Shift) && !e.IsSelected(target.ID) {
		e.Select(target.ID)
	}
	return pressed{target: target, from: ev}
}

func (t pressed) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Drag:
		if ev.Screen.Sub(t.from.Screen).Length() < dragPixels {
			return t
		}
		return t.drag(e).handle(e, ev)
	case Release:
		t.click(e)
		return selecting{}
	case Cancel:
		return selecting{}
	}
	return t
}

func (pressed) cursor(e *Editor) Cursor { return selecting{}.cursor(e) }

func (t pressed) click(e *Editor) {
	switch {
	case t.target.Kind == scene.OnNothing && t.from.Modifiers.Has(Shift):
	case t.target.Kind == scene.OnNothing:
		e.Select()
	case t.from.Modifiers.Has(Shift):
		e.toggle(t.target.ID)
	default:
		e.Select(t.target.ID)
	}
}

// drag returns the tool that a drag from the pressed thing begins.
func (t pressed) drag(e *Editor) tool {
	part, onPart := e.doc.Part(t.target.ID)
	switch {
	case t.target.Kind == scene.OnTerminal:
		return connect(e, t.target.End, t.from.At)
	case onPart && t.from.Modifiers.Has(Control) && len(part.Kind.Ports()) > 0:
		return connectFrom(e, part, t.from.At)
	case t.target.Kind == scene.OnBarEnd:
		return resize(e, part, t.target.Side)
	case onPart:
		return move(e, part, t.from.At)
	case t.target.Kind == scene.OnProtector:
		return slide(e, t.target.ID, t.from.At)
	case t.target.Kind == scene.OnFeeder:
		return reconnect(e, t.target.ID, t.target.Share, t.from)
	}
	return box(e, t.from)
}

// pressRight selects what a menu at the pointer will be about.
func (e *Editor) pressRight(ev Event) {
	if e.drop() {
		return
	}
	target := e.hit(ev.At)
	if target.Kind == scene.OnNothing || !e.IsSelected(target.ID) {
		e.enter(selecting{})
		e.Select(target.ID)
	}
}

func (e *Editor) focusDetails() {
	if e.options.FocusDetails != nil {
		e.options.FocusDetails()
	}
}
