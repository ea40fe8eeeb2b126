package conductor

import "math"

// Row is a size of conductor in table 9 of chapter 9 of the NEC (NFPA 70): ohm to neutral per
// 1000 ft at 75 °C and 60 Hz, three single conductors in a conduit. The sizes
// are those of ASTM B258 and of the names in kcmil.
//
// Constants are in ft/Ω: one over the impedance of a foot of three single conductors
// for 600 V at 25 °C, with less reactance than table 9 has. The one for 500 kcmil
// copper in steel was read in a plan review's handout and that for 2 AWG agrees with
// its example; the others are from memory, and a test holds all against table 9.
type Row struct {
	Size string
	Area float64       // m2
	X    [2]float64    // reactance, by whether the conduit is of steel
	R    [2][3]float64 // resistance, by metal and conduit; 0 where the table has none
	C    [2][2]float64 // constants of the point-to-point method, by metal and whether the conduit is of steel
}

// Metals and conduits, as the columns of a row are numbered.
const (
	OfCopper, OfAluminium                         = 0, 1
	InPlastic, InAluminiumConduit, InSteelConduit = 0, 1, 2
)

const (
	kcmil = 0.50670748e-6 // m2

	ThousandFeet = 304.8 // m, for which the table is
	Source       = "NFPA 70 chapter 9 table 9, 75 °C, 60 Hz"
)

// Table is table 9, smallest first.
var Table = [...]Row{
	{"14 AWG", 2.0809e-6, [2]float64{0.058, 0.073}, [2][3]float64{{3.1, 3.1, 3.1}, {0, 0, 0}}, [2][2]float64{{389, 389}, {237, 237}}},
	{"12 AWG", 3.3088e-6, [2]float64{0.054, 0.068}, [2][3]float64{{2.0, 2.0, 2.0}, {3.2, 3.2, 3.2}}, [2][2]float64{{617, 617}, {376, 376}}},
	{"10 AWG", 5.2612e-6, [2]float64{0.050, 0.063}, [2][3]float64{{1.2, 1.2, 1.2}, {2.0, 2.0, 2.0}}, [2][2]float64{{982, 981}, {599, 599}}},
	{"8 AWG", 8.3656e-6, [2]float64{0.052, 0.065}, [2][3]float64{{0.78, 0.78, 0.78}, {1.3, 1.3, 1.3}}, [2][2]float64{{1559, 1557}, {952, 951}}},
	{"6 AWG", 13.302e-6, [2]float64{0.051, 0.064}, [2][3]float64{{0.49, 0.49, 0.49}, {0.81, 0.81, 0.81}}, [2][2]float64{{2430, 2425}, {1482, 1481}}},
	{"4 AWG", 21.151e-6, [2]float64{0.048, 0.060}, [2][3]float64{{0.31, 0.31, 0.31}, {0.51, 0.51, 0.51}}, [2][2]float64{{3826, 3806}, {2350, 2346}}},
	{"3 AWG", 26.670e-6, [2]float64{0.047, 0.059}, [2][3]float64{{0.25, 0.25, 0.25}, {0.40, 0.41, 0.40}}, [2][2]float64{{4811, 4774}, {2961, 2952}}},
	{"2 AWG", 33.631e-6, [2]float64{0.045, 0.057}, [2][3]float64{{0.19, 0.20, 0.20}, {0.32, 0.32, 0.32}}, [2][2]float64{{6044, 5907}, {3730, 3713}}},
	{"1 AWG", 42.408e-6, [2]float64{0.046, 0.057}, [2][3]float64{{0.15, 0.16, 0.16}, {0.25, 0.26, 0.25}}, [2][2]float64{{7493, 7293}, {4678, 4645}}},
	{"1/0 AWG", 53.475e-6, [2]float64{0.044, 0.055}, [2][3]float64{{0.12, 0.13, 0.12}, {0.20, 0.21, 0.20}}, [2][2]float64{{9317, 8925}, {5838, 5777}}},
	{"2/0 AWG", 67.431e-6, [2]float64{0.043, 0.054}, [2][3]float64{{0.10, 0.10, 0.10}, {0.16, 0.16, 0.16}}, [2][2]float64{{11424, 10755}, {7301, 7187}}},
	{"3/0 AWG", 85.029e-6, [2]float64{0.042, 0.052}, [2][3]float64{{0.077, 0.082, 0.079}, {0.13, 0.13, 0.13}}, [2][2]float64{{13923, 12844}, {9110, 8826}}},
	{"4/0 AWG", 107.22e-6, [2]float64{0.041, 0.051}, [2][3]float64{{0.062, 0.067, 0.063}, {0.10, 0.11, 0.10}}, [2][2]float64{{16673, 15082}, {11174, 10741}}},
	{"250 kcmil", 250 * kcmil, [2]float64{0.041, 0.052}, [2][3]float64{{0.052, 0.057, 0.054}, {0.085, 0.090, 0.086}}, [2][2]float64{{18594, 16483}, {12862, 12122}}},
	{"300 kcmil", 300 * kcmil, [2]float64{0.041, 0.051}, [2][3]float64{{0.044, 0.049, 0.045}, {0.071, 0.076, 0.072}}, [2][2]float64{{20868, 18177}, {14923, 13910}}},
	{"350 kcmil", 350 * kcmil, [2]float64{0.040, 0.050}, [2][3]float64{{0.038, 0.043, 0.039}, {0.061, 0.066, 0.063}}, [2][2]float64{{22737, 19704}, {16813, 15484}}},
	{"400 kcmil", 400 * kcmil, [2]float64{0.040, 0.049}, [2][3]float64{{0.033, 0.038, 0.035}, {0.054, 0.059, 0.055}}, [2][2]float64{{24297, 20566}, {18506, 16671}}},
	{"500 kcmil", 500 * kcmil, [2]float64{0.039, 0.048}, [2][3]float64{{0.027, 0.032, 0.029}, {0.043, 0.048, 0.045}}, [2][2]float64{{26706, 22185}, {21391, 18756}}},
	{"600 kcmil", 600 * kcmil, [2]float64{0.039, 0.048}, [2][3]float64{{0.023, 0.028, 0.025}, {0.036, 0.041, 0.038}}, [2][2]float64{{28033, 22965}, {23451, 20093}}},
	{"750 kcmil", 750 * kcmil, [2]float64{0.038, 0.048}, [2][3]float64{{0.019, 0.024, 0.021}, {0.029, 0.034, 0.031}}, [2][2]float64{{29735, 24137}, {25976, 21766}}},
	{"1000 kcmil", 1000 * kcmil, [2]float64{0.037, 0.046}, [2][3]float64{{0.015, 0.019, 0.018}, {0.023, 0.027, 0.025}}, [2][2]float64{{31491, 25278}, {28779, 23478}}},
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
