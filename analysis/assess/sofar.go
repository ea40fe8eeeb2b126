package assess

import (
	"maps"

	"clampline/analysis"
	"clampline/diagram"
)

// soFar marks a result of which more is due. Where the surge that decided before is
// still to be solved, the levels are those of before: a voltage that drops to that of
// some other surge for a moment would mislead.
func (t Turn) soFar(result *analysis.Result, jobs []*job) {
	due := map[decider]bool{}
	result.Of, result.Stale = len(jobs), map[diagram.ID]bool{}
	for _, j := range jobs {
		if !j.done {
			due[j.decider] = true
			result.Due++
		}
	}
	if t.Before == nil {
		return
	}
	for id := range result.Buses {
		if before, ok := t.Before.Buses[id]; ok && due[decidesAt(before.Worst())] {
			result.Stale[id] = true
		}
	}
}

// keep puts back what a result had before at the places that are stale.
func (t Turn) keep(doc *diagram.Document, result *analysis.Result) {
	if len(result.Stale) == 0 {
		return
	}
	for id := range result.Stale {
		result.Buses[id] = t.Before.Buses[id]
	}
	judged := findJudged(doc, result)
	for id := range maps.Keys(result.Feeders) {
		f, _ := doc.Feeder(id)
		if before, ok := t.Before.Feeders[id]; ok && result.Stale[judged.of(f)] {
			result.Feeders[id] = before
		}
	}
}
