package edit

import (
	"fmt"
	"slices"
	"strconv"

	"clampline/diagram"
)

// AddPlan adds a plan with the protectors of another one, or with none where
// copyFrom is empty, shows it, and returns its id. An empty name takes the
// next free one. The first plan records what was found: it is locked as soon as
// there is a second one.
func (e *Editor) AddPlan(name string, copyFrom diagram.ID) (diagram.ID, error) {
	if copyFrom != "" && !e.hasPlan(copyFrom) {
		return "", fmt.Errorf("there is no plan %q to copy", copyFrom)
	}
	if name == "" {
		name = e.newPlanName()
	}
	var id diagram.ID
	err := e.changePlan("add plan "+name, func(tx *diagram.Tx) (diagram.ID, error) {
		id = tx.CopyPlan(diagram.Plan{Name: name}, copyFrom)
		return id, nil
	})
	return id, err
}

// BeginRecord adds the plan that records what is built of the shown one, and shows it;
// where there is one already it is shown.
func (e *Editor) BeginRecord() error {
	if shown, _ := e.doc.Plan(e.plan); shown.Of != "" {
		return fmt.Errorf("plan %s is a record; show the plan that it records", e.nameOf(shown.ID))
	}
	if record, ok := e.doc.RecordOf(e.plan); ok {
		e.SetPlan(record.ID)
		return nil
	}
	of := e.plan
	return e.changePlan("record what is built of "+e.nameOf(of), func(tx *diagram.Tx) (diagram.ID, error) { return tx.BeginRecord(of), nil })
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

// LockPlan has the protectors of a plan stay as they are, or not any more.
func (e *Editor) LockPlan(id diagram.ID, locked bool) error {
	plan, ok := e.doc.Plan(id)
	if !ok {
		return fmt.Errorf("there is no plan %q to lock or unlock", id)
	}
	plan.Locked = locked
	verb := map[bool]string{true: "lock plan ", false: "unlock plan "}[locked]
	return e.Change(verb+e.nameOf(id), func(tx *diagram.Tx) error { tx.SetPlan(plan); return nil })
}

// PlanIsLocked reports whether the protectors of the shown plan stay as they are.
func (e *Editor) PlanIsLocked() bool {
	plan, _ := e.doc.Plan(e.plan)
	return plan.Locked
}

// movePlan moves the shown plan in the order of the plans: by -1 earlier, by 1
// later. A first plan that is locked stays the first.
func (e *Editor) movePlan(by int) error {
	plans := e.doc.Plans()
	at := indexOf(plans, e.plan)
	if at+by < 0 || at+by >= len(plans) {
		return nil
	}
	if first := plans[0]; first.Locked && min(at, at+by) == 0 {
		return fmt.Errorf("plan %s is locked and records what was found, so it stays the first; unlock it (Plan, Unlock plan) to move it", e.nameOf(first.ID))
	}
	plans[at], plans[at+by] = plans[at+by], plans[at]
	return e.Change("move plan "+e.nameOf(e.plan), func(tx *diagram.Tx) error {
		for i, plan := range plans {
			plan.Order = i + 1
			tx.SetPlan(plan)
		}
		return nil
	})
}

// mayMovePlan reports whether the shown plan is not yet the first or the last.
func mayMovePlan(by int) func(*Editor) bool {
	return func(e *Editor) bool {
		plans := e.doc.Plans()
		at := indexOf(plans, e.plan) + by
		return at >= 0 && at < len(plans)
	}
}

func indexOf(plans []diagram.Plan, id diagram.ID) int {
	return slices.IndexFunc(plans, func(plan diagram.Plan) bool { return plan.ID == id })
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
	at := indexOf(plans, id)
	return plans[((at+by)%len(plans)+len(plans))%len(plans)].ID
}

func (e *Editor) stepPlan(by int) { e.SetPlan(e.beside(e.plan, by)) }
