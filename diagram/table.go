package diagram

import (
	"iter"
	"maps"
	"slices"
)

// table holds the records of one sort by id. Records behind the pointers are
// never altered, so two tables may share them; the map itself is copied before
// the first change after a share.
type table[R any] struct {
	byID   map[ID]*R
	order  []ID // ids in order, or nil where it has to be made anew
	shared bool
}

func (t *table[R]) get(id ID) (R, bool) {
	if record := t.byID[id]; record != nil {
		return *record, true
	}
	var none R
	return none, false
}

func (t *table[R]) set(id ID, record *R) {
	t.own()
	_, known := t.byID[id]
	if !known || record == nil {
		t.order = nil
	}
	if record == nil {
		delete(t.byID, id)
		return
	}
	t.byID[id] = record
}

// own makes the map this table's alone.
func (t *table[R]) own() {
	if t.shared || t.byID == nil {
		t.byID = maps.Clone(t.byID)
		if t.byID == nil {
			t.byID = make(map[ID]*R)
		}
		t.shared = false
	}
}

// share returns a table with the same records; both copy before they change.
func (t *table[R]) share() table[R] {
	t.ids()
	if !t.shared { // several goroutines may take one of the same snapshot
		t.shared = true
	}
	return *t
}

func (t *table[R]) ids() []ID {
	if t.order == nil && len(t.byID) > 0 {
		t.order = slices.SortedFunc(maps.Keys(t.byID), CompareID)
	}
	return t.order
}

// all yields the records in the order of their ids.
func (t *table[R]) all() iter.Seq[R] {
	ids := t.ids()
	return func(yield func(R) bool) {
		for _, id := range ids {
			if !yield(*t.byID[id]) {
				return
			}
		}
	}
}
