package assess

import (
	"cmp"
	"context"
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
	buses []int   // the numbers of those that it counts for
	end   float64 // s, to which it is solved; 0 for all of it
	grows growth  // after that, on the sheet as it is
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
	}
	return out
}

// foresee finds out, on the sheet as it is, by how much the charges of protectors grow
// after the end of a run.
func (c *bandCase) foresee(ctx context.Context, e *Engine) error {
	if c.end <= 0 {
		return nil
	}
	all, err := e.solve(ctx, c.Input, 0)
	if err != nil {
		return err
	}
	some, err := e.solve(ctx, c.Input, c.end)
	if err != nil {
		return err
	}
	c.grows = growth{}
	for i, p := range all.circuit.Protectors {
		if soon := greatestCharge(some.duties(some.circuit.Protectors[i])).Charge; soon > 0 {
			c.grows[p.ID] = greatestCharge(all.duties(p)).Charge / soon
		}
	}
	return nil
}

// doubt is by which factor the charge that is foreseen in a run may be off: on the demos
// it is by up to 1.9, since the current of a tail parts otherwise than that of a front.
const doubt = 2.5

// solve solves the case of a run. One that ends early goes on to the end where it is in
// doubt whether a protector stands it.
func (c bandCase) solve(ctx context.Context, e *Engine, v *extract.Vary) (solution, error) {
	c.Vary = v
	if c.end <= 0 {
		return e.surviving(ctx, c.Input)
	}
	return survivingBy(c.Input, func(in extract.Input) (solution, growth, error) {
		s, err := e.solve(ctx, in, c.end)
		if err != nil {
			return s, nil, err
		}
		for _, p := range s.circuit.Protectors {
			if load := s.loadOf(p, c.grows); load > 1/doubt && load < doubt {
				s, err = e.solve(ctx, in, 0)
				return s, nil, err
			}
		}
		return s, c.grows, nil
	})
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
