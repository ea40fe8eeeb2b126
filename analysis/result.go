package analysis

import (
	"cmp"
	"math"
	"slices"

	"clampline/diagram"
)

// Level is the surge voltage in one mode of a bus or piece of equipment.
type Level struct {
	Mode      Mode
	Known     bool    // whether Volts is a number; otherwise Verdict is Unreached or Unknown
	Volts     float64 // V peak
	Withstand float64 // V peak; 0 not known
	Verdict   Verdict
	Reason    Reason
	Why       string     // the reason in one sentence that names the parts
	Protector diagram.ID // the one that decides, or the one that does not count; empty where there is none
	Judged    bool       // whether the mode takes part in the verdict of the bus
	Surge     string     // name of the surge case that decides; empty for the hand rule
	Origin    diagram.ID // the part at which that arrived, of a case with many places; else empty
	Filtered  bool       // with loads of which the sheet says nothing as input filters; else open, or there are none
	Working   Working
}

// Percent returns Volts in per cent of Withstand, and false where either is
// not known.
func (l Level) Percent() (float64, bool) {
	if !l.Known || l.Withstand <= 0 {
		return 0, false
	}
	return 100 * l.Volts / l.Withstand, true
}

// BusResult is the outcome at one bus or piece of equipment.
type BusResult struct {
	ID     diagram.ID
	System diagram.System // zero where it is not known
	Levels []Level        // one for each mode that the bus has, the worst first; never empty
}

// Worst returns the level that decides the verdict.
func (r BusResult) Worst() Level { return r.Levels[0] }

// Sample is the voltage at one place along a feeder.
type Sample struct {
	Share   float64 // of the way from the feeder's From (0) to its To (1)
	Known   bool    // whether Volts is a number
	Volts   float64 // V peak, in the worst mode
	Verdict Verdict // against the withstand of what the feeder leads to
}

// FeederResult is the voltage along one feeder, from its From to its To.
type FeederResult struct {
	ID      diagram.ID
	Samples []Sample // two or more, Share increasing from 0 to 1
}

// Break is a place where cover ends: a transformer or an open switch between
// a bus that a protector reaches and one beyond.
type Break struct {
	ID     diagram.ID // the transformer, or the feeder that is open
	Reason Reason     // PastTransformer or PastSwitch
}

// Result is the outcome of one basis for one plan.
type Result struct {
	Basis    Basis
	Plan     diagram.ID
	Topology *Topology
	Buses    map[diagram.ID]BusResult    // boards and loads
	Feeders  map[diagram.ID]FeederResult // every feeder
	Breaks   []Break                     // in the order of the ids
	Findings []Finding                   // sorted as by SortFindings
	Aside    []SetAside                  // those that a person has set aside, which are not among them
	Surges   []SurgeResult               // by surge case, in their order; empty for the hand rule
	Faults   map[diagram.End]Fault       // by terminal, without workings

	// Due is how many surges are still to be solved, of Of in all, each at one place; 0
	// once all are. Until then a voltage may still rise. Stale are the boards and loads
	// whose levels are those of the run before, since the surge that decided there is
	// among them.
	Due, Of int
	Stale   map[diagram.ID]bool
}

// Count returns how many buses and pieces of equipment have each verdict.
func (r *Result) Count() map[Verdict]int {
	out := map[Verdict]int{}
	for _, bus := range r.Buses {
		out[bus.Worst().Verdict]++
	}
	return out
}

// Downward returns the judged parts as the current flows: by the number of steps
// from their supply, then by id; what nothing feeds stands last.
func (r *Result) Downward(doc *diagram.Document) []diagram.Part {
	steps := func(part diagram.Part) int {
		if node := r.Topology.Node(part); node != nil && node.Fed {
			return node.Depth
		}
		return math.MaxInt
	}
	var out []diagram.Part
	for part := range doc.Parts() {
		if _, ok := r.Buses[part.ID]; ok {
			out = append(out, part)
		}
	}
	slices.SortStableFunc(out, func(a, b diagram.Part) int { return cmp.Compare(steps(a), steps(b)) })
	return out
}
