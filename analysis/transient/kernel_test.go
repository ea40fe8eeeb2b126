package transient

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A panel gives what the matrix gives that it was made of.
func TestPanel(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	for range 200 {
		rows, columns := 1+rng.IntN(20), 1+rng.IntN(20)
		matrix, x := make([]float64, rows*columns), make([]float64, columns)
		for i := range matrix {
			matrix[i] = rng.NormFloat64()
		}
		for i := range x {
			x[i] = rng.NormFloat64()
		}
		p, out := newPanel(rows, columns, matrix), make([]float64, fours(rows))
		p.times(out, x)
		for i := range rows {
			want := 0.0
			for j, by := range x {
				want += matrix[i*columns+j] * by
			}
			about(t, "row", out[i], want, 1e-12)
		}
	}
}

// Every pair of conductors has its place among the extremes.
func TestExtremes(t *testing.T) {
	for m := 1; m <= 4; m++ {
		for _, p := range pairs[m] {
			var e extremes
			v := wave{}
			for k := range m {
				v[k] = -math.Pow(3, float64(k))
			}
			want := v[p.From]
			if p.To >= 0 {
				want -= v[p.To]
			}
			e.look(v[:], 4, 1, &wave{}, 7)
			e.look(make([]float64, 4), 4, 1, &wave{}, 8)
			if volts, step := e.of(p); volts != math.Abs(want) || step != 7 {
				t.Errorf("%d conductors, %v: got %g at step %d, want %g at 7", m, p, volts, step, math.Abs(want))
			}
		}
	}
}
