package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// source is the sheet that a command works on, as its options say.
type source struct {
	plan  string
	units string
	basis string

	everywhere bool

	errs func() io.Writer // for what is doubtful
}

func (s *source) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&s.plan, "plan", "", "the plan, by name or id (default: the first)")
	s.unitsFlag(cmd)
}

// unitsFlag is flags for a command that is about no one plan.
func (s *source) unitsFlag(cmd *cobra.Command) {
	s.errs = cmd.ErrOrStderr
	cmd.Flags().StringVar(&s.units, "units", "", "us or iec: units and words (default: as the system of the supply suggests)")
}

// basisFlag lets the command choose how the voltages are found.
func (s *source) basisFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&s.basis, "basis", "hand", "hand or transient: how the voltages are found")
	s.everywhereFlag(cmd)
}

// everywhereFlag lets the command solve a large building at every place.
func (s *source) everywhereFlag(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&s.everywhere, "everywhere", false, "of a large building, solve surges born inside at every place, however long that takes")
}

// sheet is a document with the results of one plan.
type sheet struct {
	doc        *diagram.Document
	plan       diagram.Plan
	convention unit.Convention
	result     *analysis.Result
	everywhere bool
	bands      map[diagram.ID]analysis.Band // nil where nobody asked
}

// engine returns what solves the sheet.
func (s sheet) engine() *assess.Engine { return &assess.Engine{Everywhere: s.everywhere} }

// refusal is the error of an analysis in the words of the sheet's convention.
func (s sheet) refusal(err error) error {
	return fileError(worded{unit.Words(err.Error(), s.convention), err})
}

// worded is an error in other words.
type worded struct {
	text string
	err  error
}

func (w worded) Error() string { return w.text }
func (w worded) Unwrap() error { return w.err }

// load opens the sheet and judges it, by the hand rule unless the options say
// otherwise.
func (s *source) load(ctx context.Context, path string) (sheet, error) {
	basis, err := s.chosenBasis()
	if err != nil {
		return sheet{}, err
	}
	judge := assess.Run
	if basis == analysis.Transient {
		judge = func(ctx context.Context, doc *diagram.Document, plan diagram.ID) (*analysis.Result, error) {
			return (&assess.Engine{Everywhere: s.everywhere}).Transient(ctx, doc, plan)
		}
	}
	out, err := s.open(path)
	if err != nil {
		return sheet{}, err
	}
	if out.result, err = judge(ctx, out.doc, out.plan.ID); err != nil {
		return sheet{}, out.refusal(err)
	}
	return out, nil
}

// chosenBasis is the basis that the option names.
func (s *source) chosenBasis() (analysis.Basis, error) {
	switch s.basis {
	case "", "hand":
		return analysis.HandRule, nil
	case "transient":
		return analysis.Transient, nil
	}
	return "", usageError("--basis: %q is neither hand nor transient", s.basis)
}

// open opens the sheet without a result.
func (s *source) open(path string) (sheet, error) {
	opened, err := file.Open(path)
	if err != nil {
		return sheet{}, fileError(err)
	}
	if opened.Warning != "" {
		fmt.Fprintf(s.errs(), "clampcalc: %s: %s\n", path, opened.Warning)
	}
	doc := opened.Document
	plan, err := findPlan(doc, s.plan)
	if err != nil {
		return sheet{}, err
	}
	convention := unit.NorthAmerican
	if doc.UsesIEC() {
		convention = unit.IEC
	}
	if s.units != "" {
		if convention, err = unit.ParseConvention(s.units); err != nil {
			return sheet{}, usageError("--units: %w", err)
		}
	}
	return sheet{doc: doc, plan: plan, convention: convention, everywhere: s.everywhere}, nil
}

// findPlans returns the plans that a list of names or ids between commas names, all of
// them where it is empty.
func findPlans(doc *diagram.Document, words string) ([]diagram.ID, error) {
	if words == "" {
		return compare.All(doc), nil
	}
	var out []diagram.ID
	for _, word := range strings.Split(words, ",") {
		word = strings.TrimSpace(word)
		if word == "" {
			return nil, usageError("--plans: %q has a comma with nothing before or after it", words)
		}
		plan, err := findPlan(doc, word)
		if err != nil {
			return nil, err
		}
		if slices.Contains(out, plan.ID) {
			return nil, usageError("--plans: %q is named twice", word)
		}
		out = append(out, plan.ID)
	}
	return out, nil
}

// findPlan returns the plan with the id or the name, upper and lower case
// alike; no word takes the first plan.
func findPlan(doc *diagram.Document, word string) (diagram.Plan, error) {
	plans := doc.Plans()
	if word == "" {
		return plans[0], nil
	}
	var names []string
	for _, plan := range plans {
		if string(plan.ID) == word || strings.EqualFold(plan.Name, word) {
			return plan, nil
		}
		names = append(names, cmp.Or(plan.Name, string(plan.ID)))
	}
	return diagram.Plan{}, usageError("--plan: there is no plan %q; the file has: %s", word, strings.Join(names, ", "))
}
