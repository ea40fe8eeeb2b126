package edit

import (
	"cmp"
	"slices"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// keyPress gives a key to the tool, or else to the command that it stands for.
func (e *Editor) keyPress(ev Event) {
	e.notice = ""
	ev.Modifiers &^= Space
	if next, ok := e.tool.key(e, ev); ok {
		e.enter(next)
		return
	}
	pressed := Key{ev.Modifiers, ev.Key}
	if pressed == key(KeyGlance) {
		e.lookAcross()
		return
	}
	for _, command := range Commands() {
		if slices.Contains(command.Keys, pressed) && command.MayRun(e) {
			if err := command.Run(e); err != nil {
				e.setNotice(err.Error())
			}
			break
		}
	}
	e.overlayChanged()
}

// fineStep is how far Shift with an arrow key goes, in mm.
const fineStep = 1

// arrowStep returns the step on the sheet that an arrow key stands for.
func arrowStep(key string, fine bool) (geom.Point, bool) {
	step := map[string]geom.Point{
		KeyUp: {Y: -1}, KeyDown: {Y: 1}, KeyLeft: {X: -1}, KeyRight: {X: 1},
	}[key]
	pitch := float64(gridPitch)
	if fine {
		pitch = fineStep
	}
	return step.Mul(pitch), step != geom.Point{}
}

// stepPointer moves the place a tool points at by an arrow key and returns it.
func (e *Editor) stepPointer(ev Event) (geom.Point, bool) {
	step, ok := arrowStep(ev.Key, ev.Modifiers.Has(Shift))
	if !ok || ev.Modifiers&^Shift != 0 {
		return geom.Point{}, false
	}
	at := e.place().at.Add(step)
	if !ev.Modifiers.Has(Shift) {
		at = at.Snap(gridPitch)
	}
	e.pointer = pointer{at, true}
	e.setView(e.view.Show(geom.RectOf(at, at)))
	return at, true
}

// nudge moves the selected parts a step, or, where there are none, the
// selected protectors along their bus bars. Steps in a row are one entry.
func (e *Editor) nudge(step geom.Point) error {
	parts, protectors := e.selectedParts(), e.selectedProtectors()
	if len(parts) > 0 {
		return e.ChangeKeyed("nudge", "move "+e.describe(idsOf(parts)), shifted(parts, step))
	}
	return e.ChangeKeyed("nudge", "move "+e.describe(e.selected), func(tx *diagram.Tx) error {
		for _, protector := range protectors {
			host, _ := tx.Part(protector.Bus)
			along := geom.Turn(host.Turn).Apply(geom.Pt(1, 0))
			protector.Offset = e.offsetOn(host.ID, protector.Offset+dot(step, along), true)
			tx.SetProtector(protector)
		}
		return nil
	})
}

// step selects the part that follows the selected one in reading order, or
// precedes it, and brings it into view.
func (e *Editor) step(by int) {
	all := func(diagram.Kind) bool { return true }
	if part, ok := e.neighbour(e.anchor(), by, all); ok {
		e.selectShown(part.ID)
	}
}

// neighbour returns the part of a wanted kind that follows another in reading
// order, or precedes it; the first or last one goes on round the sheet.
func (e *Editor) neighbour(of diagram.ID, by int, wanted func(diagram.Kind) bool) (diagram.Part, bool) {
	order := slices.SortedFunc(e.doc.Parts(), func(a, b diagram.Part) int {
		return cmp.Or(cmp.Compare(a.At.Y, b.At.Y), cmp.Compare(a.At.X, b.At.X), diagram.CompareID(a.ID, b.ID))
	})
	order = slices.DeleteFunc(order, func(part diagram.Part) bool { return !wanted(part.Kind) })
	if len(order) == 0 {
		return diagram.Part{}, false
	}
	at := slices.IndexFunc(order, func(part diagram.Part) bool { return part.ID == of })
	if by < 0 {
		at = max(at, 0) // from nothing back to the last
	}
	return order[(at+by+len(order))%len(order)], true
}

// anchor returns the part that keys go on from: the selected one, or the one
// that the selected feeder or protector belongs to.
func (e *Editor) anchor() diagram.ID {
	if len(e.selected) == 0 {
		return ""
	}
	last := e.selected[len(e.selected)-1]
	if feeder, ok := e.doc.Feeder(last); ok {
		if feeder.Touches(e.attachedTo) {
			return e.attachedTo
		}
		return feeder.From.Part
	}
	if protector, ok := e.doc.Protector(last); ok {
		return protector.Bus
	}
	return last
}

// stepAttached goes round the part and what is attached to it: its protectors
// and its feeders.
func (e *Editor) stepAttached(by int) {
	anchor := e.anchor()
	if anchor == "" {
		return
	}
	ring := []diagram.ID{anchor}
	for protector := range e.doc.ProtectorsOf(e.plan) {
		if protector.Bus == anchor {
			ring = append(ring, protector.ID)
		}
	}
	for feeder := range e.doc.Feeders() {
		if feeder.Touches(anchor) {
			ring = append(ring, feeder.ID)
		}
	}
	at := slices.Index(ring, e.selected[len(e.selected)-1])
	e.selectShown(ring[(at+by+len(ring))%len(ring)])
	e.attachedTo = anchor
}

func (e *Editor) selectShown(id diagram.ID) {
	e.Select(id)
	e.show(id)
}
