package assess

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/handrule"
	"clampline/analysis/transient"
	"clampline/diagram"
)

// insidePlaces is at how many places inside a feeder the voltage is kept for
// the drawing.
const insidePlaces = 7

// solution is one surge case, solved, with the way back to the records.
type solution struct {
	in      extract.Input
	circuit *extract.Circuit
	result  *transient.Result
	failed  map[diagram.ID][]analysis.Duty // what the protectors took that the surge destroys

	// filtered is the same with the loads that are unstated as input filters; nil where
	// there are none. Here they are open.
	filtered *solution
}

// surviving solves a case as it ends: without the protectors that it destroys, one
// after the other, since what one leaves the next has to take. Each turn takes one
// out at least.
func (e *Engine) surviving(ctx context.Context, in extract.Input) (solution, error) {
	return survivingBy(in, func(in extract.Input) (solution, growth, error) {
		s, err := e.solve(ctx, in, 0)
		return s, nil, err
	})
}

// growth tells by protector by how much its charge grows after the end of a solution;
// none stands for 1.
type growth map[diagram.ID]float64

func survivingBy(in extract.Input, solve func(extract.Input) (solution, growth, error)) (solution, error) {
	failed := map[diagram.ID][]analysis.Duty{}
	for {
		s, grows, err := solve(in)
		if err != nil || s.result == nil {
			return s, err
		}
		before := len(failed)
		for _, installed := range s.circuit.Protectors {
			if s.loadOf(installed, grows) > 1 {
				failed[installed.ID] = s.duties(installed)
			}
		}
		if len(failed) == before {
			s.failed = failed
			return s, nil
		}
		in.Failed = map[diagram.ID]bool{}
		for id := range failed {
			in.Failed[id] = true
		}
	}
}

// loadOf returns the charge that a protector takes in all, as a share of what it
// stands; 0 where that is not stated.
func (s solution) loadOf(p extract.Installed, grows growth) float64 {
	record, _ := s.in.Document.Protector(p.ID)
	stands, _ := standsCharge(record)
	if stands <= 0 {
		return 0
	}
	return greatestCharge(s.duties(p)).Charge * cmp.Or(grows[p.ID], 1) / stands
}

// solve solves a circuit. Where filters are asked for and the surge comes to no load
// that is unstated, there is nothing to be solved and no result. It ends at a time, s;
// by 0 when nothing more is to come.
func (e *Engine) solve(ctx context.Context, in extract.Input, end float64) (solution, error) {
	made, err := extract.Network(ctx, in)
	if err != nil || in.Filtered && len(made.Unstated) == 0 {
		return solution{}, err
	}
	if end > 0 {
		made.Duration, made.Longest = end, end
	}
	options := transient.Options{Step: made.Step, Duration: made.Longest, Samples: insidePlaces}
	if e.Coarse || in.Vary != nil { // nobody draws the feeders of a run of a band
		options.Samples = 0
	}
	solver, err := transient.New(ctx, made.Network, options)
	if err != nil {
		return solution{}, err
	}
	s := solution{in: in, circuit: made}
	if s.result, err = solver.RunTo(ctx, made.Duration); err != nil {
		return solution{}, err
	}
	if end <= 0 && s.isLate() {
		made.Duration = made.Longest
		if s.result, err = solver.RunTo(ctx, made.Duration); err != nil {
			return solution{}, err
		}
	}
	return s, s.unbalanced()
}

// unbalanced is why the voltages of a solution are not to be trusted, or nil.
func (s solution) unbalanced() error {
	off := s.result.Energy.Error()
	if off <= leastBalance {
		return nil
	}
	return analysis.SurgeProblem(s.in.Document, s.in.Surge,
		fmt.Sprintf("%.2g %% of its energy is not accounted for, so its voltages are not to be trusted", 100*off), "look for parts that hang on nothing")
}

// leastBalance is the share of the energy that may be missing at most.
const leastBalance = 0.02

// What counts of a voltage that is highest late: a share of what the board or load
// stands, from which it is far to a verdict (Held ends at 80 %), or where that is not
// known of the highest voltage anywhere.
const (
	lateOfWithstand = 0.2
	lateOfHighest   = 0.02
)

// isLate reports whether a voltage that may matter to a board or load is highest in the
// second half of the time. Something swings slowly then, as filters do with a
// transformer, and a higher crest may still be to come.
func (s solution) isLate() bool {
	const late = 0.5
	highest := 0.0
	for _, peaks := range s.result.Buses {
		for _, peak := range peaks {
			highest = max(highest, peak.Volts)
		}
	}
	for at, bus := range s.circuit.Buses {
		part, ok := s.in.Document.Part(at.Part)
		if !ok || !part.Kind.IsJudged() {
			continue
		}
		system := s.in.Topology.Nodes[at].System
		for _, peak := range peaksOf(s.circuit.Network.Buses[bus], s.result.Buses[bus]) {
			least := lateOfHighest * highest
			if withstand := handrule.Withstand(part.Withstand, system, peak.Mode, nil); withstand > 0 {
				least = lateOfWithstand * withstand
			}
			if peak.At > late*s.circuit.Duration && peak.Volts > least {
				return true
			}
		}
	}
	return false
}

// alone puts a solution in the words of results, without the one beside it.
func (s solution) alone() analysis.SurgeResult {
	out := analysis.SurgeResult{
		Surge: s.in.Surge, Buses: map[diagram.ID][]analysis.Peak{}, Protectors: map[diagram.ID][]analysis.Duty{},
		Balance: s.result.Energy.Error(), Delivered: s.result.Energy.Delivered, Step: s.circuit.Step, Duration: s.circuit.Duration,
		Assumptions: s.circuit.Assumptions,
	}
	for end, bus := range s.circuit.Buses {
		if part, ok := s.in.Document.Part(end.Part); ok && part.Kind.IsJudged() {
			out.Buses[part.ID] = peaksOf(s.circuit.Network.Buses[bus], s.result.Buses[bus])
		}
	}
	for _, d := range slices.Concat(s.result.Varistors, s.result.Gaps) {
		out.Absorbed += d.Joules
	}
	for _, p := range s.circuit.Protectors {
		out.Protectors[p.ID] = s.duties(p)
	}
	maps.Copy(out.Protectors, s.failed)
	out.Failed = slices.SortedFunc(maps.Keys(s.failed), diagram.CompareID)
	return out
}

// peaksOf returns the greatest voltage of a bus in each mode that it has.
func peaksOf(bus circuit.Bus, peaks []transient.Peak) []analysis.Peak {
	var worst [diagram.ModeCount]analysis.Peak
	var has [diagram.ModeCount]bool
	for i, pair := range circuit.Pairs(len(bus.Conductors)) {
		mode := modeOf(bus, pair)
		if peak := peaks[i]; !has[mode] || peak.Volts > worst[mode].Volts {
			has[mode] = true
			name := bus.PairName(pair)
			worst[mode] = analysis.Peak{Mode: mode, Volts: peak.Volts, At: peak.At, Between: name[:1] + "-" + name[1:]}
		}
	}
	var out []analysis.Peak
	for mode, peak := range worst {
		if has[mode] {
			out = append(out, peak)
		}
	}
	return out
}

// modeOf returns the mode that a pair of conductors is.
func modeOf(bus circuit.Bus, pair circuit.Pair) diagram.Mode { return diagram.Mode(bus.Kind(pair)) }

// duties returns what each mode of a protector goes through.
func (s solution) duties(p extract.Installed) []analysis.Duty {
	record, _ := s.in.Document.Protector(p.ID)
	allows, by := standsCharge(record)
	var modes [diagram.ModeCount]analysis.Duty
	var has [diagram.ModeCount]bool
	add := func(mode diagram.Mode, d transient.Duty) {
		m := &modes[mode]
		has[mode] = true
		m.Mode, m.Allows, m.By = mode, allows, by
		m.Charge = max(m.Charge, d.Coulombs)
		m.Energy = max(m.Energy, d.Joules)
		if d.Amps > m.Amps {
			m.Amps, m.At = d.Amps, d.At
		}
	}
	for _, v := range p.Varistors {
		add(diagram.Mode(v.Mode), s.result.Varistors[v.Index])
	}
	for _, g := range p.Gaps {
		add(diagram.Mode(g.Mode), s.result.Gaps[g.Index])
	}
	var out []analysis.Duty
	for mode, duty := range modes {
		if has[mode] {
			out = append(out, duty)
		}
	}
	return out
}
