package details

import (
	"slices"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// Editor is what the form needs of the editor.
type Editor interface {
	Document() *diagram.Document
	Change(label string, f func(*diagram.Tx) error) error

	// ChangeKeyed is Change for a value that is being dragged: changes in a row
	// with the same key are one entry of the history, until EndKeyed.
	ChangeKeyed(key, label string, f func(*diagram.Tx) error) error
	EndKeyed()
}

// target reads and replaces one record, or several alike as one.
type target[R any] struct {
	get        func() (R, bool) // false once the record is gone; of several, the first that is there
	others     func() []R       // of several, the rest; nil for one
	set        func(label string, alter func(*R)) error
	drag       func(label string, alter func(*R)) error // set, while a value is dragged
	dropped    func()                                   // the drag has ended
	convention unit.Convention
	choose     func(use func(image string)) // asks for an image; nil where nobody can
}

func partTarget(e Editor, ids []diagram.ID, c unit.Convention) target[diagram.Part] {
	return newTarget(e, c, ids, (*diagram.Document).Part, (*diagram.Tx).SetPart)
}

func feederTarget(e Editor, ids []diagram.ID, c unit.Convention) target[diagram.Feeder] {
	return newTarget(e, c, ids, (*diagram.Document).Feeder, (*diagram.Tx).SetFeeder)
}

func protectorTarget(e Editor, ids []diagram.ID, c unit.Convention) target[diagram.Protector] {
	return newTarget(e, c, ids, (*diagram.Document).Protector, (*diagram.Tx).SetProtector)
}

func planTarget(e Editor, id diagram.ID, c unit.Convention) target[diagram.Plan] {
	return newTarget(e, c, []diagram.ID{id}, (*diagram.Document).Plan, (*diagram.Tx).SetPlan)
}

func infoTarget(e Editor, c unit.Convention) target[diagram.Info] {
	info := func(d *diagram.Document, _ diagram.ID) (diagram.Info, bool) { return d.Info(), true }
	return newTarget(e, c, []diagram.ID{""}, info, (*diagram.Tx).SetInfo)
}

func newTarget[R any](e Editor, c unit.Convention, ids []diagram.ID, find func(*diagram.Document, diagram.ID) (R, bool), put func(*diagram.Tx, R)) target[R] {
	there := func() []R {
		var out []R
		for _, id := range ids {
			if record, ok := find(e.Document(), id); ok {
				out = append(out, record)
			}
		}
		return out
	}
	altered := func(alter func(*R)) func(*diagram.Tx) error {
		return func(tx *diagram.Tx) error {
			for _, id := range ids {
				if record, ok := find(tx.Document(), id); ok {
					alter(&record)
					put(tx, record)
				}
			}
			return nil
		}
	}
	out := target[R]{
		convention: c,
		get:        func() (R, bool) { return first(there()) },
		set:        func(label string, alter func(*R)) error { return e.Change(label, altered(alter)) },
		drag: func(label string, alter func(*R)) error {
			return e.ChangeKeyed("details "+label, label, altered(alter))
		},
		dropped: e.EndKeyed,
	}
	if len(ids) > 1 {
		out.others = func() []R { records := there(); return records[min(1, len(records)):] }
	}
	return out
}

func first[R any](records []R) (out R, ok bool) {
	if len(records) > 0 {
		return records[0], true
	}
	return out, false
}

// varies reports whether records are told apart by what a field shows of them.
func varies[R any, T comparable](t target[R], shows func(R) T) bool {
	if t.others == nil {
		return false
	}
	record, _ := t.get()
	return slices.ContainsFunc(t.others(), func(other R) bool { return shows(other) != shows(record) })
}

// theyVary stands where several records differ.
const theyVary = "varies"
