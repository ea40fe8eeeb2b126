package analysis

import "clampline/diagram"

// SameNominal reports whether a protector made for one system has the nominal
// voltage of a bus, within VoltageTolerance. Both systems are known.
func SameNominal(made, bus diagram.System) bool {
	return SameVoltage(NominalVoltages(made, bus))
}

// NominalVoltages returns the voltage that a protector is made for and that of
// its bus between the same conductors, V rms: between lines where both have
// more than one, else to neutral. Two lines with a neutral are compared to
// neutral, since protectors for 120/240 V serve two lines of 208Y/120 V as well
// (common practice, no source). A protector for a line and neutral may stand on
// two lines without a neutral, its neutral terminal at the second, where the
// voltage between them is its own.
func NominalVoltages(made, bus diagram.System) (ofMade, ofBus float64) {
	switch {
	case made.Lines() == 2 && bus.Lines() == 2 && made.Neutral && bus.Neutral:
		return made.LineToNeutral(), bus.LineToNeutral()
	case made.Lines() > 1 && bus.Lines() > 1,
		onTwoLines(made, bus), onTwoLines(bus, made):
		return made.Voltage, bus.Voltage
	}
	return made.LineToNeutral(), bus.LineToNeutral()
}

// onTwoLines reports whether what is made for a line and neutral has its own
// voltage between two lines without a neutral.
func onTwoLines(line, pair diagram.System) bool {
	ofLine := line.Lines() == 1 && line.Neutral
	ofPair := pair.Lines() == 2 && !pair.Neutral
	return ofLine && ofPair && SameVoltage(line.Voltage, pair.Voltage)
}
