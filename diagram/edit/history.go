package edit

import "clampline/diagram"

// focus is what the person was looking at: it comes back with undo and redo.
type focus struct {
	plan     diagram.ID
	selected []diagram.ID
}

// entry is one gesture or command in the history.
type entry struct {
	label         string
	key           string // entries with the same key in a row are one; empty never joins
	change        diagram.Change
	before, after focus
	from, to      uint64 // numbers of the states it leads between
}

// history holds what can be undone and redone. Each state of the document has
// a number of its own, so that undoing back to the saved state is seen to be
// saved. The zero value is the history of a saved document.
type history struct {
	done, undone []entry
	state        uint64 // number of the present state
	saved        uint64
	last         uint64 // highest number given out
	joining      bool   // there is a last entry, has a key and may still grow
}

// push records a change that has just been made.
func (h *history) push(e entry) {
	h.undone = nil
	h.last++
	e.from, e.to = h.state, h.last
	h.state = h.last
	if h.joins(e) {
		e = h.done[len(h.done)-1].then(e)
		h.done = h.done[:len(h.done)-1]
	}
	if e.change.IsEmpty() {
		h.state = e.from
	} else {
		h.done = append(h.done, e)
	}
	h.joining = e.key != "" && !e.change.IsEmpty()
}

func (h *history) joins(e entry) bool {
	return h.joining && h.done[len(h.done)-1].key == e.key
}

// then returns the entry that does e and next, seen as one.
func (e entry) then(next entry) entry {
	e.change = e.change.Then(next.change)
	e.after, e.to = next.after, next.to
	return e
}

// seal lets the last entry grow no more.
func (h *history) seal() { h.joining = false }

// undo takes the last entry to be undone.
func (h *history) undo() (entry, bool) {
	h.seal()
	return shift(&h.done, &h.undone, func(e entry) { h.state = e.from })
}

// redo takes the entry undone last to be done again.
func (h *history) redo() (entry, bool) {
	return shift(&h.undone, &h.done, func(e entry) { h.state = e.to })
}

func shift(from, to *[]entry, note func(entry)) (entry, bool) {
	last := len(*from) - 1
	if last < 0 {
		return entry{}, false
	}
	e := (*from)[last]
	*from, *to = (*from)[:last], append(*to, e)
	note(e)
	return e, true
}

// labelOf returns the label of the last entry of a list.
func labelOf(entries []entry) string {
	if len(entries) == 0 {
		return ""
	}
	return entries[len(entries)-1].label
}
