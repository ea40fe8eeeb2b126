package report

import (
	"fmt"
	"math"

	"clampline/analysis/mark"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/scene"
)

// Sheets is a drawing laid out on paper.
type Sheets struct {
	Frame  page.Frame
	Pages  []page.Page
	Across int     // sheets of the drawing beside each other
	Down   int     // and below each other
	Scale  float64 // millimetres on paper to one of the sheet
	Points float64 // size of the smallest text of the drawing on paper
	Remark string  // what a person should know of it, in a sentence; mostly empty
}

const (
	leastPoints  = 6.0  // of a text that people are to read on paper: common practice, no source
	mostEnlarged = 2.0  // that a small drawing is made to fit a large paper
	mostSheets   = 100  // of one drawing
	overlap      = 4.0  // of neighbouring sheets on either side, mm on paper
	bandHeight   = 4.6  // of what says where the drawing goes on, mm
	stripApart   = 3.0  // between the drawing and what explains it, mm
	narrowest    = 180  // room of a page made for the drawing, mm: that of a title block
	widest       = 4500 // that the drawing is on a page made for it, mm: readers of PDF take 5080 (ISO 32000-1:2008, annex C.2)
	notesShare   = 0.3  // of the height that legend and notes may take; else notes have a page of their own
)

// layout is a drawing that is being laid out.
type layout struct {
	of Drawing
	Sheets
	picture *draw.Picture
	bounds  geom.Rect
	legend  []scene.LegendEntry
	onePage bool
	apart   bool      // the notes stand on a page of their own
	xs, ys  []float64 // where it is cut, both ends among them
}

// Sheets lays the drawing out for a format: over several sheets where its text would
// be too small on one, or its scale asks for them. A format that has one page alone
// gets one as large as it needs. What would take too many sheets is an error.
func (d Drawing) Sheets(format Format) (Sheets, error) {
	l := layout{of: d, onePage: format != PDF}
	l.draw()
	l.Frame = page.Frame{Paper: d.Paper, Head: d.head(), Caution: mark.Caution, Palette: d.Palette}
	if d.Paper.Name != "" {
		if err := l.divide(); err != nil {
			return Sheets{}, err
		}
	}
	if d.Paper.Name == "" || l.onePage && l.several() {
		l.ownPaper(format)
	}
	l.paint()
	l.Points = l.smallest() * l.Scale
	if l.Points < leastPoints-1e-9 {
		l.Remark = fmt.Sprintf("the smallest text has %.1f points on paper, which is hard to read; use a larger scale or paper", l.Points)
	}
	return l.Sheets, nil
}

// draw makes the picture and its legend.
func (l *layout) draw() {
	marks := scene.Marks{}
	if !l.of.Plain {
		marks = mark.Of(l.of.Document, l.of.Result, l.of.Convention)
	}
	l.legend = marks.Legend
	l.picture = scene.New(l.of.Document, l.of.Result.Plan, marks, scene.Options{Convention: l.of.Convention}).Picture()
	if l.bounds = l.picture.Bounds(); l.bounds.IsEmpty() {
		l.bounds = geom.Rect{}
	}
}

// smallest returns the size of the smallest text of the drawing, points at full size.
func (l *layout) smallest() float64 {
	least := math.Inf(1)
	for _, item := range l.picture.Items() {
		switch {
		case item.Text != nil:
			least = min(least, item.Text.Size)
		case item.Stamp != nil:
			for _, part := range item.Stamp.Picture.Items() {
				if part.Text != nil {
					least = min(least, part.Text.Size)
				}
			}
		}
	}
	if math.IsInf(least, 1) {
		least = inchMM
	}
	return least / inchMM * 72
}

// divide finds the scale and how many sheets of the paper it takes.
func (l *layout) divide() error {
	room := l.room(false)
	size := geom.Pt(l.bounds.Width(), l.bounds.Height())
	fit := page.Fit(size, geom.Pt(room.Width(), room.Height()), mostEnlarged)
	least := leastPoints / l.smallest()
	l.Across, l.Down, l.Scale = 1, 1, fit
	switch {
	case l.of.Scale > 0:
		l.Scale = l.of.Scale
	case fit < least:
		l.Scale = least
	}
	if l.Scale > fit*(1+1e-9) {
		l.share(size, least)
	}
	if l.Across*l.Down > mostSheets && !l.onePage {
		return fmt.Errorf("the drawing would take %d sheets of %s at a scale of %.3g; choose larger paper or a smaller scale", l.Across*l.Down, l.Frame.Paper.Name, l.Scale)
	}
	return nil
}

// share shares the drawing out over sheets, and draws it as large as these allow where
// nobody says how large.
func (l *layout) share(size geom.Point, least float64) {
	room := l.usable()
	number := func(length, room float64) int { return max(1, int(math.Ceil(length*l.Scale/room-1e-9))) }
	l.Across, l.Down = number(size.X, room.X), number(size.Y, room.Y)
	if l.of.Scale > 0 {
		return
	}
	const slack = 0.85 // for cuts where they cross little
	l.Scale = max(least, page.Fit(size, geom.Pt(float64(l.Across)*room.X*slack, float64(l.Down)*room.Y*slack), mostEnlarged))
}

// usable returns how much of a drawing over several sheets lies on each, mm on paper.
func (l *layout) usable() geom.Point {
	room := l.room(true)
	return geom.Pt(room.Width()-2*overlap, room.Height()-2*overlap)
}

// room returns where the drawing lies on a page, given whether it is one of several.
func (l *layout) room(several bool) geom.Rect {
	_, room := l.Frame.Begin()
	k, all := l.Frame.Paper.Enlarged(), room.Height()
	height := l.stripHeight(room.Width(), several)
	if height > notesShare*all && l.of.notes() != "" && !l.onePage {
		l.apart = true
		height = l.stripHeight(room.Width(), several)
	}
	if height > 0 {
		room.Max.Y -= height + stripApart*k
	}
	if several {
		room.Min.Y, room.Max.Y = room.Min.Y+bandHeight*k, room.Max.Y-bandHeight*k
	}
	return room
}

// ownPaper makes a page as large as the drawing needs.
func (l *layout) ownPaper(format Format) {
	if l.of.Paper.Name != "" {
		l.Remark = fmt.Sprintf("the drawing does not fit on %s at a size that can be read; %s has one page, so it is made as large as it needs", l.of.Paper.Name, format.name())
	} else if l.Scale = l.of.Scale; l.Scale <= 0 {
		l.Scale = 1
	}
	l.Scale = page.Fit(geom.Pt(l.bounds.Width(), l.bounds.Height()), geom.Pt(widest, widest), l.Scale)
	const high = 1000 // that the head, the strip and the foot lie on for sure
	l.Across, l.Down, l.apart, l.onePage = 1, 1, false, true
	l.Frame.Paper = page.Paper{Size: geom.Pt(max(narrowest, l.bounds.Width()*l.Scale)+2*page.Margin, high)}
	l.Frame.Paper.Size.Y += l.bounds.Height()*l.Scale - l.room(false).Height()
}

// paint draws the pages.
func (l *layout) paint() {
	l.xs, l.ys = []float64{l.bounds.Min.X, l.bounds.Max.X}, []float64{l.bounds.Min.Y, l.bounds.Max.Y}
	if l.several() {
		usable := l.usable().Mul(1 / l.Scale)
		items := l.picture.Items()
		l.xs = cuts(l.xs[0], l.xs[1], usable.X, l.Across, crossings(items, func(p geom.Point) float64 { return p.X }))
		l.ys = cuts(l.ys[0], l.ys[1], usable.Y, l.Down, crossings(items, func(p geom.Point) float64 { return p.Y }))
	}
	for row := range l.Down {
		for column := range l.Across {
			l.sheet(column, row)
		}
	}
	if l.apart {
		notes := page.Document{Frame: l.Frame, Blocks: []page.Block{page.Heading{Text: "What the verdicts rest on"}, page.Paragraph{Text: l.of.notes()}}}
		l.Pages = append(l.Pages, notes.Lay()...)
	}
	for i, p := range l.Pages {
		l.Frame.Number(p.Picture, i+1, len(l.Pages), "sheet")
	}
}

func (l *layout) several() bool { return l.Across*l.Down > 1 }

// tile returns the part of the drawing that a sheet has.
func (l *layout) tile(column, row int) geom.Rect {
	return geom.Rect{Min: geom.Pt(l.xs[column], l.ys[row]), Max: geom.Pt(l.xs[column+1], l.ys[row+1])}
}

// sheet draws one sheet: its part of the drawing, what is round it, what explains it.
func (l *layout) sheet(column, row int) {
	p, all := l.Frame.Begin()
	room, k, tile := l.room(l.several()), l.Frame.Paper.Enlarged(), l.tile(column, row)
	part, window := l.picture, tile
	if l.several() {
		window = tile.Grow(overlap / l.Scale).Intersect(l.bounds)
		part = draw.Clip(part, window)
	}
	place := geom.Scale(l.Scale).Then(geom.Translate(room.Center().Sub(window.Center().Mul(l.Scale))))
	p.Append(part, place)
	strip, height := l.strip(all.Width()/k, l.several())
	p.Append(strip, geom.Scale(k).Then(geom.Translate(geom.Pt(all.Min.X, all.Max.Y-height*k))))
	if l.several() {
		l.edges(p, column, row, place.ApplyRect(tile), place.ApplyRect(window), room)
		l.keyMap(p, geom.RectOf(all.Max.Sub(geom.Pt(mapWidth, mapHeight).Mul(k)), all.Max), column, row)
	}
	l.Pages = append(l.Pages, page.Page{Picture: p})
}
