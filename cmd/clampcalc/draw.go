package main

import (
	"io"

	"github.com/spf13/cobra"

	"clampline/analysis/report"
	"clampline/diagram/draw"
)

func drawCommand() *cobra.Command {
	var from source
	var to output
	var dotsPerInch float64
	var dark bool
	cmd := &cobra.Command{
		Use:     "draw FILE -o DRAWING",
		Short:   "draw the sheet as PDF, PNG or SVG",
		Long:    "draw draws the sheet with its verdicts, legend and cautions. The ending of the\noutput file says the format: .pdf, .png or .svg.\n" + statuses,
		Example: "  clampcalc draw tern-quay.clampline -o tern-quay.svg\n  clampcalc draw tern-quay.clampline -o tern-quay.png --dpi 200 --dark",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			palette := report.Paper()
			if dark {
				palette = draw.Dark()
			}
			format, err := checkDrawing(to.path, dotsPerInch)
			if err != nil {
				return err
			}
			if err := to.check(); err != nil {
				return err
			}
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			drawing := report.Drawing{Document: s.doc, Result: s.result, Convention: s.convention, Palette: palette, DotsPerInch: dotsPerInch}
			return to.write(cmd.OutOrStdout(), func(w io.Writer) error { return drawing.Write(w, format) })
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	to.flags(cmd, "the file to write, ending in .pdf, .png or .svg")
	cmd.Flags().Float64Var(&dotsPerInch, "dpi", 150, "resolution of a PNG, 20 to 1200")
	cmd.Flags().BoolVar(&dark, "dark", false, "draw on a dark background")
	return cmd
}

// checkDrawing looks at the options before any work is done.
func checkDrawing(path string, dotsPerInch float64) (report.Format, error) {
	if path == "" {
		return "", usageError("draw: where to? add -o drawing.pdf, -o drawing.png or -o drawing.svg")
	}
	format, err := report.FormatOf(path)
	if err != nil {
		return "", usageError("draw: %w", err)
	}
	if !(dotsPerInch >= 20 && dotsPerInch <= 1200) {
		return "", usageError("--dpi: %g is out of range; use 20 to 1200", dotsPerInch)
	}
	return format, nil
}
