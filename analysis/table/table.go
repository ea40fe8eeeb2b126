package table

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Column is one column of a table of rows R.
type Column[R any] struct {
	Name string // of its member in JSON, and above its column in CSV; empty where they leave it out
	Help string // what it is, where the name does not say
	Head string // above its column in a text; empty for none

	// Value is what JSON and CSV have: a text, a number, a flag, a list made by
	// Records, or nil for nothing.
	Value func(R) any
	// Cell is what a text has; nil where it leaves the column out.
	Cell func(R) string
	// Rest is a text that takes the place of this cell and all after it, unless it
	// is empty; it may be nil.
	Rest func(R) string

	Optional    bool // JSON leaves it out where it is nothing
	Right       bool // a text has it at the right of its column
	Least, Most int  // characters that a text gives it; Most 0 sets no bound
	Gap         int  // characters before it in a text
}

// Text writes the columns that have a cell, a line for their heads and one for each
// row. Between is written after the heads; it may be empty.
func Text[R any](w io.Writer, columns []Column[R], rows []R, between string) error {
	var shown []Column[R]
	for _, c := range columns {
		if c.Cell != nil {
			shown = append(shown, c)
		}
	}
	var out strings.Builder
	widths := widthsOf(shown, rows)
	line(&out, shown, widths, func(c Column[R]) (string, bool) { return c.Head, false })
	out.WriteString(between)
	for _, row := range rows {
		line(&out, shown, widths, func(c Column[R]) (string, bool) {
			if c.Rest != nil {
				if rest := c.Rest(row); rest != "" {
					return rest, true
				}
			}
			return c.Cell(row), false
		})
	}
	_, err := io.WriteString(w, out.String())
	return err
}

// widthsOf returns how many characters each column takes.
func widthsOf[R any](columns []Column[R], rows []R) []int {
	widths := make([]int, len(columns))
	for i, c := range columns {
		widest := utf8.RuneCountInString(c.Head)
		for _, row := range rows {
			if c.Rest == nil || c.Rest(row) == "" {
				widest = max(widest, utf8.RuneCountInString(c.Cell(row)))
			}
		}
		if c.Most > 0 {
			widest = min(widest, c.Most)
		}
		widths[i] = max(widest, c.Least)
	}
	return widths
}

// line writes one line; cell returns the text of a column, and whether it is the
// last.
func line[R any](out *strings.Builder, columns []Column[R], widths []int, cell func(Column[R]) (string, bool)) {
	var text strings.Builder
	for i, c := range columns {
		text.WriteString(strings.Repeat(" ", c.Gap))
		words, last := cell(c)
		fill := strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(words)))
		if c.Right && !last {
			words = fill + words
		} else {
			words += fill
		}
		text.WriteString(words)
		if last {
			break
		}
	}
	out.WriteString(strings.TrimRight(text.String(), " ") + "\n")
}

// CSV writes the columns that have a name, with a line of names.
func CSV[R any](w io.Writer, columns []Column[R], rows []R) error {
	var names []string
	for _, c := range columns {
		if c.Name != "" {
			names = append(names, c.Name)
		}
	}
	lines := [][]string{names}
	for _, row := range rows {
		var cells []string
		for _, m := range RecordOf(columns, row) {
			cells = append(cells, plain(m.value))
		}
		lines = append(lines, cells)
	}
	return csv.NewWriter(w).WriteAll(lines)
}

func plain(value any) string {
	if value == nil {
		return ""
	}
	return fmt.Sprint(value)
}

// Record is a row as JSON has it: an object whose members have an order.
type Record []member

type member struct {
	name  string
	value any
}

// RecordOf returns a row as JSON has it.
func RecordOf[R any](columns []Column[R], row R) Record {
	var out Record
	for _, c := range columns {
		if c.Name == "" {
			continue
		}
		if value := c.Value(row); value != nil || !c.Optional {
			out = append(out, member{c.Name, value})
		}
	}
	return out
}

// Records returns rows as JSON has them.
func Records[R any](columns []Column[R], rows []R) []Record {
	out := make([]Record, len(rows))
	for i, row := range rows {
		out[i] = RecordOf(columns, row)
	}
	return out
}

// MarshalJSON is that of json.Marshaler.
func (r Record) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	out.WriteByte('{')
	for i, m := range r {
		if i > 0 {
			out.WriteByte(',')
		}
		for _, part := range []struct {
			value any
			after string
		}{{m.name, ":"}, {m.value, ""}} {
			if err := encoder.Encode(part.value); err != nil {
				return nil, err
			}
			out.WriteString(part.after)
		}
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

// Help lists the columns that have a name, with what each is: "id, name, volts
// (peak)".
func Help[R any](columns []Column[R]) string {
	var words []string
	for _, c := range columns {
		switch {
		case c.Name == "":
		case c.Help == "":
			words = append(words, c.Name)
		default:
			words = append(words, c.Name+" ("+c.Help+")")
		}
	}
	return strings.Join(words, ", ")
}
