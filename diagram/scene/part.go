package scene

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/route"
	"clampline/diagram/symbol"
)

// part is a part in its place.
type part struct {
	id     diagram.ID
	kind   diagram.Kind
	name   string
	at     geom.Point
	turn   int
	symbol symbol.Symbol
	box    geom.Rect // of the symbol as turned
	role   draw.Role
	dash   draw.Dash
	tag    tag
	ends   string // what to say where cover ends here; empty where it does not
}

// put places the part as its record says.
func (p *part) put(record *diagram.Part) {
	p.id, p.kind, p.name = record.ID, record.Kind, record.Name
	p.at, p.turn = record.At, record.Turn&3
	p.symbol, p.role = symbol.For(*record), draw.RoleInk
	if p.kind == diagram.Note {
		p.turn = 0 // its text stays upright, and so does the sheet
	}
	p.box = p.frame().ApplyRect(p.symbol.Outline)
}

// frame maps the symbol to the sheet.
func (p *part) frame() geom.Affine { return geom.Turn(p.turn).Then(geom.Translate(p.at)) }

// direction turns a step of the symbol along with the part.
func (p *part) direction(step geom.Point) geom.Point { return geom.Turn(p.turn).Apply(step) }

// axis is the unit step along the part toward positive offsets.
func (p *part) axis() geom.Point { return p.direction(geom.Pt(1, 0)) }

// outward is the unit step in which protectors hang from the part.
func (p *part) outward() geom.Point { return p.direction(geom.Pt(0, 1)) }

// halfSpan is half the length of a bus bar, and zero for other parts.
func (p *part) halfSpan() float64 {
	if p.kind.IsBoard() {
		return p.symbol.Outline.Max.X
	}
	return 0
}

// terminal returns the port as routes see it. The number is the part's place
// in the scene.
func (p *part) terminal(port diagram.Port, number int) (route.Terminal, bool) {
	t, ok := p.symbol.Terminal(port)
	if !ok {
		return route.Terminal{}, false
	}
	out := route.Terminal{At: p.frame().Apply(t.At), Out: p.direction(t.Out)}
	if t.Span > 0 {
		out.Bar, out.Span, out.Edge = number+1, t.Span, p.symbol.Outline.Max.Y
	}
	return out, true
}

// barEnd returns the end of a bus bar on a side, -1 or +1.
func (p *part) barEnd(side int) geom.Point {
	return p.at.Add(p.axis().Mul(float64(side) * p.halfSpan()))
}
