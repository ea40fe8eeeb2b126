package report

import (
	"fmt"
	"image/color"
	"io"
	"path/filepath"
	"strings"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/pdf"
	"clampline/diagram/draw/raster"
	"clampline/diagram/draw/svg"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// Format is how a drawing is written.
type Format string

// The formats, which are also the endings of their files.
const (
	PNG Format = ".png"
	SVG Format = ".svg"
	PDF Format = ".pdf"
)

// FormatOf returns the format that the ending of the path names.
func FormatOf(path string) (Format, error) {
	ending := strings.ToLower(filepath.Ext(path))
	switch format := Format(ending); format {
	case PNG, SVG, PDF:
		return format, nil
	}
	return "", fmt.Errorf("%q: the ending says the format; use .pdf, .png or .svg", path)
}

const (
	marginMM = 8.0 // round a drawing
	inchMM   = 25.4
)

// Drawing is a sheet with the result of one plan.
type Drawing struct {
	Document    *diagram.Document
	Result      *analysis.Result
	Convention  unit.Convention
	Palette     draw.Palette
	DotsPerInch float64 // of a PNG; above 0
}

// Paper returns the palette for a drawing to print: light, on white.
func Paper() draw.Palette {
	palette := draw.Light()
	palette[draw.RolePaper] = color.NRGBA{255, 255, 255, 255}
	return palette
}

// Title returns what stands under the drawing: sheet, plan and basis.
func (d Drawing) Title() string {
	return fmt.Sprintf("%s · plan %s · %s", SheetTitle(d.Document), d.Document.NameOf(d.Result.Plan), d.Result.Basis)
}

// SheetTitle returns the title of the sheet, or words that stand for it.
func SheetTitle(doc *diagram.Document) string {
	if title := doc.Info().Title; title != "" {
		return unit.Visible(title)
	}
	return "Sheet without a title"
}

// mostCases is how many surge cases a drawing names.
const mostCases = 6

// Cases returns a line for each surge case that was solved, or what else stands
// for them; empty for the hand rule, which has none.
func (d Drawing) Cases() string {
	surges := d.Result.Surges
	var lines []string
	for i, s := range surges {
		if i == mostCases {
			lines = append(lines, fmt.Sprintf("and %d more surge cases.", len(surges)-mostCases))
			break
		}
		lines = append(lines, "Surge case "+unit.Words(assess.SurgeText(d.Document, s.Surge), d.Convention)+".")
	}
	if len(surges) > 1 {
		lines = append(lines, "At each place the worst of them counts.")
	}
	return strings.Join(lines, "\n")
}

// mostAside is how many findings that are set aside a drawing names.
const mostAside = 8

// asides says in a line each which findings are set aside, by whom and why.
func (d Drawing) asides() []string {
	var out []string
	for i, a := range d.Result.Aside {
		if i == mostAside {
			return append(out, fmt.Sprintf("And %d more are set aside.", len(d.Result.Aside)-mostAside))
		}
		out = append(out, "Set aside: "+unit.Words(a.What, d.Convention)+": "+analysis.Said(a.By)+".")
	}
	return out
}

// foot returns what stands below the title: the surge cases, what is set aside and
// the caution.
func (d Drawing) foot() string {
	return strings.TrimLeft(strings.Join(append(append([]string{d.Cases()}, d.asides()...), mark.Caution), "\n"), "\n")
}

// Write writes the drawing with legend, surge cases and cautions.
func (d Drawing) Write(w io.Writer, format Format) error {
	marks := mark.Of(d.Document, d.Result, d.Convention)
	placed := scene.New(d.Document, d.Result.Plan, marks, scene.Options{Convention: d.Convention})
	picture := placed.Export(d.Title(), d.foot())
	switch format {
	case SVG:
		return svg.Document{Palette: d.Palette, Margin: marginMM, Title: d.Title(), Description: d.foot()}.Write(w, picture)
	case PDF:
		options := pdf.Options{Title: d.Title(), Description: d.foot(), Author: d.Document.Info().Author, Palette: d.Palette, Margin: marginMM}
		return pdf.Write(w, []pdf.Page{{Picture: picture}}, options)
	}
	return raster.WritePNG(w, picture, d.Palette, d.DotsPerInch/inchMM, marginMM)
}
