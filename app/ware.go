package app

import (
	"context"
	"io"
	"strings"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/analysis/report"
	"clampline/diagram"
	"clampline/diagram/page"
)

// ware is something that is handed over, as the dialog for that offers it.
type ware struct {
	name, title, about string
	formats            []report.Format
	takes              report.Takes
	drawn              bool // it is a drawing, which may be plain and turned
	formatOf           func(path string) (report.Format, error)
	pages              func(*order) ([]page.Page, error)
	write              func(*order, io.Writer, report.Format) error
}

// order is what is handed over: the work and how the drawing of it is.
type order struct {
	report.Work
	landscape, plain bool
}

// wares returns all that is handed over, the drawing first.
func wares() []ware {
	out := []ware{{
		name: "drawing", title: "Drawing", about: "the one-line diagram with title block and legend", formats: report.Formats(), formatOf: report.FormatOf, drawn: true,
		pages: func(o *order) ([]page.Page, error) {
			sheets, err := o.drawing().Sheets(report.PDF)
			return sheets.Pages, err
		},
		write: func(o *order, w io.Writer, f report.Format) error { return o.drawing().Write(w, f) },
	}}
	for _, d := range report.Deliverables() {
		out = append(out, ware{
			name: d.Name, title: d.Title, about: d.About, formats: d.Formats, formatOf: d.FormatOf, takes: d.Takes,
			pages: func(o *order) ([]page.Page, error) { return d.Pages(&o.Work) },
			write: func(o *order, w io.Writer, f report.Format) error { return d.Write(w, &o.Work, f) },
		})
	}
	return out
}

func (o *order) drawing() report.Drawing {
	paper := o.Paper
	if o.landscape {
		paper = paper.Landscape()
	}
	return report.Drawing{
		Document: o.Document, Result: o.Result, Convention: o.Convention, Palette: report.Light(),
		DotsPerInch: exportDotsPerInch, Paper: paper, Plain: o.plain, Date: o.Date,
	}
}

// solve finds the result of a plan, unless it is known, and what a ware takes besides.
func (o *order) solve(ctx context.Context, plan diagram.ID, basis analysis.Basis, takes report.Takes, progress func(share float64)) error {
	engine := &assess.Engine{}
	if o.Result == nil {
		in, err := compare.Solve(ctx, engine, compare.Input{Document: o.Document, Plans: []diagram.ID{plan}, Basis: basis, Progress: progress})
		if err != nil {
			return err
		}
		o.Result = in.Known[plan]
	}
	return o.Solve(ctx, engine, takes, progress)
}

// formatWords says what a format is to people.
func formatWords(f report.Format) string {
	kind := map[report.Format]string{
		report.PNG: "picture", report.SVG: "drawing", report.PDF: "page", report.DXF: "drawing", report.XLSX: "workbook", report.CSV: "table",
	}[f]
	return strings.ToUpper(strings.TrimPrefix(string(f), ".")) + " " + kind
}

// typesOf returns formats as types of a file.
func typesOf(formats ...report.Format) []fileType {
	var out []fileType
	for _, f := range formats {
		out = append(out, fileType{formatWords(f) + " (*" + string(f) + ")", string(f)})
	}
	return out
}
