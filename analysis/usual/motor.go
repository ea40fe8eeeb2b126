package usual

// LargeMotor is the power from which a motor has the lower impedance, VA: 50 hp.
const LargeMotor = 50e3

// Motor returns the subtransient impedance of the machine behind a motor load on
// its power, as a share, and its X/R.
func Motor(power float64, iec bool) (subtransient, xr float64, source string) {
	const source141 = "IEEE 141, induction motors up to 600 V: X'' 0.167 from 50 hp, 0.25 below; from memory; check your edition"
	switch {
	case iec:
		return 1 / 5.0, 1 / 0.42, "IEC 60909-0, groups of low-voltage motors with their cables: 5 times rated current, R/X 0.42; from memory; check your edition"
	case power >= LargeMotor:
		return 0.167, 6, source141
	}
	return 0.25, 6, source141
}
