package main

import (
	"fmt"

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
