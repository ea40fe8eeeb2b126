package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"clampline/analysis"
	"clampline/diagram/unit"
)

// tableWidth is how many characters a line should have at most.
const tableWidth = 100

// helpWidth is the same of a help text.
const helpWidth = 90

// takenSo stands above a list of assumptions.
const takenSo = "Taken so, since the sheet does not say:"

// assumed returns each assumption in a line.
func assumed(s sheet, assumptions []analysis.Assumption) []string {
	var out []string
	for _, a := range assumptions {
		out = append(out, fmt.Sprintf("%s: %s (%s)", s.doc.NameOf(a.Record), unit.Words(a.Text, s.convention), unit.Terms(a.Source, s.convention)))
	}
	return out
}

// wrapped breaks a text between words into lines of at most width characters,
// unless a word is longer.
func wrapped(text string, width int) string {
	var out strings.Builder
	used := 0
	for _, word := range strings.FieldsFunc(text, breaks) {
		length := utf8.RuneCountInString(word)
		switch {
		case used == 0:
		case used+1+length > width:
			out.WriteByte('\n')
			used = 0
		default:
			out.WriteByte(' ')
			used++
		}
		out.WriteString(word)
		used += length
	}
	return out.String()
}

// breaks reports whether a line may be broken there; at a no-break space it may
// not.
func breaks(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }
