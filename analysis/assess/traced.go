package assess

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/diagram"
)

// traced is what is found of a building whatever protectors are in it. Results
// share it, so it is never altered.
type traced struct {
	doc      *diagram.Document // a snapshot; nil where nothing is traced yet
	topology *analysis.Topology
	faults   map[diagram.End]analysis.Fault
}

// trace returns what is connected to what and the fault currents: those of the
// run before where the document has the same building.
func (e *Engine) trace(ctx context.Context, doc *diagram.Document) (traced, error) {
	if e.traced.doc != nil && e.traced.doc.SameBuilding(doc) {
		return e.traced, nil
	}
	topology, err := analysis.TraceContext(ctx, doc)
	if err != nil {
		return traced{}, err
	}
	faults, err := fault.Solve(ctx, doc, topology)
	if err != nil {
		return traced{}, err
	}
	e.traced = traced{doc.Snapshot(), topology, faults}
	return e.traced, nil
}
