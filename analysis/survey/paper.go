package survey

import (
	"errors"
	"io"
	"time"

	"clampline/diagram/draw"
	"clampline/diagram/page"
)

// laid returns the pages to print, in turn: a board has one, and others where it has
// more protectors than fit.
func laid(sheets []Sheet) []*canvas {
	var all []*canvas
	for _, s := range sheets {
		all = append(all, pages(s)...)
	}
	for i, v := range all {
		v.round.Number(v.picture, i+1, len(all), "page")
	}
	return all
}

// Pages returns the pages to print, each with its origin at the corner of the usual
// paper of the sheets' convention.
func Pages(sheets []Sheet) []*draw.Picture {
	var out []*draw.Picture
	for _, v := range laid(sheets) {
		out = append(out, v.picture)
	}
	return out
}

// WritePDF writes the pages as a PDF. Without sheets it is an error.
func WritePDF(w io.Writer, sheets []Sheet) error {
	if len(sheets) == 0 {
		return errors.New("there is no board to survey; place a panel or a switchboard first")
	}
	var out []page.Page
	for _, v := range laid(sheets) {
		out = append(out, page.Page{Picture: v.picture, Marks: nil})
	}
	frame := frameOf(sheets[0], "survey sheets")
	frame.Head.Title = sheets[0].Title
	frame.Head.Kind = "survey sheets"
	return page.WritePDF(w, frame, out, time.Time{})
}
