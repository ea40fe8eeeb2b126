package scene

import (
	"math"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// Sizes of what stands below an exported drawing, in mm.
const (
	exportApart  = 8    // between the drawing, the legend and the foot
	exportWidth  = 150  // of the foot at least
	titleSize    = 5.0  // of the title
	cautionSize  = 2.6  // of the caution
	cautionPitch = 3.6  // from line to line of it
	ruleWidth    = 0.35 // of the line above the title
)

// Export returns the drawing as it leaves the program: the sheet, below it the
// legend, the title and the caution, wrapped to the width of the drawing. An
// empty caution takes that of the marks.
func (s *Scene) Export(title, caution string) *draw.Picture {
	if caution == "" {
		caution = s.caution
	}
	p := draw.NewPicture()
	p.Append(s.Picture(), geom.Identity())
	bounds := p.Bounds()
	if bounds.IsEmpty() {
		bounds = geom.Rect{}
	}
	at := geom.Pt(bounds.Min.X, bounds.Max.Y)
	if !s.options.Legend && len(s.legend) > 0 {
		p.Append(Legend(s.legend), geom.Translate(at.Add(geom.Pt(0, exportApart))))
		at.Y += exportApart + legendHeight
	}
	at.Y += exportApart
	paintFoot(p, at, math.Max(bounds.Width(), exportWidth), title, caution)
	return p
}

// paintFoot draws a rule, the title and the caution, from at downward.
func paintFoot(p *draw.Picture, at geom.Point, width float64, title, caution string) {
	p.Stroke(draw.Line(at, at.Add(geom.Pt(width, 0))), draw.Pen{Role: draw.RoleFaint, Width: ruleWidth})
	at.Y += 2
	for _, line := range symbol.Wrap(title, titleSize, true, width) {
		at.Y += titleSize + 0.8
		p.Text(draw.Text{At: at, Size: titleSize, Bold: true, String: line})
	}
	at.Y += 2
	for _, line := range symbol.Wrap(caution, cautionSize, false, width) {
		at.Y += cautionPitch
		p.Text(draw.Text{At: at, Size: cautionSize, Role: draw.RoleFaint, String: line})
	}
}
