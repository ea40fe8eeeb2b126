package dxf

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// painter writes items as entities.
type painter struct {
	document Document
	foot     float64  // y downward, taken from it, is y upward
	file     file     // of entities
	groups   []string // the layers of the groups that are open
	layers   []string // that are used
	patterns []pattern
}

var _ draw.Painter = (*painter)(nil)

// pattern is the ink and gap of a line, mm.
type pattern struct{ ink, gap float64 }

func (p pattern) name() string { return "dash-" + number(p.ink) + "-" + number(p.gap) }

// Begin opens a group, which may have a layer.
func (p *painter) Begin(id string) {
	layer := p.layer()
	if p.document.Layer != nil {
		if own := p.document.Layer(id); own != "" {
			layer = own
		}
	}
	p.groups = append(p.groups, layer)
}

// End closes a group.
func (p *painter) End() { p.groups = p.groups[:len(p.groups)-1] }

func (p *painter) layer() string {
	if len(p.groups) == 0 {
		return "0"
	}
	return p.groups[len(p.groups)-1]
}

// entity begins an entity on a layer in the colour of a role.
func (p *painter) entity(name, layer string, role draw.Role) {
	if !slices.Contains(p.layers, layer) {
		p.layers = append(p.layers, layer)
	}
	c := p.document.Palette[role]
	p.file.pairs(0, name, 5, p.file.next(), 330, modelRecord, 100, "AcDbEntity", 8, layer, 420, int(c.R)<<16|int(c.G)<<8|int(c.B))
}

// Shape writes a fill that shows something, and the lines of a stroke.
func (p *painter) Shape(s draw.Shape) {
	if s.Fill != draw.RoleNone && s.Fill != draw.RolePaper && s.Fill != draw.RoleCard {
		p.fill(s)
	}
	for _, strand := range s.Strands() {
		for _, c := range chains(strand.Path) {
			if len(c.corners) > 1 {
				p.polyline(c, s.Pen.Role, strand)
			}
		}
	}
}

func (p *painter) polyline(c chain, role draw.Role, strand draw.Strand) {
	p.entity("LWPOLYLINE", p.layer(), role)
	if strand.Gap > 0 {
		own := pattern{round(strand.Ink), round(strand.Gap)}
		if !slices.Contains(p.patterns, own) {
			p.patterns = append(p.patterns, own)
		}
		p.file.pair(6, own.name())
	}
	flags := 128 // a pattern runs on round corners
	if c.closed {
		flags++
	}
	p.file.pairs(100, "AcDbPolyline", 90, len(c.corners), 70, flags, 43, strand.Width)
	p.corners(c)
}

func (p *painter) corners(c chain) {
	for _, corner := range c.corners {
		p.file.pairs(10, corner.at.X, 20, p.foot-corner.at.Y, 42, -corner.bulge) // y is turned over, and a bulge with it
	}
}

// fill writes a solid hatch with an outline for each piece of the path.
func (p *painter) fill(s draw.Shape) {
	all := slices.DeleteFunc(chains(s.Path), func(c chain) bool { return len(c.corners) < 2 })
	if len(all) == 0 {
		return
	}
	p.entity("HATCH", p.layer(), s.Fill)
	p.file.pairs(100, "AcDbHatch", 10, 0.0, 20, 0.0, 30, 0.0, 210, 0.0, 220, 0.0, 230, 1.0, 2, "SOLID", 70, 1, 71, 0, 91, len(all))
	for _, c := range all {
		p.file.pairs(92, 2, 72, 1, 73, 1, 93, len(c.corners)) // a polyline, with bulges, closed
		p.corners(c)
		p.file.pair(97, 0)
	}
	p.file.pairs(75, 1, 76, 1, 98, 0)
}

// Text writes a line of text, its height that of its capitals.
func (p *painter) Text(t draw.Text) {
	style := styles[0].name
	if t.Bold {
		style = styles[1].name
	}
	p.entity("TEXT", textLayer, t.Role)
	y := p.foot - t.At.Y
	p.file.pairs(100, "AcDbText", 10, t.At.X, 20, y, 30, 0.0, 40, draw.CapHeight(t.Size), 1, escaped.Replace(t.String), 7, style)
	if t.Align != draw.Left {
		p.file.pairs(72, int(t.Align), 11, t.At.X, 21, y, 31, 0.0)
	}
	p.file.pair(100, "AcDbText")
}

// escaped keeps ^ from being read as a sign of the format's own, and parts %%, which
// begins others.
var escaped = strings.NewReplacer("^", "^ ", "%%", "% %")

// chain is a piece of a path: corners, each with the bulge of what follows it, the
// tangent of a quarter of its angle.
type chain struct {
	corners []corner
	closed  bool
}

type corner struct {
	at    geom.Point
	bulge float64
}

// chains returns the pieces of a path, arcs as bulges and other curves as short lines.
func chains(path draw.Path) []chain {
	var out []chain
	path.Each(func(verb draw.Verb, points []geom.Point) {
		if verb == draw.Move {
			out = append(out, chain{corners: []corner{{at: points[0]}}})
			return
		}
		c := &out[len(out)-1]
		from := &c.corners[len(c.corners)-1]
		switch verb {
		case draw.To:
			c.corners = append(c.corners, corner{at: points[0]})
		case draw.Curve:
			if bulge, ok := arc(from.at, points); ok {
				from.bulge = bulge
				c.corners = append(c.corners, corner{at: points[2]})
				return
			}
			var curve draw.Path
			curve.MoveTo(from.at)
			curve.CurveTo(points[0], points[1], points[2])
			for _, at := range curve.Flatten(0.02)[0][1:] {
				c.corners = append(c.corners, corner{at: at})
			}
		case draw.Close:
			c.closed = true
			if last := len(c.corners) - 1; last > 0 && c.corners[last].at == c.corners[0].at {
				c.corners = c.corners[:last]
			}
		}
	})
	return out
}

// arc returns the bulge of a curve that is an arc of a circle of at most half a turn:
// its ends lean alike on its chord, and its middle is where that of the arc is.
func arc(from geom.Point, points []geom.Point) (bulge float64, ok bool) {
	chord := points[2].Sub(from)
	length := chord.Length()
	if length == 0 {
		return 0, false
	}
	along := func(p geom.Point) float64 { return (p.X*chord.X + p.Y*chord.Y) / length }
	across := func(p geom.Point) float64 { return (p.Y*chord.X - p.X*chord.Y) / length }
	first, last := points[0].Sub(from), points[2].Sub(points[1])
	middle := from.Add(points[0].Mul(3)).Add(points[1].Mul(3)).Add(points[2]).Mul(1.0 / 8).Sub(from)
	lean := math.Atan2(across(first), along(first))
	bulge = -math.Tan(lean / 2)
	near := func(a, b float64) bool { return math.Abs(a-b) < 2e-3*length }
	ok = near(math.Atan2(across(last), along(last))*length, -lean*length) && near(along(middle), length/2) && near(across(middle), -bulge*length/2) && bulge != 0
	return bulge, ok
}

// round rounds to a thousandth of a millimetre, without a negative zero.
func round(v float64) float64 { return math.Round(v*1000)/1000 + 0 }

func number(v float64) string { return strconv.FormatFloat(round(v), 'f', -1, 64) }
