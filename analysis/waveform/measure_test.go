package waveform_test

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"clampline/analysis/waveform"
)

// measures returns every measure that may be missing, by name.
func measures(t waveform.Trace) map[string]func() (float64, error) {
	return map[string]func() (float64, error){
		"voltage front": t.VoltageFront, "current front": t.CurrentFront, "rise": t.RiseTime,
		"voltage tail": t.VoltageTail, "current tail": t.CurrentTail, "width": t.Width,
	}
}

func TestNoMeasureWithoutCrest(t *testing.T) {
	tests := []struct {
		name  string
		trace waveform.Trace
		want  string
	}{
		{"empty", waveform.Trace{Step: 1}, "has no values"},
		{"no step", waveform.Trace{Values: []float64{0, 1, 0}}, "step of 0 s"},
		{"zero", waveform.Trace{Step: 1, Values: make([]float64, 5)}, "zero throughout"},
		{"not a number", waveform.Trace{Start: 1, Step: 2, Values: []float64{0, math.NaN(), 0}}, "value 1 of the trace, at 3 s, is NaN"},
		{"infinite", waveform.Trace{Step: 1, Values: []float64{0, 1, math.Inf(-1)}}, "is -Inf"},
		{"begins at the crest", waveform.Trace{Step: 1, Values: []float64{5, 3, 0}}, "begin it before the surge"},
	}
	for _, test := range tests {
		for name, measure := range measures(test.trace) {
			value, err := measure()
			if err == nil || !strings.Contains(err.Error(), test.want) || value != 0 {
				t.Errorf("%s, %s: got %g, error %v; want an error with %q", test.name, name, value, err, test.want)
			}
		}
	}
}

// A wave that rests at half of its crest is there when it first reaches it.
func TestWidthOfAWaveWithRests(t *testing.T) {
	trace := waveform.Trace{Step: us, Values: []float64{0, 5, 5, 10, 5, 5, 0}}
	jump := waveform.Trace{Step: us, Values: []float64{0, 0, 10, 6, 4}}
	check(t,
		figure{"width", must(t)(trace.Width()), 3 * us, 1e-12},
		figure{"width of one that jumps", must(t)(jump.Width()), 2 * us, 1e-12}, // from 1.5 to 3.5
	)
}

// A trace that begins or ends too late lacks some measures and has the others.
func TestMeasuresOfPartOfWave(t *testing.T) {
	wave := triangle(-100)
	tests := []struct {
		name  string
		trace waveform.Trace
		want  string
		lacks string // names of the measures that are missing
	}{
		{"ends above 50 %", waveform.Trace{Start: 1, Step: us, Values: wave.Values[:30]}, "above 50 % of its crest where it ends, at 1.000029 s", "voltage tail, current tail, width"},
		{"ends at the crest", waveform.Trace{Start: 1, Step: us, Values: wave.Values[:11]}, "make it longer", "voltage tail, current tail, width"},
		{"begins at 20 %", waveform.Trace{Start: 1, Step: us, Values: wave.Values[2:]}, "above 10 % of its crest where it begins, at 1 s", "current front, rise, current tail"},
		{"begins at 40 %", waveform.Trace{Step: us, Values: wave.Values[4:]}, "% of its crest where it begins, at 0 s", "voltage front, current front, rise, voltage tail, current tail"},
	}
	for _, test := range tests {
		for name, measure := range measures(test.trace) {
			_, err := measure()
			lacks := strings.Contains(test.lacks, name)
			if lacks != (err != nil) || lacks && !strings.Contains(err.Error(), test.want) {
				t.Errorf("%s, %s: got error %v, want one: %t, with %q", test.name, name, err, lacks, test.want)
			}
		}
	}
}

// Measures don't depend on size, sign or start of a wave, and times grow with
// the step. Rounding only, but of times up to 1 s.
func TestMeasuresScale(t *testing.T) {
	random := rand.New(rand.NewSource(13))
	for range 50 {
		scale, start, stretch := math.Exp(10*random.NormFloat64()), random.Float64(), 0.5+random.Float64()
		if random.Intn(2) == 0 {
			scale = -scale
		}
		wave := waveform.Sample(waveform.Voltage1_2x50(), 10*ns, 10000)
		other := waveform.Trace{Start: start, Step: stretch * wave.Step, Values: make([]float64, len(wave.Values))}
		for i, v := range wave.Values {
			other.Values[i] = scale * v
		}
		others := measures(other)
		for name, measure := range measures(wave) {
			check(t, figure{name, must(t)(others[name]()), stretch * must(t)(measure()), 1e-8})
		}
		check(t,
			figure{"charge", other.Charge(), scale * stretch * wave.Charge(), 1e-12},
			figure{"action", other.Action(), scale * scale * stretch * wave.Action(), 1e-12},
		)
	}
}
