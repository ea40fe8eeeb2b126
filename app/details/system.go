package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// systemRows edit a system; none is what an empty one means.
func systemRows[R any](none string, c unit.Convention, field func(*R) *diagram.System) []row[R] {
	presets := []option[diagram.System]{{diagram.System{}, none}}
	for _, p := range diagram.Presets() {
		presets = append(presets, option[diagram.System]{p.System, p.Name})
	}
	known := func(r R) bool { return *field(&r) != diagram.System{} }
	return []row[R]{
		choice("System", presets, field),
		choice("Wiring", wirings(), func(r *R) *diagram.Wiring { return &field(r).Wiring }).when(known),
		quantity("Voltage", unit.Voltage, func(r *R) *float64 { return &field(r).Voltage }).usual(diagram.UsualSystemVoltage).when(known),
		toggle("Neutral conductor", func(r *R) *bool { return &field(r).Neutral }).when(known),
		choice(earthingLabel(c), earthings(c), func(r *R) *diagram.Earthing { return &field(r).Earthing }).when(known),
		quantity("Frequency", unit.Frequency, func(r *R) *float64 { return &field(r).Frequency }).usual(diagram.UsualFrequency).when(known),
	}
}

func earthingLabel(c unit.Convention) string {
	if c == unit.IEC {
		return "Earthing"
	}
	return "Grounding"
}

func wirings() []option[diagram.Wiring] {
	return []option[diagram.Wiring]{
		{"", "not known"},
		{diagram.Single, "single phase"},
		{diagram.Split, "split phase"},
		{diagram.TwoOfWye, "two lines of a wye (star)"},
		{diagram.Wye, "three-phase wye (star)"},
		{diagram.Delta, "three-phase delta"},
		{diagram.HighLeg, "high-leg delta"},
	}
}

func earthings(c unit.Convention) []option[diagram.Earthing] {
	word := func(us, iec string) string {
		if c == unit.IEC {
			return iec
		}
		return us
	}
	return []option[diagram.Earthing]{
		{"", "not known"},
		{diagram.Solid, word("solidly grounded", "solidly earthed")},
		{diagram.Impedance, word("high-resistance grounded", "earthed through an impedance")},
		{diagram.Corner, word("corner grounded", "one line earthed")},
		{diagram.Unearthed, word("ungrounded", "unearthed")},
		{diagram.TNS, "TN-S"},
		{diagram.TNC, "TN-C"},
		{diagram.TNCS, "TN-C-S"},
		{diagram.TT, "TT"},
		{diagram.IT, "IT"},
	}
}
