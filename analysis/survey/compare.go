package survey

import (
	"errors"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// proposal is what a cell would make of a record.
type proposal[R any] struct {
	from, to string // as text
	next     R
	set      func(*R)
}

// propose compares a cell with a record and reports whether it says something
// else. A blank cell says nothing, and a lone dash that the value is to go.
func propose[R comparable](columns []column[R], at int, record R, cell string, h habits) (proposal[R], bool, error) {
	c := columns[at]
	text := strings.TrimSpace(cell)
	if text == "" {
		return proposal[R]{}, false, nil
	}
	next, set := record, c.clear
	if isDash(text) {
		c.clear(&next)
	} else {
		if text = unescaped(text); says(c, record, text) {
			return proposal[R]{}, false, nil
		}
		if err := c.write(&next, text, h); err != nil {
			return proposal[R]{}, false, err
		}
		set = func(r *R) { _ = c.write(r, text, h) } // which was tried
	}
	if next == record {
		return proposal[R]{}, false, nil
	}
	return proposal[R]{orSilent(c, record, h), outcome(columns, at, record, next, h), next, set}, true, nil
}

// says reports whether a cell is what the table writes of the record, in either
// convention.
func says[R comparable](c column[R], record R, text string) bool {
	text = strings.Join(strings.Fields(text), " ")
	for _, convention := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
		if text == strings.Join(strings.Fields(c.read(record, convention)), " ") {
			return true
		}
	}
	return false
}

// orSilent returns the value of a record, or the words that stand for none.
func orSilent[R comparable](c column[R], record R, h habits) string {
	if text := c.read(record, h.convention); text != "" {
		return text
	}
	return c.silent
}

// outcome returns the new value, with others that it brings along.
func outcome[R comparable](columns []column[R], at int, record, next R, h habits) string {
	out := orSilent(columns[at], next, h)
	for i, c := range columns {
		if before, after := c.read(record, h.convention), c.read(next, h.convention); i != at && before != after {
			out += ", " + lowerFirst(c.heading.in(h.convention)) + " " + orSilent(c, next, h)
		}
	}
	return out
}

// refusal says why the document does not take a change.
func refusal(err error) unread {
	var invalid *diagram.InvalidError
	if errors.As(err, &invalid) {
		return unread{invalid.Problems[0].What, invalid.Problems[0].Remedy}
	}
	return reason(err)
}

// lowerFirst returns words as they stand within a sentence. Abbreviations and
// symbols keep their capitals.
func lowerFirst(s string) string {
	if first, _, _ := strings.Cut(s, " "); first == "In" || len(s) < 2 || s[1] < 'a' || s[1] > 'z' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
