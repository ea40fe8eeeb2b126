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

// deciding returns the surge cases, each at one place, that decide at some of the
// boards and loads, and those that come second there and near.
func deciding(buses []analysis.BusResult, solved []solvedCase) []extract.Input {
	all := make([]solution, 0, len(solved))
	for _, c := range solved {
		all = append(all, c.origins...)
	}
	wanted := make([]bool, len(all))
	peaks := make([]map[diagram.ID][]analysis.Peak, len(all))
	for i, s := range all {
		peaks[i] = s.outcome().Buses
	}
	for _, bus := range buses {
		for _, i := range twoWorst(peaks, bus.ID, bus.Worst().Mode) {
			wanted[i] = true
		}
	}
	var out []extract.Input
	for i, s := range all {
		if wanted[i] {
			in := s.in
			in.Failed = nil // each run finds that out anew
			in.Step = runSteps * s.circuit.Step
			out = append(out, in)
		}
	}
	return out
}

// twoWorst returns the numbers of the solution with the greatest voltage in a mode of
// a bus, and of the next one, where that is near.
func twoWorst(peaks []map[diagram.ID][]analysis.Peak, bus diagram.ID, mode analysis.Mode) []int {
	var at []int
	volts := make([]float64, len(peaks))
	for i := range peaks {
		for _, peak := range peaks[i][bus] {
			if peak.Mode == mode {
				at, volts[i] = append(at, i), peak.Volts
			}
		}
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(volts[b], volts[a]) })
	if len(at) > 1 && volts[at[1]] < nearCase*volts[at[0]] {
		return at[:1]
	}
	return at[:min(2, len(at))]
}
