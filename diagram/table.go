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
	list   []*R // the records in that order, or nil likewise
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
		t.order, t.list = nil, nil
	} else if t.list != nil {
		at, _ := slices.BinarySearchFunc(t.order, id, CompareID)
		t.list[at] = record
	}
	if record == nil {
		delete(t.byID, id)
		return
	}
	t.byID[id] = record
}

// own makes map and list this table's alone.
func (t *table[R]) own() {
	if t.shared || t.byID == nil {
		t.byID = maps.Clone(t.byID)
		if t.byID == nil {
			t.byID = make(map[ID]*R)
		}
		t.list = slices.Clone(t.list)
		t.shared = false
	}
}

// share returns a table with the same records; both copy before they change.
func (t *table[R]) share() table[R] {
	t.records()
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

// records returns the records in the order of their ids: most are read many times
// between two changes.
func (t *table[R]) records() []*R {
	if t.list == nil && len(t.byID) > 0 {
		t.list = make([]*R, len(t.byID))
		for i, id := range t.ids() {
			t.list[i] = t.byID[id]
		}
	}
	return t.list
}

// all yields the records in the order of their ids; those that are changed
// meanwhile as they have become.
func (t *table[R]) all() iter.Seq[R] {
	ids, list := t.ids(), t.records()
	return func(yield func(R) bool) {
		for i, id := range ids {
			record := list[i]
			if !sameList(t.list, list) {
				record = t.byID[id]
			}
			if !yield(*record) {
				return
			}
		}
	}
}

// sameList reports whether two lists are one, and so two tables in one state.
func sameList[R any](a, b []*R) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// alike reports whether two tables hold the same records, by what tells them apart.
func (t *table[R]) alike(other *table[R], differ func(a, b *R) bool) bool {
	if sameList(t.list, other.list) && t.list != nil {
		return true
	}
	if len(t.byID) != len(other.byID) {
		return false
	}
	for id, record := range t.byID {
		if there := other.byID[id]; there == nil || record != there && differ(record, there) {
			return false
		}
	}
	return true
}
