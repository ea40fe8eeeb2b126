package transient

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestKernels compares each form in assembly with the one in Go, bit by bit.
func TestKernels(t *testing.T) {
	if !wide {
		t.Skip("this processor takes no four numbers at once")
	}
	defer func() { wide = true }()
	for seed := range uint64(200) {
		for name, try := range kernels(rand.New(rand.NewPCG(seed, 1))) {
			wide = true
			got := try()
			wide = false
			if want := try(); !slices.Equal(got, want) {
				t.Fatalf("%s, seed %d: got %v, want %v", name, seed, got, want)
			}
		}
	}
}

// kernels returns what each kernel writes for random numbers, which stay the same.
func kernels(rng *rand.Rand) map[string]func() []float64 {
	some := func(n int) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = rng.NormFloat64()
		}
		return out
	}
	four := func() *wave { return (*wave)(some(4)) }
	square := func() *square4 { return &square4{*four(), *four(), *four(), *four()} }
	n, width, first := 1+rng.IntN(block), 4*(1+rng.IntN(4)), 1+rng.IntN(1000)
	waves := make([]wave, 32)
	for i := range waves {
		waves[i] = *four()
	}
	rows, drive, arrives, weight, sum, mains := some(block*width), some(block*width), some(4*block), four(), some(64), four()
	send, turn, state := square(), square(), four()
	before := extremes{volts: [3]wave{*four(), *four(), *four()}}
	columns, high := 1+rng.IntN(22), 1+rng.IntN(20)
	p, x := newPanel(high, columns, some(high*columns)), some(columns)
	return map[string]func() []float64{
		"arrive": func() []float64 {
			out, to := make([]float64, 4*block), slices.Clone(rows)
			arrive(out, to, width, &ring{waves, 31}, first, n, weight)
			return append(out, to...)
		},
		"leave": func() []float64 {
			to := ring{slices.Clone(waves), 31}
			leave(&to, first, n, rows, width, arrives, send, turn)
			return flat(to.waves)
		},
		"look": func() []float64 {
			e := before
			e.look(rows, width, n, mains, first)
			return flat(append(e.volts[:], e.steps[:]...))
		},
		"steps": func() []float64 {
			volts, in, out := make([]float64, len(drive)), wave{}, *state
			steps(sum, volts, drive, width, n, &in, &out)
			return append(volts, flat([]wave{in, out})...)
		},
		"times": func() []float64 {
			out := make([]float64, fours(high))
			p.times(out, x)
			return out
		},
	}
}

func flat(waves []wave) (out []float64) {
	for _, w := range waves {
		out = append(out, w[:]...)
	}
	return out
}

// A run gives the same bits by either form.
func TestRunsAreAlike(t *testing.T) {
	if !wide {
		t.Skip("this processor takes no four numbers at once")
	}
	defer func() { wide = true }()
	for seed := range uint64(20) {
		n, step := random(seed, false)
		var out [2]*Result
		for i := range out {
			wide = i == 0
			s, err := New(context.Background(), n, Options{Step: step, Duration: 5 * microsec, Samples: 3, Record: toEarth(n)})
			if err != nil {
				t.Fatal(err)
			}
			if out[i], err = s.Run(context.Background()); err != nil {
				t.Fatal(err)
			}
		}
		if diff := cmp.Diff(out[0], out[1], cmp.AllowUnexported(Duty{})); diff != "" {
			t.Fatal(fmt.Sprintf("seed %d: -assembly +Go\n", seed), diff)
		}
	}
}
