package symbol

import (
	"sync"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// junction is the dot at which feeders meet, from any side.
var junction = sync.OnceValue(func() Symbol {
	p := draw.NewPicture()
	p.Fill(draw.Circle(geom.Pt(0, 0), 1.1), draw.RoleInk)
	return Symbol{Key: "junction", Picture: p, Outline: around(1.1, 1.1), Terminals: []Terminal{{}}}
})
