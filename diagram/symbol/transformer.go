package symbol

import (
	"strings"
	"sync"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// windings is what tells one transformer's symbol from another's.
type windings struct {
	primary, secondary diagram.Wiring
	screen, auto       bool
}

func windingsOf(part diagram.Part) windings {
	return windings{
		primary: part.Transformer.Primary.Wiring, secondary: part.System.Wiring,
		screen: part.Transformer.Screen, auto: part.Transformer.Auto,
	}
}

func (w windings) key() string {
	words := []string{"transformer", string(w.primary), string(w.secondary)}
	if w.screen {
		words = append(words, "screen")
	}
	if w.auto {
		words = append(words, "auto")
	}
	return strings.ReplaceAll(strings.Join(words, "/"), " ", "-")
}

// transformer returns the symbol of the windings. Wirings that no list knows
// are drawn without a sign.
func transformer(w windings) Symbol {
	if known, ok := transformers()[w]; ok {
		return known
	}
	w.primary, w.secondary = "", ""
	return transformers()[w]
}

var transformers = sync.OnceValue(func() map[windings]Symbol {
	out := map[windings]Symbol{}
	kinds := append(diagram.Wirings(), "")
	for _, primary := range kinds {
		for _, secondary := range kinds {
			for option := range 4 {
				w := windings{primary, secondary, option&1 != 0, option&2 != 0}
				out[w] = newTransformer(w)
			}
		}
	}
	return out
})

// The two circles: their radius and how far their middles lie from the
// origin, so that they overlap by a third of their width.
const (
	windingRadius = 5.0
	windingApart  = windingRadius * 2 / 3
)

func newTransformer(w windings) Symbol {
	p := draw.NewPicture()
	const reach = windingApart + windingRadius
	line(p, thick(), 0, -10, 0, -reach)
	line(p, thick(), 0, reach, 0, 10)
	upper, lower := geom.Pt(0, -windingApart), geom.Pt(0, windingApart)
	if w.auto {
		p.Stroke(draw.Arc(upper, windingRadius, 2, 2), pen())
		line(p, pen(), -windingRadius, upper.Y, -windingRadius, lower.Y)
	} else {
		p.Stroke(draw.Circle(upper, windingRadius), pen())
	}
	p.Stroke(draw.Circle(lower, windingRadius), pen())
	sign(p, w.primary, geom.Pt(0, -5))
	sign(p, w.secondary, geom.Pt(0, 5))
	outline := around(5, 10)
	if w.screen {
		screen(p)
		outline = around(8.4, 10)
	}
	return Symbol{
		Key: w.key(), Picture: p, Outline: outline,
		Terminals: []Terminal{
			{Port: diagram.Primary, At: geom.Pt(0, -10), Out: up},
			{Port: diagram.Secondary, At: geom.Pt(0, 10), Out: down},
		},
	}
}

// sign draws a small triangle for a delta, a star for a wye. A winding of one
// phase has no sign.
func sign(p *draw.Picture, wiring diagram.Wiring, at geom.Point) {
	const half, rise = 1.5, 1.3
	switch wiring {
	case diagram.Delta, diagram.HighLeg:
		p.Stroke(draw.Polygon(at.Add(geom.Pt(0, -rise)), at.Add(geom.Pt(half, rise)), at.Add(geom.Pt(-half, rise))), fine())
	case diagram.Wye, diagram.TwoOfWye:
		for _, tip := range []geom.Point{{X: -half, Y: -rise}, {X: half, Y: -rise}, {X: 0, Y: rise + 0.4}} {
			p.Stroke(draw.Line(at, at.Add(tip)), fine())
		}
	}
	if wiring == diagram.HighLeg {
		p.Fill(draw.Circle(at.Add(geom.Pt(0, rise)), 0.45), draw.RoleInk)
	}
}

// screen draws the earthed screen between the windings.
func screen(p *draw.Picture) {
	dashed := fine()
	dashed.Dash = draw.Dashed
	line(p, dashed, -4.5, 0, 7, 0)
	line(p, fine(), 7, -1.4, 7, 1.4)
	line(p, fine(), 7.6, -0.9, 7.6, 0.9)
	line(p, fine(), 8.2, -0.4, 8.2, 0.4)
}
