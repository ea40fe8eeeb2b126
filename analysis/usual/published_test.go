package usual

import (
	"fmt"
	"math"
	"testing"
)

// step is a usual value up to a limit as a table prints it.
type step struct{ upTo, want float64 }

// follows holds a function to a table: at each limit, just above the one before, and
// far beyond the last.
func follows(t *testing.T, name string, of func(at float64) float64, table ...step) {
	t.Helper()
	below := 1.0
	for i, row := range table {
		at := []float64{below * 1.001, row.upTo}
		if i == len(table)-1 {
			at = append(at, 1000*below, math.Inf(1))
		}
		for _, at := range at {
			if got := of(at); !(math.Abs(got-row.want) <= 1e-9*row.want) { // NaN, too
				t.Errorf("%s at %g: got %g, want %g", name, at, got, row.want)
			}
		}
		below = row.upTo
	}
}

// The power factors at which breakers are tested, at the higher end of what is
// allowed: IEC 60947-2 table 11, and UL 489 (from memory; check your edition).
func TestTestedPowerFactors(t *testing.T) {
	cos := func(iec bool) func(float64) float64 {
		return func(current float64) float64 {
			xr, _ := SourceXR(current, iec)
			return 1 / math.Hypot(1, xr) // cos φ of tan φ
		}
	}
	follows(t, "IEC 60947-2", cos(true), step{1.5e3, 0.95}, step{3e3, 0.9}, step{4.5e3, 0.8}, step{6e3, 0.7}, step{10e3, 0.5}, step{20e3, 0.3}, step{50e3, 0.25}, step{200e3, 0.2})
	follows(t, "UL 489", cos(false), step{10e3, 0.5}, step{20e3, 0.3}, step{200e3, 0.2})
}

// The low end of what transformers of a size have: by IEC 60076-5 table 1 (from
// memory; check your edition), by the list of a utility, and of dry ones by common
// practice, no source.
func TestImpedances(t *testing.T) {
	percent := func(single, utility, iec bool) func(float64) float64 {
		return func(power float64) float64 {
			z, _ := Transformer{Power: power, Single: single, Utility: utility}.Impedance(iec)
			return z
		}
	}
	for _, single := range []bool{false, true} {
		for _, utility := range []bool{false, true} {
			follows(t, fmt.Sprintf("IEC, single %v, utility %v", single, utility), percent(single, utility, true), step{630e3, 4}, step{1250e3, 5}, step{2500e3, 6}, step{6300e3, 7})
		}
	}
	follows(t, "utility", percent(false, true, false), step{300e3, 1.6}, step{500e3, 1.8}, step{2500e3, 5.75})
	follows(t, "utility, one phase", percent(true, true, false), step{100e3, 1.5}, step{167e3, 1.8}, step{500e3, 3})
	follows(t, "dry", percent(false, false, false), step{15e3, 3}, step{30e3, 3.5}, step{75e3, 4}, step{150e3, 4.5}, step{500e3, 5})
	follows(t, "dry, one phase", percent(true, false, false), step{15e3, 3}, step{25e3, 3.5}, step{167e3, 5})
	for power, handbook := range map[float64]float64{15e3: 4.3, 25e3: 3.5, 37.5e3: 5.8, 50e3: 5.1, 75e3: 6.9, 100e3: 6.1, 167e3: 9.7} { // dry, one phase, 600 V, 150 °C rise
		if got := percent(true, false, false)(power); got > handbook {
			t.Errorf("%g VA: got %g %%, above the %g %% of a handbook", power, got, handbook)
		}
	}
}

// Common practice, no source.
func TestTransformerXR(t *testing.T) {
	xr := func(single, utility bool) func(float64) float64 {
		return func(power float64) float64 { return Transformer{power, single, utility}.XR() }
	}
	for _, single := range []bool{false, true} {
		follows(t, "utility", xr(single, true), step{50e3, 1.5}, step{167e3, 2}, step{300e3, 3}, step{500e3, 4}, step{1000e3, 5.5}, step{2500e3, 7})
	}
	follows(t, "dry", xr(false, false), step{15e3, 0.8}, step{30e3, 1.2}, step{75e3, 1.5}, step{150e3, 2}, step{300e3, 3}, step{500e3, 4}, step{1000e3, 6})
	follows(t, "dry, one phase", xr(true, false), step{15e3, 1}, step{25e3, 0.8}, step{167e3, 0.6})
}

// A generator without data gives at least what 46 CFR 111.52-3 takes for one, 10
// times its rated current in the first half cycle (asymmetrical, rms), and no third
// more. It is rated at 0.8, of which the sine is 0.6 (3, 4, 5), and IEC 60909-0 gives
// its winding 0.15 of the reactance.
func TestGenerator(t *testing.T) {
	symmetrical := 100 / Subtransient
	if got := symmetrical * math.Sqrt(1+2*math.Exp(-2*math.Pi/GeneratorXR)); got < 10 || got > 13.3 {
		t.Errorf("got %g times the rated current", got)
	}
	if math.Abs(GeneratorSine-math.Sqrt(1-0.8*0.8)) > 1e-12 || math.Abs(GeneratorXR*0.15-1) > 1e-12 {
		t.Errorf("got a sine of %g and X/R %g", GeneratorSine, GeneratorXR)
	}
	if ZeroShare < 0.1 || ZeroShare > 0.7 { // Grainger and Stevenson, Power System Analysis, table A.2, from memory
		t.Errorf("got X0 of %g X''", ZeroShare)
	}
}

// A motor feeds a fault with 4 times its rated current below 50 hp and 6 times from
// there on by IEEE 141, a group of motors with 5 times at R/X 0.42 by IEC 60909-0
// (from memory; check your edition). One of 50 hp draws about 50 kVA.
func TestMotor(t *testing.T) {
	for _, row := range []struct {
		power     float64
		iec       bool
		times, xr float64
	}{{49e3, false, 4, 6}, {50e3, false, 6, 6}, {200e3, false, 6, 6}, {10e3, true, 5, 1 / 0.42}, {200e3, true, 5, 1 / 0.42}} {
		x, xr, source := Motor(row.power, row.iec)
		if math.Abs(1/x-row.times) > 0.02 || math.Abs(xr-row.xr) > 1e-9 || source == "" { // 1/0.167
			t.Errorf("%g VA, IEC %v: got %g times at X/R %g by %q", row.power, row.iec, 1/x, xr, source)
		}
	}
}

// What a surge meets is the middle of what there is: a dry unit of 75 kVA, a set of
// 100 kVA and a service of 10 kA, none of them at the edge of a band of a fault.
func TestSurgesTakeTheMiddle(t *testing.T) {
	made := Transformer{Power: SurgeTransformer}
	if low, _ := made.Impedance(false); SurgeImpedance < low || SurgeImpedance > 5.5 { // 4 to 5.5 %, from memory
		t.Errorf("75 kVA: got %g %%", SurgeImpedance)
	}
	if SurgeReactance < 12 || SurgeReactance > 16 { // the low end, and IEEE 141 table 4A-1 (from memory)
		t.Errorf("a generator: got %g %%", SurgeReactance)
	}
	if z := 480 / math.Sqrt(3) / SurgeFaultCurrent; math.Abs(z-0.0277) > 1e-4 { // Ω of 480 V at 10 kA
		t.Errorf("a service: got %g Ω", z)
	}
}
