package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/table"
	"clampline/diagram/unit"
)

const checkLong = `check lists the findings of a sheet, the worst first: what, why, how to mend it and by
which rule. --min and --subject print only some of them; what is counted, and the exit
status, is of all.

`

// findingsHelp tells of the members of what --json prints.
func findingsHelp() string {
	return unit.Wrapped("With --json it prints an object: plan; basis (hand rule or transient); errors, warnings and notes, how many there are of each in all; "+
		"and findings, an array of those that --min and --subject leave. Each has "+table.Help(findingColumns(sheet{}))+"; each step of a working "+
		table.Help(stepColumns(unit.NorthAmerican))+". setAside is an array of those that a person has set aside, which are not counted: the same, with reason, by and day. The words of the texts follow --units.", helpWidth) + "\n"
}

func checkCommand() *cobra.Command {
	var from source
	var show checkView
	cmd := &cobra.Command{
		Use:   "check FILE",
		Short: "list what is wrong or doubtful",
		Long:  checkLong + findingsHelp() + statuses,
		Example: "  clampcalc check tern-quay.clampline\n  clampcalc check tern-quay.clampline --plan \"Upgrade A\"\n" +
			"  clampcalc check tern-quay.clampline --min warning --subject leads\n  clampcalc check tern-quay.clampline --json",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := show.check(); err != nil {
				return err
			}
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			if err := show.write(cmd.OutOrStdout(), s); err != nil {
				return err
			}
			return errorStatus(s.result.Findings)
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	show.flags(cmd)
	return cmd
}

// checkView is how the command shows the findings.
type checkView struct {
	min, subject string
	json         bool
	least        analysis.Severity // that min names
}

func (v *checkView) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&v.min, "min", analysis.Remark.String(), "note, warning or error: print what is at least as grave")
	cmd.Flags().StringVar(&v.subject, "subject", "", "print what is about this subject, such as leads (default: all)")
	cmd.Flags().BoolVar(&v.json, "json", false, "print JSON")
}

func (v *checkView) check() error {
	if known := analysis.Subjects(); v.subject != "" && !slices.ContainsFunc(known, v.isSubject) {
		return usageError("--subject: %q is none of %s", v.subject, strings.Join(known, ", "))
	}
	least, ok := analysis.SeverityOf(v.min)
	if !ok {
		return usageError("--min: %q is none of note, warning and error", v.min)
	}
	v.least = least
	return nil
}

// isSubject reports whether the option names the subject, in the words of either
// convention.
func (v *checkView) isSubject(subject string) bool {
	return strings.EqualFold(v.subject, subject) || strings.EqualFold(v.subject, unit.Terms(subject, unit.NorthAmerican))
}

// keep returns the findings that are printed.
func (v *checkView) keep(findings []analysis.Finding) []analysis.Finding {
	var out []analysis.Finding
	for _, f := range findings {
		if f.Severity >= v.least && (v.subject == "" || v.isSubject(f.Subject)) {
			out = append(out, f)
		}
	}
	return out
}

func (v *checkView) write(out io.Writer, s sheet) error {
	printed := v.keep(s.result.Findings)
	if v.json {
		return writeJSON(out, findingsOf(s, printed))
	}
	for _, f := range printed {
		writeFinding(out, f, s.convention)
	}
	for _, a := range s.result.Aside {
		writeAside(out, a, s.convention)
	}
	line := countLine(s.result.Findings, len(printed))
	if aside := len(s.result.Aside); aside > 0 {
		line += "; " + unit.CountOf(aside, "more is|more are") + " set aside"
	}
	_, err := fmt.Fprintln(out, line)
	return wrapFile(err)
}

// writeFinding writes what a finding says, in the words of the convention.
func writeFinding(out io.Writer, f analysis.Finding, c unit.Convention) {
	fmt.Fprintf(out, "%s: %s: %s\n", f.Severity, unit.Terms(f.Subject, c), unit.Words(f.What, c))
	if f.Critical {
		fmt.Fprintln(out, "  concerns critical equipment")
	}
	for _, line := range []struct{ label, text string }{{"why", unit.Words(f.Why, c)}, {"mend", unit.Words(f.Remedy, c)}, {"rule", unit.Terms(f.Source, c)}} {
		if line.text != "" {
			fmt.Fprintf(out, "  %s: %s\n", line.label, line.text)
		}
	}
}

// writeAside writes a finding that is set aside, with who did and why.
func writeAside(out io.Writer, a analysis.SetAside, c unit.Convention) {
	fmt.Fprintf(out, "set aside: %s: %s: %s\n", a.Severity, unit.Terms(a.Subject, c), unit.Words(a.What, c))
	for _, line := range []struct{ label, text string }{{"reason", a.By.Reason}, {"by", a.By.By}, {"day", a.By.Day}} {
		if line.text != "" {
			fmt.Fprintf(out, "  %s: %s\n", line.label, line.text)
		}
	}
}

// countLine counts all findings, and says how many of them were printed where
// that is not all.
func countLine(all []analysis.Finding, printed int) string {
	if len(all) == 0 {
		return "no findings"
	}
	counts := severityCounts(all)
	line := fmt.Sprintf("%s, %s, %s", unit.CountOf(counts[analysis.Error], "error"),
		unit.CountOf(counts[analysis.Warning], "warning"), unit.CountOf(counts[analysis.Remark], "note"))
	if printed < len(all) {
		line += fmt.Sprintf("; %d of %d printed", printed, len(all))
	}
	return line
}

func severityCounts(findings []analysis.Finding) map[analysis.Severity]int {
	counts := map[analysis.Severity]int{}
	for _, f := range findings {
		counts[f.Severity]++
	}
	return counts
}

// errorStatus makes the exit status tell of errors; what they are has been
// printed.
func errorStatus(findings []analysis.Finding) error {
	if severityCounts(findings)[analysis.Error] > 0 {
		return failure{exitFindings, errors.New("")}
	}
	return nil
}
