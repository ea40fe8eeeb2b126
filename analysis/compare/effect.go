package compare

import (
	"cmp"
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// Effect is what one change of a plan does.
type Effect struct {
	Verdicts []Change           // boards and loads whose verdict changes, the gravest first
	Modes    []Change           // other levels whose own verdict changes, likewise
	Volts    []Change           // other levels that rise or fall, the largest share first
	Takes    []Taking           // other protectors that have to take more or less, by the transient
	Findings []analysis.Finding // that arise, but for those that repeat a verdict
}

// Change is a level before and after.
type Change struct {
	Part          diagram.ID
	Critical      bool // a load that is marked so
	Before, After analysis.Level
}

// IsWorse reports whether the verdict is a worse one after the change.
func (c Change) IsWorse() bool { return c.After.Verdict.Rank() < c.Before.Verdict.Rank() }

// Taking is the greatest surge current that a protector has to take, A, before and after.
type Taking struct {
	Protector     diagram.ID
	Before, After float64
}

// Lost returns how many boards and loads have a worse verdict after the change.
func (e Effect) Lost() int { return e.count(true) }

// Gained returns how many have a better one.
func (e Effect) Gained() int { return e.count(false) }

func (e Effect) count(worse bool) int {
	out := 0
	for _, c := range e.Verdicts {
		if c.IsWorse() == worse {
			out++
		}
	}
	return out
}

// effect compares two results of a plan, the second without or with another protector
// of the id.
func effect(doc *diagram.Document, before, after *analysis.Result, protector diagram.ID) Effect {
	var out Effect
	for _, part := range before.Downward(doc) {
		out.at(part, before.Buses[part.ID], after.Buses[part.ID])
	}
	for _, changes := range [][]Change{out.Verdicts, out.Modes} {
		slices.SortStableFunc(changes, func(a, b Change) int { return cmp.Compare(b.steps(), a.steps()) })
	}
	slices.SortStableFunc(out.Volts, func(a, b Change) int { return cmp.Compare(b.share(), a.share()) })
	out.Takes = takings(before, after, protector)
	out.Findings = arisen(before, after)
	return out
}

// at compares one board or load.
func (e *Effect) at(part diagram.Part, before, after analysis.BusResult) {
	change := func(a, b analysis.Level) Change { return Change{part.ID, isCritical(part), a, b} }
	decides := before.Worst().Mode
	whole := before.Worst().Verdict != after.Worst().Verdict
	if whole {
		e.Verdicts = append(e.Verdicts, change(before.Worst(), after.Worst()))
		decides = after.Worst().Mode
	}
	for _, was := range before.Levels {
		at := slices.IndexFunc(after.Levels, func(l analysis.Level) bool { return l.Mode == was.Mode })
		if at < 0 || whole && was.Mode == decides {
			continue
		}
		switch now := after.Levels[at]; {
		case was.Verdict != now.Verdict:
			e.Modes = append(e.Modes, change(was, now))
		case was.Known && now.Known && isMoved(was.Volts, now.Volts):
			e.Volts = append(e.Volts, change(was, now))
		}
	}
}

// steps is how many steps there are between the verdicts.
func (c Change) steps() float64 {
	return math.Abs(float64(c.After.Verdict.Rank() - c.Before.Verdict.Rank()))
}

// share is by which share a voltage rises or falls.
func (c Change) share() float64 {
	return math.Abs(c.After.Volts-c.Before.Volts) / max(c.Before.Volts, c.After.Volts)
}

// shared is the share by which a surge current must differ for protectors to share it
// in a way worth telling; common practice, no source.
const shared = 0.05

// takings returns the protectors but one that have to take another current, the
// greatest difference first.
func takings(before, after *analysis.Result, but diagram.ID) []Taking {
	was, now := amps(before), amps(after)
	var out []Taking
	for id, a := range was {
		if b, there := now[id]; there && id != but && isApart(a, b, shared) {
			out = append(out, Taking{id, a, b})
		}
	}
	slices.SortFunc(out, func(a, b Taking) int {
		return cmp.Or(cmp.Compare(math.Abs(b.After-b.Before), math.Abs(a.After-a.Before)), diagram.CompareID(a.Protector, b.Protector))
	})
	return out
}

// amps returns the greatest current of each protector, in all modes and surges.
func amps(r *analysis.Result) map[diagram.ID]float64 {
	out := map[diagram.ID]float64{}
	for _, s := range r.Surges {
		for id, duties := range s.Protectors {
			for _, d := range duties {
				out[id] = max(out[id], d.Amps)
			}
		}
	}
	return out
}

// arisen returns the findings of a result that were none before, but for remarks and
// those that repeat a verdict.
func arisen(before, after *analysis.Result) []analysis.Finding {
	known := map[analysis.Key]bool{}
	for _, f := range before.Findings {
		known[f.Key()] = true
	}
	for _, a := range before.Aside {
		known[a.Key()] = true
	}
	var out []analysis.Finding
	for _, f := range after.Findings {
		if f.Severity > analysis.Remark && f.Subject != analysis.SubjectCover && !known[f.Key()] {
			out = append(out, f)
		}
	}
	return out
}
