package assess

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// solveAll solves the surge cases at the same time and returns those that could
// be solved, in their order, and a finding for each other. The error is that
// of the context, or of the first case where none could be solved.
func (e *Engine) solveAll(ctx context.Context, inputs []extract.Input) ([]solution, []analysis.Finding, error) {
	all, errs := make([]solution, len(inputs)), make([]error, len(inputs))
	sideBySide(len(inputs), func(i int) { all[i], errs[i] = e.surviving(ctx, inputs[i]) })
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	var solved []solution
	var failures []analysis.Finding
	for i, err := range errs {
		if err != nil {
			failures = append(failures, failure(inputs[i], err))
		} else {
			solved = append(solved, all[i])
		}
	}
	if len(solved) == 0 && len(errs) > 0 {
		return nil, nil, errs[0]
	}
	return solved, failures, nil
}

// failure tells that a surge case does not count, and why.
func failure(in extract.Input, err error) analysis.Finding {
	out := analysis.Finding{
		Rule: "surge.not solved", Detail: string(in.Surge.ID), Severity: analysis.Error, Subject: analysis.SubjectSurge,
		What:   "The surge case “" + analysis.SurgeName(in.Document, in.Surge) + "” is not solved; the others count",
		Why:    err.Error(),
		Remedy: "mend the surge case, or remove it",
	}
	if in.Surge.Part != "" {
		out.Records = []diagram.ID{in.Surge.Part}
	}
	return out
}
