package scene

import (
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// Sizes of the legend, in mm.
const (
	legendPad    = 3.0
	legendHeight = 12.6
	legendBadge  = 4.2
	legendSample = 14.0
	legendApart  = 6.0
)

// Legend returns the card that explains the entries in one row, its top left corner
// at the origin; an empty picture where there are none.
func Legend(entries []LegendEntry) *draw.Picture { return LegendWithin(entries, math.Inf(1)) }

// LegendWithin returns the card with as many rows as a width needs, mm. An entry that
// is wider has a row of its own.
func LegendWithin(entries []LegendEntry, width float64) *draw.Picture {
	p := draw.NewPicture()
	if len(entries) == 0 {
		return p
	}
	const pitch = legendHeight - legendPad // from row to row
	at, places, widest := geom.Pt(legendPad, 0), make([]geom.Point, len(entries)), 0.0
	for i, entry := range entries {
		own := math.Max(entry.sampleWidth(), draw.TextWidth(entry.Text, faintSize, false))
		if at.X > legendPad && at.X+own+legendPad > width {
			at = geom.Pt(legendPad, at.Y+pitch)
		}
		places[i] = at
		at.X += own + legendApart
		widest = math.Max(widest, at.X-legendApart+legendPad)
	}
	card := geom.RectOf(geom.Point{}, geom.Pt(widest, at.Y+legendHeight))
	p.FillStroke(draw.Rectangle(card, cardRadius), draw.RoleCard, draw.Pen{Role: draw.RoleGrid, Width: 0.3})
	for i, entry := range entries {
		entry.paint(p, places[i].Add(geom.Pt(0, legendPad-0.4)))
	}
	return p
}

// sampleWidth is how wide what stands above the text is.
func (e LegendEntry) sampleWidth() float64 {
	if e.Badge.Count > 0 || e.Break {
		return legendBadge
	}
	if e.Differ != Alike {
		return legendSample
	}
	return legendBadge + 1.5 + legendSample
}

func (e LegendEntry) paint(p *draw.Picture, at geom.Point) {
	switch middle := at.Add(geom.Pt(legendBadge/2, legendBadge/2)); {
	case e.Badge.Count > 0:
		p.Place(e.Badge.key(), e.Badge.picture(), middle, 0, draw.RoleInk)
	case e.Differ != Alike:
		e.paintDifferSample(p, at)
	case e.Break:
		symbol.Break().Place(p, middle, 0, draw.RoleUnreached)
	default:
		e.paintSample(p, at)
	}
	p.Text(draw.Text{At: at.Add(geom.Pt(0, 8.4)), Size: faintSize, Role: draw.RoleInk, String: e.Text})
}

// paintSample draws how a verdict looks: its letter and its line.
func (e LegendEntry) paintSample(p *draw.Picture, at geom.Point) {
	badge := geom.RectOf(at, at.Add(geom.Pt(legendBadge, legendBadge)))
	p.Fill(draw.Rectangle(badge, 0.9), e.Role)
	size := 2.8
	p.Text(draw.Text{
		At: badge.Center().Add(geom.Pt(0, draw.CapHeight(size)/2)), Size: size, Bold: true,
		Align: draw.Center, Role: draw.RoleOnVerdict, String: e.Letter,
	})
	from := geom.Pt(badge.Max.X+1.5, badge.Center().Y)
	p.Stroke(draw.Line(from, from.Add(geom.Pt(legendSample, 0))), draw.Pen{Role: e.Role, Width: 1.8, Dash: e.Dash})
}
