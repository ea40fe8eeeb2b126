package survey

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

type (
	part      = diagram.Part
	protector = diagram.Protector
)

// subject is what a row is about: a part, or a protector and then no part.
type subject struct {
	part      part
	protector protector
}

// about returns a part as a subject. A supply has the transformer of the utility that
// it comes from, as a transformer has it.
func about(p part) subject {
	if p.Kind == diagram.Supply {
		p.Transformer.Power, p.Transformer.Impedance = p.Source.Power, p.Source.Reactance
	}
	return subject{part: p}
}

// drawn returns the part as the drawing has it.
func (s *subject) drawn() part {
	p := s.part
	if p.Kind == diagram.Supply {
		p.Source.Power, p.Source.Reactance = p.Transformer.Power, p.Transformer.Impedance
		p.Transformer.Power, p.Transformer.Impedance = 0, 0
	}
	return p
}

func (s *subject) id() diagram.ID { return cmp.Or(s.protector.ID, s.part.ID) }

func ofPart(s *subject) *part           { return &s.part }
func ofProtector(s *subject) *protector { return &s.protector }

// role is what a column is for.
type role int

const (
	asks    role = iota // for a value of the record
	naming              // it has the id of a record
	telling             // the person what the drawing says, and is not read
	onPaper             // it asks on the page alone
)

// column is one thing that a survey asks of a record or tells of it: a column of a
// table and a box of the page.
type column struct {
	role    role
	key     string // of the field, or of what else it is
	group   string // the section of the page in which it stands
	heading words
	was     string // its heading in tables written before
	hint    words  // what stands in the empty box: a unit, or what to write
	silent  string // what stands for a value that the record does not have
	options []option
	listed  func(option, unit.Convention) bool // whether the page offers an option; nil for all

	tell  func(*building, *subject) string // where the column names or tells
	read  func(*subject, unit.Convention) string
	write func(*subject, string, habits) error // what is typed
	clear func(*subject)
	same  func(before, after *subject) bool
	mark  func(*subject, unit.Convention) string // what is unusual of it, or nothing

	such  func(unit.Convention) string          // an example of the number that it asks
	bound func(float64, unit.Convention) string // writes one of its bounds; nil where it asks no number
}

// field returns what the column holds, in words: its heading without the unit, and
// of names that they are names.
func (c column) field(convention unit.Convention) string {
	if c.key == keyName {
		return "Name"
	}
	field, _, _ := strings.Cut(c.heading.in(convention), " (")
	return field
}

// asked returns the column that asks for a field of a record.
func asked[R any](f *diagram.Field[R], of func(*subject) *R) column {
	options := optionsOf(f)
	out := column{
		key: f.Key, group: groupOf(f.Names()), options: options,
		heading: words{unit.SentenceCase(f.Title(unit.NorthAmerican)), unit.SentenceCase(f.Title(unit.IEC))},
		silent:  cmp.Or(f.Empty, map[diagram.Sort]string{diagram.SortText: "empty", diagram.SortFlag: "no"}[f.Sort], "not known"),
		clear:   func(s *subject) { blank(f, of(s)) },
		same:    func(before, after *subject) bool { return f.Same(of(before), of(after)) },
		mark:    func(*subject, unit.Convention) string { return "" },
	}
	out.read = func(s *subject, c unit.Convention) string { return read(f, options, of(s), c) }
	out.write = func(s *subject, text string, h habits) error { return write(f, options, of(s), text, h) }
	if f.Sort == diagram.SortNumber || f.Sort == diagram.SortCount {
		out.bound = func(v float64, c unit.Convention) string { return unit.Format(v, f.Measures, c) }
		out.such = func(c unit.Convention) string { return such(f, c) }
	}
	if f.Sort == diagram.SortNumber {
		out.hint = words{unit.UnitName(f.Measures, unit.NorthAmerican), unit.UnitName(f.Measures, unit.IEC)}
		out.mark = func(s *subject, c unit.Convention) string { return unusual(f, *f.Number(of(s)), c) }
	}
	return out
}

// groupOf returns the section for the names of a field; what lies in no group of its
// record is of the record as a whole.
func groupOf(names []string) string {
	if len(names) > 2 {
		return strings.Join(names[:2], ".")
	}
	return strings.Join(names[:len(names)-1], "")
}

// read returns what a record has in a field as a cell or a page has it, so that it
// can be typed again. No number and no flag is told from 0 and no.
func read[R any](f *diagram.Field[R], options []option, r *R, c unit.Convention) string {
	switch {
	case f.Sort == diagram.SortWord:
		return wordOf(options, f.Text(r), c)
	case f.Sort == diagram.SortText && f.Key == "note":
		return printable(f.Text(r))
	case f.Sort == diagram.SortText:
		return oneLine(f.Text(r))
	case f.Sort == diagram.SortNumber && *f.Number(r) == 0:
		return ""
	}
	return strings.ReplaceAll(f.Said(r, c), "\u00a0", " ")
}

// write takes what is typed for a field into a record.
func write[R any](f *diagram.Field[R], options []option, r *R, text string, h habits) error {
	switch f.Sort {
	case diagram.SortWord:
		word, err := choose(options, text, h.convention)
		if err == nil && (f.Text(r) != "" || word != f.Default) { // which nothing stands for
			f.SetText(r, word)
		}
		return err
	case diagram.SortFlag:
		yes, err := yesNo(text)
		if err == nil {
			*f.Flag(r) = yes
		}
		return err
	case diagram.SortNumber, diagram.SortCount:
		return writeNumber(f, r, text, h)
	}
	if f.Key == "note" {
		f.SetText(r, printable(text))
	} else {
		f.SetText(r, oneLine(text))
	}
	return nil
}

// writeNumber leaves a number as it is where the text differs from it by rounding.
func writeNumber[R any](f *diagram.Field[R], r *R, text string, h habits) error {
	v, err := h.quantity(text, f.Measures)
	if must, ok := err.(unit.Must); ok {
		must.Such = such(f, h.convention)
		return must
	}
	switch {
	case err != nil:
		return err
	case f.Sort == diagram.SortCount:
		*f.Count(r) = int(v)
	case !closeTo(v, *f.Number(r)):
		*f.Number(r) = v
	}
	return nil
}

// blank takes away what a record has in a field.
func blank[R any](f *diagram.Field[R], r *R) {
	switch f.Sort {
	case diagram.SortFlag:
		*f.Flag(r) = false
	case diagram.SortNumber:
		*f.Number(r) = 0
	case diagram.SortCount:
		*f.Count(r) = 0
	default:
		f.SetText(r, "")
	}
}

// such is an example of the number that a field asks.
func such[R any](f *diagram.Field[R], c unit.Convention) string {
	if f.Figure == diagram.NoFigure {
		return unit.Such(f.Measures, c)
	}
	return f.Figure.Usual().Example(c)
}

// unusual says what is unusual of a number that is known.
func unusual[R any](f *diagram.Field[R], v float64, c unit.Convention) string {
	if mark := f.Figure.Usual().Mark(v, c); mark != "" && v != 0 {
		return "Unusual: " + mark + "."
	}
	return ""
}

// in has a number without a unit taken in the one that the heading names, as people
// write it on site, up to most of them.
func (c *column) in(name string, most float64) {
	write, such := c.write, c.such
	c.heading = words{c.heading.us + " (" + name + ")", c.heading.iec + " (" + name + ")"}
	c.write = func(s *subject, text string, h habits) error {
		switch v, err := h.quantity(text, unit.Ratio); {
		case errors.As(err, new(unit.Must)):
			return write(s, text, h) // which takes its unit, or says what the column asks
		case err != nil:
			return err
		case v > most:
			return unread{"must have its unit, such as " + such(h.convention), fmt.Sprintf("%s has none, and would be %s %s", quoted(text), strings.TrimSpace(text), name)}
		}
		return write(s, text+" "+name, h)
	}
}

// before has a text looked at before it is written; look reports whether that was
// all, and why it cannot be taken.
func (c *column) before(look func(s *subject, text string) (done bool, err error)) {
	write := c.write
	c.write = func(s *subject, text string, h habits) error {
		if done, err := look(s, text); done || err != nil {
			return err
		}
		return write(s, text, h)
	}
}

// orWords lets certain words stand for a value that the record has as zero.
func (c *column) orWords(list ...string) {
	blank := c.clear
	c.before(func(s *subject, text string) (bool, error) {
		for _, word := range list {
			if folded(word) == folded(text) {
				blank(s)
				return true, nil
			}
		}
		return false, nil
	})
}
