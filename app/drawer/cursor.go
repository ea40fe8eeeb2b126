package drawer

import (
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// heading returns the group whose heading has the cursor, or nothing.
func (f *Findings) heading() string {
	if f.at >= 0 && f.at < len(f.lines) && f.lines[f.at].isHeading() {
		return f.lines[f.at].group
	}
	return ""
}

// pick keeps the cursor where it was: on the heading of a group, or on the
// finding; where that is gone it goes to the other one, if there is one.
func (f *Findings) pick(heading string, other func() int) {
	which := f.find(f.picked)
	if which < 0 {
		which = other()
	}
	if which < 0 && heading != "" {
		which = f.from(f.at)
	}
	if which < 0 && f.picked != nil && len(f.kept) > 0 {
		f.left = max(f.at, 0)
	}
	f.picked, f.at = nil, -1
	if which < 0 {
		return
	}
	f.left = -1
	f.setPicked(which)
	f.at = slices.IndexFunc(f.lines, func(l line) bool {
		return l.finding == which && heading == "" || l.isHeading() && l.group == heading && heading != ""
	})
	if f.at < 0 { // it is in a group that is folded
		group := analysis.GroupOf(*f.picked, f.grouping, f.state.Document)
		f.at = slices.IndexFunc(f.lines, func(l line) bool { return l.isHeading() && l.group == group })
	}
}

// successor returns the finding that follows the one with the cursor, which is
// gone with a newer result: the next one about the same record, or -1 for none. One
// about another record would not be what sheet and details show.
func (f *Findings) successor() int {
	switch {
	case f.left >= 0:
		return -1
	case f.picked == nil || !f.followed:
		return f.from(f.at)
	case len(f.picked.Records) == 0:
		return -1
	}
	first := -1
	for i, l := range f.lines {
		if l.isHeading() || len(f.kept[l.finding].Records) == 0 || f.kept[l.finding].Records[0] != f.picked.Records[0] {
			continue
		}
		if i >= f.at {
			return l.finding
		}
		if first < 0 {
			first = l.finding
		}
	}
	return first
}

// from returns the finding at a line or at the next one after it, or else the
// last one listed; where all are folded the first one, and -1 where there is
// none.
func (f *Findings) from(next int) int {
	last := min(0, len(f.kept)-1)
	for i, l := range f.lines {
		if l.isHeading() {
			continue
		}
		last = l.finding
		if i >= next {
			break
		}
	}
	return last
}

// setPicked has one of those listed shown whole.
func (f *Findings) setPicked(which int) {
	picked := f.kept[which]
	f.picked = &picked
}

// find returns which of those listed the finding is, or -1: the one of its key, or
// in the copy of a plan, where it is about other protectors, that of the same rule
// about what has the same names.
func (f *Findings) find(x *analysis.Finding) int {
	if x == nil {
		return -1
	}
	if at := slices.IndexFunc(f.kept, func(other analysis.Finding) bool { return other.Key() == x.Key() }); at >= 0 {
		return at
	}
	named := f.named(*x)
	return slices.IndexFunc(f.kept, func(other analysis.Finding) bool { return other.Rule == x.Rule && slices.Equal(f.named(other), named) })
}

// named returns the names of what tells a finding apart from others of its rule.
func (f *Findings) named(x analysis.Finding) []string {
	out := []string{f.state.Document.NameOf(diagram.ID(x.Detail))}
	for _, id := range x.Records {
		out = append(out, f.state.Document.NameOf(id))
	}
	return out
}

// step moves the cursor by so many lines.
func (f *Findings) step(by int) {
	at := f.at
	if f.left >= 0 && by > 0 {
		at = f.left - 1
	} else if f.left >= 0 {
		at = f.left
	}
	if len(f.lines) > 0 {
		f.moveTo(min(max(at+by, 0), len(f.lines)-1))
	}
}

// moveTo puts the cursor on a line.
func (f *Findings) moveTo(i int) {
	f.at, f.left, f.followed = i, -1, false
	if l := f.lines[i]; !l.isHeading() {
		f.setPicked(l.finding)
		f.whole.top()
	}
	f.list.ScrollTo(i)
	f.showWhole()
}
