package conductor

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// metric is table 9 in its other units, Ω/km, which the same page of NFPA 70 prints
// beside those per 1000 ft: reactance but in steel and in steel, then copper and
// aluminium in PVC, aluminium and steel conduit (from memory; check your edition).
const metric = `
14 AWG      0.190 0.240  10.2  10.2  10.2   -     -     -
12 AWG      0.177 0.223  6.6   6.6   6.6    10.5  10.5  10.5
10 AWG      0.164 0.207  3.9   3.9   3.9    6.6   6.6   6.6
8 AWG       0.171 0.213  2.56  2.56  2.56   4.3   4.3   4.3
6 AWG       0.167 0.210  1.61  1.61  1.61   2.66  2.66  2.66
4 AWG       0.157 0.197  1.02  1.02  1.02   1.67  1.67  1.67
3 AWG       0.154 0.194  0.82  0.82  0.82   1.31  1.35  1.31
2 AWG       0.148 0.187  0.62  0.66  0.66   1.05  1.05  1.05
1 AWG       0.151 0.187  0.49  0.52  0.52   0.82  0.85  0.82
1/0 AWG     0.144 0.180  0.39  0.43  0.39   0.66  0.69  0.66
2/0 AWG     0.141 0.177  0.33  0.33  0.33   0.52  0.52  0.52
3/0 AWG     0.138 0.171  0.253 0.269 0.259  0.43  0.43  0.43
4/0 AWG     0.135 0.167  0.203 0.220 0.207  0.328 0.36  0.328
250 kcmil   0.135 0.171  0.171 0.187 0.177  0.279 0.295 0.282
300 kcmil   0.135 0.167  0.144 0.161 0.148  0.233 0.249 0.236
350 kcmil   0.131 0.164  0.125 0.141 0.128  0.200 0.217 0.207
400 kcmil   0.131 0.161  0.108 0.125 0.115  0.177 0.194 0.180
500 kcmil   0.128 0.157  0.089 0.105 0.095  0.141 0.157 0.148
600 kcmil   0.128 0.157  0.075 0.092 0.082  0.118 0.135 0.125
750 kcmil   0.125 0.157  0.062 0.079 0.069  0.095 0.112 0.102
1000 kcmil  0.121 0.151  0.049 0.062 0.059  0.075 0.089 0.082`

// Each figure per 1000 ft is the one per kilometre, to half of the last digit that
// is printed there. A foot is 0.3048 m exactly (NIST Handbook 44, appendix C).
func TestTableInMetres(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(metric), "\n")
	if len(lines) != len(Table) {
		t.Fatalf("got %d rows, want %d", len(Table), len(lines))
	}
	if Foot != 0.3048 || ThousandFeet != 1000*Foot {
		t.Errorf("got feet of %g m and %g m for a thousand", Foot, ThousandFeet)
	}
	for i, line := range lines {
		row := &Table[i]
		figures := strings.Fields(strings.TrimPrefix(line, row.Size))
		if len(figures) != 8 {
			t.Errorf("row %d is %s, want %s", i, row.Size, line)
			continue
		}
		for column, got := range map[int]float64{
			0: row.X[0], 1: row.X[1],
			2: row.R[OfCopper][InPlastic], 3: row.R[OfCopper][InAluminiumConduit], 4: row.R[OfCopper][InSteelConduit],
			5: row.R[OfAluminium][InPlastic], 6: row.R[OfAluminium][InAluminiumConduit], 7: row.R[OfAluminium][InSteelConduit],
		} {
			if want := figures[column]; !prints(got/0.3048, want) {
				t.Errorf("%s, column %d: got %g Ω per 1000 ft, want %s Ω/km", row.Size, column, got, want)
			}
		}
	}
}

// prints reports whether a value is what a figure was rounded from; "-" is none.
func prints(value float64, figure string) bool {
	want, err := strconv.ParseFloat(figure, 64)
	if err != nil {
		return value == 0 && figure == "-"
	}
	_, decimals, _ := strings.Cut(figure, ".")
	return math.Abs(value-want) <= 0.5001*math.Pow(10, -float64(len(decimals))) // a half itself, with its rounding
}

// By ASTM B258 a wire of gauge n is 0.127 mm · 92^((36-n)/39) thick, 1/0 being 0 and
// 4/0 being -3; a kcmil is a thousand circles of 0.001 in.
func TestSizes(t *testing.T) {
	circle := func(d float64) float64 { return math.Pi / 4 * d * d }
	for i := range Table {
		row := &Table[i]
		number, kind, _ := strings.Cut(row.Size, " ")
		name, zeros, ofZeros := strings.Cut(number, "/")
		n, err := strconv.ParseFloat(name, 64)
		if err != nil {
			t.Fatal(err)
		}
		want := n * 1000 * circle(25.4e-6)
		if ofZeros {
			n = 1 - n
		}
		if kind == "AWG" {
			want = circle(0.127e-3 * math.Pow(92, (36-n)/39))
		}
		// the areas have five digits, of which the last is half a unit off at most
		if math.Abs(row.Area-want) > 5e-5*want || ofZeros && zeros != "0" {
			t.Errorf("%s: got %g mm2, want %g", row.Size, row.Area*1e6, want*1e6)
		}
	}
}

// The constants are one over the impedance of the conductors of table 9 at 25 °C in
// place of 75 °C (coefficients of NFPA 70 chapter 9 table 8: 0.00323 and 0.00330 per
// K) with 0.78 of its reactance, as the two that were read have it; the rounding of
// table 9 leaves 4.5 %.
func TestConstants(t *testing.T) {
	for i := range Table {
		row := &Table[i]
		for metal, cold := range [2]float64{OfCopper: 1 - 0.00323*50, OfAluminium: 1 - 0.00330*50} {
			for steel, conduit := range [2]int{InPlastic, InSteelConduit} {
				ohms := row.R[metal][conduit]
				if ohms == 0 {
					continue
				}
				if got, want := row.C[metal][steel], 1000/math.Hypot(ohms*cold, 0.78*row.X[steel]); math.Abs(got-want) > 0.045*want {
					t.Errorf("%s, metal %d, steel %d: got %g, and table 9 gives %.0f", row.Size, metal, steel, got, want)
				}
			}
		}
	}
}

// Annealed metals by IEC 60028 and IEC 60889 conduct 100 % and 61 % of what the
// international standard has, 58 m/(Ω mm²); those of a cable 54 and 34 by IEC
// 60909-0 (all from memory; check your edition).
func TestMetals(t *testing.T) {
	for _, row := range []struct {
		name         string
		got, siemens float64 // Ωm, m/(Ω mm²)
		rounding     float64
	}{
		{"copper", Copper, 58, 5e-4}, {"aluminium", Aluminium, 0.61 * 58, 5e-3},
		{"copper of a cable", CableCopper, 54, 1e-12}, {"aluminium of a cable", CableAluminium, 34, 1e-12},
	} {
		if want := 1e-6 / row.siemens; math.Abs(row.got-want) > row.rounding*want {
			t.Errorf("%s: got %g Ωm, want %g", row.name, row.got, want)
		}
	}
}
