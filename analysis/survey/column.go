package survey

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// role is what a column is for.
type role int

const (
	asks    role = iota // for a value of the record
	naming              // it has the id of a record
	telling             // the person what the drawing says, and is not read
	onPaper             // it asks on the page alone
)

// column is one thing that a survey asks of a record or tells of it: a column of a
// table and a box of the page. Most of it comes from the field.
type column struct {
	*field  // that it asks for
	role    role
	key     string // of the field, or of what else it is
	group   string // the section of the page in which it stands
	heading words
	was     string // its heading in tables written before
	hint    words  // what stands in the empty box: a unit, or what to write
	silent  string // what stands for a value that the record does not have
	options []option
	listed  func(option, unit.Convention) bool // whether the page offers an option; nil for all
	tell    func(*building, *subject) string   // where it names or tells
	then    []column                           // follow it
	inTable bool                               // the page has no box for it

	// How a cell is written, other than the field has it.
	unit  string                                        // of a number alone, up to most of it, which the heading names
	most  float64                                       //
	none  []string                                      // words for a value that the record has as zero
	look  func(*subject, string) (done bool, err error) // sees the text before it is written
	after func(*subject)                                // what follows from a value
	shows func(s *subject, text string) string          // what stands for a value
}

// ofField completes a column with what the field says.
func (c column) ofField(f *field) column {
	if c.heading == (words{}) {
		c.heading = words{unit.SentenceCase(f.Title(unit.NorthAmerican)), unit.SentenceCase(f.Title(unit.IEC))}
	}
	if c.unit != "" {
		c.heading = words{c.heading.us + " (" + c.unit + ")", c.heading.iec + " (" + c.unit + ")"}
	}
	if c.hint == (words{}) && f.Sort == diagram.SortNumber {
		c.hint = words{unit.UnitName(f.Measures, unit.NorthAmerican), unit.UnitName(f.Measures, unit.IEC)}
	}
	c.field, c.key, c.group, c.options = f, f.Key, cmp.Or(c.group, groupOf(f.Names())), optionsOf(f)
	c.silent = cmp.Or(c.silent, f.Empty, map[diagram.Sort]string{diagram.SortText: "empty", diagram.SortFlag: "no"}[f.Sort], "not known")
	return c
}

// groupOf returns the section for the names of a field; what lies in no group of its
// record is of the record as a whole.
func groupOf(names []string) string { return strings.Join(names[:min(2, len(names)-1)], ".") }

// name returns what the column holds, in words: its heading without the unit, and of
// names that they are names.
func (c column) name(convention unit.Convention) string {
	if c.key == keyName {
		return "Name"
	}
	name, _, _ := strings.Cut(c.heading.in(convention), " (")
	return name
}

// isNumber reports whether the column asks a number or a count.
func (c column) isNumber() bool {
	return c.field != nil && (c.Sort == diagram.SortNumber || c.Sort == diagram.SortCount)
}

// read returns what a record has as a cell or a page has it, so that it can be typed
// again. No number and no flag is told from 0 and no.
func (c column) read(s *subject, convention unit.Convention) string {
	text := ""
	switch {
	case c.Sort == diagram.SortWord:
		text = wordOf(c.options, c.Text(s), convention)
	case c.Sort == diagram.SortText:
		text = c.lines(c.Text(s))
	case c.Sort != diagram.SortNumber || *c.Number(s) != 0:
		text = strings.ReplaceAll(c.Said(s, convention), "\u00a0", " ")
	}
	if c.shows != nil {
		return c.shows(s, text)
	}
	return text
}

// lines returns a text as the field takes it: remarks have several lines.
func (c column) lines(text string) string {
	if c.key == keyNote {
		return printable(text)
	}
	return oneLine(text)
}

// write takes what is typed into a record.
func (c column) write(s *subject, text string, h habits) error {
	if slices.ContainsFunc(c.none, func(word string) bool { return folded(word) == folded(text) }) {
		c.clear(s)
		return nil
	}
	if c.look != nil {
		if done, err := c.look(s, text); done || err != nil {
			return err
		}
	}
	err := c.take(s, text, h)
	if err == nil && c.after != nil {
		c.after(s)
	}
	return err
}

func (c column) take(s *subject, text string, h habits) error {
	switch c.Sort {
	case diagram.SortWord:
		word, err := choose(c.options, text, h.convention)
		if err == nil && (c.Text(s) != "" || word != c.Default) { // which nothing stands for
			c.SetText(s, word)
		}
		return err
	case diagram.SortDate:
		day, err := dayOf(text, h.convention)
		if err == nil {
			c.SetText(s, day)
		}
		return err
	case diagram.SortFlag:
		yes, err := yesNo(text)
		if err == nil {
			*c.Flag(s) = yes
		}
		return err
	case diagram.SortNumber, diagram.SortCount:
		v, err := c.quantity(text, h)
		switch {
		case err != nil:
			return err
		case c.Sort == diagram.SortCount:
			*c.Count(s) = int(v)
		case !closeTo(v, *c.Number(s)): // else it is what rounding made of it
			*c.Number(s) = v
		}
		return nil
	}
	c.SetText(s, c.lines(text))
	return nil
}

// quantity reads a number, one without a unit in that of the heading.
func (c column) quantity(text string, h habits) (float64, error) {
	if c.unit != "" {
		switch v, err := h.quantity(text, unit.Ratio); {
		case errors.As(err, new(unit.Must)): // it has a unit, or is none
		case err != nil:
			return 0, err
		case v > c.most:
			return 0, c.tooMuch(text, v, h)
		default:
			text += " " + c.unit
		}
	}
	v, err := h.quantity(text, c.Measures)
	if must, ok := err.(unit.Must); ok {
		must.Such = c.such(h.convention)
		return 0, must
	}
	return v, err
}

// such is an example of the number that the column asks.
func (c column) such(convention unit.Convention) string {
	if c.Figure == diagram.NoFigure {
		return unit.Such(c.Measures, convention)
	}
	return c.Figure.Usual().Example(convention)
}

// clear takes away what a record has.
func (c column) clear(s *subject) {
	switch c.Sort {
	case diagram.SortFlag:
		*c.Flag(s) = false
	case diagram.SortNumber:
		*c.Number(s) = 0
	case diagram.SortCount:
		*c.Count(s) = 0
	default:
		c.SetText(s, "")
	}
	if c.after != nil {
		c.after(s)
	}
}

// mark says what is unusual of a number that is known, or nothing.
func (c column) mark(s *subject, convention unit.Convention) string {
	if c.Sort != diagram.SortNumber || *c.Number(s) == 0 {
		return ""
	}
	usual, v := c.Figure.Usual(), *c.Number(s)
	mark := usual.Mark(v, convention)
	if other, ok := thousandfold(usual, v); ok {
		mark += "; where " + plainly(other, c.Measures, convention) + " is meant, type that with its unit"
	}
	return mark
}

// thousandfold returns what is usual where a value is not, if that is a thousand
// times less or more: a prefix was missed.
func thousandfold(usual diagram.Usual, v float64) (float64, bool) {
	if usual.Most == 0 || !usual.Outside(v) {
		return 0, false
	}
	for _, other := range []float64{v / 1000, v * 1000} {
		if !usual.Outside(other) {
			return other, true
		}
	}
	return 0, false
}

func plainly(v float64, d unit.Dimension, convention unit.Convention) string {
	return strings.ReplaceAll(unit.Format(v, d, convention), "\u00a0", " ")
}

// tooMuch says of a number without a unit that it would be absurd in that of the
// heading, and what to type where that is a thousand times too much.
func (c column) tooMuch(text string, v float64, h habits) unread {
	what := "must have its unit, such as " + c.such(h.convention)
	if in, err := unit.Parse("1 "+c.unit, c.Measures, h.convention); err == nil && !c.Figure.Usual().Outside(v*in/1000) {
		what = "must have its unit: " + plainly(v*in/1000, c.Measures, h.convention) + " where that is meant"
	}
	return unread{what, fmt.Sprintf("%s has none, and would be %s %s", quoted(text), strings.TrimSpace(text), c.unit)}
}
