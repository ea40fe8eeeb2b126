package edit

import (
	"fmt"

	"clampline/diagram"
)

// SetPlan shows another plan; ids of none are passed over. Of the selection stays
// what is on the sheet there too; protectors give way to those that stand for them.
// It is no change of the document.
func (e *Editor) SetPlan(id diagram.ID) {
	if !e.hasPlan(id) {
		return
	}
	if e.glance != nil {
		e.glance = nil
		e.overlayChanged()
	}
	e.doc.Show(id)
	e.showPlan(id)
}

func (e *Editor) showPlan(id diagram.ID) {
	if id == e.plan {
		return
	}
	e.drop()
	selected := e.selected
	if len(e.selectedProtectors()) > 0 {
		selected = inPlan(selected, diagram.Counterparts(e.doc, e.plan, id))
	}
	e.plan = id
	e.sceneChanged()
	e.Select(selected...)
}

// inPlan returns records with those in place of protectors that stand for them.
func inPlan(ids []diagram.ID, counterparts map[diagram.ID]diagram.ID) []diagram.ID {
	out := make([]diagram.ID, len(ids))
	for i, id := range ids {
		out[i] = id
		if other, ok := counterparts[id]; ok {
			out[i] = other
		}
	}
	return out
}

// Other returns the plan that the shown one is compared with: the one that was
// chosen, or else that of which it records what was built, or the first, which is the
// building as found; of that the next. It is nothing where there is but one.
func (e *Editor) Other() diagram.ID {
	if e.hasPlan(e.against) && e.against != e.plan {
		return e.against
	}
	plans := e.doc.Plans()
	shown, _ := e.doc.Plan(e.plan)
	switch {
	case len(plans) == 1:
		return ""
	case e.hasPlan(shown.Of):
		return shown.Of
	case plans[0].ID == e.plan:
		return plans[1].ID
	}
	return plans[0].ID
}

// CompareWith marks what differs from a plan; ids of none are passed over.
func (e *Editor) CompareWith(id diagram.ID) {
	if e.hasPlan(id) {
		e.against, e.marking = id, true
		e.sceneChanged()
	}
}

// MarkDifferences marks what differs from the other plan, or stops.
func (e *Editor) MarkDifferences(on bool) {
	if on != e.marking {
		e.marking = on
		e.sceneChanged()
	}
}

// Against returns the plan from which differences are marked, or nothing where none
// are.
func (e *Editor) Against() diagram.ID {
	if !e.marking {
		return ""
	}
	return e.Other()
}

// differing is what differs between two plans, and the protectors of which it was
// found.
type differing struct {
	of            *diagram.Document
	before, after diagram.ID
	found         []diagram.PlanDifference
}

// Differences returns what the shown plan has otherwise than the one from which
// differences are marked; nothing where none are. It is found anew only where a
// protector has changed. The caller must not alter it.
func (e *Editor) Differences() []diagram.PlanDifference {
	before := e.Against()
	if before == "" {
		e.differing = differing{}
		return nil
	}
	d := &e.differing
	if d.before != before || d.after != e.plan || !e.doc.SameProtectors(d.of) {
		*d = differing{e.doc.Snapshot(), before, e.plan, diagram.PlanDifferences(e.doc, before, e.plan)}
	}
	return d.found
}

// SayDifferences counts what is marked: "2 added, 1 removed, 3 changed against As
// found".
func (e *Editor) SayDifferences() string {
	var added, removed, changed int
	for _, d := range e.Differences() {
		switch {
		case d.Before == nil:
			added++
		case d.After == nil:
			removed++
		default:
			changed++
		}
	}
	against := e.nameOf(e.Against())
	if added+removed+changed == 0 {
		return e.nameOf(e.plan) + " has the same protectors as " + against
	}
	return fmt.Sprintf("Protectors of %s against %s: %d added, %d removed, %d changed", e.nameOf(e.plan), against, added, removed, changed)
}

// ChangesOf says how a protector differs from the other plan, a line for each figure,
// where differences are marked.
func (e *Editor) ChangesOf(id diagram.ID) []string {
	for _, d := range e.Differences() {
		switch {
		case d.After == nil || d.After.ID != id:
		case d.Before == nil:
			return []string{"not in " + e.nameOf(e.Against())}
		default:
			return d.Lines(e.options.Scene.Convention)
		}
	}
	return nil
}

// ShowOther shows the other plan; from there it leads back.
func (e *Editor) ShowOther() {
	if other := e.Other(); other != "" {
		e.against = e.plan
		e.SetPlan(other)
	}
}

// glance is a look at another plan: what comes back after it.
type glance struct {
	focus
	against diagram.ID
}

// KeyGlance shows the other plan while it is held.
const KeyGlance = "B"

// lookAcross shows the other plan until lookBack. Nothing notes that it was looked at.
func (e *Editor) lookAcross() {
	if other := e.Other(); other != "" && e.glance == nil && !e.tool.busy() {
		e.glance = &glance{e.focus(), e.against}
		e.against = e.plan
		e.showPlan(other)
	}
}

// lookBack comes back from lookAcross, unless another plan was chosen meanwhile.
func (e *Editor) lookBack() {
	if back := e.glance; back != nil {
		e.glance, e.against = nil, back.against
		e.overlayChanged()
		if e.hasPlan(back.plan) {
			e.showPlan(back.plan)
			e.Select(back.selected...)
		}
	}
}
