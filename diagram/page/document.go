package page

import (
	"io"
	"time"

	"clampline/diagram/draw"
	"clampline/diagram/draw/pdf"
	"clampline/diagram/geom"
)

// Document is what is printed: a frame and blocks one below the other.
type Document struct {
	Frame
	Blocks []Block
	Word   string // what a page is called at its foot; empty for "page"
}

// Page is one page of a document.
type Page struct {
	Picture *draw.Picture
	Marks   []pdf.Bookmark // of the headings of the first level on it
}

// Block is something that stands on a page: the types of this package are all there
// are. A block that has nothing to say takes no room.
type Block interface {
	// lay returns the block as pieces of the room's width that are not torn. A piece
	// is no higher than the room.
	lay(room geom.Point) []piece
}

// piece is part of a block that stays on one page.
type piece struct {
	picture *draw.Picture // its origin is its top left corner
	height  float64
	before  float64 // distance from what stands above it
	keep    bool    // it stays on the page of the next piece
	again   *piece  // stands above it where it is the first of its page
	breaks  bool    // it begins a page
	mark    string  // of a reader's list of contents
}

// Pages lays the document out, each page with its number. There is at least one.
func (d Document) Pages() []Page {
	pages := d.Lay()
	for i, p := range pages {
		d.Number(p.Picture, i+1, len(pages), d.Word)
	}
	return pages
}

// Lay is Pages without their numbers, for pages that others stand beside.
func (d Document) Lay() []Page {
	f := flow{frame: d.Frame}
	f.next()
	var pieces []piece
	for _, b := range d.Blocks {
		pieces = append(pieces, b.lay(geom.Pt(f.room.Width(), f.room.Height()))...)
	}
	for len(pieces) > 0 {
		run := 1
		for run < len(pieces) && pieces[run-1].keep {
			run++
		}
		f.place(pieces[:run])
		pieces = pieces[run:]
	}
	return f.pages
}

// Stack returns blocks one below the other in a width, as a picture with its origin at
// their top left corner, and how high they are: for what lays itself out.
func Stack(width float64, blocks ...Block) (*draw.Picture, float64) {
	const endless = 1e5
	return stack(geom.Pt(width, endless), blocks)
}

func stack(room geom.Point, blocks []Block) (*draw.Picture, float64) {
	p, y := draw.NewPicture(), 0.0
	for _, b := range blocks {
		for _, one := range b.lay(room) {
			if y > 0 {
				y += one.before
			}
			if one.picture != nil {
				p.Append(one.picture, geom.Translate(geom.Pt(0, y)))
			}
			y += one.height
		}
	}
	return p, y
}

// flow is a document that is being laid out.
type flow struct {
	frame Frame
	pages []Page
	room  geom.Rect
	y     float64
	fresh bool // nothing stands on the page yet
}

// next begins a page.
func (f *flow) next() {
	p, room := f.frame.Begin()
	f.pages = append(f.pages, Page{Picture: p})
	f.room, f.y, f.fresh = room, room.Min.Y, true
}

// place puts pieces that stay together on the page, or on the next one. Pieces that
// are together higher than a page are parted.
func (f *flow) place(run []piece) {
	height := 0.0
	for i, p := range run {
		height += p.height
		if i > 0 || !f.fresh {
			height += p.before
		}
	}
	const rounding = 1e-6
	if !f.fresh && (run[0].breaks || f.y+height > f.room.Max.Y+rounding) {
		f.next()
	}
	for _, p := range run {
		if !f.fresh && f.y+p.before+p.height > f.room.Max.Y+rounding {
			f.next()
		}
		f.put(p)
	}
}

// put draws a piece where the page is at.
func (f *flow) put(p piece) {
	if f.fresh && p.again != nil {
		f.draw(*p.again)
	} else if !f.fresh {
		f.y += p.before
	}
	f.draw(p)
}

func (f *flow) draw(p piece) {
	at := &f.pages[len(f.pages)-1]
	if p.mark != "" {
		at.Marks = append(at.Marks, pdf.Bookmark{Text: p.mark, Y: f.y})
	}
	if p.picture != nil {
		at.Picture.Append(p.picture, geom.Translate(geom.Pt(f.room.Min.X, f.y)))
	}
	f.y += p.height
	f.fresh = f.fresh && p.height == 0
}

// WritePDF writes the pages as a PDF of the date; the zero time leaves it undated.
func (d Document) WritePDF(w io.Writer, created time.Time) error {
	return WritePDF(w, d.Frame, d.Pages(), created)
}

// WritePDF writes pages as a PDF that says of itself what the frame's head does.
func WritePDF(w io.Writer, f Frame, pages []Page, created time.Time) error {
	out := make([]pdf.Page, len(pages))
	for i, p := range pages {
		out[i] = pdf.Page{Picture: p.Picture, Paper: f.Paper.Size, Bookmarks: p.Marks}
	}
	return pdf.Write(w, out, pdf.Options{
		Title: joined(" · ", f.Head.Title, f.Head.Kind), Description: oneLine(f.Caution), Author: joined(", ", f.Head.DrawnBy, f.Head.Firm), Created: created, Palette: f.Palette,
	})
}
