package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const faultLong = `fault prints the current that can flow at every board and load when its conductors
are joined there, in amperes rms symmetrical, the highest over all positions of the
transfer switches: what the short-circuit rating of a protector has to stand. The
sheet chooses the method (by impedances or point to point) and by how much the
impedance of a transformer may lie below its nameplate.

With --of NAME it prints how the currents at one board or load came about.

`

func faultCommand() *cobra.Command {
	var from source
	var asJSON bool
	var of string
	cmd := &cobra.Command{
		Use:     "fault FILE",
		Short:   "print the fault current at every board and load",
		Long:    faultLong + arrayHelp("board and load", table.Help(faultColumns(sheet{}))) + statuses,
		Example: "  clampcalc fault tern-quay.clampline\n  clampcalc fault tern-quay.clampline --of \"Lab panel LP-1\"\n  clampcalc fault tern-quay.clampline --json",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			switch {
			case asJSON:
				return writeJSON(cmd.OutOrStdout(), table.Records(faultColumns(s), judged(s)))
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

// faultColumns is what fault tells of each board and load.
func faultColumns(s sheet) []table.Column[diagram.Part] {
	at := func(p diagram.Part) analysis.Fault { return faultAt(s, p) }
	current := func(name, head string, of func(analysis.Fault) float64) table.Column[diagram.Part] {
		return table.Column[diagram.Part]{
			Name: name, Head: head, Gap: 2,
			Value: func(p diagram.Part) any { return roundedOrNil(of(at(p))) },
			Cell:  func(p diagram.Part) string { return amperes(of(at(p)), s.convention) },
		}
	}
	word := func(m diagram.Mode) string { return unit.ModeWord(m.String(), s.convention) }
	highest := current("highest", "", analysis.Fault.Highest)
	highest.Help = "A; all of these null where there is none or it is not known"
	amps := highest.Cell
	highest.Cell = nil // which stands last in a text
	last := table.Column[diagram.Part]{Head: "HIGHEST", Gap: 2, Cell: func(p diagram.Part) string {
		if at(p).Known && at(p).Estimated {
			return "~" + amps(p)
		}
		return amps(p)
	}}
	ratio := table.Column[diagram.Part]{Name: "xr", Head: "X/R", Gap: 2, Value: func(p diagram.Part) any { return roundedOrNil(at(p).XR) }, Cell: func(p diagram.Part) string {
		if at(p).XR > 0 {
			return fmt.Sprintf("%.2g", at(p).XR)
		}
		return "-"
	}}
	why := func(p diagram.Part) string { return unit.Words(at(p).Why, s.convention) }
	of := slices.DeleteFunc(partColumns(s), func(c table.Column[diagram.Part]) bool { return c.Name == "kind" })
	return append(of,
		current("threePhase", "THREE-PHASE", func(f analysis.Fault) float64 { return f.ThreePhase }),
		current("lineLine", word(diagram.LineLine), func(f analysis.Fault) float64 { return f.LineLine }),
		current("lineNeutral", word(diagram.LineNeutral), func(f analysis.Fault) float64 { return f.LineNeutral }),
		current("lineEarth", word(diagram.LineEarth), func(f analysis.Fault) float64 { return f.LineEarth }),
		highest, ratio, last,
		table.Column[diagram.Part]{Name: "estimated", Help: "whether the sheet lacks a figure that was taken as usual", Value: func(p diagram.Part) any { return at(p).Estimated }},
		table.Column[diagram.Part]{Name: "why", Gap: 2, Value: func(p diagram.Part) any { return why(p) }, Cell: func(p diagram.Part) string {
			if at(p).Known {
				return ""
			}
			return why(p)
		}},
	)
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
	boards := judged(s)
	if err := table.Text(out, faultColumns(s), boards, ""); err != nil {
		return fileError(err)
	}
	estimated := slices.ContainsFunc(boards, func(p diagram.Part) bool { return faultAt(s, p).Estimated })
	if estimated {
		fmt.Fprintf(out, "\n~ a figure that the sheet does not give was taken as usual: see --of NAME\n")
	}
	_, err := fmt.Fprintf(out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
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
		fmt.Fprintln(out, unit.Wrapped("- "+line, tableWidth))
	}
	_, err = fmt.Fprintf(out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
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
	return strings.ReplaceAll(unit.Wrapped(text, tableWidth-2), "\n", "\n  ")
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
