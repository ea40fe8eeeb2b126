package symbol

import (
	"sync"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// load is an arrow head that takes what comes in: the general sign of
// equipment at the end of a feeder.
var load = sync.OnceValue(func() Symbol {
	p := draw.NewPicture()
	line(p, thick(), 0, -5, 0, -1.6)
	p.FillStroke(draw.Polygon(geom.Pt(-3.2, -1.6), geom.Pt(3.2, -1.6), geom.Pt(0, 4)), draw.RolePaper, pen())
	return Symbol{
		Key: "load", Picture: p, Outline: around(4, 5),
		Terminals: []Terminal{{At: geom.Pt(0, -5), Out: up}},
	}
})
