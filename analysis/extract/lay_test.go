package extract

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/conductor"
	"clampline/analysis/protector"
)

// sizes are conductors from 14 AWG to 4/0, m2.
var sizes = []float64{2.08e-6, 3.31e-6, 5.26e-6, 13.3e-6, 33.6e-6, 107.2e-6}

// lays are the ways in which wires of a size lie, by name.
func lays(area float64, m int) map[string]wires {
	return map[string]wires{"sheathed": sheathed(area, m), "tight": tight(area, m), "loose": loose(area, m), "in a row": inRow(m, overheadSpacing)}
}

// compare wants each place of a matrix, H/m, within a share of the loop of its conductors.
func compare(t *testing.T, what string, got circuit.Matrix, want [][]float64, share float64) {
	t.Helper()
	for i := range want {
		for j := range want {
			if off := (got[i][j] - want[i][j]) / math.Sqrt(want[i][i]*want[j][j]); !(math.Abs(off) <= share) {
				t.Errorf("%s, place %d %d: got %.4f µH/m, want %.4f", what, i, j, got[i][j]*1e6, want[i][j]*1e6)
			}
		}
	}
}

// Two wires have 0.4 µH/m acosh(d/2r) (closed form of two round wires; Paul, Analysis of
// Multiconductor Transmission Lines, 2007, chapter 4). The term of the pairs of
// currents is the first of a series: it leaves 2 % at 3.4 radii, where
// insulated wires touch, 7 % at 2.6, where one of them is bare.
func TestTwoWires(t *testing.T) {
	for apart, share := range map[float64]float64{2.6: 0.07, 3.4: 0.02, 5: 0.005, 10: 0.001, 100: 1e-6} {
		got := wires{0, complex(apart*1e-3, 0)}.inductance(1e-3)[0][0]
		near(t, fmt.Sprintf("%g radii", apart), got, 0.4e-6*math.Acosh(apart/2), share)
	}
}

// A ribbon of three wires of 7.5 mil, 50 mil apart, an outer one as reference, has
// [0.7485 0.5077; 0.5077 1.0154] µH/m, found numerically (Paul, Analysis of
// Multiconductor Transmission Lines, 2007, 9.3.1).
func TestRibbonOfThreeWires(t *testing.T) {
	published := [][]float64{{0.7485e-6, 0.5077e-6}, {0.5077e-6, 1.0154e-6}}
	ribbon := wires{50, 100, 0}
	compare(t, "ours", ribbon.inductance(7.5), published, 2e-3)
	compare(t, "the field", asMatrix(ribbon.field2D(7.5)), published, 1e-4) // four digits are printed
}

func asMatrix(rows [][]float64) (out circuit.Matrix) {
	for i, row := range rows {
		copy(out[i][:], row)
	}
	return out
}

// Far apart, the loops of three straight wires are sums of their own and mutual
// inductances: 0.2 l (ln(2l/r) - 1) and 0.2 l (ln(2l/d) - 1 + d/l) µH (Rosa, The self
// and mutual inductances of linear conductors, Bulletin of the Bureau of Standards 4,
// 1908, with the current in the skin; from memory).
func TestSumsOfPartialInductances(t *testing.T) {
	const r, l = 1e-3, 1e5
	w := wires{0, 0.3 + 0.1i, 0.1 + 0.7i, 0.5 - 0.2i}
	partial := func(i, j int) float64 {
		if i == j {
			return 0.2e-6 * (math.Log(2*l/r) - 1)
		}
		d := cmplx.Abs(w[i] - w[j])
		return 0.2e-6 * (math.Log(2*l/d) - 1 + d/l)
	}
	want := make([][]float64, 3)
	for i := range want {
		for j := range want {
			want[i] = append(want[i], partial(i, j)-partial(i, 3)-partial(3, j)+partial(3, 3))
		}
	}
	compare(t, "loops", w.inductance(r), want, 1e-5) // wires of a metre, 300 radii apart
}

// All lays against the field of round wires, found numerically: from there to the
// larger side, by no more than a tenth of what the wires have, since the next terms of the series
// take more away, and least of all where wires lie loose. Flat cable is made up to 16 mm² (BS 6004, from memory).
func TestLaysAgainstTheField(t *testing.T) {
	limits := map[string]float64{"sheathed": 0.10, "tight": 0.06, "loose": 0.03, "in a row": 1e-4}
	worst := map[string]float64{}
	for _, area := range sizes {
		for m := 1; m <= circuit.MaxConductors; m++ {
			for name, w := range lays(area, m) {
				if name == "sheathed" && area > 16e-6 {
					continue
				}
				got, want := w.inductance(radiusOf(area)), w.field2D(radiusOf(area))
				compare(t, fmt.Sprintf("%s, %g m², %d conductors", name, area, m), got, want, limits[name])
				for i := range want {
					worst[name] = max(worst[name], got[i][i]/want[i][i]-1)
					if got[i][i] < want[i][i]*(1-1e-3) {
						t.Errorf("%s, %g m², %d conductors: got %g H/m of conductor %d, less than %g", name, area, m, got[i][i], i, want[i][i])
					}
				}
			}
		}
	}
	t.Logf("worst: %v", worst)
}

// field2D finds the inductances of round wires of perfect metal, H/m, from their
// field: the potential of each is that of its own line current and of multipoles in
// its middle, which are chosen such that the surface of every wire is at one potential (moment
// method with harmonics as in Paul, Analysis of Multiconductor Transmission Lines, 2007, 5.2).
func (w wires) field2D(r float64) [][]float64 {
	const harmonics, per = 10, 21 // two of each harmonic, and the potential of the wire
	earth := len(w) - 1
	out := make([][]float64, earth)
	for source := range earth {
		var rows [][]float64
		for i := range w {
			for point := range per {
				at := w[i] + cmplx.Rect(r, 2*math.Pi*(float64(point)+0.3)/per)
				row := make([]float64, per*len(w)+1)
				row[i*per] = -1
				for k := range w {
					distance, angle := cmplx.Polar(at - w[k])
					for h := 1; h <= harmonics; h++ {
						sin, cos := math.Sincos(float64(h) * angle)
						row[k*per+2*h-1], row[k*per+2*h] = math.Pow(r/distance, float64(h))*cos, math.Pow(r/distance, float64(h))*sin
					}
				}
				row[len(row)-1] = math.Log(cmplx.Abs(at-w[source])) - math.Log(cmplx.Abs(at-w[earth]))
				rows = append(rows, row)
			}
		}
		x := solved(rows)
		for j := range earth {
			out[source] = append(out[source], 0.2e-6*(x[j*per]-x[earth*per]))
		}
	}
	return out
}

// solved returns the solution of linear equations, each with its right side behind it.
func solved(rows [][]float64) []float64 {
	n := len(rows)
	for p := range n {
		for i := p + 1; i < n; i++ {
			if math.Abs(rows[i][p]) > math.Abs(rows[p][p]) {
				rows[i], rows[p] = rows[p], rows[i]
			}
		}
		for i := range n {
			if factor := rows[i][p] / rows[p][p]; i != p && factor != 0 {
				for j := p; j <= n; j++ {
					rows[i][j] -= factor * rows[p][j]
				}
			}
		}
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = rows[i][n] / rows[i][i]
	}
	return out
}

// Three wires spread in the conduit that holds them and the earth wire have the reactance of
// NEC chapter 9 table 9, column PVC, over 2 pi 60, less the 0.05 µH/m inside a round conductor: as the mean of
// their loops, from 14 AWG to 500 kcmil. Each size is
// within a sixth, of which the table itself, which rises from 10 to 8 AWG, has half; all together within 3 %. At 60 Hz nothing crowds.
func TestLooseAgainstTheTable(t *testing.T) {
	sum, rows := 0.0, 0
	for i := range conductor.Table {
		row := &conductor.Table[i]
		if row.Area > 260e-6 {
			continue
		}
		w, r := loose(row.Area, 3), radiusOf(row.Area)
		got := 0.2e-6 * (w.apart(0, 1, r) + w.apart(1, 2, r) + w.apart(0, 2, r)) / 3
		want := row.X[0]/conductor.ThousandFeet/(2*math.Pi*60) - 0.05e-6
		t.Logf("%s: %.3f of %.3f µH/m, %.3f", row.Size, got*1e6, want*1e6, got/want)
		near(t, row.Size, got, want, 1/6.0)
		sum, rows = sum+got/want, rows+1
	}
	near(t, "mean of all sizes", sum/float64(rows), 1, 0.03)
}

// The nearer the wires, the less inductance each loop has: a tight bundle against a loose one.
func TestTightHasLess(t *testing.T) {
	for _, area := range sizes {
		for m := 2; m <= circuit.MaxConductors; m++ {
			near0, far := tight(area, m).inductance(radiusOf(area)), loose(area, m).inductance(radiusOf(area))
			for i := range m {
				for back := -1; back < i; back++ {
					if a, b := near0.Loop(i, back), far.Loop(i, back); a >= b {
						t.Errorf("%g m², %d conductors: got %g H/m tight and %g loose", area, m, a, b)
					}
				}
			}
		}
	}
}

// Insulated wires side by side lie a diameter apart, and the bare earth wire half of one and its
// own radius from its neighbours: between line and neutral, and in A B earth N. Five wires are a ring.
func TestSheathedCable(t *testing.T) {
	const area = 3.31e-6
	od, half := protector.InsulatedDiameter(area), protector.InsulatedDiameter(area)/2+radiusOf(area)
	for m, want := range map[int][]float64{1: {half}, 2: {half, -half}, 3: {half + od, half, -half}} {
		w := sheathed(area, m)
		if len(w) != m+1 {
			t.Fatalf("%d conductors: got %d wires", m, len(w))
		}
		for i, x := range want {
			near(t, fmt.Sprintf("%d conductors, place %d", m, i), real(w[m]-w[i]), x, 1e-9)
		}
	}
	for i := range 5 {
		w := sheathed(area, 4)
		near(t, "neighbours of five", cmplx.Abs(w[i]-w[(i+1)%5]), od, 1e-9)
	}
}

// Tight wires touch their neighbours and no two overlap; loose ones touch the wall of a conduit that they
// fill to 40 %, or to less where that is the smallest.
func TestPlacesOfWires(t *testing.T) {
	for _, area := range sizes {
		od := protector.InsulatedDiameter(area)
		for m := 1; m <= circuit.MaxConductors; m++ {
			w := tight(area, m)
			for i := range w {
				near(t, "neighbours", cmplx.Abs(w[i]-w[(i+1)%len(w)]), od, 1e-9)
				for j := range i {
					if cmplx.Abs(w[i]-w[j]) < od*(1-1e-9) {
						t.Errorf("%g m², %d conductors: wires %d and %d overlap", area, m, j, i)
					}
				}
			}
			inside := 2*cmplx.Abs(loose(area, m)[0]) + od
			if filled := float64(m+1) * od * od / (inside * inside); filled > 0.4*(1+1e-9) || filled < 0.4*(1-1e-9) && inside > 15.8e-3*(1+1e-9) {
				t.Errorf("%g m², %d conductors: got a conduit of %g m filled to %g", area, m, inside, filled)
			}
		}
	}
}
