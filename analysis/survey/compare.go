package survey

import (
	"errors"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// proposal is what a cell would make of a record.
type proposal struct {
	from, to string // as text
	next     subject
	bare     subject // what it would make of a record that says nothing, to compare cells with each other
	set      func(*subject)
	mark     string // what is unusual of it
}

// propose compares a cell with a record and reports whether it says something
// else. A blank cell says nothing, and a lone dash that the value is to go.
func propose(columns []column, at int, record subject, cell string, h habits) (proposal, bool, error) {
	c := columns[at]
	text := strings.TrimSpace(cell)
	now := orSilent(c, &record, h)
	out := proposal{from: now, to: now, next: record, set: func(*subject) {}}
	switch {
	case text == "":
		return out, false, nil
	case isDash(text):
		out.set = c.clear
		c.clear(&out.next)
	default:
		text = unescaped(text)
		_ = c.write(&out.bare, text, h)
		if says(c, &record, text) {
			return out, false, nil
		}
		if err := c.write(&out.next, text, h); err != nil {
			return out, false, err
		}
		out.set = func(s *subject) { _ = c.write(s, text, h) } // which was tried
	}
	switch {
	case out.next == record:
		return out, false, nil
	case !out.next.isDrawn():
		return out, false, unread{"is asked of a transformer that is drawn", "leave it empty for one of the utility"}
	}
	out.to, out.mark = outcome(columns, at, record, out.next, h), c.mark(&out.next, h.convention)
	return out, true, nil
}

// says reports whether a cell is what the table writes of the record, in either
// convention.
func says(c column, record *subject, text string) bool {
	text = strings.Join(strings.Fields(text), " ")
	for _, convention := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
		if text == strings.Join(strings.Fields(c.read(record, convention)), " ") {
			return true
		}
	}
	return false
}

// orSilent returns the value of a record, or the words that stand for none.
func orSilent(c column, record *subject, h habits) string {
	if text := c.read(record, h.convention); text != "" {
		return text
	}
	return c.silent
}

// outcome returns the new value, with others that the cell says as well.
func outcome(columns []column, at int, record, next subject, h habits) string {
	out := orSilent(columns[at], &next, h)
	for i, c := range columns {
		if i != at && c.role == asks && !c.Same(&record, &next) {
			out += ", " + lowerFirst(c.heading.in(h.convention)) + " " + orSilent(c, &next, h)
		}
	}
	return out
}

// refusal says why the document does not take what stands in a column.
func (x *reading) refusal(e entry, column int, err error) unread {
	var invalid *diagram.InvalidError
	if !errors.As(err, &invalid) {
		return reason(err)
	}
	problem, c := invalid.Problems[0], x.forms[e.form].columns[column]
	if c.isNumber() && problem.Bounds != (diagram.Bounds{}) {
		write := func(v float64) string { return unit.Format(v, c.Measures, x.convention) }
		return reason(unit.Must{Wanted: problem.Bounds.Words(write), Typed: e.cells[column]})
	}
	if problem.Place != "" { // it is another record than that of the row
		return unread{problem.Place + ": " + problem.What, problem.Remedy}
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
