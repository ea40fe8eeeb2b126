package survey

import (
	"regexp"
	"strconv"
	"strings"

	"clampline/diagram"
)

// takeNameplate takes a voltage as it stands on the nameplate: 208Y/120 says the wiring
// and the neutral as well.
func takeNameplate(s *subject, text string) (bool, error) {
	plate, found := nameplate(text)
	if to := &s.part.System; found {
		to.Voltage, to.Wiring, to.Neutral = plate.Voltage, plate.Wiring, plate.Neutral
	}
	return found, nil
}

// pair is two voltages as nameplates write them, with or without the letter of a
// wye between, and with words behind that say nothing else.
var pair = regexp.MustCompile(`(?i)^(\d{2,4})\s*V?\s*(Y|wye|star)?\s*/\s*(\d{2,4})\s*V?(?:[ ,]*(?:3|three|1|single)?[ \-]*(?:ph|phase|ø|φ)?[ ,]*(?:3|4)?[ \-]*(?:w|wire)?)?$`)

// nameplate returns the system that two voltages tell, and false for what is no
// such pair. Of a wye the higher stands for the lines and is about 1.73 times
// the other; of a split phase it is twice the other. A high-leg delta is written
// the other way round, which does not tell it from 240/120 of a transformer, so
// it is not taken.
func nameplate(text string) (diagram.System, bool) {
	found := pair.FindStringSubmatch(strings.TrimSpace(text))
	if found == nil {
		return diagram.System{}, false
	}
	first, _ := strconv.ParseFloat(found[1], 64)
	second, _ := strconv.ParseFloat(found[3], 64)
	star := diagram.System{Wiring: diagram.Wye, Voltage: max(first, second), Neutral: true}
	lower := min(first, second)
	switch {
	case lower > 0 && within(star.LineToNeutral(), lower, 0.03):
		return star, true
	case found[2] == "" && first < second && within(2*first, second, 0.03):
		return diagram.System{Wiring: diagram.Split, Voltage: second, Neutral: true}, true
	}
	return diagram.System{}, false
}

// within reports whether two voltages differ by no more than a share, which
// covers how nameplates round.
func within(a, b, share float64) bool { return a >= b*(1-share) && a <= b*(1+share) }

// months and years by which a date is known.
var dates = regexp.MustCompile(`(?i)^(?:\d{1,2}[ .\-/]+(?:jan|feb|mar|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-z]*\.?(?:[ .\-/]+\d{2,4})?` +
	`|(?:jan|feb|mar|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-z]*\.?[ .\-/]+\d{1,4}` +
	`|\d{1,2}[.\-/]\d{1,2}[.\-/](?:19|20)\d{2}` +
	`|(?:19|20)\d{2}[.\-/]\d{1,2}[.\-/]\d{1,2}.*)$`)

func isDate(text string) bool { return dates.MatchString(strings.TrimSpace(text)) }
