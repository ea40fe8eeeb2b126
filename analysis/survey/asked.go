package survey

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// What is special of the boards: what their nameplates and labels are called on site,
// and how people write it there.
func ofBoards() oddities {
	return oddities{
		leftOut: []string{"withstand.*", "use"},
		special: map[string]special{
			keyName:            {heading: words{"Panel", "Board"}, alter: inHead, then: []column{tells(keyFedFrom, both("Fed from"), head, (*building).fedFrom)}},
			keyVoltage:         {heading: both("Nameplate voltage"), alter: takesNameplate},
			keyNeutral:         {heading: both("Neutral"), alter: neutralOnceKnown},
			"system.earthing":  {heading: words{"Grounding of the source", "Earthing of the source"}, alter: listsOwnEarthing},
			"system.frequency": {then: []column{tells(keyArrives, both("System by the drawing"), "system", (*building).arrives)}},
			"board.mainBreaker": {alter: func(c *column) {
				c.hint = both("A, or lugs only")
				c.orWords("none", "lugs", "lugs only", "main lugs", "main lugs only", "MLO")
			}},
			"board.spaces":     {alter: hints("poles")},
			"board.freeSpaces": {alter: func(c *column) { c.hint = both("poles"); c.orWords("none") }},
			"board.bonded":     {heading: words{"Neutral bonded to ground here", "Neutral bonded to earth here"}},
			"board.structure":  {heading: words{"First panel of another structure", "First board of another structure"}},
			keyFault: {
				heading: both("Fault current marked or told"), alter: inKA,
				then: []column{ticks("where from", "board", "Fault current from", "label", "utility", "study"), tells(keyReckoned, both("Fault current by the drawing"), "board", (*building).reckoned)},
			},
			"board.freePositions": {alter: func(c *column) { c.hint = both("numbers as marked"); c.before(refuseDates) }},
			"board.shortLead":     {heading: both("Place for short leads"), alter: hints("for a protector: side, height, opening, breaker beside the bars")},
			keyNote:               {heading: both("Remarks"), alter: inHead},
		},
	}
}

// ofFeeds is what is special of the transformers that feed boards.
func ofFeeds() oddities {
	return oddities{
		leftOut: []string{keyName, keyNote, "system.*", "transformer.primary.*", "transformer.xr", "transformer.screen", "transformer.auto"},
		special: map[string]special{
			"transformer.power":     {heading: both("Transformer rating"), alter: func(c *column) { c.in("kVA", 50_000) }},
			"transformer.impedance": {heading: both("Transformer impedance")},
		},
	}
}

// ofProtectors is what is special of the protectors.
func ofProtectors() oddities {
	out := oddities{
		leftOut: []string{
			"system.*", "modes.*.connected", "modes.*.switching", "imax", "iimp", "breaker.poles", "breaker.shared", "breaker.least", "breaker.most",
			"external", "leads.*.area", "leads.run", "leads.bends", "leads.coils", "leads.steel", "leads.steelBonded", "price", "hours",
		},
		special: map[string]special{
			keyName:         {heading: both("Protector")},
			keyRated:        {heading: both("Rated by")},
			"in":            {alter: inKA},
			"sccr":          {alter: inKA},
			"breaker.rated": {heading: both("Breaker"), alter: func(c *column) { c.was = "Breaker of the protector"; c.orWords("none") }},
			keyNote: {
				heading: both("Remarks"), alter: func(c *column) { c.was = "Protector remarks" },
				then: []column{ticks("indicator", "indicator", "Indicator shows", "in order", "fault")},
			},
		},
	}
	for _, mode := range diagram.Modes() {
		out.special[keyLevel(mode)] = special{heading: modeWords(mode, "VPR or Up"), alter: connects(mode)}
		out.special[keyMCOV(mode)] = special{heading: modeWords(mode, "MCOV or Uc")}
	}
	return out
}

func keyLevel(mode diagram.Mode) string { return "modes." + mode.String() + ".level" }
func keyMCOV(mode diagram.Mode) string  { return "modes." + mode.String() + ".mcov" }

// modeWords is a heading about one mode.
func modeWords(mode diagram.Mode, about string) words {
	return words{unit.ModeWord(mode.String(), unit.NorthAmerican) + " " + about, unit.ModeWord(mode.String(), unit.IEC) + " " + about}
}

func inHead(c *column) { c.group = head }

func inKA(c *column) { c.in("kA", 1000) }

func hints(hint string) func(*column) { return func(c *column) { c.hint = both(hint) } }

// neutralOnceKnown says that there is no neutral once the system is known: a voltage
// or a frequency alone says nothing of it.
func neutralOnceKnown(c *column) {
	read := c.read
	c.silent = "no or not known"
	c.read = func(s *subject, convention unit.Convention) string {
		if text := read(s, convention); text != "" || !s.part.System.Known() {
			return text
		}
		return "no"
	}
}

// listsOwnEarthing has the page offer the ways of earthing that its convention knows.
func listsOwnEarthing(c *column) {
	c.listed = func(o option, convention unit.Convention) bool {
		return diagram.Earthing(o.value).IsIEC() == (convention == unit.IEC)
	}
}

// refuseDates tells what a spreadsheet has made of positions such as 12-14.
func refuseDates(_ *subject, text string) (bool, error) {
	if isDate(text) {
		return true, unread{"must be written with words or commas between, such as 12 and 14, or with a ' before", quoted(text) + " is a date that the spreadsheet has made of the positions"}
	}
	return false, nil
}

// connects has the level of a mode say whether it is connected.
func connects(mode diagram.Mode) func(*column) {
	return func(c *column) {
		read, write, blank := c.read, c.write, c.clear
		rating := func(s *subject) *diagram.ModeRating { return &s.protector.Modes[mode] }
		c.read = func(s *subject, convention unit.Convention) string {
			if !rating(s).Connected {
				return ""
			}
			return read(s, convention)
		}
		c.write = func(s *subject, text string, h habits) error {
			err := write(s, text, h)
			if err == nil {
				rating(s).Connected = rating(s).Level > 0
			}
			return err
		}
		c.clear = func(s *subject) { blank(s); rating(s).Connected = false }
	}
}
