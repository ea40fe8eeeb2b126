package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

type feeder = diagram.Feeder

// feederRows returns the fields of a feeder.
func feederRows(c unit.Convention) []row[feeder] {
	hasGear := shown(func(f feeder) bool { return f.Switch.Kind != "" })
	return inForm(diagram.FeederFields(), c, keys{
		"name", "length", "area", "material", "parallel", "raceway", "lay", "resistance", "reactance", "constant", "surgeImpedance", "velocity",
		"#Breaker or switch at the source end", "switch.kind", "switch.open", "switch.rated", "switch.poles", "switch.residual",
		"#" + remarks, "note",
	}, own[feeder]{
		"lay":    shown(feeder.HasLay),
		"length": alter(row[feeder].foremost), "switch.rated": hasGear, "switch.poles": hasGear, "switch.residual": hasGear,
	})
}
