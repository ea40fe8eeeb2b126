package report

import (
	"fmt"
	"image/color"
	"io"
	"strings"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/dxf"
	"clampline/diagram/draw/raster"
	"clampline/diagram/draw/svg"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// Formats returns every format of a drawing, the one that most people can open first.
func Formats() []Format { return []Format{PDF, PNG, SVG, DXF} }

// Endings lists the endings of the formats within a sentence.
const Endings = ".pdf, .png, .svg or .dxf"

// FormatOf returns the format of a drawing that the ending of the path names.
func FormatOf(path string) (Format, error) { return formatOf(path, Formats()) }

const inchMM = 25.4

// Drawing is a sheet with the result of one plan, laid out with a title block, the
// legend and the cautions.
type Drawing struct {
	Document    *diagram.Document
	Result      *analysis.Result
	Convention  unit.Convention
	Palette     draw.Palette
	DotsPerInch float64 // of a PNG; above 0

	Paper page.Paper // without a name as large as the drawing needs
	Scale float64    // millimetres on paper to one of the sheet; 0 for what fits
	Plain bool       // without verdicts, as an electrician draws it
	Date  time.Time  // of issue, and of the file; the zero time leaves both to the sheet
}

// Light returns the palette for a drawing to print: light, on white.
func Light() draw.Palette {
	palette := draw.Light()
	palette[draw.RolePaper] = color.NRGBA{255, 255, 255, 255}
	return palette
}

// Title returns what the drawing is of: sheet, plan and basis.
func (d Drawing) Title() string { return SheetTitle(d.Document) + " · " + d.kind() }

// kind returns what the drawing is, in the words of its title block.
func (d Drawing) kind() string {
	out := "one-line diagram · plan " + unit.Visible(d.Document.NameOf(d.Result.Plan))
	if d.Plain {
		return out
	}
	return out + " · " + string(d.Result.Basis)
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

// notes returns what the verdicts on the drawing rest on: the surge cases and what is
// set aside. A plain drawing has none.
func (d Drawing) notes() string {
	if d.Plain {
		return ""
	}
	return strings.Trim(strings.Join(append([]string{d.Cases()}, d.asides()...), "\n"), "\n")
}

// head returns the title block.
func (d Drawing) head() page.Head {
	return headOf(d.Document.Info(), d.kind(), SheetTitle(d.Document), d.Date)
}

// headOf returns the title block of a sheet, of the date where the sheet names none.
func headOf(info diagram.Info, kind, title string, date time.Time) page.Head {
	out := page.HeadOf(info, kind, title)
	if out.Date == "" && !date.IsZero() {
		out.Date = date.Format("2 Jan 2006")
	}
	return out
}

// Write writes the drawing. PDF has a page for each sheet that the paper makes of it;
// the others hold it on one.
func (d Drawing) Write(w io.Writer, format Format) error {
	sheets, err := d.Sheets(format)
	if err != nil {
		return err
	}
	if format == PDF {
		return page.WritePDF(w, sheets.Frame, sheets.Pages, d.Date)
	}
	picture := draw.NewPicture()
	picture.Fill(draw.Rectangle(geom.Rect{Max: sheets.Frame.Paper.Size}, 0), draw.RolePaper)
	picture.Begin("page")
	picture.Append(sheets.Pages[0].Picture, geom.Identity())
	picture.End()
	switch format {
	case SVG:
		about := strings.TrimSpace(d.notes() + "\n" + mark.Caution)
		return svg.Document{Palette: d.Palette, Title: d.Title(), Description: about}.Write(w, picture)
	case DXF:
		return dxf.Document{Palette: d.Palette, Layer: d.layer}.Write(w, picture)
	}
	return raster.WritePNG(w, picture, d.Palette, d.DotsPerInch/inchMM, 0)
}

// layer returns the layer of what belongs to a record in a drawing program: bus,
// feeder, protector, or the kind of the part.
func (d Drawing) layer(group string) string {
	id := diagram.ID(group)
	part, isPart := d.Document.Part(id)
	_, isFeeder := d.Document.Feeder(id)
	_, isProtector := d.Document.Protector(id)
	switch {
	case isFeeder:
		return "feeder"
	case isProtector:
		return "protector"
	case isPart && (part.Kind.IsBoard() || part.Kind == diagram.Junction):
		return "bus"
	case isPart:
		return strings.ReplaceAll(string(part.Kind), " ", "-")
	case group == "page":
		return group
	}
	return ""
}
