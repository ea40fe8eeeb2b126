package edit

import (
	"math"

	"clampline/diagram"
)

// mark is where an open gesture began: what it has changed so far, and what
// the person was looking at.
type mark struct {
	change diagram.Change
	before focus
}

// begin opens a gesture.
func (e *Editor) begin() {
	if e.mark != nil {
		panic("edit: a gesture was opened inside another")
	}
	e.mark = &mark{before: e.focus()}
}

// alter makes a change within the open gesture. Where it returns an error the
// document is as it was before the call.
func (e *Editor) alter(f func(*diagram.Tx) error) error {
	change, err := e.doc.Edit(f)
	if err != nil || change.IsEmpty() {
		return err
	}
	e.mark.change = e.mark.change.Then(change)
	e.documentChanged()
	return nil
}

// commit ends the open gesture in one entry, or in none where it changed
// nothing in the end.
func (e *Editor) commit(label, key string) {
	done := e.mark
	e.mark = nil
	if done.change.IsEmpty() {
		return
	}
	e.history.push(entry{label: label, key: key, change: done.change, before: done.before, after: e.focus()})
}

// revert ends the open gesture with the document back at the mark.
func (e *Editor) revert() {
	undone := e.mark
	e.mark = nil
	if !undone.change.IsEmpty() {
		e.apply(undone.change.Inverse())
	}
	e.setFocus(undone.before)
}

// Change makes one change with one entry in the history, under a label that
// completes "Undo ...", such as "rename panel 3". It is taken whole or not at
// all; the error of an invalid change is a *diagram.InvalidError. A gesture
// that is under way is dropped first.
func (e *Editor) Change(label string, f func(*diagram.Tx) error) error {
	return e.ChangeKeyed("", label, f)
}

// ChangeKeyed is Change for a value that is being dragged or typed: changes
// with the same key in a row are one entry, until EndKeyed or anything else is
// done.
func (e *Editor) ChangeKeyed(key, label string, f func(*diagram.Tx) error) error {
	e.drop()
	e.begin()
	if err := e.alter(f); err != nil {
		e.revert()
		return err
	}
	e.setFocus(e.focus())
	e.commit(label, key)
	return nil
}

// changeSelecting is Change for what makes records: those that f returns are
// selected after it.
func (e *Editor) changeSelecting(label string, f func(*diagram.Tx) ([]diagram.ID, error)) error {
	e.drop()
	e.begin()
	var made []diagram.ID
	err := e.alter(func(tx *diagram.Tx) (err error) {
		made, err = f(tx)
		return err
	})
	if err != nil {
		e.revert()
		return err
	}
	e.Select(made...)
	e.commit(label, "")
	return nil
}

// EndKeyed ends a row of keyed changes: the next one is an entry of its own.
func (e *Editor) EndKeyed() { e.history.seal() }

// Undo takes back the last entry of the history, or drops the gesture that is
// under way. It does nothing where there is none.
func (e *Editor) Undo() {
	if e.drop() {
		return
	}
	if entry, ok := e.history.undo(); ok {
		e.apply(entry.change.Inverse())
		e.setFocus(entry.before)
	}
}

// Redo does again what Undo took back last.
func (e *Editor) Redo() {
	e.drop()
	if entry, ok := e.history.redo(); ok {
		e.apply(entry.change)
		e.setFocus(entry.after)
	}
}

func (e *Editor) apply(change diagram.Change) {
	e.doc.Apply(change)
	e.documentChanged()
}

// CanUndo reports whether Undo would do something.
func (e *Editor) CanUndo() bool { return e.tool.busy() || len(e.history.done) > 0 }

// CanRedo reports whether Redo would do something.
func (e *Editor) CanRedo() bool { return len(e.history.undone) > 0 }

// UndoLabel returns what Undo would take back, such as "move 3 parts", or
// nothing.
func (e *Editor) UndoLabel() string { return labelOf(e.history.done) }

// RedoLabel returns what Redo would do again, or nothing.
func (e *Editor) RedoLabel() string { return labelOf(e.history.undone) }

// MarkSaved notes that the present state is the one in the file. The entry
// before it grows no more, so that undo can lead back to it.
func (e *Editor) MarkSaved() {
	e.history.seal()
	e.history.saved = e.history.state
}

// MarkUnsaved notes that no state that undo or redo leads to is in the file,
// as after a restore from an autosave.
func (e *Editor) MarkUnsaved() { e.history.saved = never }

// never is the number of no state.
const never = math.MaxUint64

// IsSaved reports whether the document is as it was when it was last saved,
// also where undo led back to it.
func (e *Editor) IsSaved() bool {
	return e.history.state == e.history.saved && (e.mark == nil || e.mark.change.IsEmpty())
}
