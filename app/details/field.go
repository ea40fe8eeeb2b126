package details

import (
	"cmp"
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// keys is the order of a form: the keys of its fields or of their groups; what
// begins with a number sign heads those that follow. Fields with a label that it
// leaves out stand before the remarks.
type keys []string

// covers reports whether the field has its place in the order.
func (k keys) covers(key string) bool {
	return slices.ContainsFunc(k, func(one string) bool { return key == one || strings.HasPrefix(key, one+".") })
}

// withAll returns the order with the fields that it leaves out.
func withAll[R any](k keys, fields []diagram.Field[R]) keys {
	at := len(k)
	for at > 0 && (k[at-1] == "note" || k[at-1] == "#"+remarks) {
		at--
	}
	var more keys
	for _, f := range fields {
		if f.Label != "" && !k.covers(f.Key) {
			more = append(more, f.Key)
		}
	}
	return slices.Insert(slices.Clone(k), at, more...)
}

// those returns the fields that are accepted.
func those[R any](fields []diagram.Field[R], accept func(*diagram.Field[R]) bool) []diagram.Field[R] {
	return slices.DeleteFunc(slices.Clone(fields), func(f diagram.Field[R]) bool { return !accept(&f) })
}

// own are the rows of a form that differ from what their field alone would make:
// each returns what stands in place of the row, which may be none or several.
type own[R any] map[string]func(row[R]) []row[R]

// alter is own for a row that is altered.
func alter[R any](change func(row[R]) row[R]) func(row[R]) []row[R] {
	return func(r row[R]) []row[R] { return []row[R]{change(r)} }
}

// shown is own for a row that is shown only for records that the test accepts.
func shown[R any](test func(R) bool) func(row[R]) []row[R] {
	return alter(func(r row[R]) row[R] { return r.when(test) })
}

// labelled is own for a row with another label.
func labelled[R any](words string) func(row[R]) []row[R] {
	return alter(func(r row[R]) row[R] { return r.labelled(words) })
}

// inForm returns the rows of a form.
func inForm[R any](fields []diagram.Field[R], c unit.Convention, listed keys, own own[R]) []row[R] {
	var out []row[R]
	for _, key := range withAll(listed, fields) {
		if head, ok := strings.CutPrefix(key, "#"); ok {
			out = append(out, heading[R](head))
			continue
		}
		var r row[R]
		if at := slices.IndexFunc(fields, func(f diagram.Field[R]) bool { return f.Key == key }); at >= 0 {
			r = fieldRow(&fields[at], c)
		}
		if change := own[key]; change != nil {
			out = append(out, helped(change(r), r.help)...)
		} else {
			out = append(out, r)
		}
	}
	return out
}

// helped returns rows in place of one with its explanation, where they have none
// of their own.
func helped[R any](rows []row[R], help string) []row[R] {
	for i := range rows {
		rows[i].help = cmp.Or(rows[i].help, help)
	}
	return rows
}

// fieldRow returns the row that a field alone makes.
func fieldRow[R any](f *diagram.Field[R], c unit.Convention) row[R] {
	out := fieldControl(f, f.Title(c), c)
	out.help = helpOf(f, c)
	return out
}

// helpOf says what a field is in the words of the form, and what it stands for
// where it may be left empty.
func helpOf[R any](f *diagram.Field[R], c unit.Convention) string {
	out := unit.SentenceCase(unit.Terms(f.Help, c)) + "."
	for _, word := range f.Words {
		out = strings.ReplaceAll(out, "“"+word+"”", "“"+f.Spoken(word, c)+"”")
	}
	if f.Empty != "" && f.Default == "" {
		out += " Left empty: " + unit.Terms(f.Empty, c) + "."
	}
	return out
}

func fieldControl[R any](f *diagram.Field[R], label string, c unit.Convention) row[R] {
	switch f.Sort {
	case diagram.SortNumber:
		return numberRow(f, label)
	case diagram.SortCount:
		return count(label, int(f.Range.High), f.Count)
	case diagram.SortFlag:
		return toggle(label, f.Flag)
	case diagram.SortImage:
		return imageRow(f, label)
	case diagram.SortWord:
		return wordRow(f, label, c)
	case diagram.SortDate:
		return dateRow(f, label)
	}
	text := typed(label,
		func(r R, _ unit.Convention) string { return f.Text(&r) },
		func(r *R, s string, _ unit.Convention) error { f.SetText(r, strings.TrimSpace(s)); return nil })
	if f.Key == "note" {
		return several(text)
	}
	return text
}

// dateRow takes a day.
func dateRow[R any](f *diagram.Field[R], label string) row[R] {
	const such = "2026-11-29"
	return typed(label,
		func(r R, _ unit.Convention) string { return f.Text(&r) },
		func(r *R, s string, _ unit.Convention) error {
			if s = strings.TrimSpace(s); s != "" && !diagram.IsDate(s) {
				return unit.Must{Wanted: "year-month-day", Such: such, Typed: s}
			}
			f.SetText(r, s)
			return nil
		}).hint("such as " + such)
}

func numberRow[R any](f *diagram.Field[R], label string) row[R] {
	kind := quantity[R]
	if f.Range.Zero == diagram.ZeroIsNone {
		kind = length[R]
	}
	out := kind(label, f.Measures, f.Number)
	switch {
	case f.Empty != "":
		out = out.hint(f.Empty)
	case f.Range.Zero == diagram.ZeroWrong:
		out = out.hint("above 0")
	}
	if f.Figure == diagram.NoFigure {
		return out
	}
	out = out.example(f.Figure)
	out.mark = func(r R, c unit.Convention) string {
		if figure := f.UsualOf(&r); figure != diagram.NoFigure {
			return figure.Usual().Mark(*f.Number(&r), c)
		}
		return ""
	}
	return out
}

// wordRow picks one of the words of a field, where no word is one of them or stands
// for something of its own.
func wordRow[R any](f *diagram.Field[R], label string, c unit.Convention) row[R] {
	var options []option[string]
	if f.Default == "" && !f.Needed {
		options = append(options, option[string]{"", f.Empty})
	}
	for _, word := range f.Words {
		options = append(options, option[string]{word, f.Spoken(word, c)})
	}
	return choiceOf(label, options,
		func(r R) string { return cmp.Or(f.Text(&r), f.Default) },
		func(r *R, word string) { f.SetText(r, word) })
}
