package symbol

import (
	"sync"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// generator is a circle with a G above the mark of alternating current.
var generator = sync.OnceValue(func() Symbol {
	p := draw.NewPicture()
	p.FillStroke(draw.Circle(geom.Pt(0, 0), 4.8), draw.RolePaper, pen())
	p.Text(draw.Text{At: geom.Pt(0, 0.9), Size: 4.6, Bold: true, Align: draw.Center, String: "G"})
	var wave draw.Path
	wave.MoveTo(geom.Pt(-1.8, 2.6))
	wave.CurveTo(geom.Pt(-1.2, 1.3), geom.Pt(-0.6, 1.3), geom.Pt(0, 2.6))
	wave.CurveTo(geom.Pt(0.6, 3.9), geom.Pt(1.2, 3.9), geom.Pt(1.8, 2.6))
	p.Stroke(wave, fine())
	return Symbol{
		Key: "generator", Picture: p, Outline: around(5, 5),
		Terminals: []Terminal{{At: geom.Pt(0, 5), Out: down}},
	}
})
