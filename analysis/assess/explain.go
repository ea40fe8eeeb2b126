package assess

import (
	"fmt"
	"maps"
	"slices"

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
	out, ok := explain(doc, result, bus)[bus]
	return out, ok
}

// ExplainAll is Explain for every board and load of a result.
func ExplainAll(doc *diagram.Document, result *analysis.Result) map[diagram.ID]analysis.BusResult {
	return explain(doc, result, slices.SortedFunc(maps.Keys(result.Buses), diagram.CompareID)...)
}

func explain(doc *diagram.Document, result *analysis.Result, buses ...diagram.ID) map[diagram.ID]analysis.BusResult {
	judged := slices.DeleteFunc(buses, func(id diagram.ID) bool { _, ok := result.Buses[id]; return !ok })
	if len(judged) == 0 {
		return nil
	}
	hands := handrule.Explain(doc, result.Plan, result.Topology, handrule.DefaultRule(), judged...)
	if result.Basis != analysis.Transient {
		return hands
	}
	out, all := make(map[diagram.ID]analysis.BusResult, len(hands)), maps.Clone(hands)
	for bus, hand := range hands {
		solved, e := result.Buses[bus], explainer{doc: doc, result: result, hand: hand, hands: all}
		one := analysis.BusResult{ID: bus, System: solved.System, Levels: slices.Clone(solved.Levels)}
		for i, level := range solved.Levels {
			if result.Stale[bus] {
				one.Levels[i].Working = analysis.Working{{Label: "surges", Text: fmt.Sprintf("of %d surges %d are still to be solved, that among them which decided before the last change; the figure is that of before", result.Of, result.Due)}}
				continue
			}
			one.Levels[i].Working = e.working(bus, level)
		}
		out[bus] = one
	}
	return out
}
