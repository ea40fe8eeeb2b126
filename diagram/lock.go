package diagram

// A lock covers the protectors of one plan: which there are, what they are and what
// they hang on. Where along its bus a protector is drawn is not covered, nor what
// the plan says of itself, nor what is set aside in it. The building belongs to
// every plan and stays free, but a part on which a locked plan has a protector
// cannot be removed.

// locks reports what a change would do to plans that are locked before it and are
// not unlocked by it.
func (c *checker) locks(change Change) {
	for _, u := range change.Plans {
		if u.To == nil && u.From.Locked {
			c.locked(*u.From, toUnlock)
		}
	}
	for _, u := range change.Protectors {
		for _, side := range []*Protector{u.From, u.To} {
			if side == nil || u.From != nil && u.To != nil && u.From.undrawn() == u.To.undrawn() {
				continue
			}
			if plan, ok := c.lockedBefore(side.Plan, change); ok {
				c.locked(plan, toUnlock+" or duplicate it")
			}
		}
	}
}

// lockedBefore returns the plan where it is locked before the change and after it.
func (c *checker) lockedBefore(id ID, change Change) (Plan, bool) {
	plan, ok := c.doc.Plan(id)
	for _, u := range change.Plans {
		if u.ID == id && (u.From == nil || !u.From.Locked) {
			return plan, false
		}
	}
	return plan, ok && plan.Locked
}

// toUnlock names the command as a menu has it.
const toUnlock = "unlock it (Plan, Unlock plan)"

// locked is short: it stands in the status line.
func (c *checker) locked(plan Plan, remedy string) {
	c.add(Problem{ID: plan.ID, Place: "plan " + nameOr(plan.Name, plan.ID), What: "it is locked", Remedy: remedy})
}

// undrawn returns the protector without what is only of the drawing.
func (p Protector) undrawn() Protector {
	p.Offset = 0
	return p
}
