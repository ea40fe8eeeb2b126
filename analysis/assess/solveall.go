package assess

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// solveAll solves the surge cases at the same time, at each of their places, and
// returns those that could be solved somewhere, in their order, and a finding for
// each other. The error is that of the context, or of the first case where none
// could be solved.
func (e *Engine) solveAll(ctx context.Context, cases []posed) ([]solvedCase, []analysis.Finding, error) {
	var inputs []extract.Input
	for _, c := range cases {
		inputs = append(inputs, c.places...)
	}
	all, errs := make([]solution, len(inputs)), make([]error, len(inputs))
	sideBySide(len(inputs), func(i int) { all[i], errs[i] = e.bothWays(ctx, inputs[i]) })
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	var solved []solvedCase
	var failures []analysis.Finding
	first := 0
	for _, c := range cases {
		out := solvedCase{surge: c.surge}
		for i := first; i < first+len(c.places); i++ {
			if errs[i] != nil {
				failures = append(failures, failure(inputs[i], errs[i]))
			} else {
				out.origins = append(out.origins, all[i])
			}
		}
		if first += len(c.places); len(out.origins) > 0 {
			solved = append(solved, out)
		}
		if len(c.places) == 0 {
			failures = append(failures, nowhere(c))
		}
	}
	if len(solved) == 0 && len(errs) > 0 {
		return nil, nil, errs[0]
	}
	return solved, failures, nil
}

// nowhere tells that a surge case finds no place of the sort at which it arrives.
func nowhere(c posed) analysis.Finding {
	return analysis.Finding{
		Rule: "surge.nowhere", Detail: string(c.surge.ID), Severity: analysis.Warning, Subject: analysis.SubjectSurge,
		What:   "The surge case “" + c.surge.Name + "” arrives nowhere",
		Why:    "it arrives at " + string(c.surge.Places) + ", and none of them is fed by a known system",
		Remedy: "choose other places for it, or remove it",
	}
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
