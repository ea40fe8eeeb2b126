package waveform_test

import (
	"testing"

	"clampline/analysis/waveform"
)

// A quarter period is the rise of what the front decides, and the half value of what
// the charge decides: 10 us to the crest of 8/20 (IEC 62475), 350 and 1000 us, 5 ns.
func TestToneOf(t *testing.T) {
	for wave, want := range map[string]float64{
		waveform.WaveCombination: 25e3, waveform.WaveLaboratory: 25e3, waveform.WaveCurrent: 25e3, waveform.WaveRing: 100e3,
		waveform.WaveImpulse: 714.3, waveform.WaveLong: 250, waveform.WaveBurst: 50e6,
	} {
		check(t, figure{wave + ", Hz", waveform.ToneOf(wave), want, 1e-4})
	}
	_, amps := run(waveform.Combination(6000, 2), 0, 10*ns, 5000)
	_, crest := amps.Peak()
	check(t, figure{"crest of the generator's current, us", crest / us, 10, 0.05}) // 10.3
}
