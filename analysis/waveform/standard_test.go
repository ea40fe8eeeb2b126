package waveform_test

import (
	"math"
	"testing"

	"clampline/analysis/waveform"
)

const (
	us = 1e-6 // s
	ns = 1e-9 // s
)

// figure is a number that was got, with what was wanted; tolerance is a share
// of it.
type figure struct {
	name                 string
	got, want, tolerance float64
}

func check(t *testing.T, figures ...figure) {
	t.Helper()
	for _, f := range figures {
		if !(math.Abs(f.got-f.want) <= f.tolerance*math.Abs(f.want)) {
			t.Errorf("%s: got %.6g, want %.6g within %g %%", f.name, f.got, f.want, 100*f.tolerance)
		}
	}
}

// must returns a function that gives a measure or ends the test.
func must(t *testing.T) func(float64, error) float64 {
	return func(value float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

func shapes() []waveform.Shape {
	return []waveform.Shape{
		waveform.Voltage1_2x50(), waveform.Current8x20(), waveform.Ring100kHz(), waveform.Current10x350(),
		waveform.Wave10x1000(), waveform.Burst5x50(),
	}
}

// beginning samples front and crest of a shape closely: the error of straight
// pieces is far below the tolerances here.
func beginning(s waveform.Shape) waveform.Trace { return waveform.Sample(s, s.Front/2000, 12000) }

// whole samples a shape until less than a millionth of its charge is left.
func whole(s waveform.Shape) waveform.Trace {
	step := s.Front / 50
	return waveform.Sample(s, step, int(25*s.Fall/step))
}

// What the formulas give was computed from them apart from this program; the
// slopes of rows b and c, which are steepest at their start, are Scale/Rise.
// Tolerance 0.2 %: half a unit of the last digit printed, and sampling.
func TestStandardShapes(t *testing.T) {
	voltage := func(tr waveform.Trace) (front, tail func() (float64, error)) { return tr.VoltageFront, tr.VoltageTail }
	current := func(tr waveform.Trace) (front, tail func() (float64, error)) { return tr.CurrentFront, tr.CurrentTail }
	tests := []struct {
		shape                 waveform.Shape
		as                    func(waveform.Trace) (front, tail func() (float64, error))
		peak, at, front, tail float64 // 1, us, us, us
		charge, action, slope float64 // us, us, 1/us
	}{
		{waveform.Current8x20(), current, 0.9996, 11.73, 8.02, 19.94, 17.449, 12.164, 0.1490},
		{waveform.Voltage1_2x50(), voltage, 0.9998, 2.09, 1.200, 50.00, 70.32, 36.03, 1.037 / 0.4074},
		{waveform.Wave10x1000(), current, 1.0000, 22.6, 10.00, 1000.2, 1426.8, 723.0, 1.019 / 3.827},
		{waveform.Current10x350(), current, 1.0013, 31.4, 9.98, 356.6, 501.2, 256.9, 0.1366},
	}
	const tolerance = 0.002
	for _, test := range tests {
		t.Run(test.shape.Name, func(t *testing.T) {
			begin, all := beginning(test.shape), whole(test.shape)
			peak, at := begin.Peak()
			slope, _ := begin.SteepestSlope()
			front, _ := test.as(begin)
			_, tail := test.as(all)
			check(t,
				figure{"peak", peak, test.peak, tolerance},
				figure{"time of peak, us", at / us, test.at, tolerance},
				figure{"front, us", must(t)(front()) / us, test.front, tolerance},
				figure{"tail, us", must(t)(tail()) / us, test.tail, tolerance},
				figure{"charge, us", all.Charge() / us, test.charge, tolerance},
				figure{"action, us", all.Action() / us, test.action, tolerance},
				figure{"steepest slope, 1/us", slope * us, test.slope, tolerance},
			)
		})
	}
}

// Front and tail are those that name the wave, within the tolerance of the
// standard shapes of IEC 60060-1 (front 30 %, tail 20 %) drawn in to what the
// constants reach: 1 % and 2 %.
func TestNominalTimes(t *testing.T) {
	for _, s := range shapes() {
		begin, all := beginning(s), whole(s)
		front, tail := begin.CurrentFront, all.CurrentTail
		switch s.Name {
		case "1.2/50":
			front, tail = begin.VoltageFront, all.VoltageTail
		case "5/50 ns", "100 kHz ring":
			front, tail = begin.RiseTime, all.Width
		}
		check(t, figure{s.Name + ": front", must(t)(front()), s.Front, 0.01})
		if s.Tail > 0 {
			check(t, figure{s.Name + ": tail", must(t)(tail()), s.Tail, 0.02})
		}
	}
}

// The integrals of the formulas over all time, in closed form. The trapezoidal
// rule is short by f'(0) step^2/12 in the exponential form: 0.0005 %.
func TestIntegralsAgainstClosedForm(t *testing.T) {
	const tolerance = 1e-5
	cubic := whole(waveform.Current8x20())
	check(t,
		figure{"8/20 charge, us", cubic.Charge() / us, 6 * 0.01243 * math.Pow(3.911, 4), tolerance},
		figure{"8/20 action, us", cubic.Action() / us, 720 * 0.01243 * 0.01243 * math.Pow(3.911/2, 7), tolerance},
	)
	for _, s := range []waveform.Shape{waveform.Voltage1_2x50(), waveform.Wave10x1000(), waveform.Burst5x50()} {
		want := s.Scale * (s.Fall - s.Fall*s.Rise/(s.Fall+s.Rise))
		check(t, figure{s.Name + " charge", whole(s).Charge(), want, tolerance})
	}
}

// Rise, crests and their ratio of the 100 kHz ring wave. IEEE C62.41.2-2002
// (from memory) asks for 0.5 us and crests that fall to 60 %.
func TestRingWave(t *testing.T) {
	s := waveform.Ring100kHz()
	trace := waveform.Sample(s, 1*ns, 25000)
	check(t, figure{"rise, us", must(t)(trace.RiseTime()) / us, 0.500, 0.002})
	wants := []struct{ value, at float64 }{{1.0001, 0.852}, {-0.9665, 4.74}, {0.580, 9.74}, {-0.348, 14.74}, {0.2088, 19.74}}
	var values []float64
	for i, want := range wants {
		value, at := between(trace, float64(i)*5*us-2.5*us, float64(i)*5*us+2.5*us).Peak()
		values = append(values, value)
		check(t,
			figure{"crest", value, want.value, 0.002},
			figure{"time of crest, us", at / us, want.at, 0.002},
		)
	}
	for i := 2; i < len(values); i++ {
		check(t, figure{"crest over the one before", -values[i] / values[i-1], 0.60, 0.01})
	}
}

// between returns the values of a trace within two times.
func between(t waveform.Trace, from, to float64) waveform.Trace {
	first := max(0, int(math.Ceil((from-t.Start)/t.Step)))
	last := min(len(t.Values), int(math.Ceil((to-t.Start)/t.Step)))
	return waveform.Trace{Start: t.Start + float64(first)*t.Step, Step: t.Step, Values: t.Values[first:last]}
}

// Width of the 8/20, and rise and width of the burst pulse, which IEC 61000-4-4
// (from memory) wants to be 5 and 50 ns. Tolerance: half a unit of the last
// digit printed.
func TestWidths(t *testing.T) {
	check(t,
		figure{"8/20 width, us", must(t)(whole(waveform.Current8x20()).Width()) / us, 16.16, 0.0005},
		figure{"1.2/50 width, us", must(t)(whole(waveform.Voltage1_2x50()).Width()) / us, 49.5, 0.001},
		figure{"10/350 width, us", must(t)(whole(waveform.Current10x350()).Width()) / us, 352, 0.0015},
		figure{"10/1000 width, us", must(t)(whole(waveform.Wave10x1000()).Width()) / us, 997, 0.0005},
		figure{"5/50 rise, ns", must(t)(beginning(waveform.Burst5x50()).RiseTime()) / ns, 5.00, 0.001},
		figure{"5/50 width, ns", must(t)(whole(waveform.Burst5x50()).Width()) / ns, 50.0, 0.001},
	)
}

// Charge and specific energy of a class I impulse: preferred values of IEC
// 61643-11 (from a secondary text), and of the first strokes of IEC 62305-1
// (table 3, from memory). They follow from 0.5 ms and 0.25 ms; the Heidler
// current of that standard, with k rounded to 0.93, is 0.23 % and 2.75 % above,
// and the prints are up to 0.45 % below (5.6 for 5.625): 3.3 %.
func TestClassOneImpulse(t *testing.T) {
	trace := whole(waveform.Current10x350())
	tests := []struct{ amps, charge, energy float64 }{
		{25e3, 12.5, 156e3}, {20e3, 10, 100e3}, {12.5e3, 6.25, 39e3}, {10e3, 5, 25e3}, {5e3, 2.5, 6.25e3}, {2e3, 1, 1e3}, {1e3, 0.5, 0.25e3},
		{200e3, 100, 10e6}, {150e3, 75, 5.6e6}, {100e3, 50, 2.5e6},
	}
	for _, test := range tests {
		check(t,
			figure{"charge, As", test.amps * trace.Charge(), test.charge, 0.003},
			figure{"specific energy, J/ohm", test.amps * test.amps * trace.Action(), test.energy, 0.033},
		)
	}
}

// What an 8/20 current costs in a lead of 1 uH/m: the steepest slope of the
// formula, t = Fall (3 - sqrt 3), and the estimate of mean slope, 10 kA in 8
// us, which an engineering bulletin on lead length prints as 1250 V/m.
func TestVoltsPerMetreOfLead(t *testing.T) {
	trace := beginning(waveform.Current8x20())
	slope, at := trace.SteepestSlope()
	charged := whole(waveform.Current8x20())
	check(t,
		figure{"time of the steepest slope, us", at / us, 3.911 * (3 - math.Sqrt(3)), 0.001},
		figure{"V/m at 10 kA", 10e3 * slope * 1e-6, 1490.5, 0.002},
		figure{"V/m at 3 kA", 3e3 * slope * 1e-6, 447, 0.002},
		// The front is 8.02 us, of 8 nominal.
		figure{"V/m at 10 kA by mean slope", 10e3 / must(t)(trace.CurrentFront()) * 1e-6, 1250, 0.005},
		figure{"charge at 10 kA, As", 10e3 * charged.Charge(), 0.1745, 0.002},
		figure{"action at 10 kA, A2s", 1e8 * charged.Action(), 1216, 0.002},
	)
}
