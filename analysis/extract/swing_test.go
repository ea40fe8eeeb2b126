package extract_test

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"clampline/analysis/extract"
	"clampline/analysis/spice"
	"clampline/analysis/waveform"
	"clampline/diagram"
)

// swinging is a load at the end of a branch of 100 Ω, 20 m at 200 m/µs, which is 10 µH,
// and what it meets when so many volts come on the branch at once behind a resistance.
func swinging(t *testing.T, ohms float64, filtered bool) float64 {
	t.Helper()
	floating := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.IT, Frequency: 50} // so that all comes back by the neutral
	branch := feed("supply", "load", 20)
	branch.SurgeImpedance, branch.Velocity, branch.Area = 100, 200e6, 1000e-6
	doc := sheet(t, []diagram.Part{supply(floating), {ID: "load", Kind: diagram.Load}}, branch)
	in := input(doc, diagram.Surge{Part: "supply", Path: diagram.LineToNeutral, Wave: diagram.RingWave, Voltage: 1000, Current: 1000 / ohms})
	in.Filtered = filtered
	c := networkOf(t, in)
	c.Network.Sources[0].Shape = waveform.Shape{Form: waveform.Exponential, Scale: 1, Rise: 1e-10, Fall: 10} // a step
	return solve(t, c, "load")["AN"]
}

// The filter of a load swings with its branch: L = 10 µH and C = 0.47 µF in series with
// the resistance of the source, whose step response has the crest V (1 + e^(-απ/ω)),
// α = R/2L, ω² = 1/LC - α² (any textbook of circuits: the underdamped series RLC), and
// V itself where it is overdamped. The tolerance is that of the branch's own 1 nF, of
// the 4.7 nF to earth and of the resistance of the wire: 1.5 % of C and 0.02 Ω.
func TestFilterSwingsWithItsBranch(t *testing.T) {
	const volts, henries, farads = 1000, 10e-6, 0.47e-6
	for _, ohms := range []float64{0.5, 2, 4, 12} {
		want := float64(volts)
		damping := ohms / (2 * henries)
		if square := 1/(henries*farads) - damping*damping; square > 0 {
			want *= 1 + math.Exp(-damping*math.Pi/math.Sqrt(square))
		}
		if got := swinging(t, ohms, true); math.Abs(got/want-1) > 0.015 {
			t.Errorf("behind %g Ω: got %.1f V, want %.1f", ohms, got, want)
		}
	}
}

// The same with a line and a filter in a deck written by hand, run by ngspice.
func TestFilterSwingsAsInASimulator(t *testing.T) {
	if _, ok := spice.Find(); !ok {
		t.Skip("ngspice is not installed; go run ./cmd/dev test installs it")
	}
	for _, ohms := range []float64{0.5, 2, 4, 12} {
		deck := fmt.Sprintf(`a load with a filter at the end of a branch
V1 s 0 PWL(0 0 1n 1000)
R1 s a %g
T1 a 0 b 0 Z0=100 TD=100n
C1 b 0 0.47u
C2 b 0 4.7n
.tran 5n 30u 0 5n
.meas tran crest MAX v(b)
.end
`, ohms)
		printed, err := spice.Run(context.Background(), deck)
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile(`crest\s*=\s*([0-9.e+]+)`).FindStringSubmatch(printed)
		if found == nil {
			t.Fatalf("no crest in %q", printed)
		}
		want, err := strconv.ParseFloat(found[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		if got := swinging(t, ohms, true); math.Abs(got/want-1) > 0.01 { // as every peak against the simulator
			t.Errorf("behind %g Ω: got %.1f V, ngspice %.1f", ohms, got, want)
		}
	}
}

// An open load throws the step back at once: 2 V Z/(Z + R).
func TestOpenLoadDoubles(t *testing.T) {
	for _, ohms := range []float64{2, 20, 100} {
		if got, want := swinging(t, ohms, false), 2*1000*100/(100+ohms); math.Abs(got/want-1) > 0.005 { // the wire's own resistance
			t.Errorf("behind %g Ω: got %.1f V, want %.1f", ohms, got, want)
		}
	}
}

// What is told of the loads of which nothing is said is what is in the circuit; a motor
// without a drive has no filter in either.
func TestUnstatedLoadsAreTold(t *testing.T) {
	parts := []diagram.Part{supply(wye480), panel("main"), {ID: "load-0", Kind: diagram.Load, Load: diagram.LoadData{Motor: true}}}
	feeders := []diagram.Feeder{feed("supply", "main", 10), feed("main", "load-0", 5)}
	for _, filtered := range []bool{false, true} {
		in := input(sheet(t, parts, feeders...), usual)
		in.Filtered = filtered
		if c := networkOf(t, in); len(c.Unstated) > 0 || !told(c, "load-0", "counts as open, being a motor") {
			t.Errorf("a motor alone, filtered %t: %v are unstated, told %v", filtered, c.Unstated, c.Assumptions)
		}
	}
	for _, id := range []diagram.ID{"load-1", "load-2"} {
		parts, feeders = append(parts, diagram.Part{ID: id, Kind: diagram.Load}), append(feeders, feed("main", string(id), 20))
	}
	for filtered, words := range map[bool]string{false: "and 1 more load count as open: they take nothing", true: "and 1 more load count as input filters of 0.47 µF between their conductors and 4.7 nF from each"} {
		in := input(sheet(t, parts, feeders...), usual)
		in.Filtered = filtered
		c := networkOf(t, in)
		if len(c.Unstated) != 2 || c.Filtered != filtered || !told(c, "load-1", words) || !told(c, "load-0", "motor") {
			t.Errorf("filtered %t: %v are unstated, told %v", filtered, c.Unstated, c.Assumptions)
		}
		for id, has := range map[diagram.ID]bool{"load-0": false, "load-1": filtered, "load-2": filtered} {
			if got := len(between(c, id, true)) > 0; got != has {
				t.Errorf("filtered %t: %s has a filter: %t", filtered, id, got)
			}
		}
		if a := extract.AsEither(c.Unstated); a.Record != "load-1" || a == extract.AsOpen(c.Unstated) || a == extract.AsFilters(c.Unstated) {
			t.Errorf("told %v of both", a)
		}
	}
}
