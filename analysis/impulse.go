package analysis

// impulseRow is the rated impulse voltage by overvoltage category for systems
// up to a voltage from line to neutral.
type impulseRow struct {
	upTo   float64    // V rms
	rating [4]float64 // V peak, category I to IV
}

// impulseRows is IEC 60664-1:2007 table F.1. The rows of 150, 300 and 600 V
// are also those of IEC 60364-4-44 table 44.B; those of 50, 100 and 1000 V
// are from memory.
func impulseRows() [6]impulseRow {
	return [6]impulseRow{
		{50, [4]float64{330, 500, 800, 1500}},
		{100, [4]float64{500, 800, 1500, 2500}},
		{150, [4]float64{800, 1500, 2500, 4000}},
		{300, [4]float64{1500, 2500, 4000, 6000}},
		{600, [4]float64{2500, 4000, 6000, 8000}},
		{1000, [4]float64{4000, 6000, 8000, 12000}},
	}
}

// ImpulseVoltage returns the rated impulse voltage, in V peak, of equipment of
// an overvoltage category from 1 to 4 on a system of the given voltage from
// line to neutral, in V rms; 0 where the table has none.
func ImpulseVoltage(lineToNeutral float64, category int) float64 {
	if lineToNeutral <= 0 || category < 1 || category > 4 {
		return 0
	}
	for _, row := range impulseRows() {
		if lineToNeutral <= row.upTo {
			return row.rating[category-1]
		}
	}
	return 0
}

// ImpulseRow returns up to which voltage the row goes that counts for a voltage
// from line to neutral, in V rms; 0 where the table has none.
func ImpulseRow(voltage float64) float64 {
	for _, row := range impulseRows() {
		if voltage <= row.upTo {
			return row.upTo
		}
	}
	return 0
}
