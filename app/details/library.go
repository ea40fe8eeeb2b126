package details

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// LibraryEntry is a protector of the user's library, to be edited in place of
// the selection. None of its functions may be nil.
type LibraryEntry struct {
	ID      diagram.ID
	Get     func() (diagram.Protector, bool)           // false once it is gone
	Set     func(alter func(*diagram.Protector)) error // and keeps it in the user's file
	Drag    func(alter func(*diagram.Protector)) error // Set, while a value is dragged: keeps it once it is dropped
	Dropped func()                                     // the drag has ended
	Back    func()                                     // takes the last change back
	Changed bool                                       // there is one to take back
	Done    func()

	// Check returns what cannot be right on a nameplate.
	Check func(diagram.Protector) []analysis.Finding
}

// entryTarget reads and replaces the entry. Its changes are no part of the
// sheet's history.
func entryTarget(e *LibraryEntry, c unit.Convention) target[protector] {
	return target[protector]{
		convention: c, get: e.Get, dropped: e.Dropped,
		set:  func(_ string, alter func(*protector)) error { return e.Set(alter) },
		drag: func(_ string, alter func(*protector)) error { return e.Drag(alter) },
	}
}

// entryRows returns the fields of a protector that has no place. It is picked
// from a list by its name, so that is asked for.
func entryRows(c unit.Convention) []row[protector] {
	rows := slices.DeleteFunc(protectorRows(c), func(r row[protector]) bool { return r.placed })
	rows[0] = rows[0].hint("type a name")
	return rows
}

// libraryView is what stands above the form of an entry, the way out, and below
// it, what cannot be right: there it moves no field.
type libraryView struct {
	object   *fyne.Container
	findings *fyne.Container
	back     *look.Button
	shown    []analysis.Finding
	texts    []*findingText // of those shown
	state    State
}

func newLibraryView(p *Panel) *libraryView {
	v := &libraryView{findings: container.NewVBox()}
	done := p.button("Done", nil, func() { v.state.Entry.Done() })
	v.back = p.button("Take back", nil, func() { v.state.Entry.Back() })
	v.object = container.NewGridWithColumns(2, v.back, done)
	return v
}

// show writes what cannot be right on the entry.
func (v *libraryView) show(state State) {
	v.state = state
	if state.Entry.Changed {
		v.back.Enable()
	} else {
		v.back.Disable()
	}
	var now []analysis.Finding
	if p, ok := state.Entry.Get(); ok {
		now = state.Entry.Check(p)
	}
	if !sameFindings(now, v.shown) {
		v.list(now)
	}
	v.shown = now
	for i, f := range now {
		v.texts[i].write(f, state.Convention)
	}
}

// list makes room for as many findings.
func (v *libraryView) list(findings []analysis.Finding) {
	v.texts, v.findings.Objects = nil, nil
	for _, f := range findings {
		text := newFindingText(f.Severity)
		v.texts = append(v.texts, text)
		v.findings.Add(flush(text.object))
	}
	v.findings.Refresh()
}

// sameFindings reports whether two lists are of the same findings, whatever figures
// those name.
func sameFindings(a, b []analysis.Finding) bool {
	return slices.EqualFunc(a, b, func(a, b analysis.Finding) bool { return a.Key() == b.Key() && a.Severity == b.Severity })
}

// findingText is a finding in three sentences, the first in the colour of its
// severity.
type findingText struct {
	object     *widget.RichText
	what, rest *widget.TextSegment
}

func newFindingText(s analysis.Severity) *findingText {
	color := theme.ColorNameForeground
	switch s {
	case analysis.Error:
		color = theme.ColorNameError
	case analysis.Warning:
		color = theme.ColorNameWarning
	}
	t := &findingText{
		what: &widget.TextSegment{Style: look.Style(color, theme.SizeNameText, true, false)},
		rest: &widget.TextSegment{Style: look.Style(look.ColorFaint, theme.SizeNameText, false, false)},
	}
	t.object = widget.NewRichText(t.what, t.rest)
	t.object.Wrapping = fyne.TextWrapWord
	return t
}

func (t *findingText) write(f analysis.Finding, c unit.Convention) {
	what := unit.Words(ended(f.What), c)
	rest := unit.SentenceCase(unit.Words(ended(f.Why), c)) + " " + unit.SentenceCase(unit.Words(ended(f.Remedy), c))
	if what != t.what.Text || rest != t.rest.Text {
		t.what.Text, t.rest.Text = what, rest
		t.object.Refresh()
	}
}
