package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const levelsLong = `levels prints the surge voltage left at every bus and piece of equipment, in its
worst mode, against what the equipment withstands, from the supply downward. By
default the voltages are those of the hand rule; with --basis transient every
surge case of the file is solved, and the worst of them counts.

With --json it prints an array with one object for each bus and piece of
equipment. Its members: id, name, kind, system (empty where not known), mode (L-N, L-G, N-G or L-L),
volts (peak; null where no protector reaches the bus), withstand (peak; null
where not known), percent (null likewise), verdict (Held, Tight, Exceeded,
Unreached, Unknown), reason, why (the reason in a sentence) and basis (hand rule or
transient).
`

func levelsCommand() *cobra.Command {
	var from source
	var asJSON bool
	cmd := &cobra.Command{
		Use:     "levels FILE",
		Short:   "print the surge voltage at every bus and load",
		Long:    levelsLong + statuses,
		Example: "  clampcalc levels tern-quay.clampline\n  clampcalc levels tern-quay.clampline --json\n  clampcalc levels tern-quay.clampline --basis transient\n  clampcalc levels tern-quay.clampline --units iec",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			if asJSON {
				return writeJSON(cmd.OutOrStdout(), rowsOf(s))
			}
			return writeTable(cmd.OutOrStdout(), s)
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}

// levelRow is one bus or piece of equipment as --json prints it.
type levelRow struct {
	ID        string   `json:"id"`
	Name      string   `json:"name"`
	Kind      string   `json:"kind"`
	System    string   `json:"system"`
	Mode      string   `json:"mode"`
	Volts     *float64 `json:"volts"`
	Withstand *float64 `json:"withstand"`
	Percent   *float64 `json:"percent"`
	Verdict   string   `json:"verdict"`
	Reason    string   `json:"reason"`
	Why       string   `json:"why"`
	Basis     string   `json:"basis"`
	Surge     string   `json:"surge,omitempty"` // the surge case that decides, on the transient basis
}

// judged returns the judged parts as the current flows: by the number of steps
// from their supply, then by id; what nothing feeds stands last.
func judged(s sheet) []diagram.Part {
	steps := func(part diagram.Part) int {
		if node := s.result.Topology.Node(part); node != nil && node.Fed {
			return node.Depth
		}
		return math.MaxInt
	}
	var out []diagram.Part
	for part := range s.doc.Parts() {
		if _, ok := s.result.Buses[part.ID]; ok {
			out = append(out, part)
		}
	}
	slices.SortStableFunc(out, func(a, b diagram.Part) int { return cmp.Compare(steps(a), steps(b)) })
	return out
}

func rowsOf(s sheet) []levelRow {
	rows := []levelRow{}
	for _, part := range judged(s) {
		rows = append(rows, rowOf(s, part, s.result.Buses[part.ID]))
	}
	return rows
}

func rowOf(s sheet, part diagram.Part, bus analysis.BusResult) levelRow {
	worst := bus.Worst()
	row := levelRow{
		ID: string(part.ID), Name: part.Name, Kind: string(part.Kind),
		Mode: worst.Mode.String(), Verdict: worst.Verdict.String(), Reason: string(worst.Reason), Why: unit.Words(worst.Why, s.convention), Basis: string(s.result.Basis), Surge: unit.Terms(worst.Surge, s.convention),
	}
	if bus.System.Known() {
		row.System = bus.System.String()
	}
	if worst.Known {
		row.Volts = rounded(worst.Volts)
	}
	if worst.Withstand > 0 {
		row.Withstand = rounded(worst.Withstand)
	}
	if percent, ok := worst.Percent(); ok {
		row.Percent = rounded(percent)
	}
	return row
}

// rounded drops what is only the noise of binary fractions.
func rounded(v float64) *float64 {
	v = math.Round(v*1e3) / 1e3
	return &v
}

func writeJSON(out io.Writer, value any) error {
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}

func writeTable(out io.Writer, s sheet) error {
	writeTitle(out, s)
	if err := writeVerdicts(out, s); err != nil {
		return err
	}
	_, err := fmt.Fprintf(out, "\n%s\n", wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

func writeTitle(out io.Writer, s sheet) {
	way := "the hand rule"
	if s.result.Basis == analysis.Transient {
		way = "solved transients"
	}
	fmt.Fprintf(out, "%s, plan %s, by %s\n\n", report.SheetTitle(s.doc), s.doc.NameOf(s.plan.ID), way)
}

// writeVerdicts writes the worst mode of every bus, and how many have which
// verdict.
func writeVerdicts(out io.Writer, s sheet) error {
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "NAME\tKIND\tSYSTEM\tMODE\tVOLTS\tWITHSTAND\t%\tVERDICT\tREASON")
	for _, part := range judged(s) {
		fmt.Fprintln(table, strings.Join(cells(s, part, s.result.Buses[part.ID]), "\t"))
	}
	if err := table.Flush(); err != nil {
		return fileError(err)
	}
	counts := s.result.Count()
	var words []string
	for _, v := range analysis.Verdicts() {
		words = append(words, fmt.Sprintf("%d %s", counts[v], strings.ToLower(v.String())))
	}
	fmt.Fprintf(out, "\n%s\n", strings.Join(words, ", "))
	return nil
}

// reasonCell is the reason, or for a solved voltage the surge case that decides,
// and whether it destroys a protector.
func reasonCell(l analysis.Level, c unit.Convention) string {
	surge := unit.Terms(l.Surge, c)
	switch {
	case l.Reason == analysis.Destroyed:
		return surge + "; a protector fails"
	case l.Surge != "":
		return surge
	}
	return unit.Terms(string(l.Reason), c)
}

func cells(s sheet, part diagram.Part, bus analysis.BusResult) []string {
	worst := bus.Worst()
	volts, withstand, percent := "-", "-", "-"
	if worst.Known {
		volts = unit.Format(worst.Volts, unit.Voltage, s.convention)
	}
	if worst.Withstand > 0 {
		withstand = unit.Format(worst.Withstand, unit.Voltage, s.convention)
	}
	if share, ok := worst.Percent(); ok {
		percent = fmt.Sprintf("%.0f", share)
	}
	return []string{
		s.doc.NameOf(part.ID), string(part.Kind), bus.System.String(), unit.ModeWord(worst.Mode.String(), s.convention),
		volts, withstand, percent, worst.Verdict.String(), reasonCell(worst, s.convention),
	}
}
