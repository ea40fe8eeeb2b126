package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/survey"
	"clampline/diagram"
)

const surveyLong = `survey writes a sheet to fill in on site for every panel and switchboard: what its
nameplate says, its fault current or the transformer that feeds it, its spaces, where a
protector could sit, its feeder, its loads, what comes over the supply, and the
protectors that are there by the first plan, which records what was found. What is known
is filled in. The ending of the output file says the form: .pdf to print, A4 or Letter as
the units have it, or .csv for a spreadsheet, which has tables below each other: the
panels, the transformers that feed them, the feeders, the loads, the supplies, and the
protectors with a free row for each panel. Below the headings of each stands what words
and units it takes. A page to fill in on a phone is made by clampcalc phone.

With --take it reads such tables back, lists what they would change and what could not
be read, and with -o writes the sheet with the changes. One of the tables will do, as
will the one wide table of earlier versions. A blank cell leaves a value as it is, and a
lone - clears it. A row of the protectors with the id of a panel and none of a protector
adds the protector that it names or rates to the first plan.
`

// surveyOptions are what the command line says.
type surveyOptions struct {
	source
	output
	panels []string
	take   string
}

func surveyCommand() *cobra.Command {
	var o surveyOptions
	cmd := &cobra.Command{
		Use:   "survey FILE -o SHEETS",
		Short: "write survey sheets for the panels, or import filled-in ones",
		Long:  surveyLong + statuses,
		Example: "  clampcalc survey tern-quay.clampline -o sheets.pdf\n" +
			"  clampcalc survey tern-quay.clampline -o sheets.csv --panel \"Server room\" --panel panel-4\n" +
			"  clampcalc survey tern-quay.clampline --take filled.csv -o surveyed.clampline",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("take") {
				return takeSurvey(cmd.OutOrStdout(), o, args[0])
			}
			return writeSurvey(cmd.Context(), cmd.OutOrStdout(), o, args[0])
		},
	}
	o.unitsFlag(cmd)
	o.output.flags(cmd, "the file to write: sheets ending in .pdf or .csv; with --take a sheet")
	cmd.Flags().StringArrayVar(&o.panels, "panel", nil, "only this panel or switchboard, by name or id; may be repeated")
	cmd.Flags().StringVar(&o.take, "take", "", "the filled-in table to read")
	return cmd
}

// writeSurvey writes the sheets.
func writeSurvey(ctx context.Context, out io.Writer, o surveyOptions, path string) error {
	write, err := surveyForm(o.path)
	if err != nil {
		return err
	}
	if err := o.check(); err != nil {
		return err
	}
	s, err := o.open(path)
	if err != nil {
		return err
	}
	boards, err := surveyBoards(s.doc, o.panels)
	if err != nil {
		return err
	}
	topology := analysis.Trace(s.doc)
	faults, err := fault.Solve(ctx, s.doc, topology)
	if err != nil {
		return fileError(err)
	}
	sheets := survey.Sheets(s.doc, survey.AsFound(s.doc), topology, faults, boards, s.convention)
	if len(sheets) == 0 {
		return fileError(fmt.Errorf("%s has no panel and no switchboard to survey", path))
	}
	return o.write(out, func(w io.Writer) error { return write(w, sheets) })
}

// surveyForm returns what writes the form that the ending of the path names.
func surveyForm(path string) (func(io.Writer, []survey.Sheet) error, error) {
	switch ending := strings.ToLower(filepath.Ext(path)); {
	case ending == ".pdf":
		return survey.WritePDF, nil
	case ending == ".csv" || path == "-":
		return survey.WriteCSV, nil
	case path == "":
		return nil, usageError("survey: where to? add -o sheets.pdf or -o sheets.csv")
	}
	return nil, usageError("survey: %q: the ending says the form; use .pdf or .csv", path)
}

// surveyBoards returns the boards with the names or ids, upper and lower case
// alike; no words take none, which stands for all.
func surveyBoards(doc *diagram.Document, words []string) ([]diagram.ID, error) {
	var out []diagram.ID
	for _, word := range words {
		id, err := surveyBoard(doc, word)
		if err != nil {
			return nil, err
		}
		out = append(out, id)
	}
	return out, nil
}

func surveyBoard(doc *diagram.Document, word string) (diagram.ID, error) {
	var named, all []string
	for p := range doc.Parts() {
		if !p.Kind.IsBoard() {
			continue
		}
		if string(p.ID) == word {
			return p.ID, nil
		}
		if strings.EqualFold(p.Name, word) {
			named = append(named, string(p.ID))
		}
		all = append(all, cmp.Or(p.Name, string(p.ID)))
	}
	switch len(named) {
	case 0:
		return "", usageError("--panel: there is no panel %q; the file has: %s", word, strings.Join(all, ", "))
	case 1:
		return diagram.ID(named[0]), nil
	}
	return "", usageError("--panel: %d panels are named %q; use an id: %s", len(named), word, strings.Join(named, ", "))
}
