package analysis

import (
	"fmt"

	"clampline/analysis/waveform"
	"clampline/diagram"
)

// SurgesOf returns the surge cases of the document, or the usual ones where it
// has none; these have no id, and their notes say what they are taken from and why.
func SurgesOf(doc *diagram.Document) []diagram.Surge {
	if own := doc.Surges(); len(own) > 0 {
		return own
	}
	return UsualSurges(doc)
}

// UsualSurges returns the usual surge cases of a document, whatever it has of its own:
//
//   - what arrives over the supply in use by its exposure, on all lines against earth,
//     on one line against the neutral, and as a ring wave; where there are more
//     supplies, also the first of these from each;
//   - where the building has a lightning protection system, the share of the supply of
//     a flash to it;
//   - what is born inside, at every board and load: lowest at ordinary ones, higher
//     at loads that switch contactors or capacitor banks.
func UsualSurges(doc *diagram.Document) []diagram.Surge {
	var out []diagram.Surge
	supplies, has := arising(doc)
	if len(supplies) == 0 {
		supplies = []diagram.Part{{}}
	}
	for i, supply := range supplies {
		cases := supplyCases(doc, supply)
		if i > 0 {
			cases = cases[:1]
			cases[0].Name, cases[0].Part = doc.NameOf(supply.ID)+", all lines", supply.ID
		}
		out = append(out, cases...)
	}
	if flash, ok := flashCase(supplies[0]); ok {
		out = append(out, flash)
	}
	return append(out, insideCases(doc, has)...)
}

// supplyCases returns what arrives over a supply.
func supplyCases(doc *diagram.Document, supply diagram.Part) []diagram.Surge {
	exposure, why := exposureOf(supply.Exposure)
	combination, ring, edition := arrives(doc, exposure)
	note := combination.Standard + "; " + why + edition
	surge := func(name string, path diagram.Path, p waveform.Preset, note string) diagram.Surge {
		return diagram.Surge{Name: name, Note: note, Path: path, Wave: diagram.Wave(p.Wave), Voltage: p.Voltage, Current: p.Current}
	}
	return []diagram.Surge{
		surge("Supply, all lines", diagram.LinesToEarth, combination, note),
		surge("Supply, line to neutral", diagram.LineToNeutral, combination, note),
		surge("Supply, ring wave", diagram.LinesToEarth, ring, ring.Standard+"; "+why+edition),
	}
}

// exposureOf returns the surge exposure of a supply, and why it is taken so. Surges
// come over open lines rather than over cables in the ground (common practice, no
// source).
func exposureOf(e diagram.Exposure) (diagram.SurgeExposure, string) {
	overhead := e.LowOverhead > 0 || e.HighOverhead > 0
	switch {
	case e.Surges != "":
		return e.Surges, string(e.Surges) + " exposure, as the supply's details state"
	case overhead:
		return diagram.MediumExposure, "medium exposure, since an overhead line leads to the supply and its details state none"
	case e.LowCable > 0 || e.HighCable > 0:
		return diagram.LowExposure, "low exposure, since cables in the ground lead to the supply and its details state none"
	}
	return diagram.LowExposure, "low exposure, since the supply's details state none"
}

// arrives returns the combination wave and the ring wave that come over a supply, and
// what is to be said of the edition.
//
// By IEC the wave of a low or medium exposure is that which equipment of overvoltage
// category IV stands at the origin of 230/400 V (IEC 60364-4-44 table 443.2, from
// memory), of a high one that which drives the current of a flash near the line
// through the generator (IEC 62305-1:2010 table E.2, from memory), both behind 2 ohm.
func arrives(doc *diagram.Document, e diagram.SurgeExposure) (combination, ring waveform.Preset, edition string) {
	low, high := "category C low, combination wave", "category C high, combination wave"
	switch {
	case doc.FollowsIEC():
		combination = waveform.Preset{
			Wave: waveform.WaveCombination, Voltage: 6e3, Current: 3e3,
			Standard: "6 kV of overvoltage category IV (IEC 60364-4-44 table 443.2, from memory) behind 2 Ω",
		}
		if e == diagram.HighExposure {
			combination.Voltage, combination.Current = 10e3, 5e3
			combination.Standard = "5 kA of a flash near the line (IEC 62305-1:2010 table E.2, from memory) behind 2 Ω"
		}
		return combination, named("category C low, ring wave"), ""
	case doc.Info().Codes.Surges == diagram.Surges1991:
		step := map[diagram.SurgeExposure]int{diagram.LowExposure: 1, diagram.MediumExposure: 2, diagram.HighExposure: 3}[e]
		return named(fmt.Sprintf("category C%d, combination wave", step)), named(fmt.Sprintf("category B%d, ring wave", step)), ""
	case e == diagram.HighExposure:
		low = high
	case e == diagram.MediumExposure:
		edition = "; this edition has low and high only, and medium counts as low"
	}
	return named(low), named("category C low, ring wave"), edition
}

// named returns the surge of a standard by its name.
func named(name string) waveform.Preset {
	out, _ := waveform.Find(name) // a test asks for each
	return out
}

// OpenVoltage returns what stands for the open voltage, V, of a surge of which only the
// current is stated, A: 6 kV, where wiring devices flash over (IEEE C62.41.2-2002, from
// memory), or what drives the current through 2 ohm, the impedance of a combination
// wave, where that is more. It is far above what protects leaves, so that the current
// is the stated one.
func OpenVoltage(amps float64) float64 {
	const least, ohms = 6e3, 2
	return max(least, ohms*amps)
}

// flashCase returns the share of a supply of a flash to its building, and false where
// that has no lightning protection system.
func flashCase(supply diagram.Part) (diagram.Surge, bool) {
	share := ShareOfFlash(supply.Exposure, supply.System)
	amps := share.Lines(supply.System)
	if amps == 0 {
		return diagram.Surge{}, false
	}
	return diagram.Surge{
		Name: "Flash to the building", Path: diagram.LinesToEarth, Wave: diagram.ImpulseWave, Voltage: OpenVoltage(amps), Current: amps,
		Note: fmt.Sprintf("%s of 10/350 µs by the lightning protection system, %s (IEC 62305-1:2010 table 3, from memory); %s (annex E.1 there, from memory); its %d conductors share that alike, and the lines carry %s",
			FigureIn(share.Flash, "A"), supply.Exposure.Lightning, share.Why(), share.Conductors, FigureIn(amps, "A")),
	}, true
}
