package assess

import (
	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// Explain returns one board or load of a result with the workings of its
// levels, and false where it was not judged. doc is the document that the
// result was made from.
func Explain(doc *diagram.Document, result *analysis.Result, bus diagram.ID) (analysis.BusResult, bool) {
	if _, judged := result.Buses[bus]; !judged {
		return analysis.BusResult{}, false
	}
	out, ok := handrule.Explain(doc, result.Plan, result.Topology, handrule.DefaultRule(), bus)[bus]
	return out, ok
}
