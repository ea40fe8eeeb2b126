package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const levelsLong = `levels prints the surge voltage left at every bus and piece of equipment, in its
worst mode, against what the equipment withstands, from the supply downward. By
default the voltages are those of the hand rule; with --basis transient every
surge case of the file is solved, and the worst of them counts.

`

func levelsCommand() *cobra.Command {
	var from source
	var asJSON bool
	var sure bandChoice
	cmd := &cobra.Command{
		Use:     "levels FILE",
		Short:   "print the surge voltage at every bus and load",
		Long:    levelsLong + bandLong + arrayHelp("bus and piece of equipment", table.Help(levelColumns(sheet{}))) + statuses,
		Example: "  clampcalc levels tern-quay.clampline\n  clampcalc levels tern-quay.clampline --json\n  clampcalc levels tern-quay.clampline --basis transient\n  clampcalc levels tern-quay.clampline --basis transient --band\n  clampcalc levels tern-quay.clampline --units iec",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := sure.check(); err != nil {
				return err
			}
			if sure.on && from.basis != "transient" {
				return usageError("levels: --band goes with --basis transient")
			}
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			if err := sure.find(cmd, &s); err != nil {
				return err
			}
			if asJSON {
				return writeJSON(cmd.OutOrStdout(), table.Records(levelColumns(s), judged(s)))
			}
			return writeTable(cmd.OutOrStdout(), s)
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	sure.flags(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}

// judged returns the judged parts as the current flows.
func judged(s sheet) []diagram.Part { return s.result.Downward(s.doc) }

// levelColumns is what levels tells of each bus and piece of equipment.
func levelColumns(s sheet) []table.Column[diagram.Part] {
	worst := func(p diagram.Part) analysis.Level { return s.result.Buses[p.ID].Worst() }
	figure := func(of func(analysis.Level) (float64, bool)) func(diagram.Part) any {
		return func(p diagram.Part) any {
			if v, ok := of(worst(p)); ok {
				return rounded(v)
			}
			return nil
		}
	}
	shown := func(of func(analysis.Level) (float64, bool), write func(float64) string) func(diagram.Part) string {
		return func(p diagram.Part) string {
			if v, ok := of(worst(p)); ok {
				return write(v)
			}
			return "-"
		}
	}
	volts := func(v float64) string { return unit.Format(v, unit.Voltage, s.convention) }
	peak := func(l analysis.Level) (float64, bool) { return l.Volts, l.Known }
	withstand := func(l analysis.Level) (float64, bool) { return l.Withstand, l.Withstand > 0 }
	explained := sync.OnceValue(func() map[diagram.ID]analysis.BusResult { return assess.ExplainAll(s.doc, s.result) })
	columns := append(partColumns(s), []table.Column[diagram.Part]{
		{Name: "mode", Help: "L-N, L-G, N-G or L-L", Head: "MODE", Gap: 2, Value: func(p diagram.Part) any { return worst(p).Mode.String() },
			Cell: func(p diagram.Part) string { return unit.ModeWord(worst(p).Mode.String(), s.convention) }},
		{Name: "volts", Help: "peak; null where no protector reaches the bus", Head: "VOLTS", Gap: 2, Value: figure(peak), Cell: shown(peak, volts)},
		{Name: "withstand", Help: "peak; null where not known", Head: "WITHSTAND", Gap: 2, Value: figure(withstand), Cell: shown(withstand, volts)},
		{Name: "percent", Help: "null likewise", Head: "%", Gap: 2, Value: figure(analysis.Level.Percent),
			Cell: shown(analysis.Level.Percent, func(v float64) string { return fmt.Sprintf("%.0f", v) })},
		{Name: "verdict", Help: "Held, Tight, Exceeded, Unreached, Unknown", Head: "VERDICT", Gap: 2, Value: func(p diagram.Part) any { return worst(p).Verdict.String() },
			Cell: func(p diagram.Part) string { return worst(p).Verdict.String() }},
		bandColumn(s),
	}...)
	columns = append(append(columns, bandCells(s)...), []table.Column[diagram.Part]{
		{Name: "reason", Head: "REASON", Gap: 2, Value: func(p diagram.Part) any { return string(worst(p).Reason) },
			Cell: func(p diagram.Part) string { return reasonCell(s, worst(p)) }},
		{Name: "why", Help: "the reason in a sentence", Value: func(p diagram.Part) any { return unit.Words(worst(p).Why, s.convention) }},
		{Name: "basis", Help: "hand rule or transient", Value: func(diagram.Part) any { return string(s.result.Basis) }},
		{Name: "surge", Help: "the surge case that decides, on the transient basis", Optional: true, Value: func(p diagram.Part) any {
			return orNil(unit.Terms(worst(p).Surge, s.convention))
		}},
		{Name: "from", Help: "id of the part at which that arrived, of a case with many places", Optional: true, Value: func(p diagram.Part) any { return orNil(string(worst(p).Origin)) }},
		{Name: "working", Help: "an array of steps", Value: func(p diagram.Part) any {
			return table.Records(stepColumns(s.convention), explained()[p.ID].Worst().Working)
		}},
	}...)
	return columns
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
	_, err := fmt.Fprintf(out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
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
	if err := table.Text(out, levelColumns(s), judged(s), ""); err != nil {
		return fileError(err)
	}
	writeRanges(out, s)
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
func reasonCell(s sheet, l analysis.Level) string {
	surge := unit.Terms(l.Surge, s.convention)
	if l.Origin != "" {
		surge += ", from " + s.doc.NameOf(l.Origin)
	}
	switch {
	case l.Reason == analysis.Destroyed:
		return surge + "; a protector fails"
	case l.Surge != "":
		return surge
	}
	return unit.Terms(string(l.Reason), s.convention)
}
