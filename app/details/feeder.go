package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

type feeder = diagram.Feeder

// fromMakeUp stands in the fields of what follows from conductors and raceway
// unless it is entered.
const fromMakeUp = "from its make-up"

// fromTable stands in those of what a table gives for the size.
const fromTable = "of its size, from a table"

// feederRows returns the fields of a feeder.
func feederRows(c unit.Convention) []row[feeder] {
	materials := []option[diagram.Material]{{diagram.Copper, "copper"}, {diagram.Aluminium, "aluminium"}}
	gear := func(f *feeder) *diagram.SwitchData { return &f.Switch }
	hasGear := func(f feeder) bool { return f.Switch.Kind != "" }
	return []row[feeder]{
		text("Name", func(f *feeder) *string { return &f.Name }),
		length("Length", unit.Length, func(f *feeder) *float64 { return &f.Length }).usual(diagram.UsualFeederLength).foremost(),
		quantity("Conductor", unit.Area, func(f *feeder) *float64 { return &f.Area }).usual(diagram.UsualConductor),
		choiceUsual("Material", materials, func(f *feeder) *diagram.Material { return &f.Material }),
		count("Conductors per phase", 100, func(f *feeder) *int { return &f.Parallel }),
		choice("Raceway or cable", plain("not known", diagram.Raceways()...), func(f *feeder) *diagram.Raceway { return &f.Raceway }),
		quantity("Resistance", unit.Lengthwise, func(f *feeder) *float64 { return &f.Resistance }).usual(diagram.UsualResistance).hint(fromTable),
		quantity("Reactance", unit.Lengthwise, func(f *feeder) *float64 { return &f.Reactance }).usual(diagram.UsualReactance).hint(fromTable),
		quantity("C, point to point", unit.Ratio, func(f *feeder) *float64 { return &f.Constant }).usual(diagram.UsualConstant).hint(fromTable),
		quantity("Surge impedance", unit.Resistance, func(f *feeder) *float64 { return &f.SurgeImpedance }).usual(diagram.UsualSurgeImpedance).hint(fromMakeUp),
		quantity("Wave speed", unit.Speed, func(f *feeder) *float64 { return &f.Velocity }).usual(diagram.UsualWaveSpeed).hint(fromMakeUp),
		heading[feeder]("Breaker or switch at the source end"),
		choice("Kind", plain("none", diagram.Breaker, diagram.Fuse, diagram.Disconnect), func(f *feeder) *diagram.SwitchKind { return &gear(f).Kind }),
		toggle("Open", func(f *feeder) *bool { return &gear(f).Open }),
		quantity("Rated current", unit.Current, func(f *feeder) *float64 { return &gear(f).Rated }).usual(diagram.UsualSwitch).when(hasGear),
		count("Poles", 4, func(f *feeder) *int { return &gear(f).Poles }).when(hasGear),
		toggle(residualWord(c), func(f *feeder) *bool { return &gear(f).Residual }).when(hasGear),
		heading[feeder](remarks),
		paragraph("Note", func(f *feeder) *string { return &f.Note }),
	}
}

// residualWord is what a device that trips on residual current is called.
func residualWord(c unit.Convention) string {
	if c == unit.IEC {
		return "Residual-current device"
	}
	return "Ground-fault protection"
}
