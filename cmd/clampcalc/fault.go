package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const faultLong = `fault prints the current that can flow at every board and load when its conductors
are joined there, in amperes rms symmetrical, the highest over all positions of the
transfer switches: what the short-circuit rating of a protector has to stand. The
sheet chooses the method (by impedances or point to point) and by how much the
impedance of a transformer may lie below its nameplate.

With --of NAME it prints how the currents at one board or load came about.

With --json it prints an array with one object for each board and load. Its members:
id, name, system (empty where not known), threePhase, lineLine, lineNeutral, lineEarth,
highest (A; null where there is none or it is not known), xr, estimated (whether the
sheet lacks a figure that was taken as usual), why.
`

func faultCommand() *cobra.Command {
	var from source
	var asJSON bool
	var of string
	cmd := &cobra.Command{
		Use:     "fault FILE",
		Short:   "print the fault current at every board and load",
		Long:    faultLong + statuses,
		Example: "  clampcalc fault tern-quay.clampline\n  clampcalc fault tern-quay.clampline --of \"Lab panel LP-1\"\n  clampcalc fault tern-quay.clampline --json",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			switch {
			case asJSON:
				return writeJSON(cmd.OutOrStdout(), faultRows(s))
			case of != "":
				return writeFaultWorking(cmd.OutOrStdout(), s, of)
			}
			return writeFaults(cmd.OutOrStdout(), s)
		},
	}
	from.flags(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	cmd.Flags().StringVar(&of, "of", "", "print the working for one board or load, by name or id")
	return cmd
}

// faultRow is one board or load as --json prints it.
type faultRow struct {
	ID          string   `json:"id"`
	Name        string   `json:"name"`
	System      string   `json:"system"`
	ThreePhase  *float64 `json:"threePhase"`
	LineLine    *float64 `json:"lineLine"`
	LineNeutral *float64 `json:"lineNeutral"`
	LineEarth   *float64 `json:"lineEarth"`
	Highest     *float64 `json:"highest"`
	XR          *float64 `json:"xr"`
	Estimated   bool     `json:"estimated"`
	Why         string   `json:"why"`
}

func faultRows(s sheet) []faultRow {
	rows := []faultRow{}
	for _, part := range judged(s) {
		f := faultAt(s, part)
		row := faultRow{
			ID: string(part.ID), Name: part.Name, Estimated: f.Estimated, Why: unit.Words(f.Why, s.convention),
			ThreePhase: orNull(f.ThreePhase), LineLine: orNull(f.LineLine), LineNeutral: orNull(f.LineNeutral), LineEarth: orNull(f.LineEarth),
			Highest: orNull(f.Highest()), XR: orNull(f.XR),
		}
		if system := s.result.Buses[part.ID].System; system.Known() {
			row.System = system.String()
		}
		rows = append(rows, row)
	}
	return rows
}

func orNull(v float64) *float64 {
	if v == 0 {
		return nil
	}
	return rounded(v)
}

// faultAt returns the fault current at a board or load; the zero value where
// there is none.
func faultAt(s sheet, part diagram.Part) analysis.Fault {
	node := s.result.Topology.Node(part)
	if node == nil {
		return analysis.Fault{}
	}
	return s.result.Faults[node.At]
}

func writeFaults(out io.Writer, s sheet) error {
	fmt.Fprintf(out, "%s, fault currents in A rms symmetrical\n\n", report.SheetTitle(s.doc))
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	word := func(m diagram.Mode) string { return unit.ModeWord(m.String(), s.convention) }
	fmt.Fprintf(table, "NAME\tSYSTEM\tTHREE-PHASE\t%s\t%s\t%s\tX/R\tHIGHEST\t\n", word(diagram.LineLine), word(diagram.LineNeutral), word(diagram.LineEarth))
	estimated := false
	for _, part := range judged(s) {
		f := faultAt(s, part)
		estimated = estimated || f.Estimated
		fmt.Fprintln(table, strings.Join(faultCells(s, part, f), "\t"))
	}
	if err := table.Flush(); err != nil {
		return fileError(err)
	}
	if estimated {
		fmt.Fprintf(out, "\n~ a figure that the sheet does not give was taken as usual: see --of NAME\n")
	}
	_, err := fmt.Fprintf(out, "\n%s\n", wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

func faultCells(s sheet, part diagram.Part, f analysis.Fault) []string {
	cells := []string{s.doc.NameOf(part.ID), s.result.Buses[part.ID].System.String()}
	if !f.Known {
		return append(cells, "-", "-", "-", "-", "-", "-", unit.Words(f.Why, s.convention))
	}
	for _, amps := range []float64{f.ThreePhase, f.LineLine, f.LineNeutral, f.LineEarth} {
		cells = append(cells, amperes(amps, s.convention))
	}
	ratio := "-"
	if f.XR > 0 {
		ratio = fmt.Sprintf("%.2g", f.XR)
	}
	about := ""
	if f.Estimated {
		about = "~"
	}
	return append(cells, ratio, about+amperes(f.Highest(), s.convention), "")
}

func amperes(v float64, c unit.Convention) string {
	if v == 0 {
		return "-"
	}
	return unit.Format(v, unit.Current, c)
}

func writeFaultWorking(out io.Writer, s sheet, word string) error {
	part, err := findBoard(s, word)
	if err != nil {
		return err
	}
	name := s.doc.NameOf(part.ID)
	node := s.result.Topology.Node(part)
	f, ok := analysis.Fault{}, false
	if node != nil {
		f, ok = fault.Explain(s.doc, s.result.Topology, node.At)
	}
	if !ok {
		fmt.Fprintf(out, "%s: no fault current, since nothing feeds it\n", name)
		return nil
	}
	fmt.Fprintf(out, "%s: %s\n\n", name, unit.Words(f.Why, s.convention))
	for _, step := range f.Working {
		fmt.Fprintln(out, hanging(stepLine(step, s.convention)))
	}
	for i, line := range assumed(s, f.Assumptions) {
		if i == 0 {
			fmt.Fprintf(out, "\n%s\n", takenSo)
		}
		fmt.Fprintln(out, wrapped("- "+line, tableWidth))
	}
	_, err = fmt.Fprintf(out, "\n%s\n", wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

// findBoard returns the board or load with the name or id.
func findBoard(s sheet, word string) (diagram.Part, error) {
	for _, part := range judged(s) {
		if string(part.ID) == word || strings.EqualFold(part.Name, word) {
			return part, nil
		}
	}
	return diagram.Part{}, usageError("--of: there is no board or load %q; clampcalc levels lists them", word)
}

// hanging breaks a text into lines, all but the first indented.
func hanging(text string) string {
	return strings.ReplaceAll(wrapped(text, tableWidth-2), "\n", "\n  ")
}

// stepLine writes one step of a working in a line, its source in brackets.
func stepLine(step analysis.Step, c unit.Convention) string {
	result := unit.Words(step.Text, c)
	if step.Unit != "" {
		result = analysis.FigureIn(step.Result, step.Unit)
	}
	if step.Numbers != "" && step.Numbers != result {
		result = strings.TrimSuffix(unit.Terms(step.Numbers, c)+" = "+result, " = ")
	}
	line := unit.Words(step.Label, c) + ": " + result
	if step.Formula != "" {
		line += "  (" + unit.Terms(step.Formula, c) + ")"
	}
	if step.Source != "" {
		line += "  [" + unit.Terms(step.Source, c) + "]"
	}
	return line
}
