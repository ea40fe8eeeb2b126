package symbol

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Symbol is how a thing is drawn on the sheet.
type Symbol struct {
	Key       string        // equal keys have equal pictures
	Picture   *draw.Picture // strokes in RoleInk, mm
	Outline   geom.Rect     // the room it takes, mm
	Terminals []Terminal    // in the order of diagram.Kind.Ports
}

// Terminal is where a feeder meets a symbol.
type Terminal struct {
	Port diagram.Port
	At   geom.Point // mm from the origin
	Out  geom.Point // unit step in which a feeder leaves; zero where any of the four will do
	Span float64    // half the length along which feeders tap a bus bar, on both its sides, mm; 0 for a point
}

// Terminal returns the terminal of the port, and false where there is none.
func (s Symbol) Terminal(port diagram.Port) (Terminal, bool) {
	for _, t := range s.Terminals {
		if t.Port == port {
			return t, true
		}
	}
	return Terminal{}, false
}

// Place draws the symbol at a point, turned by quarter turns clockwise, its
// ink in role.
func (s Symbol) Place(on *draw.Picture, at geom.Point, turn int, role draw.Role) {
	on.Place(s.Key, s.Picture, at, turn, role)
}

// Pitch is the step of the grid that terminals lie on, in mm.
const Pitch = 5

// Stroke is the width of the lines of a symbol, in mm.
const Stroke = 0.45

// LineWidth is the width of feeders, and of the leads that go on from them, in
// mm.
const LineWidth = 0.8

// up and down are the directions in which feeders leave an unturned symbol.
var (
	up   = geom.Pt(0, -1)
	down = geom.Pt(0, 1)
)

// For returns the symbol of the part as its record describes it, unturned.
func For(part diagram.Part) Symbol {
	switch part.Kind {
	case diagram.Supply:
		return supply()
	case diagram.Generator:
		return generator()
	case diagram.TransferSwitch:
		return transfer(part.Transfer.Selected())
	case diagram.Transformer:
		return transformer(windingsOf(part))
	case diagram.Switchboard, diagram.Panel:
		return bar(part)
	case diagram.Load:
		return load()
	case diagram.Junction:
		return junction()
	case diagram.Note:
		return note(part)
	}
	return Symbol{Picture: draw.NewPicture()}
}

// pen is the pen of symbols.
func pen() draw.Pen { return draw.Pen{Role: draw.RoleInk, Width: Stroke} }

// thick is the pen of what carries the current to where a feeder ends.
func thick() draw.Pen { return draw.Pen{Role: draw.RoleInk, Width: LineWidth} }

// fine is the pen of details inside a symbol.
func fine() draw.Pen { return draw.Pen{Role: draw.RoleInk, Width: 0.3} }

// line strokes straight through the points, given as x, y, x, y and so on.
func line(on *draw.Picture, pen draw.Pen, coordinates ...float64) {
	points := make([]geom.Point, 0, len(coordinates)/2)
	for i := 1; i < len(coordinates); i += 2 {
		points = append(points, geom.Pt(coordinates[i-1], coordinates[i]))
	}
	on.Stroke(draw.Line(points...), pen)
}

// around returns the rectangle about the origin of the given half sizes.
func around(halfWidth, halfHeight float64) geom.Rect {
	return geom.RectOf(geom.Pt(-halfWidth, -halfHeight), geom.Pt(halfWidth, halfHeight))
}
