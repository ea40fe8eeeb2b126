package edit

import (
	"maps"
	"slices"

	"clampline/diagram"
)

// Selection returns the ids of the selected parts, feeders and protectors, in
// the order of the ids. The caller must not alter the slice.
func (e *Editor) Selection() []diagram.ID { return e.selected }

// IsSelected reports whether the record is selected.
func (e *Editor) IsSelected(id diagram.ID) bool {
	_, found := slices.BinarySearchFunc(e.selected, id, diagram.CompareID)
	return found
}

// Select selects these records and no others. Ids of nothing on the sheet are
// left out, also protectors of other plans.
func (e *Editor) Select(ids ...diagram.ID) {
	picked := make(map[diagram.ID]bool, len(ids))
	for _, id := range ids {
		if e.selectable(id) {
			picked[id] = true
		}
	}
	selected := slices.SortedFunc(maps.Keys(picked), diagram.CompareID)
	if slices.Equal(selected, e.selected) {
		return
	}
	e.selected = selected
	e.history.seal()
	e.versions.selection++
	e.overlayChanged()
}

// SelectAll selects everything on the sheet.
func (e *Editor) SelectAll() {
	var all []diagram.ID
	for part := range e.doc.Parts() {
		all = append(all, part.ID)
	}
	for feeder := range e.doc.Feeders() {
		all = append(all, feeder.ID)
	}
	for protector := range e.doc.ProtectorsOf(e.plan) {
		all = append(all, protector.ID)
	}
	e.Select(all...)
}

// selectBoards selects every switchboard and panel.
func (e *Editor) selectBoards() {
	var boards []diagram.ID
	for part := range e.doc.Parts() {
		if part.Kind.IsBoard() {
			boards = append(boards, part.ID)
		}
	}
	e.Select(boards...)
}

// selectProtectors selects every protector of the plan.
func (e *Editor) selectProtectors() {
	var protectors []diagram.ID
	for protector := range e.doc.ProtectorsOf(e.plan) {
		protectors = append(protectors, protector.ID)
	}
	e.Select(protectors...)
}

// Reveal selects the record and moves the view so that it can be seen, at 100 %
// where the lettering would be too small to read. It is
// what a click in a list does.
func (e *Editor) Reveal(id diagram.ID) {
	if protector, ok := e.doc.Protector(id); ok {
		e.SetPlan(protector.Plan)
	}
	e.Select(id)
	if box, ok := e.Scene().Box(id); ok && e.view.Scale < readable {
		e.setView(e.view.Full().centerOn(box.Center()))
		return
	}
	e.show(id)
}

// readable is the scale below which the lettering is too small to read.
const readable = 0.75 * FullScale

// show moves the view by as little as brings the record into it.
func (e *Editor) show(id diagram.ID) {
	if box, ok := e.Scene().Box(id); ok {
		e.setView(e.view.Show(box))
	}
}

func (e *Editor) toggle(id diagram.ID) {
	if !e.IsSelected(id) {
		e.Select(append(slices.Clone(e.selected), id)...)
		return
	}
	e.Select(slices.DeleteFunc(slices.Clone(e.selected), func(other diagram.ID) bool { return other == id })...)
}

func (e *Editor) selectable(id diagram.ID) bool {
	if _, ok := e.doc.Part(id); ok {
		return true
	}
	if _, ok := e.doc.Feeder(id); ok {
		return true
	}
	protector, ok := e.doc.Protector(id)
	return ok && protector.Plan == e.plan
}

// selectedParts returns the selected parts as they are now.
func (e *Editor) selectedParts() []diagram.Part { return pick(e.selected, e.doc.Part) }

// selectedFeeders returns the selected feeders as they are now.
func (e *Editor) selectedFeeders() []diagram.Feeder { return pick(e.selected, e.doc.Feeder) }

// selectedProtectors returns the selected protectors as they are now.
func (e *Editor) selectedProtectors() []diagram.Protector { return pick(e.selected, e.doc.Protector) }

func pick[R any](ids []diagram.ID, get func(diagram.ID) (R, bool)) []R {
	var out []R
	for _, id := range ids {
		if record, ok := get(id); ok {
			out = append(out, record)
		}
	}
	return out
}

// selects reports whether at least count of a sort are selected. It looks no
// farther than it must: menus ask it often, also with everything selected.
func selects[R any](e *Editor, count int, get func(diagram.ID) (R, bool)) bool {
	for _, id := range e.selected {
		if _, ok := get(id); ok {
			count--
		}
		if count <= 0 {
			return true
		}
	}
	return false
}

// focus returns what the person is looking at.
func (e *Editor) focus() focus { return focus{e.plan, e.selected} }

// setFocus goes back to a plan and selection, as far as they still exist.
func (e *Editor) setFocus(f focus) {
	if !e.hasPlan(f.plan) {
		f.plan = e.doc.Plans()[0].ID
	}
	if f.plan != e.plan { // else a look across goes on
		e.SetPlan(f.plan)
	}
	e.Select(f.selected...)
}
