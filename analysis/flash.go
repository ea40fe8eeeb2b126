package analysis

import (
	"fmt"
	"math"

	"clampline/diagram"
)

// FlashCurrent returns the crest of the flash that a lightning protection level goes
// by, A: IEC 62305-1:2010 table 3 (from memory). A level that is not known has the
// lowest, since no level asks for less.
func FlashCurrent(level diagram.LightningSystem) float64 {
	switch level {
	case diagram.LightningI:
		return 200e3
	case diagram.LightningII:
		return 150e3
	case diagram.LightningIII, diagram.LightningIV, diagram.LightningUnknown:
		return 100e3
	}
	return 0
}

// FlashShare is what a supply carries of a flash to the building.
type FlashShare struct {
	Flash      float64 // A, crest of the whole; 0 where the building has no lightning protection system
	Supply     float64 // share that leaves by the supply, 0 to 1
	Known      bool    // whether that comes from resistances; else it is one half
	Conductors int     // of the supply, that share it alike: the lines and the neutral
	Pole       float64 // A, of each
	exposure   diagram.Exposure
}

// ShareOfFlash returns what a supply of some system carries of a flash to the lightning
// protection system of its building. The building's earth electrode, the neutral of
// the supply and other services share it as conductances do; where the resistance of
// the electrode or of the neutral is not known, one half leaves by the supply
// (IEC 62305-1:2010 annex E.1, from memory). The conductors of the supply share
// alike what leaves by it.
func ShareOfFlash(e diagram.Exposure, system diagram.System) FlashShare {
	out := FlashShare{Flash: FlashCurrent(e.Lightning), Supply: 0.5, Conductors: system.Lines(), exposure: e}
	if out.Conductors > 0 && system.Neutral {
		out.Conductors++
	}
	if e.Electrode > 0 && e.NeutralEarth > 0 {
		all := 1/e.Electrode + 1/e.NeutralEarth
		if e.OtherEarth > 0 {
			all += 1 / e.OtherEarth
		}
		out.Known, out.Supply = true, 1/e.NeutralEarth/all
	}
	if out.Conductors > 0 {
		out.Pole = out.Flash * out.Supply / float64(out.Conductors)
	}
	return out
}

// Lines returns what the lines of the supply carry together, A: the neutral, which is
// bonded or meets a protector of its own, has its share besides.
func (s FlashShare) Lines(system diagram.System) float64 { return s.Pole * float64(system.Lines()) }

// Why says how the share was found. Its source is IEC 62305-1:2010 annex E.1.
func (s FlashShare) Why() string {
	if !s.Known {
		return "half of it leaves by the supply, since the resistances to earth are not known"
	}
	e := s.exposure
	text := fmt.Sprintf("%s of it leaves by the supply, as the resistances to earth share it: the building's electrode %s, the supply's neutral %s",
		FigureIn(math.Round(100*s.Supply), "%"), FigureIn(e.Electrode, "Ω"), FigureIn(e.NeutralEarth, "Ω"))
	if e.OtherEarth > 0 {
		text += ", other services " + FigureIn(e.OtherEarth, "Ω")
	}
	return text
}
