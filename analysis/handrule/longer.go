package handrule

import (
	"context"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

// MostLonger bounds what Longer finds, m: leads that are longer by more are no
// question of a place any more. Common practice, no source.
const MostLonger = 3.0

// Longer returns for each protector of a plan by how many steps of a length, m, all its
// leads may be longer at once with no verdict of the building worse for it by the rule,
// and, of one with an Up, with no more than lead.AtMost on line and earth side together.
// A protector at whose bus the withstand is not kept or not known has none.
func Longer(ctx context.Context, doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, rule Rule, step float64) (map[diagram.ID]int, error) {
	before, err := Solve(ctx, doc, plan, topology, rule)
	if err != nil {
		return nil, err
	}
	out := map[diagram.ID]int{}
	for p := range doc.ProtectorsOf(plan) {
		if !keeps(before.Buses[p.Bus]) {
			continue
		}
		low, high := 0, int(mostOf(&p)/step)+1 // low does, high does not
		for high-low > 1 {
			middle := (low + high) / 2
			longer, refused := stretched(doc, p, float64(middle)*step)
			if refused != nil { // no lead is that long, by the model
				high = middle
				continue
			}
			after, err := Solve(ctx, longer, plan, topology, rule)
			if err != nil {
				return nil, err
			}
			if noWorse(before, after) {
				low = middle
			} else {
				high = middle
			}
		}
		out[p.ID] = low
	}
	return out, nil
}

// mostOf bounds how much longer each lead of a protector may be, m.
func mostOf(p *diagram.Protector) float64 {
	if p.Rating != diagram.Up {
		return MostLonger
	}
	long := lead.Longest(p)
	return min(MostLonger, max(0, lead.AtMost-long.Line-long.Back)/2)
}

// keeps reports whether the worst mode of a bus is within its withstand.
func keeps(bus analysis.BusResult) bool {
	return len(bus.Levels) > 0 && (bus.Worst().Verdict == analysis.Held || bus.Worst().Verdict == analysis.Tight)
}

// stretched returns the document with all leads of a protector longer. The error is that
// of the model, which takes no lead of any length.
func stretched(doc *diagram.Document, p diagram.Protector, by float64) (*diagram.Document, error) {
	out := doc.Snapshot()
	_, err := out.Edit(func(tx *diagram.Tx) error {
		plan, _ := tx.Document().Plan(p.Plan)
		plan.Locked = false
		tx.SetPlan(plan)
		for _, lead := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
			lead.Length += by
		}
		tx.SetProtector(p)
		return nil
	})
	return out, err
}

func noWorse(before, after *analysis.Result) bool {
	for id, bus := range before.Buses {
		if len(bus.Levels) > 0 && len(after.Buses[id].Levels) > 0 && after.Buses[id].Worst().Verdict.Rank() < bus.Worst().Verdict.Rank() {
			return false
		}
	}
	return true
}
