package symbol

import (
	"sync"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// transfer returns two throws with the common side below, the blade on the
// selected one.
func transfer(selected diagram.Port) Symbol {
	if selected == diagram.Emergency {
		return toEmergency()
	}
	return toNormal()
}

var (
	toNormal    = sync.OnceValue(func() Symbol { return newTransfer("transfer/normal", -1) })
	toEmergency = sync.OnceValue(func() Symbol { return newTransfer("transfer/emergency", 1) })
)

// newTransfer draws the switch with its blade to the left (-1) or right (+1).
func newTransfer(key string, side float64) Symbol {
	p := draw.NewPicture()
	line(p, thick(), -5, -10, -5, -4)
	line(p, thick(), 5, -10, 5, -4)
	line(p, thick(), 0, 10, 0, 5)
	line(p, thick(), 0, 5, side*4.5, -3.4)
	for _, at := range []geom.Point{geom.Pt(-5, -4), geom.Pt(5, -4), geom.Pt(0, 5)} {
		p.FillStroke(draw.Circle(at, 0.8), draw.RolePaper, pen())
	}
	return Symbol{
		Key: key, Picture: p, Outline: around(7, 10),
		Terminals: []Terminal{
			{Port: diagram.Normal, At: geom.Pt(-5, -10), Out: up},
			{Port: diagram.Emergency, At: geom.Pt(5, -10), Out: up},
			{Port: diagram.Common, At: geom.Pt(0, 10), Out: down},
		},
	}
}
