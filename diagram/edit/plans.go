package edit

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"clampline/diagram"
)

// AddPlan adds a plan with the protectors of another one, or with none where
// copyFrom is empty, shows it, and returns its id. An empty name takes the
// next free one.
func (e *Editor) AddPlan(name string, copyFrom diagram.ID) (diagram.ID, error) {
	if copyFrom != "" && !e.hasPlan(copyFrom) {
		return "", fmt.Errorf("there is no plan %q to copy", copyFrom)
	}
	if name == "" {
		name = e.newPlanName()
	}
	var id diagram.ID
	err := e.changePlan("add plan "+name, func(tx *diagram.Tx) (diagram.ID, error) {
		id = tx.NewPlanID()
		plans := tx.Document().Plans()
		tx.SetPlan(diagram.Plan{ID: id, Name: name, Order: plans[len(plans)-1].Order + 1})
		copied := map[diagram.ID]diagram.ID{}
		for _, protector := range slices.Collect(tx.Document().ProtectorsOf(copyFrom)) {
			old := protector.ID
			protector.ID, protector.Plan = tx.NewProtectorID(), id
			copied[old] = protector.ID
			tx.SetProtector(protector)
		}
		for _, a := range slices.Collect(tx.Document().Asides()) {
			if a.Plan == copyFrom {
				a.ID, a.Plan, a.About = tx.NewAsideID(), id, cmp.Or(copied[a.About], a.About)
				tx.SetAside(a)
			}
		}
		return id, nil
	})
	return id, err
}

func (e *Editor) newPlanName() string {
	taken := map[string]bool{}
	for _, plan := range e.doc.Plans() {
		taken[plan.Name] = true
	}
	number := len(taken) + 1
	for taken["Plan "+strconv.Itoa(number)] {
		number++
	}
	return "Plan " + strconv.Itoa(number)
}

// RenamePlan gives a plan another name.
func (e *Editor) RenamePlan(id diagram.ID, name string) error {
	plan, ok := e.doc.Plan(id)
	if !ok {
		return fmt.Errorf("there is no plan %q to rename", id)
	}
	plan.Name = name
	return e.Change("rename plan", func(tx *diagram.Tx) error { tx.SetPlan(plan); return nil })
}

// RemovePlan removes a plan and its protectors, and shows the one beside it.
// The last plan cannot be removed.
func (e *Editor) RemovePlan(id diagram.ID) error {
	if !e.hasPlan(id) {
		return fmt.Errorf("there is no plan %q to remove", id)
	}
	return e.changePlan("remove plan "+e.nameOf(id), func(tx *diagram.Tx) (diagram.ID, error) {
		next := e.plan
		if next == id {
			next = e.beside(id, -1)
		}
		tx.Remove(id)
		return next, nil
	})
}

// changePlan makes one change with one entry, after which the plan that f
// returns is shown.
func (e *Editor) changePlan(label string, f func(*diagram.Tx) (diagram.ID, error)) error {
	e.drop()
	e.begin()
	var shown diagram.ID
	err := e.alter(func(tx *diagram.Tx) (err error) {
		shown, err = f(tx)
		return err
	})
	if err != nil {
		e.revert()
		return err
	}
	e.SetPlan(shown)
	e.commit(label, "")
	return nil
}

// beside returns the plan some places further in the list, the first one
// standing after the last.
func (e *Editor) beside(id diagram.ID, by int) diagram.ID {
	plans := e.doc.Plans()
	at := slices.IndexFunc(plans, func(plan diagram.Plan) bool { return plan.ID == id })
	return plans[((at+by)%len(plans)+len(plans))%len(plans)].ID
}

func (e *Editor) stepPlan(by int) { e.SetPlan(e.beside(e.plan, by)) }
