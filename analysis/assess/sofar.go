package assess

import (
	"maps"
	"slices"

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
	var before map[diagram.ID]analysis.BusResult
	if t.Before != nil && t.Before.Basis == analysis.Transient {
		before = t.Before.Buses
	}
	for id, bus := range result.Buses {
		switch was, known := before[id]; {
		case !known:
			result.Buses[id] = undecided(bus)
		case due[decidesAt(was.Worst())]:
			result.Stale[id] = true
		}
	}
}

// undecided returns a board or load of which nothing is known from before: what is
// exceeded stays so, and what is held so far may not be in the end.
func undecided(bus analysis.BusResult) analysis.BusResult {
	bus.Levels = slices.Clone(bus.Levels)
	for i := range bus.Levels {
		if l := &bus.Levels[i]; l.Verdict == analysis.Held || l.Verdict == analysis.Tight {
			l.Verdict, l.Reason, l.Why = analysis.Unknown, analysis.SoFar, "Some surges are still to be solved; none so far reaches more"
		}
	}
	slices.SortStableFunc(bus.Levels, analysis.WorstFirst)
	return bus
}

// keep puts back what a result had before at the places that are stale.
func (t Turn) keep(doc *diagram.Document, result *analysis.Result) {
	for id := range result.Stale {
		result.Buses[id] = t.Before.Buses[id]
	}
	judged := findJudged(doc, result)
	for id := range maps.Keys(result.Feeders) {
		f, _ := doc.Feeder(id)
		bus := judged.of(f)
		switch worst := result.Buses[bus]; {
		case result.Stale[bus]:
			if before, ok := t.Before.Feeders[id]; ok {
				result.Feeders[id] = before
			}
		case len(worst.Levels) > 0 && worst.Worst().Reason == analysis.SoFar:
			result.Feeders[id] = undecidedAlong(result.Feeders[id])
		}
	}
}

// undecidedAlong is undecided of a feeder.
func undecidedAlong(f analysis.FeederResult) analysis.FeederResult {
	f.Samples = slices.Clone(f.Samples)
	for i := range f.Samples {
		if s := &f.Samples[i]; s.Verdict == analysis.Held || s.Verdict == analysis.Tight {
			s.Verdict = analysis.Unknown
		}
	}
	return f
}
