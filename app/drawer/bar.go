package drawer

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram/unit"
)

// Widths of what stands above the list, px.
const (
	subjectWidth = 160
	searchWidth  = 130
	groupWidth   = 150
)

// allSubjects stands for no subject in particular.
const allSubjects = "All subjects"

// bar is what says which findings are listed, and how.
type bar struct {
	severities [severities]*look.Button
	subject    *look.Select
	subjects   []string // in the order of the lines of the list, the first one empty
	search     *search
	only       *look.Check
	aside      *look.Check
	group      *look.Select
	told       *look.Faint
	all        *look.Button
}

func newBar(f *Findings) *bar {
	b := &bar{told: look.NewFaint("")}
	for s := range b.severities {
		b.severities[s] = look.NewIconButton("", f.icons[s], func() { f.toggle(s) })
	}
	b.subject = look.NewSelect([]string{allSubjects}, func(text string) {
		f.setSubject(b.subjects[max(slices.Index(b.subject.Options, text), 0)])
	})
	b.search = newSearch(f.setSearch, f.list.takeFocus)
	b.only = look.NewCheck("Only selected", f.setOnly)
	b.aside = look.NewCheck("", f.setAsideShown)
	b.group = look.NewSelect(nil, func(text string) { f.setGrouping(Grouping(text)) })
	for _, g := range Groupings() {
		b.group.Options = append(b.group.Options, string(g))
	}
	b.all = look.NewButton("Show all", f.showAll)
	return b
}

// objects returns what stands above the list, in the order of its going through
// by key.
func (b *bar) objects() []fyne.CanvasObject {
	wide := func(width float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(width, o.MinSize().Height), o)
	}
	return []fyne.CanvasObject{
		b.severities[analysis.Error], b.severities[analysis.Warning], b.severities[analysis.Remark],
		wide(subjectWidth, b.subject), wide(searchWidth, b.search), b.only, b.aside, wide(groupWidth, b.group), b.told, b.all,
	}
}

// show brings it up to date with what is listed.
func (b *bar) show(f *Findings) {
	of := f.filter.of(f.state)
	counts := Count(of)
	for s, button := range b.severities {
		setSeverity(button, counts[s], f.icons[s], f.filter.hide[s])
	}
	b.showSubjects(f)
	if b.only.Checked != f.filter.only {
		b.only.Checked = f.filter.only
		b.only.Refresh()
	}
	b.showAside(len(f.state.Aside), f.filter.aside)
	setSelected(b.group, string(f.grouping))
	left := len(f.kept) < len(of)
	b.told.SetText(toldOf(len(f.kept), len(of)))
	setVisible(b.told, left) // nothing is left out silently
	setVisible(b.all, left)
}

// showAside brings the check up to date that lists what is set aside.
func (b *bar) showAside(count int, on bool) {
	text := fmt.Sprintf("Set aside (%d)", count)
	if b.aside.Text != text || b.aside.Checked != on {
		b.aside.Text, b.aside.Checked = text, on
		b.aside.Refresh()
	}
	setVisible(b.aside, count > 0)
}

// toldOf tells how much of it is listed.
func toldOf(shown, all int) string {
	if shown == all {
		return fmt.Sprintf("all %d shown", all)
	}
	return fmt.Sprintf("%d of %d shown", shown, all)
}

// setSeverity writes on a button how many findings there are of a severity. One
// that is switched off lies flat and has a faint sign.
func setSeverity(b *look.Button, count int, icon fyne.Resource, hidden bool) {
	text, importance := fmt.Sprint(count), widget.MediumImportance
	if hidden {
		importance, icon = widget.LowImportance, theme.NewDisabledResource(icon)
	}
	if b.Text != text || b.Importance != importance {
		b.Text, b.Importance, b.Icon = text, importance, icon
		b.Refresh()
	}
}

// showSubjects lists the subjects that there are, with their counts. One that
// was picked stays listed where it is gone, so that the list does not become
// another by itself.
func (b *bar) showSubjects(f *Findings) {
	counts := map[string]int{}
	for _, finding := range f.filter.of(f.state) {
		counts[finding.Subject]++
	}
	names := make([]string, 0, len(counts)+1)
	for name := range counts {
		names = append(names, name)
	}
	if picked := f.filter.subject; picked != "" && counts[picked] == 0 {
		names = append(names, picked)
	}
	slices.Sort(names)
	b.subjects = append([]string{""}, names...)
	lines := []string{allSubjects}
	for _, name := range names {
		lines = append(lines, fmt.Sprintf("%s (%d)", unit.SentenceCase(headingOf(name, f.state.Convention)), counts[name]))
	}
	if !slices.Equal(lines, b.subject.Options) {
		b.subject.Options = lines
	}
	setSelected(b.subject, lines[max(slices.Index(b.subjects, f.filter.subject), 0)])
}

// setSelected shows a line of the list as picked without picking it.
func setSelected(s *look.Select, line string) {
	if s.Selected != line {
		s.Selected = line
		s.Refresh()
	}
}

func (f *Findings) toggle(s int) {
	f.filter.hide[s] = !f.filter.hide[s]
	f.remember()
	f.relist()
}

func (f *Findings) setSubject(subject string) {
	if f.filter.subject != subject {
		f.filter.subject = subject
		f.relist()
	}
}

func (f *Findings) setSearch(text string) {
	f.filter.words = wordsOf(text)
	f.relist()
}

func (f *Findings) setOnly(on bool) {
	if f.filter.only != on {
		f.filter.only, f.filter.scope = on, slices.Clone(f.state.Selected)
		f.relist()
	}
}

func (f *Findings) setAsideShown(on bool) {
	if f.filter.aside != on {
		f.filter.aside = on
		f.relist()
	}
}

func (f *Findings) setGrouping(g Grouping) {
	if f.grouping != g {
		f.grouping = g
		f.remember()
		f.relist()
	}
}

// showAll takes every filter off.
func (f *Findings) showAll() {
	f.filter = filter{}
	f.bar.search.SetText("")
	f.remember()
	f.relist()
}

func (f *Findings) remember() { f.hands.Remember(Settings{f.filter.hide, f.grouping}) }

// search is the field for words to search for.
type search struct {
	widget.Entry
	leave func() // to the list
}

func newSearch(changed func(string), leave func()) *search {
	s := &search{leave: leave}
	s.PlaceHolder, s.OnChanged = "Search", changed
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey goes to the list, or clears the field and then leaves it.
func (s *search) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnter:
		s.leave()
	case fyne.KeyEscape:
		if s.Text != "" {
			s.SetText("")
			return
		}
		if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
			c.Unfocus()
		}
	default:
		if !look.FunctionKey(s, ev) {
			s.Entry.TypedKey(ev)
		}
	}
}
