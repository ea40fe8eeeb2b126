package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/handrule"
	"clampline/analysis/survey"
	"clampline/diagram"
)

const phoneLong = `phone writes one HTML file for a phone or any other browser, which needs no network, no
server and nothing beside it: with --survey (which it does unless told otherwise) what a
survey asks of every panel, with --work what is to be built of a plan on each: lock-out
first, the breaker, the leads of each protector with their target and the greatest length
with which no voltage gets a worse verdict by the hand rule, and fields for what was
built. What is typed there is kept by the browser; its button Save CSV writes the table
that clampcalc survey --take and clampcalc record --take read. Open the page in a
browser: the preview of a mail or of a file runs no script.
`

func phoneCommand() *cobra.Command {
	var from source
	var to output
	var work, asks bool
	cmd := &cobra.Command{
		Use:   "phone FILE -o PAGE",
		Short: "write a page to fill in on a phone",
		Long:  phoneLong + statuses,
		Example: "  clampcalc phone tern-quay.clampline -o survey.html\n" +
			"  clampcalc phone tern-quay.clampline --work --plan \"Upgrade A\" -o work.html",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			switch ending := strings.ToLower(filepath.Ext(to.path)); {
			case work && asks:
				return usageError("phone: --survey and --work exclude each other")
			case from.plan != "" && !work:
				return usageError("phone: a survey is of what was found; --plan goes with --work")
			case to.path == "":
				return usageError("phone: where to? add -o page.html")
			case ending != ".html" && to.path != "-":
				return usageError("phone: %q: a page ends in .html", to.path)
			}
			return writePhone(cmd.Context(), cmd.OutOrStdout(), from, to, args[0], work)
		},
	}
	from.flags(cmd)
	cmd.Flags().Lookup("plan").Usage = "with --work the plan to build, by name or id (default: the last that is no record)"
	to.flags(cmd, "the file to write, ending in .html")
	cmd.Flags().BoolVar(&asks, "survey", false, "what a survey asks")
	cmd.Flags().BoolVar(&work, "work", false, "what is to be built")
	return cmd
}

func writePhone(ctx context.Context, out io.Writer, from source, to output, path string, work bool) error {
	if err := to.check(); err != nil {
		return err
	}
	s, err := from.open(path)
	if err != nil {
		return err
	}
	plan := survey.AsFound(s.doc)
	if work {
		plan = toBuild(s, from.plan != "")
	}
	topology := analysis.Trace(s.doc)
	faults, err := fault.Solve(ctx, s.doc, topology)
	if err != nil {
		return fileError(err)
	}
	page := survey.Phone{Sheets: survey.Sheets(s.doc, plan, topology, faults, nil, s.convention), File: filepath.Base(path), Work: work}
	if len(page.Sheets) == 0 {
		return fileError(fmt.Errorf("%s has no panel and no switchboard", path))
	}
	if work {
		longer, err := handrule.Longer(ctx, s.doc, plan, topology, handrule.DefaultRule(), survey.LeadStep(s.convention))
		if err != nil {
			return s.refusal(err)
		}
		page.Longer = longer
	}
	return to.write(out, func(w io.Writer) error { return survey.WritePhone(w, page) })
}

// toBuild returns the plan that is named, else the last one that is no record.
func toBuild(s sheet, named bool) diagram.ID {
	plan := s.plan.ID
	for _, p := range s.doc.Plans() {
		if !named && p.Of == "" {
			plan = p.ID
		}
	}
	return plan
}
