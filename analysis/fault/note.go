package fault

import (
	"clampline/analysis"
	"clampline/diagram"
)

// shown bounds how many assumptions Solve lists for one terminal; Explain
// lists all.
const shown = 12

// note is one thing that was taken on the way to a terminal, after those above
// it. Notes are shared by all terminals beyond.
type note struct {
	assumption analysis.Assumption // empty where the note only begins a zone
	zone       int                 // number of zones begun before it
	local      bool                // it concerns its zone alone
	estimated  bool                // it or one above stands for a figure that the sheet does not give
	above      *note
	list       []analysis.Assumption // made on demand
}

// fact is what a record did not say and what was taken instead.
type fact struct {
	record       diagram.ID
	text, source string
	estimate     bool // it is a figure
}

// with adds a fact.
func (n *note) with(f fact) *note {
	out := &note{assumption: analysis.Assumption{Record: f.record, Text: f.text, Source: f.source}, estimated: f.estimate, above: n}
	if n != nil {
		out.zone = n.zone
		out.estimated = out.estimated || n.estimated
	}
	return out
}

func (n *note) withAll(facts []fact) *note {
	for _, f := range facts {
		n = n.with(f)
	}
	return n
}

// inZone begins a zone of its own system, with what keeps currents to earth
// from being found there, if anything.
func (n *note) inZone(reason fact) *note {
	if n == nil && reason.text == "" {
		return nil
	}
	out := n.with(reason)
	out.local = true
	out.zone++
	return out
}

// assumptions lists at most limit facts, the nearest to the source first. The
// caller must not alter the slice.
func (n *note) assumptions(limit int) []analysis.Assumption {
	if n == nil {
		return nil
	}
	if limit == shown && n.list != nil {
		return n.list
	}
	var out []analysis.Assumption
	for at := n; at != nil && len(out) < limit; at = at.above {
		if at.assumption.Text != "" && (!at.local || at.zone == n.zone) {
			out = append(out, at.assumption)
		}
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	if limit == shown {
		n.list = out
	}
	return out
}

// isEstimated reports whether a figure was taken that the sheet does not give.
func (n *note) isEstimated() bool { return n != nil && n.estimated }
