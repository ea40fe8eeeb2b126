package app

import (
	"regexp"
	"testing"

	"clampline/analysis/mark"
	"clampline/app/parts"
	"clampline/diagram/unit"
)

// foreign finds a word of the other convention. What both are named in is no such.
var foreign = map[unit.Convention]*regexp.Regexp{
	unit.NorthAmerican: regexp.MustCompile(`(?i)\b(un)?earth(ed|ing)?\b|\baluminium\b|\bmetres?\b`),
	unit.IEC:           regexp.MustCompile(`(?i)\b(un)?ground(ed|ing)?\b|\baluminum\b|\b[LN]-G\b`),
}

// Menus, Help, the strip of parts and the legend have no word of the other
// convention.
func TestWindowSpeaksOneConvention(t *testing.T) {
	for setting, c := range map[units]unit.Convention{unitsUS: unit.NorthAmerican, unitsIEC: unit.IEC} {
		a := start(t)
		a.prefs.setUnits(setting)
		a.OpenDemo()
		var texts []string
		for _, command := range a.commands {
			texts = append(texts, command.Label, command.Menu)
		}
		for _, group := range a.helpGroups() {
			for _, row := range group.rows {
				texts = append(texts, row.title, row.text)
			}
		}
		for _, item := range parts.Items() {
			texts = append(texts, item.Caption)
		}
		j := &a.judgement
		marks := mark.Of(j.snapshot, j.result, c)
		for _, entry := range marks.Legend {
			texts = append(texts, entry.Text)
		}
		for _, words := range marks.Breaks {
			texts = append(texts, words)
		}
		if len(texts) < 150 || len(marks.Breaks) == 0 {
			t.Errorf("%v: only %d texts, %d breaks", c, len(texts), len(marks.Breaks))
		}
		for _, text := range texts {
			if word := foreign[c].FindString(text); word != "" {
				t.Errorf("%v: %q in %q", c, word, text)
			}
		}
	}
}
