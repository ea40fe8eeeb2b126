package survey

import (
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
// Paper of the sheets' convention. A board has one page, and another where it
// has more protectors than fit.
func Pages(sheets []Sheet) []*draw.Picture {
	of := 0
	for _, s := range sheets {
		of += 1 + continued(s)
	}
	var out []*draw.Picture
	for _, s := range sheets {
		out = append(out, form(s, len(out)+1, of))
		for part := range continued(s) {
			out = append(out, continuation(s, part, len(out)+1, of))
		}
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
