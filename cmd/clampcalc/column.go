package main

import (
	"math"
	"strconv"

	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// text and digits6 are columns of a text and of a number.
func text[R any](name, help string, of func(R) string) table.Column[R] {
	return table.Column[R]{Name: name, Help: help, Value: func(r R) any { return of(r) }}
}

func digits6[R any](name, help string, of func(R) float64) table.Column[R] {
	return table.Column[R]{Name: name, Help: help, Value: func(r R) any { return sixDigits(of(r)) }}
}

// partColumns say which part a row is about.
func partColumns(s sheet) []table.Column[diagram.Part] {
	return []table.Column[diagram.Part]{
		{Name: "id", Value: func(p diagram.Part) any { return string(p.ID) }},
		{Name: "name", Head: "NAME", Value: func(p diagram.Part) any { return p.Name }, Cell: func(p diagram.Part) string { return s.doc.NameOf(p.ID) }},
		{Name: "kind", Head: "KIND", Gap: 2, Value: func(p diagram.Part) any { return string(p.Kind) }, Cell: func(p diagram.Part) string { return string(p.Kind) }},
		{Name: "system", Help: "empty where not known", Head: "SYSTEM", Gap: 2, Cell: func(p diagram.Part) string { return s.result.Buses[p.ID].System.String() },
			Value: func(p diagram.Part) any {
				if system := s.result.Buses[p.ID].System; system.Known() {
					return system.String()
				}
				return ""
			}},
	}
}

// arrayHelp tells of the members of what --json prints.
func arrayHelp(of, members string) string {
	return unit.Wrapped("With --json it prints an array with one object for each "+of+". Its members: "+members+".", helpWidth) + "\n"
}

// orNil is a text, or nil where it is empty.
func orNil(text string) any {
	if text == "" {
		return nil
	}
	return text
}

// rounded drops what is only the noise of binary fractions.
func rounded(v float64) float64 { return math.Round(v*1e3) / 1e3 }

// roundedOrNil is a number, or nil where it is 0.
func roundedOrNil(v float64) any {
	if v == 0 {
		return nil
	}
	return rounded(v)
}

// sixDigits drops what depends on how a processor rounds, and what no model of
// a building is worth.
func sixDigits(v float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil {
		return v
	}
	return out
}

// recordColumns name a record.
func recordColumns(doc *diagram.Document) []table.Column[diagram.ID] {
	return []table.Column[diagram.ID]{
		text("id", "", func(id diagram.ID) string { return string(id) }),
		text("name", "", func(id diagram.ID) string { return doc.NameOf(id) }),
	}
}
