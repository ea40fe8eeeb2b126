package circuit_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"clampline/analysis/circuit"
)

// spreadOut returns a random positive definite matrix of m conductors.
func spreadOut(random *rand.Rand, m int) (out circuit.Matrix) {
	for range m {
		var share [circuit.MaxConductors]float64
		for i := range m {
			share[i] = random.Float64()
			for j := range i + 1 {
				out[i][j] += share[i] * share[j]
				out[j][i] = out[i][j]
			}
		}
	}
	return out.Plus(circuit.Balanced{Own: 0.1}.Matrix(m))
}

// A matrix times its inverse leaves every current as it is, for each number of
// conductors, and nothing beyond them.
func TestInverse(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	for m := 1; m <= circuit.MaxConductors; m++ {
		t.Run(fmt.Sprintf("%d conductors", m), func(t *testing.T) {
			for range 50 {
				a := spreadOut(random, m)
				equal(t, "a times its inverse", a.Times(a.Inverse(m)), circuit.Balanced{Own: 1}.Matrix(m))
			}
		})
	}
}

// The products, sums and loops of two matrices written out by hand.
func TestMatrixByHand(t *testing.T) {
	a := circuit.Matrix{{2, 1}, {0, 3}}
	b := circuit.Matrix{{5, 7}, {11, 13}}
	equal(t, "product", a.Times(b), circuit.Matrix{{21, 27}, {33, 39}})
	equal(t, "sum", a.Plus(b), circuit.Matrix{{7, 8}, {11, 16}})
	equal(t, "scaled", a.Scaled(3), circuit.Matrix{{6, 3}, {0, 9}})
	equal(t, "balanced", circuit.Balanced{Own: 4, Mutual: 3}.Matrix(2), circuit.Matrix{{7, 3}, {3, 7}})
	near(t, "out on one and back on another", circuit.Matrix{{9, 2}, {2, 6}}.Loop(0, 1), 9+6-2*2)
	near(t, "back by earth", circuit.Matrix{{9, 2}, {2, 6}}.Loop(1, circuit.ToEarth), 6)
}

func equal(t *testing.T, what string, got, want circuit.Matrix) {
	t.Helper()
	for i := range want {
		for j := range want {
			near(t, fmt.Sprintf("%s, place %d %d", what, i, j), got[i][j], want[i][j])
		}
	}
}
