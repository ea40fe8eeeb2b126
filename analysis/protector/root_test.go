package protector

import (
	"errors"
	"math"
	"testing"
)

func TestRoot(t *testing.T) {
	for _, row := range []struct {
		name  string
		f     func(float64) float64
		start float64
		want  float64
		found bool
	}{
		{"straight", func(x float64) float64 { return x - 0.7 }, 0, 0.7, true},
		{"at the low end", func(x float64) float64 { return x + 3 }, 0, -3, true},
		{"at the high end", func(x float64) float64 { return x - 3 }, 0, 3, true},
		{"flat, then steep", func(x float64) float64 { return math.Exp(4*x) - 20 }, -2, math.Log(20) / 4, true},
		{"steep, then flat", func(x float64) float64 { return math.Atan(20*x) + 0.5 }, 2, -math.Tan(0.5) / 20, true},
		{"from there", func(x float64) float64 { return x }, 0, 0, true},
		{"always below", func(x float64) float64 { return math.Tanh(x) - 2 }, 0, 0, false},
		{"always above", func(x float64) float64 { return 1 + math.Exp(x) }, 0, 0, false},
		{"a jump across", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 0, false},
		{"level", func(float64) float64 { return -1 }, 0, 0, false},
	} {
		asked := 0
		f := func(x float64) (float64, error) { asked++; return row.f(x), nil }
		got, found, err := root(f, point{row.start, row.f(row.start)}, 1, -3, 3)
		if err != nil || found != row.found || found && math.Abs(row.f(got)) > near || found && math.Abs(got-row.want) > 0.01 {
			t.Errorf("%s: got %g, %t, %v; want %g, %t", row.name, got, found, err, row.want, row.found)
		}
		if asked > probes {
			t.Errorf("%s: asked %d times, want at most %d", row.name, asked, probes)
		}
	}
	broken := errors.New("broken")
	if _, found, err := root(func(float64) (float64, error) { return 0, broken }, point{0, 1}, 1, -3, 3); !errors.Is(err, broken) || found {
		t.Errorf("got error %v, want %v; found %t", err, broken, found)
	}
}

// On a straight line the slope between two points leads to the zero; one that is
// curved is found in a few steps.
func TestRootIsQuick(t *testing.T) {
	for _, row := range []struct {
		name  string
		f     func(float64) float64
		start float64
		most  int
	}{
		{"less steep than thought", func(x float64) float64 { return 0.2*x - 0.1 }, 0, 2},
		{"steeper than thought", func(x float64) float64 { return 3*x - 2 }, 0, 2},
		{"the other way", func(x float64) float64 { return 0.2*x + 0.1 }, 0, 2},
		{"bent up", func(x float64) float64 { return math.Exp(x) - 2 }, -2, 8},
		{"bent down", func(x float64) float64 { return math.Atan(20*x) + 0.5 }, 2, 8},
		{"bent down from below", func(x float64) float64 { return math.Atan(3*x) + 0.5 }, -2, 8},
	} {
		asked := 0
		f := func(x float64) (float64, error) { asked++; return row.f(x), nil }
		_, found, err := root(f, point{row.start, row.f(row.start)}, 1, -3, 3)
		if err != nil || !found || asked > row.most {
			t.Errorf("%s: found %t, %v, asked %d times, want at most %d", row.name, found, err, asked, row.most)
		}
	}
}
