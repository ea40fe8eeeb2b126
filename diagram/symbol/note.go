package symbol

import (
	"fmt"
	"strings"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Sizes of a note, in mm.
const (
	noteWidth   = 40
	noteText    = 2.8
	noteLine    = 4.0
	noteMargin  = 2.5
	noteCorner  = 3.5
	noteLeast   = 10 // least height
	noteLineMax = 60 // lines shown of a very long note
)

// note is a sheet with a folded corner that bears the part's name in bold and
// its note, wrapped to the width.
func note(part diagram.Part) Symbol {
	width := Span(part)
	inner := width - 2*noteMargin
	var lines []draw.Text
	add := func(text string, bold bool) {
		for _, words := range Wrap(text, noteText, bold, inner) {
			if len(lines) < noteLineMax {
				lines = append(lines, draw.Text{Size: noteText, Bold: bold, String: words})
			}
		}
	}
	add(part.Name, true)
	add(part.Note, false)
	height := max(noteLeast, 2*noteMargin+noteLine*float64(len(lines)))
	box := around(width/2, height/2)
	p := draw.NewPicture()
	sheet(p, box)
	key := []string{fmt.Sprintf("note/%g", width)}
	for i, text := range lines {
		text.At = box.Min.Add(geom.Pt(noteMargin, noteMargin+noteLine*float64(i)+noteText))
		p.Text(text)
		key = append(key, fmt.Sprint(text.Bold, text.String))
	}
	return Symbol{Key: strings.Join(key, "\n"), Picture: p, Outline: box}
}

func sheet(p *draw.Picture, box geom.Rect) {
	fold := box.Max.Add(geom.Pt(-noteCorner, -noteCorner))
	side, foot := geom.Pt(box.Max.X, fold.Y), geom.Pt(fold.X, box.Max.Y)
	corners := box.Corners()
	p.FillStroke(draw.Polygon(corners[0], corners[1], side, foot, corners[3]), draw.RoleCard, fine())
	p.Stroke(draw.Line(side, fold, foot), fine())
}
