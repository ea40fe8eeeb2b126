package circuit_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"clampline/analysis/circuit"
)

// dense writes a bundle's quantity as the matrix that it stands for.
func dense(a circuit.Balanced, m int) [][]float64 {
	out := make([][]float64, m)
	for i := range out {
		out[i] = make([]float64, m)
		for j := range out[i] {
			out[i][j] = a.Mutual
		}
		out[i][i] += a.Own
	}
	return out
}

func product(a, b [][]float64) [][]float64 {
	out := make([][]float64, len(a))
	for i := range a {
		out[i] = make([]float64, len(a))
		for j := range a {
			for k := range a {
				out[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return out
}

// A product of dense matrices is what Times and Inverse are held against, for
// each number of conductors.
func TestAlikeIsAMatrix(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	for m := 1; m <= circuit.MaxConductors; m++ {
		t.Run(fmt.Sprintf("%d conductors", m), func(t *testing.T) {
			for range 50 {
				a := circuit.Balanced{Own: 0.1 + random.Float64(), Mutual: random.Float64()}
				b := circuit.Balanced{Own: 0.1 + random.Float64(), Mutual: random.Float64()}
				equal(t, "a times b", dense(a.Times(b, m), m), product(dense(a, m), dense(b, m)))
				equal(t, "a times its inverse", product(dense(a, m), dense(a.Inverse(m), m)), dense(circuit.Balanced{Own: 1}, m))
				equal(t, "a scaled", dense(a.Scaled(3), m), product(dense(a, m), dense(circuit.Balanced{Own: 3}, m)))
			}
		})
	}
}

func equal(t *testing.T, what string, got, want [][]float64) {
	t.Helper()
	for i := range want {
		for j := range want {
			near(t, fmt.Sprintf("%s, place %d %d", what, i, j), got[i][j], want[i][j])
		}
	}
}
