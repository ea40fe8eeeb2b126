package assess

import (
	"context"
	"time"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// Turn says in which order the surges of a sheet are solved, and who is told
// meanwhile. The zero value tells nobody.
type Turn struct {
	First  []diagram.ID           // the boards and loads that are looked at
	Before *analysis.Result       // of the same sheet and plan before its last change; nil where there is none
	SoFar  func(*analysis.Result) // called with what is found so far, of which more is due
}

// InTurn is Transient that tells what is found so far. The surges that decided before at
// the places that are looked at come first, and those from a supply but long ones; then the others that
// decided before; then the rest. Until the one that decided there before is solved, a
// board or load keeps the levels that it had, and is marked as stale.
func (e *Engine) InTurn(ctx context.Context, doc *diagram.Document, plan diagram.ID, turn Turn, surges ...diagram.Surge) (*analysis.Result, error) {
	result, _, err := e.cases(ctx, doc, plan, turn, surges)
	return result, err
}

// job is a surge case at one of its places.
type job struct {
	decider
	in    extract.Input
	of    int // the case
	rank  int // lowest first
	done  bool
	found solution
	err   error
}

// decider names a surge at a place, as levels do.
type decider struct {
	surge  string
	origin diagram.ID // of a case with many places; else empty
}

func decidesAt(l analysis.Level) decider { return decider{l.Surge, l.Origin} }

// The ranks.
const (
	lookedAt = iota
	decided
	other
	ranks
)

// jobsOf returns what is to be solved.
func jobsOf(doc *diagram.Document, cases []posed, turn Turn) []*job {
	ranked := turn.ranks()
	var out []*job
	for i, c := range cases {
		for _, in := range c.places {
			j := &job{decider: decider{surge: analysis.SurgeName(doc, c.surge)}, in: in, of: i, rank: other}
			switch {
			case c.surge.Places != "":
				j.origin = in.Surge.Part
			case !extract.IsLong(c.surge.Wave):
				j.rank = lookedAt
			}
			if rank, ok := ranked[j.decider]; ok {
				j.rank = min(j.rank, rank)
			}
			out = append(out, j)
		}
	}
	return out
}

// ranks returns the rank of each surge that decided before.
func (t Turn) ranks() map[decider]int {
	out := map[decider]int{}
	if t.Before == nil {
		return out
	}
	for _, bus := range t.Before.Buses {
		out[decidesAt(bus.Worst())] = decided
	}
	for _, id := range t.First {
		if bus, ok := t.Before.Buses[id]; ok {
			for _, level := range bus.Levels {
				out[decidesAt(level)] = lookedAt
			}
		}
	}
	return out
}

// tellEvery is how long people wait for the next partial result, once those have come
// that were asked for first.
const tellEvery = time.Second

// solveInTurn solves the jobs rank by rank, as many at the same time as there are
// processors, and calls tell after each rank but the last and every now and then. The
// error is that of the context.
func (e *Engine) solveInTurn(ctx context.Context, jobs []*job, tell func()) error {
	told := time.Now()
	for rank := range ranks {
		var mine []*job
		left := 0
		for _, j := range jobs {
			switch {
			case j.rank == rank:
				mine = append(mine, j)
			case j.rank > rank:
				left++
			}
		}
		const atOnce = 16
		for len(mine) > 0 {
			some := mine[:min(atOnce, len(mine))]
			mine = mine[len(some):]
			if err := e.solveJobs(ctx, some); err != nil {
				return err
			}
			if left+len(mine) > 0 && (len(mine) == 0 || time.Since(told) > tellEvery) {
				told = time.Now()
				tell()
			}
		}
	}
	return nil
}

// solveJobs solves some jobs, each way that its loads count.
func (e *Engine) solveJobs(ctx context.Context, jobs []*job) error {
	ways := 1
	if extract.HasUnstated(jobs[0].in.Document) {
		ways = 2
	}
	found, errs := make([]solution, ways*len(jobs)), make([]error, ways*len(jobs))
	sideBySide(len(found), func(i int) {
		in := jobs[i/ways].in
		in.Filtered = i%ways == 1
		found[i], errs[i] = e.surviving(ctx, in)
	})
	for i, j := range jobs {
		at := i * ways
		j.found, j.err = bothWays(found[at:at+ways], errs[at:at+ways])
		j.done = true
	}
	return ctx.Err()
}

// gather returns the surge cases that could be solved somewhere so far, in their order,
// and a finding for each other. The error is that of the first where none could be.
func gather(cases []posed, jobs []*job) ([]solvedCase, []analysis.Finding, error) {
	solved := make([]solvedCase, len(cases))
	var failures []analysis.Finding
	var first error
	for _, j := range jobs {
		c := &solved[j.of]
		switch {
		case j.err != nil:
			failures = append(failures, failure(j.in, j.err))
			if first == nil {
				first = j.err
			}
		case j.done:
			c.surge = cases[j.of].surge
			c.origins = append(c.origins, j.found)
		}
	}
	var out []solvedCase
	for i, c := range solved {
		if len(c.origins) > 0 {
			out = append(out, c)
		}
		if len(cases[i].places) == 0 && cases[i].surge.ID != "" {
			failures = append(failures, nowhere(cases[i]))
		}
	}
	if len(out) > 0 {
		first = nil
	}
	return out, failures, first
}
