package diagram

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"clampline/diagram/unit"
)

// Sort is what the value of a field is.
type Sort uint8

// The sorts.
const (
	SortText   Sort = iota // any text
	SortDate               // a day by ISO 8601, such as 2026-11-29, or nothing
	SortWord               // one of a list of words, or nothing
	SortID                 // the id of another record or the name of a terminal of it, or nothing
	SortNumber             // a quantity in SI units
	SortCount              // a whole number
	SortFlag               // yes or no
	SortImage              // an image, as EncodeImage has it, or nothing
)

// Field is one member of a record R, told once: its bounds, how a file, a schema,
// a form and a message name it, and where it lies in the record.
type Field[R any] struct {
	Key   string // its place in the record, as a file has it: "board.mainBreaker"
	Of    string // what it belongs to, where its label alone does not say: "primary"
	Label string // within a sentence; empty where no form shows it. What IEC has otherwise stands behind a |
	Help  string // what it is, in a phrase that begins with a capital letter
	Empty string // what 0, no word or no text stands for, in a few words: "not known"
	Sort  Sort

	Range    Range           // of a number or count
	Figure   Figure          // what is usual of a number; NoFigure where nothing is known
	Measures unit.Dimension  // of a number
	Words    []string        // those that a word may be
	Default  string          // the one that no word stands for; empty where that is nothing
	spoken   []string        // as people say each of them, "elevator|lift" where that differs by IEC
	Needed   bool            // the record is none without it
	Always   bool            // a file has it even where it is 0
	Presence bool            // a flag that the group it lies in is there at all
	Placed   bool            // it says where or how a protector is installed: one of a library has none
	Fits     func(Kind) bool // the kinds of part that have it; nil for all

	figure func(*R) Figure // in place of Figure, where that depends on the record
	counts func(*R) bool   // nil for always
	names  []string
	number func(*R) *float64
	count  func(*R) *int
	flag   func(*R) *bool
	text   func(*R) string
	write  func(*R, string)
}

// Names returns the key in its parts, those of the groups first.
func (f *Field[R]) Names() []string { return f.names }

// UsualOf returns what is usual of the number in the record; NoFigure where nothing
// is known of it, or it does not count beside what else the record says.
func (f *Field[R]) UsualOf(r *R) Figure {
	switch {
	case !f.Counts(r):
		return NoFigure
	case f.figure != nil:
		return f.figure(r)
	}
	return f.Figure
}

// Counts reports whether the field counts beside what else the record says.
func (f *Field[R]) Counts(r *R) bool { return f.counts == nil || f.counts(r) }

// Number returns where a SortNumber lies in the record.
func (f *Field[R]) Number(r *R) *float64 { return f.number(r) }

// Count returns where a SortCount lies in the record.
func (f *Field[R]) Count(r *R) *int { return f.count(r) }

// Flag returns where a SortFlag lies in the record.
func (f *Field[R]) Flag(r *R) *bool { return f.flag(r) }

// Text returns a text, word or id of the record.
func (f *Field[R]) Text(r *R) string { return f.text(r) }

// SetText changes a text, word or id of the record.
func (f *Field[R]) SetText(r *R, to string) { f.write(r, to) }

// Name returns what the field is called within a sentence: "primary voltage"; its
// key where it has no label.
func (f *Field[R]) Name(c unit.Convention) string {
	name := inConvention(f.Label, c)
	if name == "" {
		return f.Key
	}
	if f.Figure != NoFigure {
		name = f.Figure.Usual().Noun
	}
	return unit.Terms(strings.TrimLeft(f.Of+" "+name, " "), c)
}

// Title returns the label of the field.
func (f *Field[R]) Title(c unit.Convention) string { return inConvention(f.Label, c) }

// inConvention returns words of which those by IEC stand behind a |, where unit.Terms
// does not make them.
func inConvention(words string, c unit.Convention) string {
	american, international, differs := strings.Cut(words, "|")
	if differs && c == unit.IEC {
		return international
	}
	return unit.Terms(american, c)
}

// Spoken returns a word of the field as people say it.
func (f *Field[R]) Spoken(word string, c unit.Convention) string {
	at := slices.Index(f.Words, word)
	if at < 0 || at >= len(f.spoken) {
		return unit.Terms(word, c)
	}
	return inConvention(f.spoken[at], c)
}

// Same reports whether two records have the same in the field.
func (f *Field[R]) Same(a, b *R) bool {
	switch f.Sort {
	case SortNumber:
		return *f.number(a) == *f.number(b)
	case SortCount:
		return *f.count(a) == *f.count(b)
	case SortFlag:
		return *f.flag(a) == *f.flag(b)
	}
	return f.text(a) == f.text(b)
}

// Changed returns the fields in which two records differ, in their order.
func Changed[R any](fields []Field[R], before, after *R) []*Field[R] {
	var out []*Field[R]
	for i := range fields {
		if !fields[i].Same(before, after) {
			out = append(out, &fields[i])
		}
	}
	return out
}

// Said returns what a record has in the field, as people write it, and nothing for
// what is not stated.
func (f *Field[R]) Said(r *R, c unit.Convention) string {
	switch f.Sort {
	case SortNumber:
		if v := *f.number(r); v != 0 || f.Always || f.Range.Zero == ZeroIsNone {
			return unit.FormatEntry(v, f.Measures, c)
		}
		return ""
	case SortCount:
		if n := *f.count(r); n != 0 {
			return strconv.Itoa(n)
		}
		return ""
	case SortFlag:
		return map[bool]string{true: "yes"}[*f.flag(r)]
	case SortImage:
		return imageSaid(f.text(r))
	}
	return f.text(r)
}

// Plain is Said with a number rounded as readers want it.
func (f *Field[R]) Plain(r *R, c unit.Convention) string {
	if f.Sort == SortNumber && *f.number(r) != 0 {
		return unit.Format(*f.number(r), f.Measures, c)
	}
	return f.Said(r, c)
}

// FieldOf returns the field of the list that has the key. That there is none is a
// mistake of the program.
func FieldOf[R any](fields []Field[R], key string) *Field[R] {
	at := slices.IndexFunc(fields, func(f Field[R]) bool { return f.Key == key })
	if at < 0 {
		panic("diagram: no field has the key " + key)
	}
	return &fields[at]
}

// newField returns a field of the sort. What is said of it is its label, its help
// and what nothing stands for, each of which may be left out.
func newField[R any](sort Sort, key string, says ...string) Field[R] {
	says = append(says, "", "", "")
	return Field[R]{Key: key, Sort: sort, Label: says[0], Help: says[1], Empty: says[2], names: strings.Split(key, ".")}
}

func numberField[R any](key string, within Range, figure Figure, at func(*R) *float64, says ...string) Field[R] {
	out := newField[R](SortNumber, key, says...)
	out.Range, out.Figure, out.Measures, out.number = within, figure, figure.Usual().Dimension, at
	return out
}

func countField[R any](key string, low, high float64, at func(*R) *int, says ...string) Field[R] {
	out := newField[R](SortCount, key, says...)
	out.Range, out.Measures, out.count = Range{Low: low, High: high, Zero: ZeroWithin}, unit.Count, at
	return out
}

func flagField[R any](key string, at func(*R) *bool, says ...string) Field[R] {
	out := newField[R](SortFlag, key, says...)
	out.flag = at
	return out
}

func textField[R any](key string, at func(*R) *string, says ...string) Field[R] {
	return lettersField[R, string](SortText, key, at, says)
}

func imageField[R any](key string, at func(*R) *string, says ...string) Field[R] {
	return lettersField[R, string](SortImage, key, at, says)
}

func dateField[R any](key string, at func(*R) *string, says ...string) Field[R] {
	return lettersField[R, string](SortDate, key, at, says)
}

func idField[R any](key string, at func(*R) *ID, says ...string) Field[R] {
	return lettersField(SortID, key, at, says)
}

func wordField[R any, T ~string](key string, words []T, at func(*R) *T, says ...string) Field[R] {
	out := lettersField(SortWord, key, at, says)
	for _, word := range words {
		out.Words = append(out.Words, string(word))
	}
	return out
}

func lettersField[R any, T ~string](sort Sort, key string, at func(*R) *T, says []string) Field[R] {
	out := newField[R](sort, key, says...)
	out.text = func(r *R) string { return string(*at(r)) }
	out.write = func(r *R, to string) { *at(r) = T(to) }
	return out
}

// Within returns the fields of what lies in another record, as those of that.
func Within[R, S any](at func(*R) *S, fields []Field[S]) []Field[R] {
	out := make([]Field[R], len(fields))
	for i, f := range fields {
		out[i] = newField[R](f.Sort, f.Key, f.Label, f.Help, f.Empty)
		out[i].Of, out[i].Range, out[i].Figure, out[i].Measures, out[i].Words = f.Of, f.Range, f.Figure, f.Measures, f.Words
		out[i].Default, out[i].spoken, out[i].Fits = f.Default, f.spoken, f.Fits
		out[i].Needed, out[i].Always, out[i].Presence, out[i].Placed = f.Needed, f.Always, f.Presence, f.Placed
		if f.counts != nil {
			out[i].counts = func(r *R) bool { return f.counts(at(r)) }
		}
		out[i].number = func(r *R) *float64 { return f.number(at(r)) }
		out[i].count = func(r *R) *int { return f.count(at(r)) }
		out[i].flag = func(r *R) *bool { return f.flag(at(r)) }
		out[i].text = func(r *R) string { return f.text(at(r)) }
		out[i].write = func(r *R, to string) { f.write(at(r), to) }
	}
	return out
}

// inside returns the fields of a group of the record.
func inside[R, S any](group, of string, at func(*R) *S, fields []Field[S]) []Field[R] {
	out := Within(at, fields)
	for i, f := range fields {
		out[i].Key, out[i].Of = group+"."+f.Key, cmp.Or(of, f.Of)
		out[i].names = strings.Split(out[i].Key, ".")
	}
	return out
}
