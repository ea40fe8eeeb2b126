package diagram

import (
	"cmp"
	"slices"
)

// CopyPlan adds a plan after the others with copies of the protectors of another one
// and of what is set aside there, or with none where from is empty, and returns its
// id. The first plan records what was found: it is locked as soon as there is a second
// one.
func (tx *Tx) CopyPlan(plan Plan, from ID) ID {
	plans := tx.doc.Plans()
	if first := plans[0]; len(plans) == 1 {
		first.Locked = true
		tx.SetPlan(first)
	}
	plan.ID, plan.Order = tx.NewPlanID(), plans[len(plans)-1].Order+1
	tx.SetPlan(plan)
	copied := map[ID]ID{}
	for _, p := range slices.Collect(tx.doc.ProtectorsOf(from)) {
		old := p.ID
		p.ID, p.Plan = tx.NewProtectorID(), plan.ID
		copied[old] = p.ID
		tx.SetProtector(p)
	}
	for _, a := range slices.Collect(tx.doc.Asides()) {
		if a.Plan == from {
			a.ID, a.Plan, a.About = tx.NewAsideID(), plan.ID, cmp.Or(copied[a.About], a.About)
			tx.SetAside(a)
		}
	}
	return plan.ID
}
