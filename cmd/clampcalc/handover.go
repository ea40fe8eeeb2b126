package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis/report"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// handOver is the options of a command that writes a deliverable.
type handOver struct {
	to          output
	paper, date string
}

// handOverCommands returns a command for each deliverable.
func handOverCommands() []*cobra.Command {
	var out []*cobra.Command
	for _, d := range report.Deliverables() {
		out = append(out, handOverCommand(d))
	}
	return out
}

func handOverCommand(d report.Deliverable) *cobra.Command {
	var from source
	var o handOver
	cmd := &cobra.Command{
		Use:   d.Name + " FILE -o " + strings.ToUpper(d.Name),
		Short: "write the " + strings.ToLower(d.Title) + " as " + formatNames(d),
		Long:  unit.Wrapped(d.Name+" writes "+d.About+". The ending of the output file says the format: "+d.Endings()+".", helpWidth) + "\n\n" + handOverLong + statuses,
		Example: fmt.Sprintf("  clampcalc %[1]s tern-quay.clampline -o %[1]s%[2]s\n  clampcalc %[1]s tern-quay.clampline --plan \"Upgrade A\" --basis transient --date 2026-11-02 -o %[1]s%[2]s",
			d.Name, d.Formats[0]),
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			format, work, err := o.check(d)
			if err != nil {
				return err
			}
			if err := o.solve(cmd, &from, args[0], d, work); err != nil {
				return err
			}
			return o.to.write(cmd.OutOrStdout(), func(w io.Writer) error { return d.Write(w, work, format) })
		},
	}
	from.flags(cmd)
	cmd.Flags().Lookup("plan").Usage = "the plan, by name or id (default: of several the one after the building as found)"
	from.basisFlag(cmd)
	o.flags(cmd, d)
	return cmd
}

const handOverLong = `Of several plans the first is the building as found: what stands there is not bought
again. No price is invented: what has none is named, and the total says what it lacks.
The same file and date give the same bytes.
`

func formatNames(d report.Deliverable) string {
	var out []string
	for _, f := range d.Formats {
		out = append(out, strings.ToUpper(strings.TrimPrefix(string(f), ".")))
	}
	return unit.List(out, "or")
}

func (o *handOver) flags(cmd *cobra.Command, d report.Deliverable) {
	o.to.flags(cmd, "the file to write, ending in "+d.Endings())
	cmd.Flags().StringVar(&o.paper, "paper", "", "size of the paper of a PDF: "+strings.Join(paperNames(), ", ")+" (default: letter or a4, by the units)")
	cmd.Flags().StringVar(&o.date, "date", "", "date of issue, as 2026-11-02, where the sheet names none, and of the file; empty leaves it out")
}

// check looks at the options before any work is done, and returns work of nothing that
// is written by them.
func (o *handOver) check(d report.Deliverable) (report.Format, *report.Work, error) {
	out := &report.Work{}
	if o.to.path == "" {
		return "", nil, usageError("%s: where to? add -o %s%s", d.Name, d.Name, d.Formats[0])
	}
	format, err := d.FormatOf(o.to.path)
	if err != nil {
		return "", nil, usageError("%s: %w", d.Name, err)
	}
	if o.paper != "" {
		if out.Paper, err = page.PaperNamed(o.paper); err != nil {
			return "", nil, usageError("--paper: %w", err)
		}
	}
	if out.Date, err = dateOf(o.date); err != nil {
		return "", nil, err
	}
	return format, out, o.to.check()
}

// solve opens the sheet and solves what the deliverable takes.
func (o *handOver) solve(cmd *cobra.Command, from *source, path string, d report.Deliverable, work *report.Work) error {
	if from.plan == "" {
		plan, err := planToDo(from, path)
		if err != nil {
			return err
		}
		from.plan = plan
	}
	s, err := from.load(cmd.Context(), path)
	if err != nil {
		return err
	}
	work.Document, work.Result, work.Convention = s.doc, s.result, s.convention
	var progress func(float64)
	if isTerminal(os.Stderr) {
		progress = shares(cmd.ErrOrStderr())
	}
	if err := work.Solve(cmd.Context(), s.engine(), d.Takes, progress); err != nil {
		return s.refusal(err)
	}
	return nil
}

// planToDo returns the plan that is handed over where nobody names one: of several the
// one after the building as found.
func planToDo(from *source, path string) (string, error) {
	silent := *from
	silent.errs = func() io.Writer { return io.Discard } // what is doubtful is told when the sheet is loaded
	s, err := silent.open(path)
	if err != nil {
		return "", err
	}
	plans := s.doc.Plans()
	return string(plans[min(1, len(plans)-1)].ID), nil
}
