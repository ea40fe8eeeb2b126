package diagram

import (
	"slices"
	"strconv"
)

// Tx is one change to a document in the making. It is valid only inside the
// function that Edit calls, and sees what was set before in the same one.
type Tx struct {
	doc        *Document
	info       *Update[Info]
	plans      map[ID]Update[Plan]
	parts      map[ID]Update[Part]
	feeders    map[ID]Update[Feeder]
	protectors map[ID]Update[Protector]
	surges     map[ID]Update[Surge]
	asides     map[ID]Update[Aside]
	numbers    map[string]int // highest number given out, by stem
}

// Edit runs f and takes all that it set, or nothing: where f returns an error
// or the outcome is not valid (an *InvalidError), the document is as it was.
// The change it returns leads from the old state to the new one.
func (d *Document) Edit(f func(*Tx) error) (Change, error) {
	tx := &Tx{
		doc:        d,
		plans:      map[ID]Update[Plan]{},
		parts:      map[ID]Update[Part]{},
		feeders:    map[ID]Update[Feeder]{},
		protectors: map[ID]Update[Protector]{},
		surges:     map[ID]Update[Surge]{},
		asides:     map[ID]Update[Aside]{},
		numbers:    map[string]int{},
	}
	err := f(tx)
	change := tx.change()
	if err == nil {
		err = d.check(change)
	}
	if err != nil {
		d.Apply(change.Inverse())
		return Change{}, err
	}
	return change, nil
}

func (tx *Tx) change() Change {
	out := Change{
		Info:       tx.info,
		Plans:      collect(tx.plans),
		Parts:      collect(tx.parts),
		Feeders:    collect(tx.feeders),
		Protectors: collect(tx.protectors),
		Surges:     collect(tx.surges),
		Asides:     collect(tx.asides),
	}
	if tx.info != nil && *tx.info.From == *tx.info.To {
		out.Info = nil
	}
	return out
}

// put sets a record and remembers what stood there before the transaction.
func put[R any](t *table[R], log map[ID]Update[R], id ID, to *R) {
	entry, seen := log[id]
	if !seen {
		entry = Update[R]{ID: id, From: t.byID[id]}
	}
	entry.To = to
	log[id] = entry
	t.set(id, to)
}

// Document returns the state so far, to be read only.
func (tx *Tx) Document() *Document { return tx.doc }

// Part returns the part with the id as it is so far.
func (tx *Tx) Part(id ID) (Part, bool) { return tx.doc.Part(id) }

// Feeder returns the feeder with the id as it is so far.
func (tx *Tx) Feeder(id ID) (Feeder, bool) { return tx.doc.Feeder(id) }

// Protector returns the protector with the id as it is so far.
func (tx *Tx) Protector(id ID) (Protector, bool) { return tx.doc.Protector(id) }

// Surge returns the surge case with the id as it is so far.
func (tx *Tx) Surge(id ID) (Surge, bool) { return tx.doc.Surge(id) }

// SetAside adds a finding that is set aside, or replaces the one with its id.
func (tx *Tx) SetAside(a Aside) { put(&tx.doc.asides, tx.asides, a.ID, &a) }

// SetInfo replaces what the sheet says of itself.
func (tx *Tx) SetInfo(info Info) {
	if tx.info == nil {
		tx.info = &Update[Info]{From: tx.doc.info}
	}
	tx.info.To = &info
	tx.doc.info = &info
}

// SetPart adds the part, or replaces the one with its id.
func (tx *Tx) SetPart(p Part) { put(&tx.doc.parts, tx.parts, p.ID, &p) }

// SetFeeder adds the feeder, or replaces the one with its id.
func (tx *Tx) SetFeeder(f Feeder) { put(&tx.doc.feeders, tx.feeders, f.ID, &f) }

// SetProtector adds the protector, or replaces the one with its id.
func (tx *Tx) SetProtector(p Protector) { put(&tx.doc.protectors, tx.protectors, p.ID, &p) }

// SetPlan adds the plan, or replaces the one with its id.
func (tx *Tx) SetPlan(p Plan) { put(&tx.doc.plans, tx.plans, p.ID, &p) }

// SetSurge adds the surge case, or replaces the one with its id.
func (tx *Tx) SetSurge(s Surge) { put(&tx.doc.surges, tx.surges, s.ID, &s) }

// Remove takes away the records with the ids and all that cannot stand without
// them: the feeders at a part, the protectors on a part or in a plan, the surge
// cases that arrive at a part, what of findings was set aside about any of them.
// Where there is none it does nothing. Many are removed quickest at once.
func (tx *Tx) Remove(ids ...ID) {
	gone := make(map[ID]bool, len(ids))
	for _, id := range ids {
		gone[id] = tx.doc.Has(id)
	}
	remove(&tx.doc.surges, tx.surges, func(s *Surge) bool { return gone[s.ID] || gone[s.Part] })
	remove(&tx.doc.protectors, tx.protectors, func(p *Protector) bool { return gone[p.ID] || gone[p.Bus] || gone[p.Plan] })
	remove(&tx.doc.feeders, tx.feeders, func(f *Feeder) bool { return gone[f.ID] || gone[f.From.Part] || gone[f.To.Part] })
	remove(&tx.doc.asides, tx.asides, func(a *Aside) bool { return gone[a.ID] || gone[a.Plan] || a.About != "" && !tx.holds(a.About, gone) })
	remove(&tx.doc.parts, tx.parts, func(p *Part) bool { return gone[p.ID] })
	remove(&tx.doc.plans, tx.plans, func(p *Plan) bool { return gone[p.ID] })
}

// holds reports whether a record stays that is not among those gone.
func (tx *Tx) holds(id ID, gone map[ID]bool) bool { return !gone[id] && tx.doc.Has(id) }

// remove takes away the records that meet a test.
func remove[R any](t *table[R], log map[ID]Update[R], meets func(*R) bool) {
	for _, id := range those(t, meets) {
		put(t, log, id, nil)
	}
}

// those returns the ids of the records that meet a test, in any order.
func those[R any](t *table[R], meets func(*R) bool) []ID {
	var out []ID
	for id, record := range t.byID {
		if meets(record) {
			out = append(out, id)
		}
	}
	return out
}

// NewPartID returns an id that no record has, for a part of the kind.
func (tx *Tx) NewPartID(kind Kind) ID { return tx.newID(kind.stem()) }

// NewFeederID returns an id that no record has, for a feeder.
func (tx *Tx) NewFeederID() ID { return tx.newID("feeder") }

// NewProtectorID returns an id that no record has, for a protector.
func (tx *Tx) NewProtectorID() ID { return tx.newID("protector") }

// NewPlanID returns an id that no record has, for a plan.
func (tx *Tx) NewPlanID() ID { return tx.newID("plan") }

// NewSurgeID returns an id that no record has, for a surge case.
func (tx *Tx) NewSurgeID() ID { return tx.newID("surge") }

// NewAsideID returns an id that no record has, for a finding that is set aside.
func (tx *Tx) NewAsideID() ID { return tx.newID("aside") }

// newID counts on from the highest number with the stem. That is looked up
// once: each look-up sorts the ids.
func (tx *Tx) newID(stem string) ID {
	number, known := tx.numbers[stem]
	if !known {
		number = tx.doc.highest(stem)
	}
	for {
		number++
		if id := ID(stem + "-" + strconv.Itoa(number)); !tx.doc.Has(id) {
			tx.numbers[stem] = number
			return id
		}
	}
}

// highest returns the largest number that an id of the stem bears, or 0. Ids
// sort by stem and number, so it is found by bisection.
func (d *Document) highest(stem string) int {
	best := 0
	last := ID(stem + "-" + strconv.Itoa(1<<30))
	for _, ids := range [][]ID{d.plans.ids(), d.parts.ids(), d.feeders.ids(), d.protectors.ids(), d.surges.ids(), d.asides.ids()} {
		at, _ := slices.BinarySearchFunc(ids, last, CompareID)
		if at == 0 {
			continue
		}
		if own, number := ids[at-1].split(); own == stem+"-" && number > best {
			best = number
		}
	}
	return best
}
