package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/analysis/record"
	"clampline/analysis/report"
	"clampline/analysis/survey"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

const recordLong = `record prints what was built: which protector hangs where since when and by whom, what
its indicator showed, its leads and the voltage at its bus as planned and as built by the
hand rule, when to look at it again, and what differs from the plan. What is overdue is
so by the day of --date.

The record of a plan is a plan of its own named As built, a copy of the one that was
carried out; its leads are those that were built, and every figure follows them. --begin
makes it. --take reads a filled-in table or what the page for the phone saved, with the
protectors of either plan, makes the record where there is none, and with -o writes the
sheet. -o with a name that ends in .csv writes a table to fill in.

`

// recordOptions are what the command line says.
type recordOptions struct {
	source
	output
	begin bool
	take  string
	date  string
	json  bool
}

func recordCommand() *cobra.Command {
	var o recordOptions
	cmd := &cobra.Command{
		Use:   "record FILE",
		Short: "print or take what was built of a plan",
		Long:  recordLong + arrayHelp("protector of the record", table.Help(builtColumns(sheet{}))) + statuses,
		Example: "  clampcalc record tern-quay.clampline --plan \"Upgrade A\" --begin -o built.clampline\n  clampcalc record built.clampline --date 2027-12-01\n" +
			"  clampcalc record built.clampline -o built.csv\n  clampcalc record built.clampline --take filled.csv -o recorded.clampline",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), cmd.OutOrStdout(), args[0]) },
	}
	o.source.flags(cmd)
	cmd.Flags().Lookup("plan").Usage = "the plan that was carried out or its record, by name or id (default: the first that has a record)"
	o.output.flags(cmd, "the file to write: a table ending in .csv; with --begin or --take a sheet")
	cmd.Flags().BoolVar(&o.begin, "begin", false, "begin the record of the plan")
	cmd.Flags().StringVar(&o.take, "take", "", "the filled-in table to read")
	cmd.Flags().StringVar(&o.date, "date", time.Now().Format(time.DateOnly), "the day by which something is overdue")
	cmd.Flags().BoolVar(&o.json, "json", false, "print JSON")
	return cmd
}

func (o *recordOptions) check() error {
	isSheet := filepath.Ext(o.path) == file.Extension
	switch {
	case !diagram.IsDate(o.date):
		return usageError("--date: %q is no day; write year-month-day, such as 2026-11-29", o.date)
	case o.begin && o.take != "":
		return usageError("record: --take begins a record where there is none and does not go with --begin")
	case o.begin && !isSheet:
		return usageError("record: where to? with --begin add -o and a name that ends in %s", file.Extension)
	case o.take != "" && o.path != "" && !isSheet:
		return usageError("record: %q: with --take a sheet is written; use a name that ends in %s", o.path, file.Extension)
	case o.take == "" && !o.begin && isSheet:
		return usageError("record: %q: a sheet is written with --begin or --take; a table ends in .csv", o.path)
	}
	return o.output.check()
}

func (o *recordOptions) run(ctx context.Context, out io.Writer, path string) error {
	if err := o.check(); err != nil {
		return err
	}
	s, err := o.open(path)
	if err != nil {
		return err
	}
	of, found := o.find(&s)
	switch {
	case o.begin && found:
		return usageError("record: %s records plan %s already", s.doc.NameOf(s.plan.ID), s.doc.NameOf(s.plan.Of))
	case o.begin:
		if err := s.begin(of); err != nil {
			return err
		}
		return o.save(out, s)
	case o.take != "":
		return o.takeRecord(out, s, of, found)
	case !found:
		return usageError("record: no plan records what was built of %s; begin one: clampcalc record %s --plan \"%s\" --begin -o built%s", s.doc.NameOf(of), path, s.doc.NameOf(of), file.Extension)
	case o.path != "":
		sheets := survey.Sheets(s.doc, s.plan.ID, analysis.Trace(s.doc), nil, nil, s.convention)
		return o.write(out, func(w io.Writer) error { return survey.WriteRecordCSV(w, sheets) })
	}
	return o.print(ctx, out, s)
}

// find makes the record the plan of the sheet, and reports whether there is one; it
// returns the plan that was carried out. Without --plan that is the first which has a
// record, else the last.
func (o *recordOptions) find(s *sheet) (of diagram.ID, found bool) {
	plans := s.doc.Plans()
	of = s.plan.ID
	if o.plan == "" {
		of = plans[len(plans)-1].ID
		for _, p := range plans {
			if p.Of != "" {
				s.plan = p
				return p.Of, true
			}
		}
	}
	if s.plan.Of != "" && o.plan != "" {
		return s.plan.Of, true
	}
	built, ok := s.doc.RecordOf(of)
	if ok {
		s.plan = built
	}
	return of, ok
}

// begin adds the record of a plan.
func (s *sheet) begin(of diagram.ID) error {
	_, err := s.doc.Edit(func(tx *diagram.Tx) error { tx.BeginRecord(of); return nil })
	if err != nil {
		return fileError(err)
	}
	s.plan, _ = s.doc.RecordOf(of)
	return nil
}

func (o *recordOptions) save(out io.Writer, s sheet) error {
	if err := saveSheet(o.errs(), o.path, s.doc); err != nil {
		return err
	}
	_, err := fmt.Fprintf(out, "wrote %s\n", o.path)
	return wrapFile(err)
}

// takeRecord reads a filled-in table into the record.
func (o *recordOptions) takeRecord(out io.Writer, s sheet, of diagram.ID, found bool) error {
	if !found {
		if err := s.begin(of); err != nil {
			return err
		}
		fmt.Fprintf(out, "Plan %s records from here on what was built of %s.\n", s.doc.NameOf(s.plan.ID), s.doc.NameOf(of))
	}
	filled, err := disk.Disk{}.Open(o.take)
	if err != nil {
		return fileError(disk.Explain("open", o.take, err))
	}
	defer filled.Close()
	review, err := survey.ReadRecord(filled, s.doc, s.plan, analysis.Trace(s.doc), s.convention)
	if err != nil {
		return fileError(fmt.Errorf("%s: %w", o.take, err))
	}
	fmt.Fprintf(out, "%s, %s: %s read\n", report.SheetTitle(s.doc), filepath.Base(o.take), unit.CountOf(review.Rows, "row"))
	writeReview(out, review)
	if err := saveTaken(out, surveyOptions{source: o.source, output: o.output}, s, review); err != nil {
		return err
	}
	if len(review.Problems) > 0 {
		return failure{exitFindings, errors.New("")} // what they are has been printed
	}
	return nil
}

// print judges both plans and writes the record.
func (o *recordOptions) print(ctx context.Context, out io.Writer, s sheet) error {
	var planned *analysis.Result
	var err error
	if s.result, err = assess.Run(ctx, s.doc, s.plan.ID); err != nil {
		return s.refusal(err)
	}
	if _, ok := s.doc.Plan(s.plan.Of); ok {
		if planned, err = assess.Run(ctx, s.doc, s.plan.Of); err != nil {
			return s.refusal(err)
		}
	}
	rows := record.Rows(s.doc, s.plan, planned, s.result, o.date)
	if o.json {
		return writeJSON(out, table.Records(builtColumns(s), rows))
	}
	fmt.Fprintf(out, "%s, plan %s: record of plan %s, by the hand rule\n\n", report.SheetTitle(s.doc), s.doc.NameOf(s.plan.ID), cmp.Or(s.doc.NameOf(s.plan.Of), "that is gone"))
	if err := table.Text(out, builtColumns(s), rows, ""); err != nil {
		return fileError(err)
	}
	writeOverdue(out, s, rows, o.date)
	writeDifferences(out, s, record.Differences(s.doc, s.plan, planned, s.result))
	_, err = fmt.Fprintf(out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

// writeOverdue says what is to be looked at again by a day.
func writeOverdue(out io.Writer, s sheet, rows []record.Row, today string) {
	months := cmp.Or(s.doc.Info().Recheck, diagram.UsualRecheck)
	var names []string
	for _, row := range rows {
		if row.Overdue {
			names = append(names, s.doc.NameOf(row.Built.ID)+" on "+s.doc.NameOf(row.Built.Bus)+" since "+row.Due)
		}
	}
	text := "nothing"
	if len(names) > 0 {
		text = strings.Join(names, ", ")
	}
	fmt.Fprintf(out, "\n%s\n", unit.Wrapped(fmt.Sprintf("Overdue on %s: %s. A look every %s: common practice, no source; the sheet sets it.", today, text, unit.CountOf(months, "month")), tableWidth))
}

// writeDifferences lists what was built otherwise than planned.
func writeDifferences(out io.Writer, s sheet, differences []record.Difference) {
	if len(differences) == 0 {
		fmt.Fprintf(out, "\nBuilt as planned.\n")
		return
	}
	fmt.Fprintf(out, "\nDiffers from the plan by:\n")
	for _, d := range differences {
		p, what := cmp.Or(d.After, d.Before), strings.Join(d.Lines(s.convention), "; ")
		switch {
		case d.Before == nil:
			what = "is not in the plan"
		case d.After == nil:
			what = "was not built"
		}
		volts := ""
		if was, is := levelCell(s, d.Was), levelCell(s, d.Is); was != is {
			volts = "; " + was + " → " + is + " at its bus"
		}
		writeIndented(out, "  ", s.doc.NameOf(p.ID)+" on "+s.doc.NameOf(d.Bus)+": "+what+volts)
	}
}

// levelCell is a voltage with its verdict.
func levelCell(s sheet, l analysis.Level) string {
	if !l.Known {
		return "-"
	}
	return unit.Format(l.Volts, unit.Voltage, s.convention) + " " + l.Verdict.String()
}
