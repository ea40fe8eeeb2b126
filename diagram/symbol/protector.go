package symbol

import (
	"sync"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Protector returns the symbol of a surge protector: a varistor to earth. Its
// origin is where it meets the bus, from which it hangs downward.
func Protector() Symbol { return protector() }

var protector = sync.OnceValue(func() Symbol {
	p := draw.NewPicture()
	line(p, pen(), 0, 0, 0, 3.4)
	p.FillStroke(draw.Polygon(geom.Pt(-1.6, 3.4), geom.Pt(1.6, 3.4), geom.Pt(1.6, 9.8), geom.Pt(-1.6, 9.8)), draw.RolePaper, pen())
	line(p, pen(), -3.6, 9, -2.4, 9, 2.9, 3.9)
	line(p, pen(), 0, 9.8, 0, 11.8)
	earthStrokes(p, 11.8)
	return Symbol{
		Key: "protector", Picture: p, Outline: geom.RectOf(geom.Pt(-3.8, 0), geom.Pt(3.8, 14.2)),
		Terminals: []Terminal{{Out: up}},
	}
})

// earthStrokes draws the three strokes of an earth, the longest at y.
func earthStrokes(p *draw.Picture, y float64) {
	for i, half := range []float64{2.2, 1.4, 0.6} {
		line(p, pen(), -half, y+1.05*float64(i), half, y+1.05*float64(i))
	}
}
