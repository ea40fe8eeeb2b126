package waveform

import (
	"fmt"
	"slices"
	"sync"
)

// Names of waves, for a Preset and ShapeOf.
const (
	WaveCombination = "combination"            // 1.2/50 us open, 8/20 us shorted, which does not turn
	WaveLaboratory  = "laboratory combination" // the same as a laboratory makes it: the current swings back
	WaveRing        = "ring"                   // 0.5 us - 100 kHz
	WaveImpulse     = "10/350"                 // us, current of a first stroke
	WaveCurrent     = "8/20"                   // us, current
	WaveLong        = "10/1000"                // us
	WaveBurst       = "burst"                  // 5/50 ns, one pulse of it
)

// Preset is a surge that a standard names. Its source impedance is Voltage
// over Current.
type Preset struct {
	Name     string  // unique among Presets
	Standard string  // where it is from: edition, table, "from memory"
	Wave     string  // one of the names of waves
	Voltage  float64 // V, crest of the open output; 0 where only a current is stated
	Current  float64 // A, crest of the shorted output
	Path     string  // between which conductors: "line to line", "line to earth"; empty where it says nothing
}

// ShapeOf returns the shape of a wave by its name; false if there is none of
// the name. Of the combination waves, each a Generator, it returns the
// voltage of the open output.
func ShapeOf(wave string) (Shape, bool) {
	switch wave {
	case WaveCombination, WaveLaboratory:
		return Voltage1_2x50(), true
	case WaveRing:
		return Ring100kHz(), true
	case WaveImpulse:
		return Current10x350(), true
	case WaveCurrent:
		return Current8x20(), true
	case WaveLong:
		return Wave10x1000(), true
	case WaveBurst:
		return Burst5x50(), true
	}
	return Shape{}, false
}

// GeneratorOf returns the generator of a combination wave by its name; false if
// the name is that of no such wave.
func GeneratorOf(wave string, openVolts, ohms float64) (Generator, bool) {
	switch wave {
	case WaveCombination:
		return OneSided(openVolts, ohms), true
	case WaveLaboratory:
		return Combination(openVolts, ohms), true
	}
	return Generator{}, false
}

// Presets returns the surges that standards name, standard by standard. Levels
// are from memory: check your edition. The editions of IEEE C62.41 disagree on
// category C, so both are here, and likewise those of IEC 61000-4-5 on levels
// from line to line.
func Presets() []Preset { return slices.Clone(presets()) }

var presets = sync.OnceValue(func() []Preset {
	var all []Preset
	for _, of := range []func() []Preset{ieee2002, ieee1991, surgeImmunity, burstImmunity, expectedCurrents} {
		all = append(all, of()...)
	}
	return all
})

// Find returns the surge of a name; false if there is none.
func Find(name string) (Preset, bool) {
	for _, p := range presets() {
		if p.Name == name {
			return p, true
		}
	}
	return Preset{}, false
}

// ieee2002 returns the categories of IEEE C62.41.2-2002. In its category C
// high the voltage and the current are separate tests, joined in one here.
func ieee2002() []Preset {
	const (
		ring        = "IEEE C62.41.2-2002 table 2 (from memory)"
		combination = "IEEE C62.41.2-2002 table 3 (from memory)"
		service     = "IEEE C62.41.2-2002 table 4 (from memory)"
		serviceRing = "IEEE C62.41.2-2002 table 4 (from memory; optional test that states 6 kV, current as in category B)"
		serviceHigh = "IEEE C62.41.2-2002 table 4 (from memory; voltage and current stated as separate tests)"
	)
	return []Preset{
		{"category A, ring wave", ring, WaveRing, 6e3, 200, ""},
		{"category A, combination wave", combination, WaveCombination, 6e3, 500, ""},
		{"category B, ring wave", ring, WaveRing, 6e3, 500, ""},
		{"category B, combination wave", combination, WaveCombination, 6e3, 3e3, ""},
		{"category C low, ring wave", serviceRing, WaveRing, 6e3, 500, ""},
		{"category C low, combination wave", service, WaveCombination, 6e3, 3e3, ""},
		{"category C high, combination wave", serviceHigh, WaveCombination, 10e3, 10e3, ""},
	}
}

// ieee1991 returns the categories of IEEE C62.41-1991 with their exposures: 1
// low, 2 medium, 3 high.
func ieee1991() []Preset {
	const standard = "IEEE C62.41-1991 (from memory)"
	return []Preset{
		{"category A1, ring wave", standard, WaveRing, 2e3, 70, ""},
		{"category A2, ring wave", standard, WaveRing, 4e3, 130, ""},
		{"category A3, ring wave", standard, WaveRing, 6e3, 200, ""},
		{"category B1, ring wave", standard, WaveRing, 2e3, 170, ""},
		{"category B2, ring wave", standard, WaveRing, 4e3, 330, ""},
		{"category B3, ring wave", standard, WaveRing, 6e3, 500, ""},
		{"category B1, combination wave", standard, WaveCombination, 2e3, 1e3, ""},
		{"category B2, combination wave", standard, WaveCombination, 4e3, 2e3, ""},
		{"category B3, combination wave", standard, WaveCombination, 6e3, 3e3, ""},
		{"category C1, combination wave", standard, WaveCombination, 6e3, 3e3, ""},
		{"category C2, combination wave", standard, WaveCombination, 10e3, 5e3, ""},
		{"category C3, combination wave", standard, WaveCombination, 20e3, 10e3, ""},
	}
}

// testLevels returns levels 1 to 4 of IEC 61000-4-4 and IEC 61000-4-5, V.
func testLevels() [4]float64 { return [4]float64{500, 1e3, 2e3, 4e3} }

// surgeImmunity returns the levels of IEC 61000-4-5: 2 ohm from line to line,
// 12 ohm from line to earth. The edition of 2005 has one voltage for a level,
// that of 2014 has half of it from line to line, and there no level 1. Who picks
// one asks what equipment stands that has passed the test, so the wave is that
// of the test: its generator may swing back by 30 % (clause 6.2, from memory).
func surgeImmunity() []Preset {
	const (
		either  = "IEC 61000-4-5 table 1 (from memory)"
		edition = "IEC 61000-4-5:%d table 1 (from memory)"
	)
	var older, newer, earth []Preset
	for i, volts := range testLevels() {
		level := fmt.Sprintf("surge level %d, ", i+1)
		across := func(path, year, standard string, volts, ohms float64) Preset {
			return Preset{level + path + year, standard, WaveLaboratory, volts, volts / ohms, path}
		}
		older = append(older, across("line to line", " (2005)", fmt.Sprintf(edition, 2005), volts, 2))
		if i > 0 {
			newer = append(newer, across("line to line", " (2014)", fmt.Sprintf(edition, 2014), volts/2, 2))
		}
		earth = append(earth, across("line to earth", "", either, volts, 12))
	}
	return append(append(older, newer...), earth...)
}

// burstImmunity returns the levels of IEC 61000-4-4 at power ports, 50 ohm.
func burstImmunity() []Preset {
	var all []Preset
	for i, volts := range testLevels() {
		all = append(all, Preset{fmt.Sprintf("burst level %d", i+1), "IEC 61000-4-4 table 1 (from memory)", WaveBurst, volts, volts / 50, ""})
	}
	return all
}

// expectedCurrents returns what IEC 62305-1 expects on low-voltage lines for
// each lightning protection level (LPL).
func expectedCurrents() []Preset {
	rows := []struct {
		where, wave string
		amps        [3]float64 // LPL III-IV, II, I
	}{
		{"flash to the line", WaveImpulse, [3]float64{5e3, 7.5e3, 10e3}},
		{"flash near the line", WaveCurrent, [3]float64{2.5e3, 3.75e3, 5e3}},
		{"flash near the structure", WaveCurrent, [3]float64{100, 150, 200}},
		{"flash to the structure, induced", WaveCurrent, [3]float64{5e3, 7.5e3, 10e3}},
	}
	var all []Preset
	for _, row := range rows {
		for i, level := range []string{"III-IV", "II", "I"} {
			all = append(all, Preset{row.where + ", LPL " + level, "IEC 62305-1:2010 table E.2 (from memory)", row.wave, 0, row.amps[i], ""})
		}
	}
	return all
}
