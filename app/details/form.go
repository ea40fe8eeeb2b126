package details

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram/unit"
)

// form is the rows of one record. Rows that the record does not have now are
// hidden, so that the others keep the focus.
type form struct {
	object   *fyne.Container
	rows     *fyne.Container
	bubble   *bubble
	help     *bubble
	use      func(bool)       // notes that a field is used, or left for the sheet
	fields   []fyne.Focusable // in order, also those that are hidden
	first    fyne.Focusable   // that is wanted most; nil for the first in order
	heads    []*head
	lines    []*line
	commits  []func()
	refreshs []func()
}

// newForm lays rows out. The heads of sections are folded as the folds of their
// kind of record have it.
func newForm[R any](t target[R], rows []row[R], f folds) *form {
	out := &form{use: f.use, rows: container.New(layout.NewCustomPaddedVBoxLayout(0))}
	out.bubble, out.help = newBubble(widget.DangerImportance, theme.ColorNameError), newBubble(widget.MediumImportance, theme.ColorNameSeparator)
	out.object = container.NewStack(out.rows, container.New(floating{}, out.help.object, out.bubble.object))
	var section *head
	for _, r := range rows {
		if r.build == nil {
			section = newHead(r.label, f, out.refresh)
			out.heads = append(out.heads, section)
			out.rows.Add(section)
			continue
		}
		out.rows.Add(addLine(out, t, r, section))
	}
	out.refresh()
	return out
}

// refresh shows the values of the document.
func (f *form) refresh() {
	for _, refresh := range f.refreshs {
		refresh()
	}
}

// commit takes what is typed and not yet handed over.
func (f *form) commit() {
	for _, commit := range f.commits {
		commit()
	}
}

// foremost returns the field that is wanted most, or nil.
func (f *form) foremost() fyne.Focusable {
	if f.first == nil && len(f.fields) > 0 {
		return f.fields[0]
	}
	return f.first
}

// tell shows the message about a line. Where there is none any more, that of a
// wrong text which still stands in another line comes back.
func (f *form) tell(message string, at *line) {
	f.bubble.tell(message, at)
	if message != "" {
		return
	}
	for _, l := range f.lines {
		for _, field := range l.control.fields {
			if e, ok := field.(*entry); ok && l.Visible() && e.refusal() != "" {
				f.bubble.tell(e.refusal(), l)
			}
		}
	}
}

// explain says what the field of a line is, or stops to. What is wrong goes before.
func (f *form) explain(on bool, help string, at *line) {
	if !on || f.bubble.object.Visible() {
		help = ""
	}
	f.help.tell(help, at)
}

// refused returns why a text that stands in the form was not taken, or nothing.
func (f *form) refused() string {
	for _, field := range f.fields {
		if e, ok := field.(*entry); ok && e.refusal() != "" {
			return e.refusal()
		}
	}
	return ""
}

// holds reports whether the field or head is one of the form.
func (f *form) holds(field fyne.Focusable) bool {
	for _, own := range f.fields {
		if own == field {
			return true
		}
	}
	for _, own := range f.heads {
		if fyne.Focusable(own) == field {
			return true
		}
	}
	return false
}

// addLine makes the line of a row and adds what it needs to the form.
func addLine[R any](f *form, t target[R], r row[R], section *head) fyne.CanvasObject {
	out := newLine(unit.SentenceCase(r.label))
	c := r.build(t, func(message string) { f.tell(message, out) })
	out.put(c)
	if r.help != "" {
		out.explain(func(on bool) { f.explain(on, r.help, out) })
	}
	f.lines = append(f.lines, out)
	for _, field := range c.fields {
		if e, ok := field.(*entry); ok {
			e.use = f.use
		}
	}
	if r.first {
		f.first = c.fields[0]
	}
	f.fields = append(f.fields, c.fields...)
	if c.commit != nil {
		f.commits = append(f.commits, c.commit)
	}
	f.refreshs = append(f.refreshs, func() {
		record, ok := t.get()
		if !ok || r.show != nil && !r.show(record) || section != nil && section.isFolded() {
			out.Hide()
			return
		}
		out.Show()
		if c.refresh != nil {
			c.refresh()
		}
		if r.mark != nil {
			out.mark(r.mark(record, t.convention))
		}
	})
	return out
}
