package conductor

import "math"

// Row is a size of conductor in table 9 of chapter 9 of the NEC (NFPA 70): ohm to neutral per
// 1000 ft at 75 °C and 60 Hz, three single conductors in a conduit. The sizes
// are those of ASTM B258 and of the names in kcmil.
type Row struct {
	Size                      string
	Area                      float64 // m2
	XOther, XSteel            float64 // reactance, in nonmetallic or aluminium conduit and in steel
	CopperPVC, CopperAl       float64 // resistance
	CopperSteel               float64
	AluminiumPVC, AluminiumAl float64 // 0 where the table has none
	AluminiumSteel            float64
	C                         Constants // of the point-to-point method
}

// Constants are the C of the point-to-point method for one size, in ft/Ω: one
// over the impedance of a foot of three single conductors for 600 V at 25 °C,
// with less reactance than table 9 has. The one for 500 kcmil copper in steel was
// read in a plan review's handout and that for 2 AWG agrees with its example; the
// others are from memory, and a test holds all against table 9.
type Constants struct {
	CopperSteel, CopperOther, AluminiumSteel, AluminiumOther float64
}

const (
	kcmil = 0.50670748e-6 // m2

	ThousandFeet = 304.8 // m, for which the table is
	Source       = "NFPA 70 chapter 9 table 9, 75 °C, 60 Hz"
)

// Table is table 9, smallest first.
var Table = [...]Row{
	{"14 AWG", 2.0809e-6, 0.058, 0.073, 3.1, 3.1, 3.1, 0, 0, 0, Constants{389, 389, 237, 237}},
	{"12 AWG", 3.3088e-6, 0.054, 0.068, 2.0, 2.0, 2.0, 3.2, 3.2, 3.2, Constants{617, 617, 376, 376}},
	{"10 AWG", 5.2612e-6, 0.050, 0.063, 1.2, 1.2, 1.2, 2.0, 2.0, 2.0, Constants{981, 982, 599, 599}},
	{"8 AWG", 8.3656e-6, 0.052, 0.065, 0.78, 0.78, 0.78, 1.3, 1.3, 1.3, Constants{1557, 1559, 951, 952}},
	{"6 AWG", 13.302e-6, 0.051, 0.064, 0.49, 0.49, 0.49, 0.81, 0.81, 0.81, Constants{2425, 2430, 1481, 1482}},
	{"4 AWG", 21.151e-6, 0.048, 0.060, 0.31, 0.31, 0.31, 0.51, 0.51, 0.51, Constants{3806, 3826, 2346, 2350}},
	{"3 AWG", 26.670e-6, 0.047, 0.059, 0.25, 0.25, 0.25, 0.40, 0.41, 0.40, Constants{4774, 4811, 2952, 2961}},
	{"2 AWG", 33.631e-6, 0.045, 0.057, 0.19, 0.20, 0.20, 0.32, 0.32, 0.32, Constants{5907, 6044, 3713, 3730}},
	{"1 AWG", 42.408e-6, 0.046, 0.057, 0.15, 0.16, 0.16, 0.25, 0.26, 0.25, Constants{7293, 7493, 4645, 4678}},
	{"1/0 AWG", 53.475e-6, 0.044, 0.055, 0.12, 0.13, 0.12, 0.20, 0.21, 0.20, Constants{8925, 9317, 5777, 5838}},
	{"2/0 AWG", 67.431e-6, 0.043, 0.054, 0.10, 0.10, 0.10, 0.16, 0.16, 0.16, Constants{10755, 11424, 7187, 7301}},
	{"3/0 AWG", 85.029e-6, 0.042, 0.052, 0.077, 0.082, 0.079, 0.13, 0.13, 0.13, Constants{12844, 13923, 8826, 9110}},
	{"4/0 AWG", 107.22e-6, 0.041, 0.051, 0.062, 0.067, 0.063, 0.10, 0.11, 0.10, Constants{15082, 16673, 10741, 11174}},
	{"250 kcmil", 250 * kcmil, 0.041, 0.052, 0.052, 0.057, 0.054, 0.085, 0.090, 0.086, Constants{16483, 18594, 12122, 12862}},
	{"300 kcmil", 300 * kcmil, 0.041, 0.051, 0.044, 0.049, 0.045, 0.071, 0.076, 0.072, Constants{18177, 20868, 13910, 14923}},
	{"350 kcmil", 350 * kcmil, 0.040, 0.050, 0.038, 0.043, 0.039, 0.061, 0.066, 0.063, Constants{19704, 22737, 15484, 16813}},
	{"400 kcmil", 400 * kcmil, 0.040, 0.049, 0.033, 0.038, 0.035, 0.054, 0.059, 0.055, Constants{20566, 24297, 16671, 18506}},
	{"500 kcmil", 500 * kcmil, 0.039, 0.048, 0.027, 0.032, 0.029, 0.043, 0.048, 0.045, Constants{22185, 26706, 18756, 21391}},
	{"600 kcmil", 600 * kcmil, 0.039, 0.048, 0.023, 0.028, 0.025, 0.036, 0.041, 0.038, Constants{22965, 28033, 20093, 23451}},
	{"750 kcmil", 750 * kcmil, 0.038, 0.048, 0.019, 0.024, 0.021, 0.029, 0.034, 0.031, Constants{24137, 29735, 21766, 25976}},
	{"1000 kcmil", 1000 * kcmil, 0.037, 0.046, 0.015, 0.019, 0.018, 0.023, 0.027, 0.025, Constants{25278, 31491, 23478, 28779}},
}

// Column reads one figure of a row.
type Column func(*Row) float64

// LookUp returns the figure of a column for a cross-section in m2. Between two
// sizes it goes by the logarithms of both; below the smallest and above the
// largest size it goes with the power of the cross-section that is given.
func LookUp(area float64, of Column, power float64) float64 {
	last := len(Table) - 1
	for i := range Table {
		row := &Table[i]
		value := of(row)
		switch {
		case value == 0 || area > row.Area && i < last:
			continue
		case area >= row.Area || i == 0 || of(&Table[i-1]) == 0:
			return value * math.Pow(area/row.Area, power)
		}
		before := &Table[i-1]
		share := math.Log(area/before.Area) / math.Log(row.Area/before.Area)
		return of(before) * math.Pow(value/of(before), share)
	}
	return 0
}
