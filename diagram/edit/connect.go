package edit

import (
	"errors"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
)

// linking waits for the part at which a new feeder begins.
type linking struct {
	over diagram.ID // the part under the pointer, or nothing
}

// ArmFeeder takes up the tool that draws feeders: by a drag from part to part,
// or by a click on each.
func (e *Editor) ArmFeeder() { e.arm(linking{}) }

func (linking) busy() bool      { return false }
func (linking) command() string { return commandConnect }

func (t linking) handle(e *Editor, ev Event) tool {
	part, ok := e.connectable(ev.At)
	t.over = part.ID
	if ok && (ev.Kind == Press || ev.Kind == DoubleClick) {
		next := connectFrom(e, part, ev.At)
		next.armed, next.pressed = true, ev.Screen
		return next
	}
	return t
}

// key lets Enter take the selected part: Tab goes through the parts.
func (t linking) key(e *Editor, ev Event) (tool, bool) {
	part, ok := e.onlyPart()
	if ev.Key != KeyEnter || !ok || len(part.Kind.Ports()) == 0 {
		return nil, false
	}
	next := connectFrom(e, part, part.At)
	next.armed = true
	return next, true
}

func (t linking) show(e *Editor, o *scene.Overlay) { o.Hover, _ = e.Scene().Box(t.over) }

func (linking) status(*Editor) string {
	return "Drag from the part that feeds to the part that is fed; by keyboard, Tab and Enter"
}

func (linking) cursor(*Editor) Cursor { return Cross }

// connecting draws a feeder from a terminal to the pointer, or leads one end
// of a feeder elsewhere.
type connecting struct {
	quiet
	armed   bool        // the tool for feeders comes back after it
	pressed ScreenPoint // where the press was, of a drag or click
	start   geom.Point
	from    diagram.End
	exact   bool // the terminal was pointed at; otherwise it suits what is met
	to      diagram.End
	at      geom.Point
	feeder  diagram.ID // the one that is led elsewhere, or nothing
	atHead  bool       // its head is led elsewhere
}

// connect begins a feeder at a terminal.
func connect(e *Editor, from diagram.End, start geom.Point) connecting {
	return connecting{from: from, exact: true, start: start, at: start}
}

// connectFrom begins a feeder at a part, at its terminal under the pointer or
// else at the one that suits.
func connectFrom(e *Editor, part diagram.Part, at geom.Point) connecting {
	if end, _, ok := e.Scene().Terminal(at, e.slack()); ok && end.Part == part.ID {
		return connect(e, end, at)
	}
	return connecting{from: diagram.End{Part: part.ID, Port: part.Kind.Ports()[0]}, start: at, at: at}
}

// reconnectShare is how near an end a feeder must be held for that end to
// come along, as a share of its length.
const reconnectShare = 0.3

// reconnect begins to lead the end of a feeder elsewhere that lies nearer to
// where it is held. Held in the middle, it stays and a box is pulled.
func reconnect(e *Editor, id diagram.ID, share float64, press Event) tool {
	feeder, _ := e.doc.Feeder(id)
	t := connecting{feeder: id, exact: true, start: press.At, at: press.At}
	switch {
	case share <= reconnectShare:
		t.from, t.atHead = feeder.To, true
	case share >= 1-reconnectShare:
		t.from = feeder.From
	default:
		return box(e, press)
	}
	return t
}

func (t connecting) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Cancel:
		return t.end()
	case Release:
		t = t.aim(e, ev.At)
		if t.to.Part == "" && t.armed && ev.Screen.Sub(t.pressed).Length() < dragPixels {
			return t // a click on the first part: the second one follows
		}
		return t.finish(e)
	}
	return t.aim(e, ev.At)
}

func (t connecting) key(e *Editor, ev Event) (tool, bool) {
	part, ok := e.onlyPart()
	if ev.Key != KeyEnter || !ok {
		return nil, false
	}
	t = t.meet(e, part)
	return t.finish(e), true
}

func (t connecting) end() tool {
	if t.armed {
		return linking{}
	}
	return selecting{}
}

// aim leads the loose end to the pointer.
func (t connecting) aim(e *Editor, at geom.Point) connecting {
	t.at, t.to = at, diagram.End{}
	part, ok := e.connectable(at)
	if !ok || part.ID == t.from.Part {
		return t
	}
	if end, _, ok := e.Scene().Terminal(at, e.slack()); ok && end.Part == part.ID {
		t.to = end
		return t.suit(e, part)
	}
	return t.meet(e, part)
}

// meet leads the loose end to the terminal of the part that suits.
func (t connecting) meet(e *Editor, part diagram.Part) connecting {
	other, _ := e.doc.Part(t.from.Part)
	t.to = diagram.End{Part: part.ID, Port: e.suitingPort(part, other)}
	return t.suit(e, part)
}

// suit picks the terminal at the start for the part at the other end.
func (t connecting) suit(e *Editor, met diagram.Part) connecting {
	if part, ok := e.doc.Part(t.from.Part); ok && !t.exact {
		t.from.Port = e.suitingPort(part, met)
	}
	return t
}

func (t connecting) finish(e *Editor) tool {
	var err error
	switch {
	case t.to.Part == "":
		err = errNoEnd
	case t.feeder != "":
		err = e.reconnect(t.feeder, t.atHead, t.to)
	default:
		_, err = e.link(t.from, t.to)
	}
	if err != nil {
		e.setNotice(err.Error())
	}
	return t.end()
}

func (t connecting) command() string {
	if t.armed {
		return commandConnect
	}
	return ""
}

func (t connecting) show(e *Editor, o *scene.Overlay) {
	o.Hover, _ = e.Scene().Box(t.to.Part)
	if t.atHead {
		o.Rubber = e.Scene().Route(t.to, t.from, t.at)
	}
	if o.Rubber == nil {
		o.Rubber = e.Scene().Route(t.from, t.to, t.at)
	}
	if len(o.Rubber) > 0 {
		o.Terminals = append(o.Terminals, o.Rubber[0], o.Rubber[len(o.Rubber)-1])
	}
}

func (t connecting) status(e *Editor) string {
	if t.to.Part == "" {
		return "From " + e.nameOf(t.from.Part) + " to: a part; Escape stops"
	}
	return "From " + e.nameOf(t.from.Part) + " to " + e.nameOf(t.to.Part)
}

func (connecting) cursor(*Editor) Cursor { return Cross }

var (
	errNoEnd  = errors.New("a feeder ends at a part; there is none here")
	errToSelf = errors.New("a feeder leads from one part to another, and both ends are the same part here")
	errTwice  = errors.New("a feeder leads between these terminals already; set its parallel conductors in the details")
)

// connectable returns the part under a point that takes a feeder.
func (e *Editor) connectable(at geom.Point) (diagram.Part, bool) {
	target, _ := e.Scene().Hit(at, e.slack())
	id := target.ID
	if protector, ok := e.doc.Protector(id); ok {
		id = protector.Bus
	}
	part, ok := e.doc.Part(id)
	if !ok {
		end, _, _ := e.Scene().Terminal(at, e.slack())
		part, ok = e.doc.Part(end.Part)
	}
	return part, ok && len(part.Kind.Ports()) > 0
}
