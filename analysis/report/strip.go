package report

import (
	"fmt"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/scene"
)

const (
	mapWidth  = 38.0 // of the key map at most, mm
	mapHeight = 20.0
	mapApart  = 5.0
)

// stripHeight returns the height on the page of what explains the drawing.
func (l *layout) stripHeight(width float64, several bool) float64 {
	k := l.Frame.Paper.Enlarged()
	_, height := l.strip(width/k, several)
	return height * k
}

// strip draws what explains the drawing in a width: the legend and the notes, and of one
// of several sheets leaves room for the key map at the right. It is drawn as on A4.
func (l *layout) strip(width float64, several bool) (*draw.Picture, float64) {
	p, height, left := draw.NewPicture(), 0.0, width
	if several {
		left -= mapWidth + mapApart
	}
	if legend, scale := legendFor(l.legend, left); legend.Len() > 0 {
		p.Append(legend, geom.Scale(scale))
		height = legend.Bounds().Height() * scale
	}
	if notes := l.of.notes(); notes != "" {
		if l.apart {
			notes = "What the verdicts rest on stands on the last sheet."
		}
		text, more := page.Stack(left, page.Paragraph{Text: notes, Faint: true})
		p.Append(text, geom.Translate(geom.Pt(0, height+1)))
		height += 1 + more
	}
	if several {
		height = max(height, mapHeight)
	}
	return p, height
}

// legendFor returns the legend for a width: in one row where that need not be set much
// smaller, else in several.
func legendFor(entries []scene.LegendEntry, width float64) (legend *draw.Picture, scale float64) {
	const least = 0.85 // its text is 2.6 mm, and above 6 points still
	row := scene.Legend(entries)
	if wide := row.Bounds().Width(); wide*least <= width {
		return row, min(1, width/wide)
	}
	return scene.LegendWithin(entries, width), 1
}

// keyMap draws in a box which part of the drawing this sheet has of all.
func (l *layout) keyMap(p *draw.Picture, box geom.Rect, column, row int) {
	scale := page.Fit(geom.Pt(l.bounds.Width(), l.bounds.Height()), geom.Pt(box.Width(), box.Height()), 1)
	corner := geom.Pt(box.Max.X-l.bounds.Width()*scale, box.Min.Y)
	to := geom.Translate(geom.Point{}.Sub(l.bounds.Min)).Then(geom.Scale(scale)).Then(geom.Translate(corner))
	for r := range l.Down {
		for c := range l.Across {
			here := to.ApplyRect(l.tile(c, r))
			fill, pen := draw.RoleNone, draw.Pen{Role: draw.RoleFaint, Width: 0.2}
			if r == row && c == column {
				fill, pen = draw.RoleAccentSoft, draw.Pen{Width: 0.5}
			}
			p.FillStroke(draw.Rectangle(here.Grow(-pen.Width/2), 0), fill, pen)
			number := page.Type{Size: min(2.7, here.Height()*0.6), Align: draw.Center, Bold: fill != draw.RoleNone}
			page.Write(p, here.Center().Add(geom.Pt(0, draw.CapHeight(number.Size)/2)), here.Width(), fmt.Sprint(l.number(c, r)), number)
		}
	}
}

// number returns the number of a sheet of the drawing.
func (l *layout) number(column, row int) int { return row*l.Across + column + 1 }

// edges draws where the drawing goes on: a match line on each edge that has a neighbour,
// and beyond it the number of that sheet. All is on paper.
func (l *layout) edges(p *draw.Picture, column, row int, tile, window, room geom.Rect) {
	k := l.Frame.Paper.Enlarged()
	t := page.Type{Size: 2.7 * k, Role: draw.RoleAccent}
	write := func(x, y float64, align draw.Align, text string) {
		t.Align = align
		page.Write(p, geom.Pt(x, y), room.Width()/2, text, t)
	}
	above, below := room.Min.Y-1.4*k, room.Max.Y+bandHeight*k-1.4*k
	if column > 0 {
		l.matchLine(p, geom.Pt(tile.Min.X, window.Min.Y), geom.Pt(tile.Min.X, window.Max.Y))
		write(room.Min.X, above, draw.Left, fmt.Sprintf("◂ match line: sheet %d", l.number(column-1, row)))
	}
	if column < l.Across-1 {
		l.matchLine(p, geom.Pt(tile.Max.X, window.Min.Y), geom.Pt(tile.Max.X, window.Max.Y))
		write(room.Max.X, above, draw.Right, fmt.Sprintf("match line: sheet %d ▸", l.number(column+1, row)))
	}
	if row > 0 {
		l.matchLine(p, geom.Pt(window.Min.X, tile.Min.Y), geom.Pt(window.Max.X, tile.Min.Y))
		write(room.Center().X, above, draw.Center, fmt.Sprintf("▴ match line: sheet %d", l.number(column, row-1)))
	}
	if row < l.Down-1 {
		l.matchLine(p, geom.Pt(window.Min.X, tile.Max.Y), geom.Pt(window.Max.X, tile.Max.Y))
		write(room.Center().X, below, draw.Center, fmt.Sprintf("▾ match line: sheet %d", l.number(column, row+1)))
	}
}

// matchLine draws the line along which two sheets are laid together.
func (l *layout) matchLine(p *draw.Picture, from, to geom.Point) {
	p.Stroke(draw.Line(from, to), draw.Pen{Role: draw.RoleAccent, Width: 0.3 * l.Frame.Paper.Enlarged(), Dash: draw.LongDash})
}
