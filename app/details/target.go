package details

import (
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

// target reads and replaces one record.
type target[R any] struct {
	get        func() (R, bool) // false once the record is gone
	set        func(label string, alter func(*R)) error
	drag       func(label string, alter func(*R)) error // set, while a value is dragged
	dropped    func()                                   // the drag has ended
	convention unit.Convention
	choose     func(use func(image string)) // asks for an image; nil where nobody can
}

func partTarget(e Editor, id diagram.ID, c unit.Convention) target[diagram.Part] {
	return newTarget(e, c, func(d *diagram.Document) (diagram.Part, bool) { return d.Part(id) }, (*diagram.Tx).SetPart)
}

func feederTarget(e Editor, id diagram.ID, c unit.Convention) target[diagram.Feeder] {
	return newTarget(e, c, func(d *diagram.Document) (diagram.Feeder, bool) { return d.Feeder(id) }, (*diagram.Tx).SetFeeder)
}

func protectorTarget(e Editor, id diagram.ID, c unit.Convention) target[diagram.Protector] {
	return newTarget(e, c, func(d *diagram.Document) (diagram.Protector, bool) { return d.Protector(id) }, (*diagram.Tx).SetProtector)
}

func planTarget(e Editor, id diagram.ID, c unit.Convention) target[diagram.Plan] {
	return newTarget(e, c, func(d *diagram.Document) (diagram.Plan, bool) { return d.Plan(id) }, (*diagram.Tx).SetPlan)
}

func infoTarget(e Editor, c unit.Convention) target[diagram.Info] {
	return newTarget(e, c, func(d *diagram.Document) (diagram.Info, bool) { return d.Info(), true }, (*diagram.Tx).SetInfo)
}

func newTarget[R any](e Editor, c unit.Convention, find func(*diagram.Document) (R, bool), put func(*diagram.Tx, R)) target[R] {
	altered := func(alter func(*R)) func(*diagram.Tx) error {
		return func(tx *diagram.Tx) error {
			record, ok := find(tx.Document())
			if ok {
				alter(&record)
				put(tx, record)
			}
			return nil
		}
	}
	return target[R]{
		convention: c,
		get:        func() (R, bool) { return find(e.Document()) },
		set:        func(label string, alter func(*R)) error { return e.Change(label, altered(alter)) },
		drag: func(label string, alter func(*R)) error {
			return e.ChangeKeyed("details "+label, label, altered(alter))
		},
		dropped: e.EndKeyed,
	}
}
