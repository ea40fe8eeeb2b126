package details

import (
	"testing"

	"clampline/diagram"
)

// How a protector differs from another plan is listed above its form, and goes when it
// is no longer marked or something else is shown.
func TestChangesAreListed(t *testing.T) {
	s := newShower(t, house(t))
	state := State{Selected: []diagram.ID{"protector-1"}, Plan: diagram.FirstPlan, Against: "As found", Changes: []string{"leads 18 in → 6 in", "type or class type 3 → type 2"}}
	s.Show(state)
	s.wants(true, "Against As found", "leads 18 in → 6 in", "type or class type 3 → type 2")
	s.Rebuild()
	s.wants(true, "type or class type 3 → type 2")
	for _, other := range []State{
		{Selected: state.Selected, Plan: state.Plan}, // no longer marked
		{Selected: state.Selected, Plan: state.Plan, Against: state.Against, Changes: state.Changes, Surges: true},
	} {
		s.Show(state)
		s.Show(other)
		s.wants(false, "Against As found")
	}
}
