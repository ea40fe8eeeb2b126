package page

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	_ "image/jpeg" // a logo may be one
	_ "image/png"
	"math"
	"strings"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Head is the title block at the top of a page. What is empty is left out.
type Head struct {
	Logo          []byte // a PNG or JPEG
	Firm, Address string
	Kind          string // what the document is: "proposal"
	Title         string
	Date          string // of issue, as people write it
	Revision      string
	Site          string
	Sheet         string // its number
	DrawnBy       string
}

// HeadOf returns the head that a sheet says of itself, for a document of the kind with
// its own title.
func HeadOf(info diagram.Info, kind, title string) Head {
	return Head{
		Logo: info.Issue.LogoFile(), Firm: info.Issue.Firm, Address: info.Issue.Address, Kind: kind, Title: title,
		Date: info.Issue.Date, Revision: info.Issue.Revision, Site: info.Site, Sheet: info.Issue.Number, DrawnBy: info.Author,
	}
}

// Frame is what is alike on all pages of a document.
type Frame struct {
	Paper   Paper
	Head    Head
	Caution string       // at the foot of each page, never cut
	Palette draw.Palette // the zero value is for white paper
	Tight   bool         // for pages that are full: a title of one line, smaller and cut where it must be, and narrower margins above and below
}

// Margin is how much of a page is left free round it, on A4, mm.
const Margin = 12.0

// Sizes of a frame on A4, mm.
const (
	logoHeight = 13.0
	logoWidth  = 32.0
	logoApart  = 4.0
	mostTitle  = 3 // lines
)

// Begin returns a page with head and foot but without its number, and the room between
// them.
func (f Frame) Begin() (*draw.Picture, geom.Rect) {
	p, k := draw.NewPicture(), f.Paper.Enlarged()
	room := f.inner()
	room.Min.Y += f.head(p, room, k)
	room.Max.Y -= f.foot(p, room, k)
	return p, room
}

// inner returns a page without its margins, those above and below narrower where it
// is tight.
func (f Frame) inner() geom.Rect {
	k := f.Paper.Enlarged()
	out := geom.Rect{Max: f.Paper.Size}.Grow(-Margin * k)
	if f.Tight {
		out.Min.Y, out.Max.Y = out.Min.Y-2*k, out.Max.Y+2*k
	}
	return out
}

// apart is how far the head and the foot are from what lies between them, on A4.
func (f Frame) apart() float64 {
	if f.Tight {
		return 2.4
	}
	return 4
}

// head draws the title block at the top of the room and returns its height.
func (f Frame) head(p *draw.Picture, room geom.Rect, k float64) float64 {
	h, small, title := f.Head, faintType.scaled(k), titleType.scaled(k)
	left := room.Min.X
	if logo := drawImage(p, h.Logo, room.Min, geom.Pt(logoWidth, logoHeight).Mul(k)); logo.X > 0 {
		left += logo.X + logoApart*k
	}
	y, wide := room.Min.Y, room.Max.X-left
	pair(p, geom.Pt(left, y), wide, small, joined(", ", h.Firm, h.Address), joined(" · ", h.Kind, joined(", ", h.Date, worded("revision ", h.Revision))))
	y += small.line()
	above := 2.2 // the rule
	if f.Tight {
		title.tight, above = true, 1.4
		Write(p, geom.Pt(left, y+title.baseline()), wide, oneLine(h.Title), title)
		y += title.line()
	} else {
		y += lines(p, geom.Pt(left, y), wide, most(title.wrap(oneLine(h.Title), wide), mostTitle, wide, title), title)
	}
	site, by := worded("Site: ", h.Site), joined(" · ", worded("sheet ", h.Sheet), worded("drawn by ", h.DrawnBy))
	if site+by != "" {
		pair(p, geom.Pt(left, y), wide, small, site, by)
		y += small.line()
	}
	if left > room.Min.X {
		y = max(y, room.Min.Y+logoHeight*k)
	}
	y += above * k
	rule(p, room.Min.X, room.Max.X, y, draw.RoleInk, 0.45*k)
	return y - room.Min.Y + f.apart()*k
}

// pair writes one text at the left and one at the right of a line. Each has the room
// that the other leaves, or half of it.
func pair(p *draw.Picture, at geom.Point, width float64, t Type, left, right string) {
	const between = 4
	rightWidth := min(t.width(right), max(width/2, width-between-t.width(left)))
	y := at.Y + t.baseline()
	Write(p, geom.Pt(at.X, y), width-rightWidth-between, left, t)
	Write(p, geom.Pt(at.X+width, y), rightWidth+1e-9, right, t.aligned(draw.Right))
}

// joined returns what is not empty of texts, on one line.
func joined(between string, texts ...string) string {
	var out []string
	for _, text := range texts {
		if text != "" {
			out = append(out, oneLine(text))
		}
	}
	return strings.Join(out, between)
}

// oneLine returns a text on one line, what acts on readers shown.
func oneLine(text string) string {
	return strings.Join(strings.FieldsFunc(unit.VisibleLines(text), isLineEnd), " ")
}

func isLineEnd(r rune) bool { return r == '\n' || r == '\r' }

// worded returns a text behind the word that says what it is, or nothing.
func worded(word, text string) string {
	if text == "" {
		return ""
	}
	return joined("", word+text)
}

// drawImage draws an image in a corner as large as fits, and returns its size: none
// where there is none.
func drawImage(p *draw.Picture, file []byte, at, room geom.Point) geom.Point {
	size, _, err := image.DecodeConfig(bytes.NewReader(file))
	if err != nil || size.Width < 1 || size.Height < 1 {
		return geom.Point{}
	}
	natural := geom.Pt(float64(size.Width), float64(size.Height))
	fit := natural.Mul(math.Min(room.X/natural.X, room.Y/natural.Y))
	p.Image(draw.Image{Data: string(file), Box: geom.RectOf(at, at.Add(fit))})
	return fit
}

// numberRoom is the width that the number of a page takes at the foot of A4, mm.
const numberRoom = 26.0

// foot draws the caution at the bottom of the room and returns its height.
func (f Frame) foot(p *draw.Picture, room geom.Rect, k float64) float64 {
	t, texts := footType.scaled(k), f.footLines(k)
	height := float64(len(texts))*t.line() + 2*k
	rule(p, room.Min.X, room.Max.X, room.Max.Y-height, draw.RoleGrid, 0.3*k)
	lines(p, geom.Pt(room.Min.X, room.Max.Y-height+2*k), room.Width(), texts, t)
	return height + f.apart()*k
}

// footLines returns the caution in lines, the first of them beside the number of the
// page; there is one at least.
func (f Frame) footLines(k float64) []string {
	t, width := footType.scaled(k), f.inner().Width()
	first, rest, _ := strings.Cut(f.Caution, "\n")
	beside := t.wrap(first, width-numberRoom*k)
	if len(beside) == 0 {
		return append([]string{""}, t.wrap(rest, width)...)
	}
	out := append(beside[:1:1], t.wrap(strings.Join(beside[1:], " "), width)...)
	return append(out, t.wrap(rest, width)...)
}

// Number writes the number of a page at its foot: "page 2 of 5". The word is that of the
// document, "page" where it is empty.
func (f Frame) Number(p *draw.Picture, number, of int, word string) {
	k := f.Paper.Enlarged()
	t, foot := faintType.scaled(k).aligned(draw.Right), footType.scaled(k)
	corner := f.inner().Max
	y := min(corner.Y-float64(len(f.footLines(k)))*foot.line()+foot.baseline(), corner.Y-draw.Descent(t.Size))
	Write(p, geom.Pt(corner.X, y), (numberRoom-2)*k, fmt.Sprintf("%s %d of %d", cmp.Or(word, "page"), number, of), t)
}
