package details

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// casesView is the list of surge cases above the form of the picked one, with
// what adds and removes them.
type casesView struct {
	object    *fyne.Container
	panel     *Panel
	list      *fyne.Container
	add       *look.Button
	complaint complaint
	at        int // place of the picked one in the list
	count     int // of those that are listed
}

func newCasesView(p *Panel) *casesView {
	v := &casesView{panel: p, list: container.NewVBox(), complaint: newComplaint()}
	v.add = p.button("Add …", theme.ContentAddIcon(), v.offer)
	remove := p.button("Remove", theme.ContentRemoveIcon(), v.remove)
	done := p.button("Done", nil, func() { v.panel.state.Done() })
	v.object = container.NewVBox(v.list, container.NewGridWithColumns(3, v.add, remove, done), v.complaint.label, subheading("What arrives, and where"))
	return v
}

// fits reports whether the list shows as many surge cases as there are, so that
// the form is that of the picked one.
func (v *casesView) fits(doc *diagram.Document) bool { return v.count == len(analysis.SurgesOf(doc)) }

// show lists the surge cases as they are now.
func (v *casesView) show() {
	doc := v.panel.editor.Document()
	surges := analysis.SurgesOf(doc)
	v.count = len(surges)
	v.at = min(v.at, v.count-1)
	var lines []fyne.CanvasObject
	for i, name := range SurgeNames(doc, v.panel.state.Convention) {
		line := v.panel.button(shortened(name), nil, func() { v.pick(i) })
		line.Alignment = widget.ButtonAlignLeading
		line.Importance = widget.LowImportance
		if i == v.at {
			line.Importance = widget.MediumImportance
		}
		lines = append(lines, container.NewBorder(nil, nil, nil, look.NewFaint(crests(surges[i], v.panel.state.Convention)), line))
	}
	v.list.Objects = lines
	v.list.Refresh()
}

// parts returns the name and the figures of a line.
func parts(line fyne.CanvasObject) (*look.Button, *look.Faint) {
	objects := line.(*fyne.Container).Objects
	return objects[0].(*look.Button), objects[1].(*look.Faint)
}

// crests says how high a surge is: open and shorted.
func crests(s surge, c unit.Convention) string {
	return unit.Format(s.Voltage, unit.Voltage, c) + " · " + unit.Format(s.Current, unit.Current, c)
}

// refresh writes the names and figures anew where they have changed.
func (v *casesView) refresh() {
	surges := analysis.SurgesOf(v.panel.editor.Document())
	for i, name := range SurgeNames(v.panel.editor.Document(), v.panel.state.Convention) {
		line, figures := parts(v.list.Objects[i])
		if line.Text != shortened(name) {
			line.SetText(shortened(name))
		}
		if text := crests(surges[i], v.panel.state.Convention); text != figures.Text() {
			figures.SetText(text)
		}
	}
}

// SurgeNames returns what people call the surge cases of a document, or the
// usual ones, no two alike, in the words of the convention.
func SurgeNames(doc *diagram.Document, c unit.Convention) []string {
	var names []string
	var ids []diagram.ID
	for _, s := range analysis.SurgesOf(doc) {
		names, ids = append(names, unit.Terms(analysis.SurgeName(doc, s), c)), append(ids, s.ID)
	}
	return Distinct(names, ids)
}

// shownLength is how many letters of a name the panel has room for.
const shownLength = 31

func shortened(name string) string {
	if letters := []rune(name); len(letters) > shownLength {
		return string(letters[:shownLength-1]) + "…"
	}
	return name
}

func (v *casesView) pick(at int) {
	v.panel.Commit()
	v.at = at
	v.complaint.tell("")
	v.panel.build()
}

// offer drops a menu of what can be added.
func (v *casesView) offer() {
	v.panel.Commit()
	canvas := fyne.CurrentApp().Driver().CanvasForObject(v.add)
	menu := presetMenu(v.panel.editor.Document(), v.panel.state.Convention, v.put)
	widget.ShowPopUpMenuAtRelativePosition(menu, canvas, fyne.NewPos(0, v.add.Size().Height), v.add)
}

// put adds a surge case and picks it.
func (v *casesView) put(s surge) {
	v.at = len(analysis.SurgesOf(v.panel.editor.Document()))
	v.done(addSurge(v.panel.editor, s))
	v.panel.FocusFirst(fyne.CurrentApp().Driver().CanvasForObject(v.add))
}

func (v *casesView) remove() {
	v.panel.Commit()
	v.done(removeSurge(v.panel.editor, v.at))
}

// done says why something was not done.
func (v *casesView) done(err error) {
	report(v.complaint.tell, err)
	v.panel.build()
}

// about says whose the surge cases are.
func (v *casesView) about() string {
	doc := v.panel.editor.Document()
	if len(doc.Surges()) == 0 {
		return "What arrives where. The sheet has none of its own: these are the usual ones, and the note of each says what it is taken from. Over the supply: " +
			unit.Terms(analysis.SurgesOf(doc)[0].Note, v.panel.state.Convention) + ". A change makes all of them the sheet's own."
	}
	return "What arrives where. Each change can be undone; with the last one removed the usual ones count again."
}
