package unit

// Dimension is what a number measures, and so the unit it is kept in.
type Dimension uint8

// The dimensions and the unit in which each is kept.
const (
	Length       Dimension = iota // m, of long runs such as feeders
	LeadLength                    // m, of short runs, written in inches or millimetres
	Area                          // m², cross-section of a conductor
	Voltage                       // V
	Current                       // A
	LargeVoltage                  // V, of surges, written in kV
	LargeCurrent                  // A, of faults and surges, written in kA
	Power                         // VA, written in kVA
	Percent                       // per cent: 4.5 is written 4.5 %
	Ratio                         // plain number
	Frequency                     // Hz
	Resistance                    // ohm
	Lengthwise                    // ohm/m, resistance or reactance of a conductor
	Capacitance                   // F
	Inductance                    // H
	Speed                         // m/s
	Time                          // s
	Energy                        // J
	Charge                        // C
	FlashDensity                  // lightning flashes to earth per km² and year
	Hours                         // h
	Money                         // plain number without a currency, shown to two decimals
	Count                         // whole number
)

// String returns the name of the dimension within a sentence: "length".
func (d Dimension) String() string { return quantityOf(d, NorthAmerican).noun }

// UnitName returns the unit that Parse takes a number alone to be in, such as
// "ft", "AWG" or "V"; it is empty for plain numbers.
func UnitName(d Dimension, c Convention) string {
	if d == Area && c != IEC {
		return "AWG"
	}
	return quantityOf(d, c).usual().name()
}
