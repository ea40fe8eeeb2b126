package compare

import (
	"context"
	"slices"

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
	Progress func(share float64)                         // told how much is solved, up to 1; may be nil
}

// All returns every plan of a document as it is listed.
func All(doc *diagram.Document) []diagram.ID {
	var out []diagram.ID
	for _, plan := range doc.Plans() {
		out = append(out, plan.ID)
	}
	return out
}

// Same reports whether a plan comes out alike on two documents: they have the same building,
// the same surge cases and plans, and the plan the same protectors and the same findings
// set aside.
func Same(a, b *diagram.Document, plan diagram.ID) bool {
	return a.SameBuilding(b) && slices.Equal(a.Surges(), b.Surges()) && slices.Equal(a.Plans(), b.Plans()) &&
		slices.Equal(slices.Collect(a.ProtectorsOf(plan)), slices.Collect(b.ProtectorsOf(plan))) &&
		slices.Equal(asidesOf(a, plan), asidesOf(b, plan))
}

func asidesOf(doc *diagram.Document, plan diagram.ID) []diagram.Aside {
	return slices.DeleteFunc(slices.Collect(doc.Asides()), func(a diagram.Aside) bool { return a.Plan != plan })
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
	work := course{of: len(missing), tell: in.Progress}
	for _, plan := range missing {
		result, err := work.solve(ctx, engine, in.Document, plan, in.Basis, in.Surges)
		if err != nil {
			return Input{}, err
		}
		known[plan] = result
	}
	in.Known = known
	return in, nil
}

// course is how far some solutions are.
type course struct {
	done, of int
	tell     func(share float64) // nil for nobody
}

// solve solves one plan on a basis. Nobody draws its feeders.
func (c *course) solve(ctx context.Context, engine *assess.Engine, doc *diagram.Document, plan diagram.ID, basis analysis.Basis, surges []diagram.Surge) (*analysis.Result, error) {
	result, err := c.result(ctx, engine, doc, plan, basis, surges)
	c.done++
	c.told(0)
	return result, err
}

func (c *course) result(ctx context.Context, engine *assess.Engine, doc *diagram.Document, plan diagram.ID, basis analysis.Basis, surges []diagram.Surge) (*analysis.Result, error) {
	if basis != analysis.Transient {
		return engine.HandRule(ctx, doc, plan)
	}
	before := engine.Coarse
	engine.Coarse = true
	defer func() { engine.Coarse = before }()
	turn := assess.Turn{}
	if c.tell != nil {
		turn.SoFar = func(r *analysis.Result) { c.told(1 - float64(r.Due)/float64(max(1, r.Of))) }
	}
	return engine.InTurn(ctx, doc, plan, turn, surges...)
}

// told tells how far the work is, with a share of the solution under way.
func (c *course) told(share float64) {
	if c.tell != nil {
		c.tell((float64(c.done) + share) / float64(c.of))
	}
}
