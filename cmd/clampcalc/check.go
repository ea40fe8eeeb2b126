package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"clampline/analysis"
)

func checkCommand() *cobra.Command {
	var from source
	cmd := &cobra.Command{
		Use:     "check FILE",
		Short:   "list what is wrong or doubtful",
		Long:    "check lists the findings of a sheet, the worst first: what, why and how to mend it.\n" + statuses,
		Example: "  clampcalc check tern-quay.clampline\n  clampcalc check tern-quay.clampline --plan \"Upgrade A\"",
		Args:    oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := from.load(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			writeFindings(cmd.OutOrStdout(), s.result.Findings)
			return errorStatus(s.result.Findings)
		},
	}
	from.flags(cmd)
	from.basisFlag(cmd)
	return cmd
}

func writeFindings(out io.Writer, findings []analysis.Finding) {
	if len(findings) == 0 {
		fmt.Fprintln(out, "no findings")
		return
	}
	for _, f := range findings {
		fmt.Fprintf(out, "%s: %s: %s\n", f.Severity, f.Subject, f.What)
		for _, line := range []struct{ label, text string }{{"why", f.Why}, {"mend", f.Remedy}, {"rule", f.Source}} {
			if line.text != "" {
				fmt.Fprintf(out, "  %s: %s\n", line.label, line.text)
			}
		}
	}
	counts := map[analysis.Severity]int{}
	for _, f := range findings {
		counts[f.Severity]++
	}
	fmt.Fprintf(out, "%s, %s, %s\n", plural(counts[analysis.Error], "error", "errors"),
		plural(counts[analysis.Warning], "warning", "warnings"), plural(counts[analysis.Remark], "note", "notes"))
}

// errorStatus makes the exit status tell of errors; what they are has been
// printed.
func errorStatus(findings []analysis.Finding) error {
	for _, f := range findings {
		if f.Severity == analysis.Error {
			return failure{exitFindings, errors.New("")}
		}
	}
	return nil
}
