package symbol

import (
	"sync"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// SwitchLength is how much of a feeder the switch at its head takes, in mm.
const SwitchLength = 8

// Switch returns the symbol of the switch at the head of a feeder. Its origin
// is where the feeder leaves its part; the feeder runs downward from there. A
// feeder without a switch has an empty picture, but one that is open is drawn
// open all the same.
func Switch(data diagram.SwitchData) Symbol {
	table := switches()
	if s, ok := table[switchState{data.Kind, data.Open}]; ok {
		return s
	}
	return table[switchState{open: data.Open}]
}

type switchState struct {
	kind diagram.SwitchKind
	open bool
}

var switches = sync.OnceValue(func() map[switchState]Symbol {
	out := map[switchState]Symbol{}
	add := func(kind diagram.SwitchKind, open bool, key string, draws func(*draw.Picture)) {
		p := draw.NewPicture()
		draws(p)
		out[switchState{kind, open}] = Symbol{Key: key, Picture: p, Outline: geom.RectOf(geom.Pt(-2.5, 0), geom.Pt(2.5, SwitchLength))}
	}
	add("", false, "switch/none", func(*draw.Picture) {})
	add("", true, "switch/open", func(p *draw.Picture) { contact(p, true) })
	add(diagram.Disconnect, false, "disconnect", func(p *draw.Picture) { contact(p, false) })
	add(diagram.Disconnect, true, "disconnect/open", func(p *draw.Picture) { contact(p, true) })
	add(diagram.Breaker, false, "breaker", func(p *draw.Picture) { breaker(p, false) })
	add(diagram.Breaker, true, "breaker/open", func(p *draw.Picture) { breaker(p, true) })
	add(diagram.Fuse, false, "fuse", func(p *draw.Picture) { fuse(p, false) })
	add(diagram.Fuse, true, "fuse/open", func(p *draw.Picture) { fuse(p, true) })
	return out
})

// contact is a blade that turns about its lower end toward a fixed contact
// with a short bar across it. Closed, it lies in the line.
func contact(p *draw.Picture, open bool) {
	line(p, pen(), -1.4, 2, 1.4, 2)
	if open {
		parted(p)
	}
	p.Fill(draw.Circle(geom.Pt(0, hinge), 0.8), draw.RoleInk)
}

// breaker is a small square on the line, filled while it is closed; open, it
// is hollow and the blade has left it.
func breaker(p *draw.Picture, open bool) {
	if !open {
		p.Fill(square(4, 1.3), draw.RoleInk)
		return
	}
	parted(p)
	p.FillStroke(square(1.6, 0.9), draw.RolePaper, pen())
}

// square is a square about the line at y, of the given half size.
func square(y, half float64) draw.Path {
	return draw.Rectangle(around(half, half).Move(geom.Pt(0, y)), 0)
}

// fuse is a rectangle with the line through it; without its link the line is
// gone.
func fuse(p *draw.Picture, open bool) {
	p.FillStroke(draw.Rectangle(geom.RectOf(geom.Pt(-1.2, 1.8), geom.Pt(1.2, 6.2)), 0), draw.RolePaper, pen())
	if !open {
		line(p, pen(), 0, 1.8, 0, 6.2)
	}
}

// hinge is where along the line the blade of a switch turns, in mm.
const hinge = 6.4

// parted takes the feeder's line away between the contacts and draws the blade
// that stands off it.
func parted(p *draw.Picture) {
	p.Fill(draw.Rectangle(geom.RectOf(geom.Pt(-1, 2.2), geom.Pt(1, hinge)), 0), draw.RolePaper)
	line(p, thick(), 0, hinge, -2.3, 2.4)
}

// Break returns the sign at which cover ends: two slanted strokes across the
// line that runs downward through its origin.
func Break() Symbol { return coverBreak() }

var coverBreak = sync.OnceValue(func() Symbol {
	p := draw.NewPicture()
	heavy := draw.Pen{Role: draw.RoleInk, Width: 0.6}
	line(p, heavy, -4.6, -0.1, 4.6, -1.7)
	line(p, heavy, -4.6, 1.7, 4.6, 0.1)
	return Symbol{Key: "break", Picture: p, Outline: around(4.8, 2)}
})
