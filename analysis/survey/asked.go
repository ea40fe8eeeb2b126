package survey

import (
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// What nobody is asked for on site, as patterns of keys.
var (
	leftOutOfBoards     = []string{"withstand.*", "use"}
	leftOutOfFeeds      = []string{keyName, keyNote, "system.*", "transformer.primary.*", "transformer.xr", "transformer.screen", "transformer.auto"}
	leftOutOfFeeders    = []string{keyName, "switch.*", "resistance", "reactance", "constant", "surgeImpedance", "velocity"}
	leftOutOfLoads      = []string{"load.voltage", "withstand.kind", "withstand.multiple", "withstand.volts", "use"}
	leftOutOfSupplies   = []string{keyName, keyNote, "system.*", "source.*", "exposure.occupancy", "exposure.declined", "exposure.electrode", "exposure.neutralEarth", "exposure.otherEarth"}
	leftOutOfProtectors = []string{
		"system.*", "modes.*.connected", "modes.*.switching", "imax", "iimp", "breaker.poles", "breaker.shared", "breaker.least", "breaker.most",
		"external", "leads.*.area", "price", "hours", "catalogue",
	}
)

// ofBoards is what is special of the columns of boards, by the keys of their fields.
func ofBoards() map[string]column {
	return map[string]column{
		keyName:            {heading: words{"Panel", "Board"}, group: head, then: []column{tells(keyFedFrom, both("Fed from"), head, (*building).fedFrom)}},
		keyVoltage:         {heading: both("Nameplate voltage"), look: takeNameplate},
		keyNeutral:         {heading: both("Neutral"), silent: "no or not known", shows: noOnceKnown},
		"system.earthing":  {heading: words{"Grounding of the source", "Earthing of the source"}, listed: isOwnEarthing},
		"system.frequency": {then: []column{tells(keyArrives, both("System by the drawing"), "system", (*building).arrives)}},
		"board.mainBreaker": {
			hint: both("A, or lugs only"), none: []string{"none", "lugs", "lugs only", "main lugs", "main lugs only", "MLO"},
		},
		"board.spaces":     {hint: both("poles")},
		"board.freeSpaces": {hint: both("poles"), none: []string{"none"}},
		"board.bonded":     {heading: words{"Neutral bonded to ground here", "Neutral bonded to earth here"}},
		"board.structure":  {heading: words{"First panel of another structure", "First board of another structure"}},
		"board.faultCurrent": {
			heading: both("Fault current marked or told"), unit: "kA", most: 1000,
			then: []column{ticks("where from", "board", "Fault current from", "label", "utility", "study"), tells(keyReckoned, both("Fault current by the drawing"), "board", (*building).reckoned)},
		},
		"board.freePositions": {hint: both("numbers as marked"), look: refuseDates},
		"board.shortLead":     {heading: both("Place for short leads"), hint: both("for a protector: side, height, opening, breaker beside the bars")},
		"board.photos":        {inTable: true},
		keyNote:               {heading: both("Remarks"), group: head},
	}
}

// ofFeeds is what is special of those of the transformers that feed boards.
func ofFeeds() map[string]column {
	return map[string]column{
		"transformer.power":     {heading: both("Transformer rating"), unit: "kVA", most: 50_000},
		"transformer.impedance": {heading: both("Transformer impedance")},
	}
}

// ofFeeders is what is special of those of feeders.
func ofFeeders() map[string]column {
	return map[string]column{
		"length":   {heading: both("Length of the feeder")},
		"area":     {heading: both("Conductor size")},
		"material": {heading: both("Conductor material")},
		"parallel": {hint: both("1 where none is parallel")},
		keyNote:    {heading: both("Remarks"), inTable: true},
	}
}

// ofLoads is what is special of those of loads.
func ofLoads() map[string]column {
	byCategory := func(s *subject) {
		w := &s.part.Withstand
		if w.Category > 0 {
			w.Kind = diagram.ByCategory
		} else if w.Kind == diagram.ByCategory {
			w.Kind = ""
		}
	}
	return map[string]column{
		keyName: {heading: both("Load")},
		"withstand.category": {
			heading: both("Overvoltage category"), hint: both("I to IV"), silent: "not known", look: takeCategory, after: byCategory,
			shows: func(s *subject, text string) string {
				return map[bool]string{true: text}[s.part.Withstand.Kind == diagram.ByCategory]
			},
		},
		keyNote: {heading: both("Remarks"), inTable: true},
	}
}

// ofSupplies is what is special of those of supplies.
func ofSupplies() map[string]column {
	return map[string]column{
		"exposure.surges":       {heading: both("Surge exposure of the supply")},
		"exposure.lowOverhead":  {heading: both("Low-voltage overhead line")},
		"exposure.lowCable":     {heading: both("Low-voltage cable in the ground")},
		"exposure.highOverhead": {heading: both("High-voltage overhead line")},
		"exposure.highCable":    {heading: both("High-voltage cable in the ground")},
	}
}

// takeCategory takes an overvoltage category as equipment is marked: CAT III.
func takeCategory(s *subject, text string) (bool, error) {
	at := slices.Index([]string{"i", "ii", "iii", "iv"}, strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(folded(text), "overvoltage"), "category"), "cat"))
	if digit := strings.TrimPrefix(folded(text), "cat"); len(digit) == 1 && digit >= "1" && digit <= "4" {
		at = int(digit[0] - '1')
	}
	if at < 0 {
		return true, unit.Must{Wanted: "a category from I to IV", Such: "III", Typed: text}
	}
	s.part.Withstand.Category, s.part.Withstand.Kind = at+1, diagram.ByCategory
	return true, nil
}

// ofProtectors is what is special of those of protectors.
func ofProtectors() map[string]column {
	out := map[string]column{
		keyName:         {heading: both("Protector")},
		keyRated:        {heading: both("Rated by")},
		"in":            {unit: "kA", most: 1000},
		"sccr":          {unit: "kA", most: 1000},
		"breaker.rated": {heading: both("Breaker"), was: "Breaker of the protector", none: []string{"none"}},
		keyNote:         {heading: both("Remarks"), was: "Protector remarks"},

		"installed.by": {inTable: true}, "installed.checked": {inTable: true}, "installed.photos": {inTable: true},
		"installed.date": {inTable: true}, "installed.measured": {inTable: true}, "leads.steelBonded": {heading: both("Raceway bonded at both ends"), inTable: true},
		"leads.steel": {heading: both("Steel raceway")}, "leads.run": {heading: both("Leads run")}, "leads.bends": {hint: both("right angles or more")}, "leads.coils": {heading: both("Coils of slack"), hint: both("full turns")},
	}
	for _, mode := range diagram.Modes() {
		rating := func(s *subject) *diagram.ModeRating { return &s.protector.Modes[mode] }
		out[keyLevel(mode)] = column{
			heading: modeWords(mode, "VPR or Up"),
			after:   func(s *subject) { rating(s).Connected = rating(s).Level > 0 },
			shows:   func(s *subject, text string) string { return map[bool]string{true: text}[rating(s).Connected] },
		}
		out[keyMCOV(mode)] = column{heading: modeWords(mode, "MCOV or Uc")}
	}
	return out
}

func keyLevel(mode diagram.Mode) string { return "modes." + mode.String() + ".level" }
func keyMCOV(mode diagram.Mode) string  { return "modes." + mode.String() + ".mcov" }

// modeWords is a heading about one mode.
func modeWords(mode diagram.Mode, about string) words {
	return words{unit.ModeWord(mode.String(), unit.NorthAmerican) + " " + about, unit.ModeWord(mode.String(), unit.IEC) + " " + about}
}

// noOnceKnown says that there is no neutral once the system is known: a voltage or a
// frequency alone says nothing of it.
func noOnceKnown(s *subject, text string) string {
	if text == "" && s.part.System.Known() {
		return "no"
	}
	return text
}

// isOwnEarthing reports whether a convention knows a way of earthing.
func isOwnEarthing(o option, convention unit.Convention) bool {
	return diagram.Earthing(o.value).IsIEC() == (convention == unit.IEC)
}

// refuseDates tells what a spreadsheet has made of positions such as 12-14.
func refuseDates(_ *subject, text string) (bool, error) {
	if isDate(text) {
		return true, unread{"must be written with words or commas between, such as 12 and 14, or with a ' before", quoted(text) + " is a date that the spreadsheet has made of the positions"}
	}
	return false, nil
}
