package assess

import (
	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// Explain returns one board or load of a result with the workings of its
// levels, and false where it was not judged. doc is the document that the
// result was made from.
//
// The working of a transient says the surge case that counts, its peak, the
// peaks of the other cases, what the nearest protector took, the voltage by
// the hand rule, and the withstand.
func Explain(doc *diagram.Document, result *analysis.Result, bus diagram.ID) (analysis.BusResult, bool) {
	solved, judged := result.Buses[bus]
	if !judged {
		return analysis.BusResult{}, false
	}
	hand, ok := handrule.Explain(doc, result.Plan, result.Topology, handrule.DefaultRule(), bus)[bus]
	if !ok || result.Basis != analysis.Transient {
		return hand, ok
	}
	e := explainer{doc: doc, result: result, hand: hand}
	out := analysis.BusResult{ID: bus, System: solved.System, Levels: make([]analysis.Level, len(solved.Levels))}
	for i, level := range solved.Levels {
		out.Levels[i] = level
		out.Levels[i].Working = e.working(bus, level)
	}
	return out, true
}
