package assess

import (
	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// Explain returns the result of one board or load of the document with the
// workings of its levels, and false where the plan or the bus is not there.
func Explain(doc *diagram.Document, plan, bus diagram.ID) (analysis.BusResult, bool) {
	if _, ok := doc.Plan(plan); !ok {
		return analysis.BusResult{}, false
	}
	out, ok := handrule.Explain(doc, plan, analysis.Trace(doc), handrule.DefaultRule(), bus)[bus]
	return out, ok
}
