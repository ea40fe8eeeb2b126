package drawer

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram/unit"
)

// choosing ends the label of a change of which there may be several.
const choosing = " …"

// mostChoices is how many protectors the menu of a finding lists; all of them
// are in the library.
const mostChoices = 5

// choices returns the protectors by which the finding that is shown whole may be
// mended.
func (f *Findings) choices() []analysis.Choice {
	if f.picked == nil || f.picked.Mend.Choices == nil {
		return nil
	}
	return f.picked.Mend.Choices(f.hands.Own())
}

// choose shows the menu of the choices above the button.
func (f *Findings) choose(choices []analysis.Choice) {
	button := f.whole.mend
	canvas := fyne.CurrentApp().Driver().CanvasForObject(button)
	if canvas == nil {
		return
	}
	menu := widget.NewPopUpMenu(fyne.NewMenu("", f.choiceItems(choices)...), canvas)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(button)
	menu.ShowAtPosition(fyne.NewPos(at.X, max(at.Y-menu.MinSize().Height, 0)))
}

// choiceItems lists the first of the choices, and all of them as one.
func (f *Findings) choiceItems(choices []analysis.Choice) []*fyne.MenuItem {
	var out []*fyne.MenuItem
	picked := *f.picked
	for _, c := range choices[:min(len(choices), mostChoices)] {
		out = append(out, fyne.NewMenuItem(choiceText(c, f.state.Convention), func() {
			mended := picked
			mended.Mend = c.Mend
			f.hands.Mend([]analysis.Finding{mended})
		}))
	}
	all := fyne.NewMenuItem(fmt.Sprintf("All %d that fit, in the library", len(choices)), func() { f.hands.Library(picked.Mend.Opening) })
	all.Icon = theme.ListIcon()
	return append(out, fyne.NewMenuItemSeparator(), all)
}

// choiceText names a choice with its ratings.
func choiceText(c analysis.Choice, convention unit.Convention) string {
	return NameOf(c.Entry) + " · " + ratingsOf(c.Entry.Protector, convention)
}
