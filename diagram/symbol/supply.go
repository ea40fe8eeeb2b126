package symbol

import (
	"sync"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// supply is an arrow that points into what it feeds: the standards agree on no
// sign for a public supply.
var supply = sync.OnceValue(func() Symbol {
	p := draw.NewPicture()
	line(p, pen(), -3, -5, 3, -5)
	line(p, pen(), 0, -5, 0, 4.6)
	line(p, pen(), -2, 2.4, 0, 4.8, 2, 2.4)
	return Symbol{
		Key: "supply", Picture: p, Outline: around(4, 5),
		Terminals: []Terminal{{At: geom.Pt(0, 5), Out: down}},
	}
})
