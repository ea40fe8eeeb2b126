package main

import (
	"cmp"
	"context"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// source is the sheet that a command works on, as its options say.
type source struct {
	plan  string
	units string
}

func (s *source) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&s.plan, "plan", "", "the plan, by name or id (default: the first)")
	cmd.Flags().StringVar(&s.units, "units", "", "us or iec: units and words (default: as the supply's earthing suggests)")
}

// sheet is a document with the results of one plan.
type sheet struct {
	doc        *diagram.Document
	plan       diagram.Plan
	convention unit.Convention
	result     *analysis.Result
}

func (s *source) load(ctx context.Context, path string) (sheet, error) {
	doc, err := file.Load(path)
	if err != nil {
		return sheet{}, fileError(err)
	}
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
	result, err := assess.Run(ctx, doc, plan.ID)
	if err != nil {
		return sheet{}, fileError(err)
	}
	return sheet{doc, plan, convention, result}, nil
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
