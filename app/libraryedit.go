package app

import (
	"clampline/analysis/rule"
	"clampline/app/details"
	"clampline/diagram"
)

// edit shows the entry of the user's library in the details, to be edited.
func (p *protectors) edit(id diagram.ID) {
	p.app.details.Commit()
	p.editing, p.past, p.future = id, nil, nil
	p.app.editing = false
	p.app.refresh()
	p.app.details.FocusFirst(p.app.window.Canvas())
}

// endEditing shows the selection in the details again.
func (p *protectors) endEditing() {
	p.app.details.Commit()
	p.editing = ""
	p.app.refresh()
	p.app.focusSheet()
}

// entry returns the entry that is edited, for the details; nil where there is
// none, or where it is gone.
func (p *protectors) entry() *details.LibraryEntry {
	id := p.editing
	if _, ok := p.own.find(id); !ok {
		p.editing = ""
		return nil
	}
	return &details.LibraryEntry{
		ID:      id,
		Get:     func() (diagram.Protector, bool) { return p.own.find(id) },
		Set:     p.alter,
		Drag:    p.draft,
		Dropped: p.keepDraft,
		Back:    p.takeBack,
		Changed: len(p.past) > 0,
		Check:   rule.Plausible,
		Done:    p.endEditing,
	}
}

// alter keeps what f makes of the entry that is edited.
func (p *protectors) alter(f func(*diagram.Protector)) error {
	before, _ := p.own.find(p.editing)
	err := p.own.alter(p.editing, f)
	if now, ok := p.own.find(p.editing); err == nil && ok && now != before {
		p.past, p.future = append(p.past, before), nil
	}
	p.showEntry()
	return err
}

// draft is alter while a value is dragged: keepDraft keeps it.
func (p *protectors) draft(f func(*diagram.Protector)) error {
	if p.dragged == nil {
		before, _ := p.own.find(p.editing)
		p.dragged = &before
	}
	err := p.own.draft(p.editing, f)
	p.showEntry()
	return err
}

// keepDraft keeps what was dragged, as one change.
func (p *protectors) keepDraft() {
	now, ok := p.own.find(p.editing)
	if !ok || p.dragged == nil {
		return
	}
	before := *p.dragged
	p.dragged = nil
	if err := p.own.alter(p.editing, func(kept *diagram.Protector) { *kept = now }); err != nil {
		p.notKept(err)
		return
	}
	p.past, p.future = append(p.past, before), nil
	p.showEntry()
}

// takeBack makes of the entry what it was before its last change.
func (p *protectors) takeBack() { p.restore(&p.past, &p.future) }

// restore makes of the entry what it was, as the last of one list has it, and
// notes in the other list what it is now. It reports whether it did.
func (p *protectors) restore(from, to *[]diagram.Protector) bool {
	now, ok := p.own.find(p.editing)
	if !ok || len(*from) == 0 {
		return false
	}
	last := len(*from) - 1
	if err := p.own.alter(p.editing, func(kept *diagram.Protector) { *kept = (*from)[last] }); err != nil {
		p.notKept(err)
		return false
	}
	*from, *to = (*from)[:last], append(*to, now)
	p.showEntry()
	return true
}

// undo is takeBack by a command, and says so: the sheet stays as it is.
func (p *protectors) undo() {
	if p.restore(&p.past, &p.future) {
		p.app.note("Taken back: the last change of the entry in your library.")
	}
}

// redo does again what was taken back last, and says so.
func (p *protectors) redo() {
	if p.restore(&p.future, &p.past) {
		p.app.note("Done again: the change of the entry in your library.")
	}
}

// showEntry shows the entry as it is after a change.
func (p *protectors) showEntry() {
	p.show()
	p.app.details.Show(p.app.detailState())
	p.app.refresh() // what can be taken back
}
