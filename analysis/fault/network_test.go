package fault

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// dense returns the impedances of a network by inverting its whole matrix.
func dense(n *network) []complex128 {
	size := len(n.feeding)
	m := make([][]complex128, size)
	for i := range m {
		m[i] = make([]complex128, 2*size)
		m[i][i], m[i][size+i] = n.feeding[i], 1
		if n.held[i] {
			m[i][i] += 1e15
		}
	}
	for _, b := range n.branches {
		m[b.a][b.a] += b.power
		m[b.b][b.b] += b.power
		m[b.a][b.b] -= b.power
		m[b.b][b.a] -= b.power
	}
	for i := range m {
		pivot := i
		for k := i; k < size; k++ {
			if cmplx.Abs(m[k][i]) > cmplx.Abs(m[pivot][i]) {
				pivot = k
			}
		}
		m[i], m[pivot] = m[pivot], m[i]
		for k := range m {
			if k != i {
				f := m[k][i] / m[i][i]
				for j := range m[k] {
					m[k][j] -= f * m[i][j]
				}
			}
		}
	}
	out := make([]complex128, size)
	for i := range out {
		out[i] = m[i][size+i] / m[i][i]
	}
	return out
}

// randomNetwork returns a connected network that is fed somewhere, a tree or one
// with loops.
func randomNetwork(rng *rand.Rand, size, loops int) *network {
	power := func() complex128 { return complex(0.1+rng.Float64(), -0.1-3*rng.Float64()) }
	n := &network{feeding: make([]complex128, size), held: make([]bool, size)}
	for i := 1; i < size; i++ {
		n.branches = append(n.branches, branch{int32(rng.IntN(i)), int32(i), power()})
	}
	for range loops {
		n.branches = append(n.branches, branch{int32(rng.IntN(size)), int32(rng.IntN(size)), power()})
	}
	n.feeding[rng.IntN(size)] = power()
	if rng.IntN(3) == 0 {
		n.feeding[rng.IntN(size)] += power()
	}
	if rng.IntN(4) == 0 {
		n.held[rng.IntN(size)] = true
	}
	return n
}

func backward(size int) []int32 {
	order := make([]int32, size)
	for i := range order {
		order[i] = int32(size - 1 - i)
	}
	return order
}

func TestReduceEqualsDenseInverse(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for trial := range 400 {
		size := 1 + rng.IntN(24)
		n := randomNetwork(rng, size, rng.IntN(2)*rng.IntN(12))
		want := dense(n)
		r, ok := n.copied().reduce(backward(size))
		if !ok {
			t.Fatalf("network %d was refused", trial)
		}
		for bus := range want {
			if d := cmplx.Abs(r.z[bus] - want[bus]); r.loose[bus] || d > 1e-9*(1+cmplx.Abs(want[bus])) {
				t.Fatalf("network %d, bus %d: got %v, want %v", trial, bus, r.z[bus], want[bus])
			}
		}
	}
}

// Without a branch a bus has what it has in the network from which the branch
// was left out.
func TestWithoutBranch(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	for trial := range 200 {
		size := 2 + rng.IntN(12)
		n := randomNetwork(rng, size, rng.IntN(6))
		n.feeding[0] += complex(0.5, -1) // on both sides of every branch
		n.feeding[size-1] += complex(0.5, -1)
		i := rng.IntN(len(n.branches))
		b := n.branches[i]
		if b.a == b.b {
			continue
		}
		r, _ := n.copied().reduce(backward(size))
		got := r.without(b.a, b.b, b.power)

		cut := n.copied()
		cut.branches = append(append([]branch(nil), n.branches[:i]...), n.branches[i+1:]...)
		s, _ := cut.reduce(backward(size))
		if s.loose[b.a] {
			continue
		}
		if want := s.z[b.a]; cmplx.Abs(got-want) > 1e-9*(1+cmplx.Abs(want)) {
			t.Errorf("network %d: got %v, want %v", trial, got, want)
		}
	}
}

func TestUnfedPartIsLoose(t *testing.T) {
	n := &network{feeding: []complex128{2, 0, 0, 0}, held: make([]bool, 4), branches: []branch{{0, 1, 1}, {2, 3, 1}}}
	r, _ := n.reduce(backward(4))
	if r.loose[0] || r.loose[1] || !r.loose[2] || !r.loose[3] {
		t.Errorf("got %v, want the second pair loose", r.loose)
	}
	if r.z[0] != 0.5 || r.z[1] != 1.5 {
		t.Errorf("got %v, want 0.5 and 1.5", r.z[:2])
	}
}

// A published calculation sheet of a building at 380 V (scribd.com/document/
// 867618935): the supply's 500 MVA and a transformer of 2000 kVA 5.75 % as
// reactances, then cables with the resistance and reactance in mΩ/m printed.
func TestCalculationSheet(t *testing.T) {
	const volts = 380.0
	cable := func(length, parallel, r, x float64) complex128 {
		return complex(length*r, length*x) / complex(parallel*1e3, 0)
	}
	runs := []struct {
		name     string
		from, to int32
		z        complex128
		kA       float64
	}{
		{"main board", 0, 1, cable(5, 4, 0.0812, 0.090), 48.18},
		{"first board", 1, 2, cable(60, 2, 0.0812, 0.090), 28.55},
		{"first air conditioning", 2, 3, cable(12, 1, 0.0812, 0.090), 24.26},
		{"second air conditioning", 1, 4, cable(30, 1, 0.0993, 0.090), 27.84},
	}
	source := complex(0, volts*volts/500e6+5.75/100*volts*volts/2000e3)
	n := &network{feeding: make([]complex128, 5), held: make([]bool, 5)}
	n.feeding[0] = volts * volts / source
	for _, r := range runs {
		n.branches = append(n.branches, branch{r.from, r.to, volts * volts / r.z})
	}
	r, _ := n.reduce(backward(5))
	check := func(name string, bus int32, kA float64) {
		f := over(volts/math.Sqrt(3), r.z[bus]*volts*volts) / 1e3
		if math.Abs(f-kA) > 0.005+0.001*kA {
			t.Errorf("%s: got %.3f kA, want %.2f", name, f, kA)
		}
	}
	check("low-voltage terminals", 0, 49.41)
	for _, run := range runs {
		check(run.name, run.to, run.kA)
	}
}

// Chakrabarti, Soni, Gupta and Bhatnagar, A Textbook on Power System
// Engineering, 3.1.2: on at the end of a line of 5 + j20 Ω at 33 kV,
// 27 282 kVA and 477.3 A.
func TestPercentImpedanceAtLineEnd(t *testing.T) {
	n := &network{feeding: []complex128{10e6/0.1i + 5e6/0.075i, 0, 0}, held: make([]bool, 3)}
	n.branches = []branch{{0, 1, 5e6 / 0.06i}, {1, 2, 33e3 * 33e3 / (5 + 20i)}}
	r, _ := n.reduce(backward(3))
	for _, row := range []struct {
		bus int
		kVA float64
	}{{1, 55556}, {2, 27282}} {
		if got := 1 / cmplx.Abs(r.z[row.bus]) / 1e3; math.Abs(got-row.kVA) > 0.001*row.kVA {
			t.Errorf("bus %d: got %.0f kVA, want %.0f", row.bus, got, row.kVA)
		}
	}
	if got := over(33e3/math.Sqrt(3), r.z[2]*33e3*33e3); math.Abs(got-477.3) > 0.5 {
		t.Errorf("got %.1f A, want 477.3", got)
	}
}

func TestManyLoopsAcrossAreRefused(t *testing.T) {
	const size = 2 * widest
	n := &network{feeding: make([]complex128, size), held: make([]bool, size)}
	n.feeding[0] = 1
	for i := range int32(size) {
		for j := range i {
			n.branches = append(n.branches, branch{i, j, 1})
		}
	}
	if _, ok := n.reduce(backward(size)); ok {
		t.Error("a network of all branches was taken")
	}
}

func BenchmarkReduce(b *testing.B) {
	for _, loops := range []int{0, 20} {
		n := randomNetwork(rand.New(rand.NewPCG(3, 1)), 10_000, loops)
		b.Run(fmt.Sprint(loops, " loops"), func(b *testing.B) {
			for b.Loop() {
				if _, ok := n.copied().reduce(backward(10_000)); !ok {
					b.Skip("refused")
				}
			}
		})
	}
}
