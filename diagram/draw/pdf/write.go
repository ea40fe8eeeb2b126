package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"codeberg.org/go-pdf/fpdf"

	"clampline/assets"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Page is one page of a document.
type Page struct {
	Picture *draw.Picture
	// Paper is the width and height of the page, in mm, with the picture's origin
	// at its top left corner.
	Paper     geom.Point
	Bookmarks []Bookmark
}

// Bookmark is an entry of the list of contents that readers show beside a document.
type Bookmark struct {
	Text string
	Y    float64 // where on the page, mm from its top
}

// Pages returns a page of the given paper for each picture.
func Pages(paper geom.Point, pictures ...*draw.Picture) []Page {
	out := make([]Page, len(pictures))
	for i, picture := range pictures {
		out[i] = Page{Picture: picture, Paper: paper}
	}
	return out
}

// Options says how a document is written.
type Options struct {
	Title       string
	Description string
	Author      string
	Palette     draw.Palette // the zero value draws on white paper, as for a printer
	Created     time.Time    // as the document's properties say; the zero value leaves it out
}

// Sizes of paper, upright, mm: ISO 216 and ANSI/ASME Y14.1.
var (
	A4     = geom.Pt(210, 297)
	Letter = geom.Pt(215.9, 279.4)
)

// largest is the greatest side of a page, mm: 14 400 points, which readers have as
// their limit (ISO 32000-1:2008, annex C.2).
const largest = 14400 * 25.4 / 72

// Write writes the pages as one document.
func Write(w io.Writer, pages []Page, options Options) error {
	if len(pages) == 0 {
		return errors.New("a document needs a page: there is nothing to write")
	}
	for i, page := range pages {
		if !sensible(page.Paper) {
			return fmt.Errorf("page %d: a paper of %g by %g mm; use sides above 0 and up to %.0f mm", i+1, page.Paper.X, page.Paper.Y, largest)
		}
	}
	if options.Palette == (draw.Palette{}) {
		options.Palette = draw.Light()
		options.Palette[draw.RolePaper] = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	}
	file := newFile(options)
	for _, page := range pages {
		addPage(file, page, options)
	}
	var out bytes.Buffer
	if err := file.Output(&out); err != nil {
		return err
	}
	written := out.Bytes()
	if options.Created.IsZero() {
		written = undated(written)
	}
	_, err := w.Write(written)
	return err
}

// sensible reports whether the paper is one.
func sensible(paper geom.Point) bool {
	side := func(v float64) bool { return v > 0 && v <= largest }
	return side(paper.X) && side(paper.Y)
}

// nominal is the date that the library is given where the document has none.
var nominal = time.UnixMilli(0).UTC()

const family = "DejaVu"

func newFile(options Options) *fpdf.Fpdf {
	file := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: A4.X, Ht: A4.Y}})
	file.SetCatalogSort(true)
	file.AddUTF8FontFromBytes(family, "", assets.FontRegular())
	file.AddUTF8FontFromBytes(family, "B", assets.FontBold())
	for _, property := range []struct {
		text string
		set  func(string, bool)
	}{{unit.Visible(options.Title), file.SetTitle}, {unit.Visible(options.Description), file.SetSubject}, {unit.Visible(options.Author), file.SetAuthor}, {"Clampline", file.SetProducer}} {
		if property.text != "" {
			property.set(plain(property.text), true)
		}
	}
	created := nominal
	if !options.Created.IsZero() {
		created = options.Created
	}
	file.SetCreationDate(created)
	file.SetModificationDate(created)
	return file
}

// addPage paints one page.
func addPage(file *fpdf.Fpdf, page Page, options Options) {
	// An upright page keeps its sides as they are given, whichever is longer.
	file.AddPageFormat("P", fpdf.SizeType{Wd: page.Paper.X, Ht: page.Paper.Y})
	file.SetLineJoinStyle("round")
	p := &painter{file: file, palette: options.Palette, alpha: 255}
	p.paper(page.Paper)
	draw.Paint(page.Picture, p)
	for _, b := range page.Bookmarks {
		file.SetFont(family, "", 0) // else the library takes the text for another encoding
		file.Bookmark(plain(unit.Visible(b.Text)), 0, b.Y)
	}
}

// undated blanks the dates, which the library does not leave out. Nothing moves
// by it, so that the places of objects stay as they are listed.
func undated(file []byte) []byte {
	for _, name := range []string{"/CreationDate", "/ModDate"} {
		entry := []byte(name + " (D:" + nominal.Format("20060102150405") + ")")
		if at := bytes.LastIndex(file, entry); at >= 0 {
			copy(file[at:], bytes.Repeat([]byte{' '}, len(entry)))
		}
	}
	return file
}

// plain returns s as the library can take it: valid, and within the basic
// plane of Unicode.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xffff {
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
}
