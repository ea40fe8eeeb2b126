package report

import (
	"fmt"

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

const legendRow = 5.2 // mm

// legendOf says in rows what the colours and patterns of two states mean, and how many
// places have each, today and after the work.
func legendOf(before, after *State) page.Block {
	was, is := before.Result.Count(), after.Result.Count()
	var rows []analysis.Verdict
	for _, v := range analysis.Verdicts() {
		if was[v]+is[v] > 0 {
			rows = append(rows, v)
		}
	}
	return page.Drawn{Height: legendRow * float64(len(rows)+1), Draw: func(width float64) *draw.Picture {
		p, head := draw.NewPicture(), page.Type{Size: 2.7, Role: draw.RoleFaint}
		legendLine(p, width, 0, head, "places", "today", "after the work")
		for i, v := range rows {
			y := legendRow * float64(i+1)
			role, dash := mark.Style(v)
			p.Stroke(draw.Line(geom.Pt(0, y), geom.Pt(width, y)), draw.Pen{Role: draw.RoleGrid, Width: 0.25})
			p.Stroke(draw.Line(geom.Pt(0, y+legendRow/2), geom.Pt(legendSample, y+legendRow/2)), draw.Pen{Role: role, Width: 1.4, Dash: dash})
			legendLine(p, width, y, page.Type{Size: 3.2}, ownerVerdict(v), fmt.Sprint(was[v]), fmt.Sprint(is[v]))
		}
		return p
	}}
}

const legendSample = 12.0 // mm

// legendLine writes a row: a word, and a number under each of the two pictures.
func legendLine(p *draw.Picture, width, y float64, t page.Type, word, was, is string) {
	base := y + legendRow/2 + draw.CapHeight(t.Size)/2
	page.Write(p, geom.Pt(legendSample+3, base), width/2, word, t)
	t.Align = draw.Right
	page.Write(p, geom.Pt(width*0.75, base), width/5, was, t)
	page.Write(p, geom.Pt(width, base), width/5, is, t)
}
