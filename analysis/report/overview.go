package report

import (
	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/scene"
)

// overviewOf returns a state drawn without words: what is left of them in a small
// picture nobody could read.
func overviewOf(w *Work, s *State) *draw.Picture {
	marks := mark.Of(s.Document, s.Result, w.Convention)
	full := scene.New(s.Document, s.Result.Plan, marks, scene.Options{Convention: w.Convention, HideTags: true, HideLabels: true}).Picture()
	out := draw.NewPicture()
	draw.Paint(full, wordless{out})
	return out
}

// wordless is the painter that records all but texts, with lines that can be seen in a
// small picture.
type wordless struct{ to *draw.Picture }

var _ draw.Painter = wordless{}

func (p wordless) Begin(id string) { p.to.Begin(id) }
func (p wordless) End()            { p.to.End() }
func (p wordless) Text(draw.Text)  {}

func (p wordless) Shape(s draw.Shape) {
	const thicker = 2
	s.Pen.Width *= thicker
	p.to.Shape(s)
}

const legendRow = 5.0 // mm

// ownerLegend says what the colours and patterns mean, in a row.
func ownerLegend(width float64) *draw.Picture {
	const sample, size = 9.0, 2.7
	p := draw.NewPicture()
	words := 0.0
	for _, v := range analysis.Verdicts() {
		words += draw.TextWidth(ownerVerdict(v), size, false)
	}
	n := float64(len(analysis.Verdicts()))
	share, x := min(1, (width-n*(sample+4))/words), 0.0
	for _, v := range analysis.Verdicts() {
		role, dash := mark.Style(v)
		p.Stroke(draw.Line(geom.Pt(x, legendRow/2), geom.Pt(x+sample, legendRow/2)), draw.Pen{Role: role, Width: 1.4, Dash: dash})
		wide := share * draw.TextWidth(ownerVerdict(v), size, false)
		page.Write(p, geom.Pt(x+sample+1.5, legendRow/2+size*0.36), wide+1e-6, ownerVerdict(v), page.Type{Size: size})
		x += sample + 4 + wide
	}
	return p
}
