package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Editor is what the form needs of the editor.
type Editor interface {
	Document() *diagram.Document
	Change(label string, f func(*diagram.Tx) error) error
}

// target reads and replaces one record.
type target[R any] struct {
	get        func() (R, bool) // false once the record is gone
	set        func(label string, alter func(*R)) error
	convention unit.Convention
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
	return target[R]{
		convention: c,
		get:        func() (R, bool) { return find(e.Document()) },
		set: func(label string, alter func(*R)) error {
			return e.Change(label, func(tx *diagram.Tx) error {
				record, ok := find(tx.Document())
				if ok {
					alter(&record)
					put(tx, record)
				}
				return nil
			})
		},
	}
}
