package assess

import (
	"cmp"
	"slices"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// nearCase is the share of the voltage that decides at a bus above which the next
// surge case may take over in a run.
const nearCase = 0.6

// runSteps is how many usual steps a run takes at once. By two, no voltage that decides
// on the demos moves by more than 0.7 %, and a run takes half the time; by four some
// move by 4 %.
const runSteps = 2

// untilPeak is to which multiple of the time of the latest peak that counts a run of a
// long wave is solved.
const untilPeak = 2

// bandCase is a surge case at one place, as a run solves it.
type bandCase struct {
	extract.Input
	end   float64 // s, to which it is solved, without the protectors that it destroys on the sheet as it is; 0 for all of it
	buses []int   // the numbers of those that it counts for
}

// deciding returns the surge cases, each at one place, that decide at some of the
// boards and loads, and those that come second there and near. Each counts wherever it
// comes near what decides. Inputs are made from in.
func deciding(in extract.Input, buses []analysis.BusResult, surges []analysis.SurgeResult) []bandCase {
	var all []analysis.SurgeResult
	for _, s := range surges {
		if len(s.Origins) > 0 {
			all = append(all, s.Origins...)
		} else {
			all = append(all, s)
		}
	}
	wanted := make([]bool, len(all))
	for _, bus := range buses {
		for _, i := range twoWorst(all, bus.ID, bus.Worst().Mode) {
			wanted[i] = true
		}
	}
	var out []bandCase
	for i, s := range all {
		if wanted[i] {
			out = append(out, caseOf(in, buses, s))
		}
	}
	return out
}

// caseOf is a surge at one place as a run solves it. One of a long wave ends when what
// counts of it is over.
func caseOf(in extract.Input, buses []analysis.BusResult, s analysis.SurgeResult) bandCase {
	in.Surge, in.Step = s.Surge, runSteps*s.Step
	out := bandCase{Input: in}
	latest := 0.0
	for i, bus := range buses {
		near := false
		for _, peak := range s.Buses[bus.ID] {
			if peak.Volts > nearCase*bus.Worst().Volts {
				near, latest = true, max(latest, peak.At)
			}
		}
		if near {
			out.buses = append(out.buses, i)
		}
	}
	if extract.IsLong(s.Surge.Wave) {
		out.end = min(untilPeak*latest, s.Duration)
		out.Failed = map[diagram.ID]bool{}
		for _, id := range s.Failed {
			out.Failed[id] = true
		}
	}
	return out
}

// twoWorst returns the numbers of the surge with the greatest voltage in a mode of a
// bus, and of the next one, where that is near.
func twoWorst(all []analysis.SurgeResult, bus diagram.ID, mode analysis.Mode) []int {
	var at []int
	volts := make([]float64, len(all))
	for i, s := range all {
		if peak, ok := s.Worst(bus, mode); ok {
			at, volts[i] = append(at, i), peak.Volts
		}
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(volts[b], volts[a]) })
	if len(at) > 1 && volts[at[1]] < nearCase*volts[at[0]] {
		return at[:1]
	}
	return at[:min(2, len(at))]
}
