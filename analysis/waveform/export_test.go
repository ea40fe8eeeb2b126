package waveform

import "fmt"

// Energy returns the integral of voltage times current by the trapezoidal
// rule, J. The two traces have the same start, step and length.
func Energy(volts, amps Trace) (float64, error) {
	if volts.Start != amps.Start || volts.Step != amps.Step || len(volts.Values) != len(amps.Values) {
		return 0, fmt.Errorf("voltage (%s) and current (%s) are sampled at different times: sample both alike", volts.span(), amps.span())
	}
	return volts.integral(func(i int) float64 { return volts.Values[i] * amps.Values[i] }), nil
}

// span tells where the samples are, for errors.
func (t Trace) span() string {
	return fmt.Sprintf("%d values from %g s, one each %g s", len(t.Values), t.Start, t.Step)
}
