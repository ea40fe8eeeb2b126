package waveform_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis/waveform"
)

func TestPresetsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range waveform.Presets() {
		if p.Name == "" || seen[p.Name] {
			t.Errorf("%q of %s: want a name of its own", p.Name, p.Standard)
		}
		seen[p.Name] = true
		if !strings.HasPrefix(p.Standard, "IE") || !strings.Contains(p.Standard, "from memory") {
			t.Errorf("%s: got standard %q, want its name and that it is from memory", p.Name, p.Standard)
		}
		if _, ok := waveform.ShapeOf(p.Wave); !ok {
			t.Errorf("%s: wave %q has no shape", p.Name, p.Wave)
		}
		currentOnly := p.Wave == waveform.WaveImpulse || p.Wave == waveform.WaveCurrent
		if p.Current <= 0 || p.Voltage < 0 || currentOnly != (p.Voltage == 0) {
			t.Errorf("%s: got %g V, %g A; want both above zero, or the current of a current wave", p.Name, p.Voltage, p.Current)
		}
	}
}

// The source impedance that the standards state (from memory) beside the
// levels; tolerance 5 %: the crests of 1991 are rounded to 10 A.
func TestImpedanceOfPresets(t *testing.T) {
	tests := []struct {
		prefix, suffix string
		ohms           float64
		count          int
	}{
		{"category A", ", ring wave", 30, 4},
		{"category A", ", combination wave", 12, 1},
		{"category B", ", ring wave", 12, 4},
		{"category B", ", combination wave", 2, 4},
		{"category C low", ", ring wave", 12, 1},
		{"category C low", ", combination wave", 2, 1},
		{"category C high", "", 1, 1},
		{"category C1", "", 2, 1}, {"category C2", "", 2, 1}, {"category C3", "", 2, 1},
		{"surge level", "line (2005)", 2, 4},
		{"surge level", "line (2014)", 2, 3},
		{"surge level", "earth", 12, 4},
		{"burst level", "", 50, 4},
	}
	for _, test := range tests {
		count := 0
		for _, p := range waveform.Presets() {
			if !strings.HasPrefix(p.Name, test.prefix) || !strings.HasSuffix(p.Name, test.suffix) {
				continue
			}
			count++
			check(t, figure{p.Name + ": ohm", p.Voltage / p.Current, test.ohms, 0.05})
		}
		if count != test.count {
			t.Errorf("%s*%s: got %d of them, want %d", test.prefix, test.suffix, count, test.count)
		}
	}
}

// Single levels against the standards named in the preset, from memory.
func TestLevelsOfPresets(t *testing.T) {
	tests := []struct {
		name, wave, standard string
		volts, amps          float64
	}{
		{"category B, combination wave", waveform.WaveCombination, "IEEE C62.41.2-2002", 6000, 3000},
		{"category A, ring wave", waveform.WaveRing, "IEEE C62.41.2-2002", 6000, 200},
		{"category C high, combination wave", waveform.WaveCombination, "IEEE C62.41.2-2002", 10000, 10000},
		{"category C3, combination wave", waveform.WaveCombination, "IEEE C62.41-1991", 20000, 10000},
		{"category A2, ring wave", waveform.WaveRing, "IEEE C62.41-1991", 4000, 130},
		{"category A, combination wave", waveform.WaveCombination, "IEEE C62.41.2-2002", 6000, 500},
		{"category B, ring wave", waveform.WaveRing, "IEEE C62.41.2-2002", 6000, 500},
		{"category C low, combination wave", waveform.WaveCombination, "IEEE C62.41.2-2002", 6000, 3000},
		{"category A1, ring wave", waveform.WaveRing, "IEEE C62.41-1991", 2000, 70},
		{"category A3, ring wave", waveform.WaveRing, "IEEE C62.41-1991", 6000, 200},
		{"category B1, ring wave", waveform.WaveRing, "IEEE C62.41-1991", 2000, 170},
		{"category B2, ring wave", waveform.WaveRing, "IEEE C62.41-1991", 4000, 330},
		{"category B3, ring wave", waveform.WaveRing, "IEEE C62.41-1991", 6000, 500},
		{"category B1, combination wave", waveform.WaveCombination, "IEEE C62.41-1991", 2000, 1000},
		{"category B2, combination wave", waveform.WaveCombination, "IEEE C62.41-1991", 4000, 2000},
		{"category B3, combination wave", waveform.WaveCombination, "IEEE C62.41-1991", 6000, 3000},
		{"category C1, combination wave", waveform.WaveCombination, "IEEE C62.41-1991", 6000, 3000},
		{"category C2, combination wave", waveform.WaveCombination, "IEEE C62.41-1991", 10000, 5000},
		{"surge level 1, line to line (2005)", waveform.WaveLaboratory, "IEC 61000-4-5:2005", 500, 250},
		{"surge level 2, line to line (2014)", waveform.WaveLaboratory, "IEC 61000-4-5:2014", 500, 250},
		{"surge level 4, line to line (2014)", waveform.WaveLaboratory, "IEC 61000-4-5:2014", 2000, 1000},
		{"surge level 4, line to line (2005)", waveform.WaveLaboratory, "IEC 61000-4-5:2005", 4000, 2000},
		{"surge level 3, line to earth", waveform.WaveLaboratory, "IEC 61000-4-5", 2000, 2000.0 / 12},
		{"burst level 4", waveform.WaveBurst, "IEC 61000-4-4", 4000, 80},
		{"flash to the line, LPL I", waveform.WaveImpulse, "IEC 62305-1:2010", 0, 10000},
		{"flash near the line, LPL II", waveform.WaveCurrent, "IEC 62305-1:2010", 0, 3750},
		{"flash near the structure, LPL III-IV", waveform.WaveCurrent, "IEC 62305-1:2010", 0, 100},
		{"flash to the structure, induced, LPL I", waveform.WaveCurrent, "IEC 62305-1:2010", 0, 10000},
	}
	byName := map[string]waveform.Preset{}
	for _, p := range waveform.Presets() {
		byName[p.Name] = p
	}
	for _, test := range tests {
		p, ok := byName[test.name]
		same := p.Wave == test.wave && p.Voltage == test.volts && math.Abs(p.Current-test.amps) < 1e-9
		if !ok || !same || !strings.HasPrefix(p.Standard, test.standard+" ") {
			t.Errorf("%s: got %+v, want %s, %g V, %g A by %s", test.name, p, test.wave, test.volts, test.amps, test.standard)
		}
	}
}

// The currents that IEC 62305-1 expects are as its first strokes: 100, 150 and
// 200 kA for LPL III-IV, II and I (table 3, from memory).
func TestExpectedCurrentsAreAsStrokes(t *testing.T) {
	amps := map[string]float64{}
	for _, p := range waveform.Presets() {
		amps[p.Name] = p.Current
	}
	for _, where := range []string{"flash to the line", "flash near the line", "flash near the structure", "flash to the structure, induced"} {
		check(t,
			figure{where + ", LPL II", amps[where+", LPL II"] / amps[where+", LPL III-IV"], 1.5, 1e-12},
			figure{where + ", LPL I", amps[where+", LPL I"] / amps[where+", LPL III-IV"], 2, 1e-12},
		)
	}
}

func TestPresetsAreOnesOwn(t *testing.T) {
	first := waveform.Presets()[0]
	waveform.Presets()[0].Name = "changed"
	if got := waveform.Presets()[0]; got != first {
		t.Errorf("got %+v after another list was changed, want %+v", got, first)
	}
}

func TestShapeOf(t *testing.T) {
	tests := []struct{ wave, want string }{
		{waveform.WaveCombination, "1.2/50"}, {waveform.WaveLaboratory, "1.2/50"}, {waveform.WaveRing, "100 kHz ring"}, {waveform.WaveImpulse, "10/350"},
		{waveform.WaveCurrent, "8/20"}, {waveform.WaveLong, "10/1000"}, {waveform.WaveBurst, "5/50 ns"},
	}
	for _, test := range tests {
		if shape, ok := waveform.ShapeOf(test.wave); !ok || shape.Name != test.want {
			t.Errorf("%s: got %q, %t; want %q", test.wave, shape.Name, ok, test.want)
		}
	}
	if shape, ok := waveform.ShapeOf("8x20"); ok || shape != (waveform.Shape{}) {
		t.Errorf("unknown wave: got %+v, %t; want none", shape, ok)
	}
}

// The two combination waves have generators of their own; no other wave has one.
func TestGeneratorOf(t *testing.T) {
	want := map[string]waveform.Generator{
		waveform.WaveCombination: waveform.OneSided(6000, 2), waveform.WaveLaboratory: waveform.Combination(6000, 2),
	}
	for _, wave := range []string{
		waveform.WaveCombination, waveform.WaveLaboratory, waveform.WaveRing, waveform.WaveImpulse, waveform.WaveCurrent, waveform.WaveLong, waveform.WaveBurst, "",
	} {
		g, is := waveform.GeneratorOf(wave, 6000, 2)
		if _, has := want[wave]; is != has || g != want[wave] {
			t.Errorf("%q: got %+v, %t; want %+v", wave, g, is, want[wave])
		}
	}
}
