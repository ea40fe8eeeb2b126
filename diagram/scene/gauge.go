package scene

import (
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Sizes of a gauge, in mm.
const (
	gaugeRoom  = 2.2 // that it adds to a card
	gaugeRise  = 2.0 // of its middle above the lower edge
	gaugeBar   = 1.0 // thickness of what lies between low and high
	gaugeScale = 0.25
	gaugeTick  = 0.9 // half the height of the tick
)

// hasGauge reports whether there is one: a card that has shrunk to its badge has none.
func (t *tag) hasGauge() bool { return len(t.rows) > 0 && t.gauge != Gauge{} }

// paintGauge draws the scale, the bar on it in the colour of the card, and the tick at
// its limit in ink.
func (t *tag) paintGauge(p *draw.Picture) {
	left, right := t.box.Min.X+t.textLeft(), t.box.Max.X-cardPad
	at := func(share float64) geom.Point {
		return geom.Pt(left+share*(right-left), t.box.Min.Y+t.size.Y-gaugeRise)
	}
	p.Stroke(draw.Line(at(0), at(1)), draw.Pen{Role: draw.RoleFaint, Width: gaugeScale})
	p.Stroke(draw.Line(at(t.gauge.Low), at(t.gauge.High)), draw.Pen{Role: t.role, Width: gaugeBar})
	limit, tick := at(t.gauge.Limit), geom.Pt(0, gaugeTick)
	p.Stroke(draw.Line(limit.Sub(tick), limit.Add(tick)), draw.Pen{Role: draw.RoleInk, Width: cardWidth})
}
