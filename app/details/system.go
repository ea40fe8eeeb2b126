package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// systemRows edit the system in a group of the fields of a record; none is what an
// empty one means. It is own of the key of the group.
func systemRows[R any](fields []diagram.Field[R], group, none string, c unit.Convention, system func(*R) *diagram.System) func(row[R]) []row[R] {
	presets := []option[diagram.System]{{diagram.System{}, none}}
	for _, p := range diagram.Presets() {
		presets = append(presets, option[diagram.System]{p.System, p.Name})
	}
	out := []row[R]{choice("system", presets, system).explained("A usual system to begin from; what it is made of can be changed below.")}
	for _, key := range []string{"wiring", "voltage", "neutral", "earthing", "frequency"} {
		known := func(r R) bool { return *system(&r) != diagram.System{} }
		out = append(out, fieldRow(diagram.FieldOf(fields, group+"."+key), c).when(known))
	}
	return func(row[R]) []row[R] { return out }
}
