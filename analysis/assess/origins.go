package assess

import (
	"cmp"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// solvedCase is a surge case with the solutions of the places at which it arrives:
// one, but for a case that arrives at many.
type solvedCase struct {
	surge   diagram.Surge
	origins []solution
}

// outcome puts a case in the words of results: of many places the worst of each
// figure.
func (c solvedCase) outcome() analysis.SurgeResult {
	if c.surge.Places == "" {
		return c.origins[0].outcome()
	}
	var all []analysis.SurgeResult
	for _, s := range c.origins {
		all = append(all, s.outcome())
	}
	out := worstOf(c.surge, all, func(p *analysis.Peak, from int) { p.Origin = all[from].Surge.Part })
	out.Origins = all
	return out
}

// worstOf joins results of one surge case into one that has the worst of each figure.
// A peak is marked by the number of that from which it comes.
func worstOf(surge diagram.Surge, all []analysis.SurgeResult, mark func(p *analysis.Peak, from int)) analysis.SurgeResult {
	out := analysis.SurgeResult{Surge: surge, Buses: map[diagram.ID][]analysis.Peak{}, Protectors: map[diagram.ID][]analysis.Duty{}}
	for i, one := range all {
		for id, peaks := range one.Buses {
			for _, peak := range peaks {
				mark(&peak, i)
				out.Buses[id] = withPeak(out.Buses[id], peak)
			}
		}
		for id, duties := range one.Protectors {
			for _, d := range duties {
				out.Protectors[id] = withDuty(out.Protectors[id], d)
			}
		}
		out.Failed = append(out.Failed, one.Failed...)
		out.Balance, out.Duration = max(out.Balance, one.Balance), max(out.Duration, one.Duration)
		if i == 0 || one.Step < out.Step {
			out.Step = one.Step
		}
		if one.Delivered > out.Delivered {
			out.Delivered, out.Absorbed = one.Delivered, one.Absorbed
		}
		for _, a := range one.Assumptions {
			if !slices.Contains(out.Assumptions, a) {
				out.Assumptions = append(out.Assumptions, a)
			}
		}
	}
	slices.SortFunc(out.Failed, diagram.CompareID)
	out.Failed = slices.Compact(out.Failed)
	return out
}

// withPeak returns peaks with one more, of which the greater of a mode counts.
func withPeak(peaks []analysis.Peak, more analysis.Peak) []analysis.Peak {
	at, found := slices.BinarySearchFunc(peaks, more.Mode, func(p analysis.Peak, mode analysis.Mode) int { return cmp.Compare(p.Mode, mode) })
	switch {
	case !found:
		return slices.Insert(peaks, at, more)
	case more.Volts > peaks[at].Volts:
		peaks[at] = more
	}
	return peaks
}

// withDuty returns duties with one more: of a mode each figure counts where it is
// greatest.
func withDuty(duties []analysis.Duty, more analysis.Duty) []analysis.Duty {
	at, found := slices.BinarySearchFunc(duties, more.Mode, func(d analysis.Duty, mode analysis.Mode) int { return cmp.Compare(d.Mode, mode) })
	if !found {
		return slices.Insert(duties, at, more)
	}
	d := &duties[at]
	d.Charge, d.Energy = max(d.Charge, more.Charge), max(d.Energy, more.Energy)
	if more.Amps > d.Amps {
		d.Amps, d.At = more.Amps, more.At
	}
	return duties
}
