package assess

import (
	"context"
	"fmt"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/handrule"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// Run traces the building, applies the hand rule, with its usual figures, to the
// protectors of one plan, finds the fault currents, and lists what the rules
// find wrong. doc is a snapshot, or else nobody changes it
// until Run returns. An error says that the context has ended, or that the
// document has no such plan.
func Run(ctx context.Context, doc *diagram.Document, plan diagram.ID) (*analysis.Result, error) {
	if _, ok := doc.Plan(plan); !ok {
		return nil, fmt.Errorf("plan %q: the document has no plan of this id; choose one of its plans", string(plan))
	}
	topology, err := analysis.TraceContext(ctx, doc)
	if err != nil {
		return nil, err
	}
	result, err := handrule.SolveContext(ctx, doc, plan, topology, handrule.DefaultRule())
	if err != nil {
		return nil, err
	}
	if result.Faults, err = fault.SolveContext(ctx, doc, topology); err != nil {
		return nil, err
	}
	in := rule.Input{Document: doc, Plan: plan, Topology: topology, Faults: result.Faults}
	offerPlaces(ctx, in, result)
	found, err := rule.CheckContext(ctx, in)
	if err != nil {
		return nil, err
	}
	result.Findings = append(result.Findings, found...)
	analysis.SortFindings(result.Findings)
	return result, ctx.Err()
}
