package survey

import (
	"fmt"
	"io"

	"clampline/diagram/draw"
	"clampline/diagram/draw/pdf"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Paper returns the paper that people of the convention have in their printers,
// upright, mm.
func Paper(c unit.Convention) geom.Point {
	if c == unit.IEC {
		return pdf.A4
	}
	return pdf.Letter
}

// Pages returns the pages to print, each with its origin at the corner of the
// Paper of the sheets' convention. A board has one page, and others where it has
// more protectors than fit.
func Pages(sheets []Sheet) []*draw.Picture {
	var all []*canvas
	for _, s := range sheets {
		all = append(all, pages(s)...)
	}
	out := make([]*draw.Picture, len(all))
	for i, v := range all {
		v.write(v.number, v.width(), fmt.Sprintf("Page %d of %d", i+1, len(all)), style{size: 2.6})
		out[i] = v.picture
	}
	return out
}

// WritePDF writes the pages as a PDF. Without sheets it is an error.
func WritePDF(w io.Writer, sheets []Sheet) error {
	options := pdf.Options{Title: "Survey sheets"}
	paper := pdf.A4
	if len(sheets) > 0 {
		paper = Paper(sheets[0].Convention)
		options.Title += " · " + sheets[0].Title
		options.Description = cautionText(sheets[0].Convention)
	}
	return pdf.Write(w, pdf.Pages(paper, Pages(sheets)...), options)
}
