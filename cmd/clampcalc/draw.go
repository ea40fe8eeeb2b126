package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"clampline/analysis/report"
	"clampline/diagram/draw"
	"clampline/diagram/page"
)

// drawOptions is the options of draw.
type drawOptions struct {
	to                     output
	dotsPerInch            float64
	paper, scale, date     string
	landscape, plain, dark bool
}

const drawLong = `draw draws the sheet with its title block, verdicts, legend and cautions. The ending
of the output file says the format: ` + report.Endings + `.

Without --paper the page is as large as the drawing. On paper a PDF takes several
sheets, with match lines and a key map, where its text would be smaller than 6 points on
one; the other formats have one page, which is then as large as it needs. --scale says
how large: 1 is as on the sheet, 0.5 half of that.

A DXF has layers by what is drawn (bus, feeder, load, protector, text …), in millimetres.
` + statuses

func drawCommand() *cobra.Command {
	var from source
	var o drawOptions
	cmd := &cobra.Command{
		Use:     "draw FILE -o DRAWING",
		Short:   "draw the sheet as PDF, PNG, SVG or DXF",
		Long:    drawLong,
		Example: "  clampcalc draw tern-quay.clampline -o tern-quay.svg\n  clampcalc draw tern-quay.clampline -o tern-quay.pdf --paper letter --landscape --date 2026-11-02\n  clampcalc draw tern-quay.clampline -o tern-quay.png --dpi 200 --dark",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			format, made, err := o.check()
			if err != nil {
				return err
			}
			if err := o.to.check(); err != nil {
				return err
			}
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			made.Document, made.Result, made.Convention = s.doc, s.result, s.convention
			if err := o.to.write(cmd.OutOrStdout(), func(w io.Writer) error { return made.Write(w, format) }); err != nil {
				return err
			}
			return o.remark(cmd.ErrOrStderr(), made, format)
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	o.flags(cmd)
	return cmd
}

func (o *drawOptions) flags(cmd *cobra.Command) {
	o.to.flags(cmd, "the file to write, ending in "+report.Endings)
	cmd.Flags().StringVar(&o.paper, "paper", "", "size of the paper: "+strings.Join(paperNames(), ", ")+"; empty is as large as the drawing")
	cmd.Flags().BoolVar(&o.landscape, "landscape", false, "the paper lies on its longer side")
	cmd.Flags().StringVar(&o.scale, "scale", "fit", "millimetres on paper to one of the sheet, such as 0.8; fit is what the paper has room for")
	cmd.Flags().BoolVar(&o.plain, "plain", false, "without verdicts and legend")
	cmd.Flags().StringVar(&o.date, "date", "", "date of issue, as 2026-11-02, where the sheet names none, and of a PDF; empty leaves it out")
	cmd.Flags().Float64Var(&o.dotsPerInch, "dpi", 150, "resolution of a PNG, 20 to 1200")
	cmd.Flags().BoolVar(&o.dark, "dark", false, "draw on a dark background")
}

func paperNames() []string {
	var out []string
	for _, p := range page.Papers() {
		out = append(out, strings.ToLower(strings.ReplaceAll(p.Name, " ", "-")))
	}
	return out
}

// check looks at the options before any work is done, and returns a drawing of nothing
// that is made by them.
func (o *drawOptions) check() (report.Format, report.Drawing, error) {
	out := report.Drawing{Palette: report.Light(), DotsPerInch: o.dotsPerInch, Plain: o.plain}
	if o.dark {
		out.Palette = draw.Dark()
	}
	if o.to.path == "" {
		return "", out, usageError("draw: where to? add -o drawing.pdf, or another ending of %s", report.Endings)
	}
	format, err := report.FormatOf(o.to.path)
	if err != nil {
		return "", out, usageError("draw: %w", err)
	}
	if !(o.dotsPerInch >= 20 && o.dotsPerInch <= 1200) {
		return "", out, usageError("--dpi: %g is out of range; use 20 to 1200", o.dotsPerInch)
	}
	if out.Paper, err = o.paperOf(); err != nil {
		return "", out, usageError("--paper: %w", err)
	}
	if out.Scale, err = scaleOf(o.scale); err != nil {
		return "", out, err
	}
	if out.Date, err = dateOf(o.date); err != nil {
		return "", out, err
	}
	return format, out, nil
}

// paperOf returns the paper, which has no name where none is asked for.
func (o *drawOptions) paperOf() (page.Paper, error) {
	if o.paper == "" && !o.landscape {
		return page.Paper{}, nil
	}
	paper, err := page.PaperNamed(o.paper)
	if o.paper == "" {
		err = fmt.Errorf("of what size does it lie on its longer side? add one of %s", strings.Join(paperNames(), ", "))
	}
	if o.landscape {
		paper = paper.Landscape()
	}
	return paper, err
}

// scaleOf reads a scale; 0 is what fits.
func scaleOf(text string) (float64, error) {
	if text == "fit" {
		return 0, nil
	}
	var scale float64
	if n, err := fmt.Sscanf(text+"\n", "%g\n", &scale); n != 1 || err != nil || !(scale >= 0.05 && scale <= 20) {
		return 0, usageError("--scale: %q is no scale; use fit or a number from 0.05 to 20", text)
	}
	return scale, nil
}

// dateOf reads a day; no text is the zero time.
func dateOf(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return time.Time{}, usageError("--date: %q is no date; write it as 2026-11-02", text)
	}
	return day, nil
}

// remark tells what a person should know of how the drawing lies on its paper.
func (o *drawOptions) remark(errs io.Writer, made report.Drawing, format report.Format) error {
	sheets, err := made.Sheets(format)
	if err != nil {
		return fileError(err)
	}
	if sheets.Remark != "" {
		fmt.Fprintf(errs, "clampcalc: %s: %s\n", o.to.path, sheets.Remark)
	}
	return nil
}
