package assess

import (
	"context"
	"fmt"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// Run traces the building and applies the hand rule, with its usual figures,
// to the protectors of one plan. doc is a snapshot, or else nobody changes it
// until Run returns. An error says that the context has ended, or that the
// document has no such plan.
func Run(ctx context.Context, doc *diagram.Document, plan diagram.ID) (*analysis.Result, error) {
	if _, ok := doc.Plan(plan); !ok {
		return nil, fmt.Errorf("plan %q: the document has no plan of this id; choose one of its plans", string(plan))
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	topology := analysis.Trace(doc)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	result := handrule.Solve(doc, plan, topology, handrule.DefaultRule())
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return result, nil
}
