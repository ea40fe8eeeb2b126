package compare

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
)

// Input is what is compared.
type Input struct {
	Document *diagram.Document
	Plans    []diagram.ID // in the order of the columns
	Basis    analysis.Basis
	Surges   []diagram.Surge // of the transient; none stands for all of the sheet

	// Known are results at hand of the same document, basis and surges, by plan. One
	// of another basis, or of which more is due, does not count.
	Known map[diagram.ID]*analysis.Result

	Bands    map[diagram.ID]map[diagram.ID]analysis.Band // at hand, by plan and bus; may be nil
	Progress func(done, of int)                          // told after each plan that was solved; may be nil
}

// All returns every plan of a document as it is listed.
func All(doc *diagram.Document) []diagram.ID {
	var out []diagram.ID
	for _, plan := range doc.Plans() {
		out = append(out, plan.ID)
	}
	return out
}

// known returns the result at hand of a plan, or nil.
func (in Input) known(plan diagram.ID) *analysis.Result {
	if r := in.Known[plan]; isWhole(r) && r.Basis == in.Basis && r.Plan == plan {
		return r
	}
	return nil
}

// isWhole reports whether there is a result of which nothing is due.
func isWhole(r *analysis.Result) bool { return r != nil && r.Due == 0 }

// Missing returns the plans of which no result is at hand.
func (in Input) Missing() []diagram.ID {
	var out []diagram.ID
	for _, plan := range in.Plans {
		if in.known(plan) == nil {
			out = append(out, plan)
		}
	}
	return out
}

// Solve returns the input with the results that were not at hand, each plan solved
// once. The error is that of the engine: of the context, or of what could not be
// solved.
func Solve(ctx context.Context, engine *assess.Engine, in Input) (Input, error) {
	missing, known := in.Missing(), map[diagram.ID]*analysis.Result{}
	for _, plan := range in.Plans {
		if r := in.known(plan); r != nil {
			known[plan] = r
		}
	}
	for i, plan := range missing {
		result, err := solveOne(ctx, engine, in.Document, plan, in.Basis, in.Surges)
		if err != nil {
			return Input{}, err
		}
		known[plan] = result
		if in.Progress != nil {
			in.Progress(i+1, len(missing))
		}
	}
	in.Known = known
	return in, nil
}

// solveOne solves one plan on a basis. Nobody draws its feeders.
func solveOne(ctx context.Context, engine *assess.Engine, doc *diagram.Document, plan diagram.ID, basis analysis.Basis, surges []diagram.Surge) (*analysis.Result, error) {
	if basis != analysis.Transient {
		return engine.HandRule(ctx, doc, plan)
	}
	before := engine.Coarse
	engine.Coarse = true
	defer func() { engine.Coarse = before }()
	return engine.Transient(ctx, doc, plan, surges...)
}
