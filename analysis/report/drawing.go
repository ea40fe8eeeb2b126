package report

import (
	"fmt"
	"image/color"
	"io"
	"path/filepath"
	"strings"

	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/draw"
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
)

// FormatOf returns the format that the ending of the path names.
func FormatOf(path string) (Format, error) {
	ending := strings.ToLower(filepath.Ext(path))
	switch format := Format(ending); format {
	case PNG, SVG:
		return format, nil
	}
	return "", fmt.Errorf("%q: the ending says the format; use .png or .svg", path)
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
		return title
	}
	return "Sheet without a title"
}

// Write writes the drawing with legend and cautions.
func (d Drawing) Write(w io.Writer, format Format) error {
	marks := mark.Of(d.Document, d.Result, d.Convention)
	placed := scene.New(d.Document, d.Result.Plan, marks, scene.Options{Convention: d.Convention})
	picture := placed.Export(d.Title(), mark.Caution)
	if format == SVG {
		return svg.Document{Palette: d.Palette, Margin: marginMM, Title: d.Title(), Description: mark.Caution}.Write(w, picture)
	}
	return raster.WritePNG(w, picture, d.Palette, d.DotsPerInch/inchMM, marginMM)
}
