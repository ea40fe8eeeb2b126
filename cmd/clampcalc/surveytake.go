package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"clampline/analysis"
	"clampline/analysis/report"
	"clampline/analysis/survey"
	"clampline/diagram/disk"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// takeSurvey reads a filled-in table, lists what it says, and writes the sheet
// with the changes where it is told where to.
func takeSurvey(out io.Writer, o surveyOptions, path string) error {
	if err := checkTake(o); err != nil {
		return err
	}
	s, err := o.open(path)
	if err != nil {
		return err
	}
	table, err := disk.Disk{}.Open(o.take)
	if err != nil {
		return fileError(disk.Explain("open", o.take, err))
	}
	defer table.Close()
	review, err := survey.ReadCSV(table, s.doc, survey.AsFound(s.doc), analysis.Trace(s.doc), s.convention)
	if err != nil {
		return fileError(fmt.Errorf("%s: %w", o.take, err))
	}
	fmt.Fprintf(out, "%s, %s: %s read\n", report.SheetTitle(s.doc), filepath.Base(o.take), unit.CountOf(review.Rows, "row"))
	writeReview(out, review)
	if err := saveTaken(out, o, s, review); err != nil {
		return err
	}
	if len(review.Problems) > 0 {
		return failure{exitFindings, errors.New("")} // what they are has been printed
	}
	return nil
}

func checkTake(o surveyOptions) error {
	switch {
	case len(o.panels) > 0:
		return usageError("survey: --panel chooses what to write and does not go with --take")
	case o.path == "":
		return nil
	case filepath.Ext(o.path) != file.Extension:
		return usageError("survey: %q: with --take a sheet is written; use a name that ends in %s", o.path, file.Extension)
	}
	return o.check()
}

// saveTaken makes the changes and writes the sheet.
func saveTaken(out io.Writer, o surveyOptions, s sheet, review survey.Review) error {
	if o.path == "" {
		fmt.Fprintf(out, "Nothing is written. Add -o surveyed%s to take the changes.\n", file.Extension)
		return nil
	}
	if _, err := s.doc.Edit(review.Apply); err != nil {
		return fileError(err)
	}
	if err := saveSheet(o.errs(), o.path, s.doc); err != nil {
		return err
	}
	fmt.Fprintf(out, "wrote %s\n", o.path)
	return nil
}

// writeReview lists the changes, then what could not be read.
func writeReview(out io.Writer, review survey.Review) {
	for _, note := range review.Notes {
		writeIndented(out, "", note)
	}
	if len(review.Changes) == 0 {
		fmt.Fprintln(out, "no changes")
	} else {
		fmt.Fprintf(out, "%s:\n", unit.CountOf(len(review.Changes), "change"))
	}
	for _, c := range review.Changes {
		writeIndented(out, "  ", fmt.Sprintf("row %d: %s", c.Row, c))
		writeIndented(out, "    ", c.Note)
	}
	if len(review.Problems) > 0 {
		fmt.Fprintf(out, "%s:\n", unit.CountOf(len(review.Problems), "thing not read|things not read"))
	}
	for _, p := range review.Problems {
		writeIndented(out, "  ", p.String())
	}
}

// writeIndented writes a text in lines that all begin so.
func writeIndented(out io.Writer, indent, text string) {
	if text = unit.Wrapped(text, tableWidth-len(indent)); text != "" {
		fmt.Fprintln(out, indent+strings.ReplaceAll(text, "\n", "\n"+indent))
	}
}
