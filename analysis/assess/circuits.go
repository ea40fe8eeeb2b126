package assess

import (
	"context"
	"slices"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/transient"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

// Circuit is what one surge case meets.
type Circuit struct {
	*extract.Circuit
	Surge  diagram.Surge
	Places []Place // by bus of the network
}

// DeckStep returns the longest step for a deck of the circuit, s. A general
// simulator finds what arrives at the end of a line between its steps less well
// than the solver does: at the solver's own step its peaks are up to 2 % off, at
// half of it they stay.
func (c Circuit) DeckStep() float64 { return c.Step / 2 }

// Place is the record that a bus of a circuit stands for.
type Place struct {
	Record diagram.ID   // the part, or the feeder whose open end it is
	Port   diagram.Port // of a part with several terminals
	Judged bool         // whether it is a board or load
}

// Case is one surge case that was solved, with the circuit that it met.
type Case struct {
	analysis.SurgeResult
	Circuit Circuit
	Peaks   [][]analysis.Peak  // by bus of the network: one for each mode that it has, in the order of the modes
	Solved  *transient.Result  // of the network, element by element
	Halving *transient.Halving // nil until Halve has filled it in

	// Taken are the case with the loads that are unstated open, then as input filters,
	// each alone; empty where there are none. The case itself has the circuit with open
	// loads, what was solved of it, and the worse peaks of the two.
	Taken []Case

	// At are the places of a case that arrives at many, one after the other. The case
	// itself then has no circuit, no peaks and nothing solved.
	At []Case
}

// Cases does what Transient does, and returns with the result what it was made
// from: each surge case with its circuit and the peaks at every bus of that,
// those too that get no verdict. A case that cannot be solved is a finding of the
// subject SubjectSurge and not among the cases. Errors are those of Transient.
func (e *Engine) Cases(ctx context.Context, doc *diagram.Document, plan diagram.ID, surges ...diagram.Surge) (*analysis.Result, []Case, error) {
	result, solved, err := e.cases(ctx, doc, plan, Turn{}, surges)
	if err != nil {
		return nil, nil, err
	}
	cases := make([]Case, len(solved))
	for i, c := range solved {
		cases[i] = c.told(result.Surges[i])
	}
	return result, cases, nil
}

// cases is Cases in turn.
func (e *Engine) cases(ctx context.Context, doc *diagram.Document, plan diagram.ID, turn Turn, surges []diagram.Surge) (*analysis.Result, []solvedCase, error) {
	if len(surges) == 0 {
		surges = analysis.SurgesOf(doc)
	}
	hand, inputs, err := e.inputs(ctx, doc, plan, surges)
	if err != nil {
		return nil, nil, err
	}
	var bounded, left []analysis.Finding
	if slices.Equal(doc.Surges(), surges) { // and not one that was picked
		left = notCounted(doc, surges)
	}
	if !e.Everywhere {
		bounded = bound(doc, inputs)
	}
	jobs := jobsOf(doc, inputs, turn)
	result := func(partial bool) (*analysis.Result, []solvedCase, error) {
		solved, failures, err := gather(inputs, jobs)
		if err != nil {
			return nil, nil, err
		}
		out, err := turn.judge(ctx, doc, hand, solved, jobs, partial)
		if err != nil {
			return nil, nil, err
		}
		out.Findings = slices.Concat(out.Findings, failures, bounded, left)
		analysis.SortFindings(out.Findings)
		out.PutAside(doc)
		return out, solved, nil
	}
	if err := e.solveInTurn(ctx, jobs, func() {
		if turn.SoFar != nil {
			if out, _, err := result(true); err == nil {
				turn.SoFar(out)
			}
		}
	}); err != nil {
		return nil, nil, err
	}
	return result(false)
}

// Alone returns a case once for each circuit that was solved of it: at each of its
// places, with loads that are unstated open and as filters.
func (c Case) Alone() []Case {
	if len(c.At) == 0 && len(c.Taken) == 0 {
		return []Case{c}
	}
	var out []Case
	for _, one := range slices.Concat(c.At, c.Taken) {
		out = append(out, one.Alone()...)
	}
	return out
}

// told returns a case with the circuits that it met.
func (c solvedCase) told(r analysis.SurgeResult) Case {
	if c.surge.Places == "" {
		return c.origins[0].told(r)
	}
	out := Case{SurgeResult: r}
	for i, s := range c.origins {
		out.At = append(out.At, s.told(r.Origins[i]))
	}
	return out
}

func (s solution) told(r analysis.SurgeResult) Case {
	out := Case{SurgeResult: r, Circuit: circuitOf(s.in, s.circuit), Peaks: s.peaks(), Solved: s.result}
	for i, one := range r.Taken {
		out.Taken = append(out.Taken, s.taken()[i].told(one))
	}
	return out
}

// posed is a surge case with what the circuits of its places are made from.
type posed struct {
	surge  diagram.Surge
	places []extract.Input
}

// inputs applies the hand rule, calibrates the protectors of the plan and
// returns what the circuits of the surge cases are made from.
func (e *Engine) inputs(ctx context.Context, doc *diagram.Document, plan diagram.ID, surges []diagram.Surge) (*analysis.Result, []posed, error) {
	hand, err := e.byHand(ctx, doc, plan)
	if err != nil {
		return nil, nil, err
	}
	in := extract.Input{Document: doc, Plan: plan, Topology: hand.Topology}
	if err := e.calibrate(ctx, in); err != nil {
		return nil, nil, err
	}
	in.Models = e.models
	out := make([]posed, len(surges))
	for i, surge := range surges {
		out[i].surge = surge
		for _, in.Surge = range analysis.Origins(doc, hand.Topology, surge) {
			out[i].places = append(out[i].places, in)
		}
	}
	return hand, out, nil
}

// circuitOf tells what each bus of a circuit is.
func circuitOf(in extract.Input, made *extract.Circuit) Circuit {
	out := Circuit{made, in.Surge, make([]Place, len(made.Network.Buses))}
	for part := range in.Document.Parts() {
		for _, port := range part.Kind.Ports() { // of the two that a transfer switch joins, the load side counts
			if bus, ok := made.Buses[diagram.End{Part: part.ID, Port: port}]; ok {
				out.Places[bus] = Place{part.ID, port, part.Kind.IsJudged()}
			}
		}
	}
	for id, run := range made.Runs {
		if run.Open {
			out.Places[run.From] = Place{Record: id}
		}
	}
	return out
}

// Wave is the voltage between two conductors of a bus over time.
type Wave struct {
	Between string // "A-N"; G is earth
	waveform.Trace
}

// Waves solves a circuit once more and returns the wave of every pair of
// conductors of one of its buses, in the order of circuit.Pairs. An error says
// that the context has ended, or which bus could not be solved.
func Waves(ctx context.Context, c Circuit, bus int) ([]Wave, error) {
	at := c.Network.Buses[bus]
	pairs := circuit.Pairs(len(at.Conductors))
	probes := make([]transient.Probe, len(pairs))
	for i, pair := range pairs {
		probes[i] = transient.Probe{Bus: bus, Pair: pair}
	}
	solver, err := transient.New(ctx, c.Network, transient.Options{Step: c.Step, Duration: c.Duration, Record: probes})
	if err != nil {
		return nil, err
	}
	result, err := solver.Run(ctx)
	if err != nil {
		return nil, err
	}
	out := make([]Wave, len(pairs))
	for i, pair := range pairs {
		name := at.PairName(pair)
		out[i] = Wave{name[:1] + "-" + name[1:], result.Traces[i]}
	}
	return out, nil
}
