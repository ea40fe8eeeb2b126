package diagram

import (
	"cmp"
	"fmt"
	"slices"
)

// Update is what became of one record: added where From is nil, removed where
// To is nil. What they point at is never altered.
type Update[R any] struct {
	ID       ID
	From, To *R
}

// Change is the difference between two states of a document. Each list is in
// the order of the ids and holds an id once. The zero value changes nothing.
type Change struct {
	Info       *Update[Info] // nil where the sheet's own data did not change
	Plans      []Update[Plan]
	Parts      []Update[Part]
	Feeders    []Update[Feeder]
	Protectors []Update[Protector]
	Surges     []Update[Surge]
	Asides     []Update[Aside]
}

// IsEmpty reports whether the change changes nothing.
func (c Change) IsEmpty() bool {
	return c.Info == nil && len(c.Plans)+len(c.Parts)+len(c.Feeders)+len(c.Protectors)+len(c.Surges)+len(c.Asides) == 0
}

// Inverse returns the change that leads back.
func (c Change) Inverse() Change {
	out := Change{
		Plans:      inverse(c.Plans),
		Parts:      inverse(c.Parts),
		Feeders:    inverse(c.Feeders),
		Protectors: inverse(c.Protectors),
		Surges:     inverse(c.Surges),
		Asides:     inverse(c.Asides),
	}
	if c.Info != nil {
		out.Info = &Update[Info]{From: c.Info.To, To: c.Info.From}
	}
	return out
}

// Then returns the change that does c first and next after it.
func (c Change) Then(next Change) Change {
	out := Change{
		Info:       c.Info,
		Plans:      join(c.Plans, next.Plans),
		Parts:      join(c.Parts, next.Parts),
		Feeders:    join(c.Feeders, next.Feeders),
		Protectors: join(c.Protectors, next.Protectors),
		Surges:     join(c.Surges, next.Surges),
		Asides:     join(c.Asides, next.Asides),
	}
	switch {
	case c.Info == nil:
		out.Info = next.Info
	case next.Info != nil:
		out.Info = &Update[Info]{From: c.Info.From, To: next.Info.To}
	}
	if out.Info != nil && *out.Info.From == *out.Info.To {
		out.Info = nil
	}
	return out
}

func inverse[R any](updates []Update[R]) []Update[R] {
	if updates == nil {
		return nil
	}
	out := make([]Update[R], len(updates))
	for i, u := range updates {
		out[i] = Update[R]{u.ID, u.To, u.From}
	}
	return out
}

func join[R comparable](first, second []Update[R]) []Update[R] {
	byID := make(map[ID]Update[R], len(first)+len(second))
	for _, u := range first {
		byID[u.ID] = u
	}
	for _, u := range second {
		if before, ok := byID[u.ID]; ok {
			u.From = before.From
		}
		byID[u.ID] = u
	}
	return collect(byID)
}

// collect lists the updates that change something, in the order of the ids.
func collect[R comparable](byID map[ID]Update[R]) []Update[R] {
	var out []Update[R]
	for _, u := range byID {
		if !same(u.From, u.To) {
			out = append(out, u)
		}
	}
	slices.SortFunc(out, func(a, b Update[R]) int { return CompareID(a.ID, b.ID) })
	return out
}

// Apply carries out a change that was made from this very state, such as an
// undo. It panics where the state is another one: that is a mistake of the
// caller, and the document would be lost.
func (d *Document) Apply(c Change) {
	if c.Info != nil {
		if !same(d.info, c.Info.From) {
			panic("diagram: change applied to another state of the sheet's data")
		}
		d.info = c.Info.To
	}
	apply(&d.plans, c.Plans)
	apply(&d.parts, c.Parts)
	apply(&d.feeders, c.Feeders)
	apply(&d.protectors, c.Protectors)
	apply(&d.surges, c.Surges)
	apply(&d.asides, c.Asides)
}

// same compares records. One that holds NaN, which a change that is about to be
// refused may, is the same as itself by its address alone.
func same[R comparable](a, b *R) bool { return a == b || a != nil && b != nil && *a == *b }

func apply[R comparable](t *table[R], updates []Update[R]) {
	for _, u := range updates {
		if !same(t.byID[u.ID], u.From) {
			panic(fmt.Sprintf("diagram: change applied to another state of %s", cmp.Or(u.ID, "a record")))
		}
		t.set(u.ID, u.To)
	}
}
