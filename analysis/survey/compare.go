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
	bare     R // what it would make of a record that says nothing, to compare cells with each other
	set      func(*R)
	mark     string // what is unusual of it
}

// propose compares a cell with a record and reports whether it says something
// else. A blank cell says nothing, and a lone dash that the value is to go.
func propose[R comparable](columns []column[R], at int, record R, cell string, h habits) (proposal[R], bool, error) {
	c := columns[at]
	text := strings.TrimSpace(cell)
	now := orSilent(c, record, h)
	out := proposal[R]{from: now, to: now, next: record, set: func(*R) {}}
	switch {
	case text == "":
		return out, false, nil
	case isDash(text):
		out.set = c.clear
		c.clear(&out.next)
	default:
		text = unescaped(text)
		_ = c.write(&out.bare, text, h)
		if says(c, record, text) {
			return out, false, nil
		}
		if err := c.write(&out.next, text, h); err != nil {
			return out, false, err
		}
		out.set = func(r *R) { _ = c.write(r, text, h) } // which was tried
	}
	if out.next == record {
		return out, false, nil
	}
	out.to = outcome(columns, at, record, out.next, h)
	if c.mark != nil {
		out.mark = c.mark(out.next, h.convention)
	}
	return out, true, nil
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

// outcome returns the new value, with others that the cell says as well.
func outcome[R comparable](columns []column[R], at int, record, next R, h habits) string {
	out := orSilent(columns[at], next, h)
	for i, c := range columns {
		if i != at && c.differs(record, next, h.convention) {
			out += ", " + lowerFirst(c.heading.in(h.convention)) + " " + orSilent(c, next, h)
		}
	}
	return out
}

// refusal says why the document does not take what stands in the column of a slot
// in a row.
func (x *reading) refusal(n, slot int, err error) unread {
	var invalid *diagram.InvalidError
	if !errors.As(err, &invalid) {
		return reason(err)
	}
	problem := invalid.Problems[0]
	if s := x.slots[slot]; s.bound != nil && problem.Bounds != (diagram.Bounds{}) {
		write := func(v float64) string { return s.bound(v, x.convention) }
		return reason(unit.Must{Wanted: problem.Bounds.Words(write), Typed: x.cell(n, slot)})
	}
	return unread{problem.What, problem.Remedy}
}

// lowerFirst returns words as they stand within a sentence. Abbreviations and
// symbols keep their capitals.
func lowerFirst(s string) string {
	if first, _, _ := strings.Cut(s, " "); first == "In" || len(s) < 2 || s[1] < 'a' || s[1] > 'z' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
