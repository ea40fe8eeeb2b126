package main

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const compareLong = `compare puts the plans of a sheet side by side: what each leaves at every bus and piece
of equipment, how many have which verdict, the findings left, and what the work costs.
Of several plans the first is the building as found: what stands there is not bought
again, and where it gets other leads or another breaker its labour alone counts.

--changes lists what differs from plan to plan: another verdict, another mode, or a
voltage that differs by more than 1 % and 1 V. --open lists what is still not held by
a plan after the first. --sort worst goes by the last plan, --sort change by what
differs most from the first plan to the last.

`

// comparison of plans, as its options say.
type compareView struct {
	plans     string
	sort      string
	view      compare.View
	json, csv bool
}

func (v *compareView) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&v.plans, "plans", "", "plans by name or id, with commas between (default: all)")
	f.StringVar(&v.sort, "sort", string(compare.ByFlow), sortWords()+": the order of the rows")
	f.BoolVar(&v.view.Changes, "changes", false, "list what differs from plan to plan")
	f.BoolVar(&v.view.Critical, "critical", false, "list critical equipment")
	f.BoolVar(&v.view.Open, "open", false, "list what is still not held")
	f.BoolVar(&v.json, "json", false, "print JSON")
	f.BoolVar(&v.csv, "csv", false, "print CSV: a line for each bus and plan")
}

// sortWords lists the sorts.
func sortWords() string {
	var words []string
	for _, s := range compare.Sorts() {
		words = append(words, string(s))
	}
	return unit.List(words, "or")
}

func (v *compareView) check() error {
	if !slices.Contains(compare.Sorts(), compare.Sort(v.sort)) {
		return usageError("--sort: %q is none of %s", v.sort, sortWords())
	}
	v.view.Sort = compare.Sort(v.sort)
	if v.json && v.csv {
		return usageError("compare: --json and --csv exclude each other")
	}
	return nil
}

func compareCommand() *cobra.Command {
	var from source
	var v compareView
	cmd := &cobra.Command{
		Use:   "compare FILE",
		Short: "put the plans of a sheet side by side",
		Long:  compareLong + compareHelp() + statuses,
		Example: "  clampcalc compare tern-quay.clampline\n  clampcalc compare tern-quay.clampline --plans \"As found,Upgrade A\" --basis transient\n" +
			"  clampcalc compare tern-quay.clampline --open --sort worst\n  clampcalc compare tern-quay.clampline --csv",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := v.check(); err != nil {
				return err
			}
			s, t, err := v.load(cmd, &from, args[0])
			if err != nil {
				return err
			}
			return v.write(cmd.OutOrStdout(), s, t)
		},
	}
	from.unitsFlag(cmd)
	from.basisFlag(cmd)
	v.flags(cmd)
	return cmd
}

// load opens the sheet and solves its plans.
func (v *compareView) load(cmd *cobra.Command, from *source, path string) (sheet, *compare.Table, error) {
	basis, err := from.chosenBasis()
	if err != nil {
		return sheet{}, nil, err
	}
	s, err := from.open(path)
	if err != nil {
		return sheet{}, nil, err
	}
	plans, err := findPlans(s.doc, v.plans)
	if err != nil {
		return sheet{}, nil, err
	}
	in := compare.Input{Document: s.doc, Plans: plans, Basis: basis}
	if basis == analysis.Transient && isTerminal(os.Stderr) {
		in.Progress = shares(cmd.ErrOrStderr())
	}
	if in, err = compare.Solve(cmd.Context(), s.engine(), in); err != nil {
		return sheet{}, nil, s.refusal(err)
	}
	v.view.By = len(plans) - 1
	return s, in.Table(), nil
}

func (v *compareView) write(out io.Writer, s sheet, t *compare.Table) error {
	rows := t.View(v.view)
	switch {
	case v.json:
		return writeJSON(out, comparedOf(s, t, rows))
	case v.csv:
		return wrapFile(table.CSV(out, lineColumns(s, t), linesOf(rows)))
	}
	fmt.Fprintf(out, "%s, plans by the %s\n\n", report.SheetTitle(s.doc), t.Basis)
	if err := table.Text(out, totalColumns(s, t), t.Plans, ""); err != nil {
		return fileError(err)
	}
	writeMissing(out, s, t)
	fmt.Fprintln(out)
	if err := table.Text(out, sideColumns(s, t), rows, ""); err != nil {
		return fileError(err)
	}
	if left := len(t.Rows) - len(rows); left > 0 {
		fmt.Fprintf(out, "\n%d of %d listed\n", len(rows), len(t.Rows))
	}
	_, err := fmt.Fprintf(out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

// writeMissing says what is missing in what the plans cost.
func writeMissing(out io.Writer, s sheet, t *compare.Table) {
	for _, plan := range t.Plans {
		for _, line := range plan.Cost.Missing(s.doc) {
			fmt.Fprintln(out, unit.Wrapped(s.doc.NameOf(plan.ID)+": "+line, tableWidth))
		}
	}
}

// line is what one plan leaves at one board or load.
type line struct {
	compare.Row
	at int // the plan
}

func (l line) cell() compare.Cell { return l.Cells[l.at] }

// linesOf returns a line for each plan of each row.
func linesOf(rows []compare.Row) []line {
	var out []line
	for _, row := range rows {
		for at := range row.Cells {
			out = append(out, line{row, at})
		}
	}
	return out
}

// sideColumns are the plans side by side in a text.
func sideColumns(s sheet, t *compare.Table) []table.Column[compare.Row] {
	out := []table.Column[compare.Row]{
		{Head: "NAME", Cell: func(r compare.Row) string { return s.doc.NameOf(r.Part.ID) }},
		{Head: "KIND", Gap: 2, Cell: func(r compare.Row) string {
			return string(r.Part.Kind) + map[bool]string{true: ", critical"}[r.Critical]
		}},
	}
	for at, plan := range t.Plans {
		out = append(out, table.Column[compare.Row]{Head: strings.ToUpper(s.doc.NameOf(plan.ID)), Gap: 2, Cell: func(r compare.Row) string {
			return cellText(s, r.Cells[at].Level)
		}})
	}
	return out
}

// cellText is what a plan leaves, in a few words: "900 V L-N, 60 %, Held".
func cellText(s sheet, l analysis.Level) string {
	if !l.Known {
		return l.Verdict.String() + ", " + unit.Terms(string(l.Reason), s.convention)
	}
	out := unit.Format(l.Volts, unit.Voltage, s.convention) + " " + unit.ModeWord(l.Mode.String(), s.convention)
	if percent, ok := l.Percent(); ok {
		return out + fmt.Sprintf(", %.0f %%, ", percent) + l.Verdict.String()
	}
	return out + ", " + l.Verdict.String() + ", " + unit.Terms(string(l.Reason), s.convention)
}

// planName names a plan.
func planName(s sheet, id diagram.ID) string { return cmp.Or(s.doc.NameOf(id), string(id)) }
