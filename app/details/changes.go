package details

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// changesView lists above the form of a protector how it differs from another plan,
// where that is marked on the sheet.
type changesView struct {
	object  *fyne.Container
	folds   folds
	against string // the name of the plan; empty where nothing is listed
	lines   []string
}

func newChangesView(f folds) *changesView { return &changesView{object: container.NewVBox(), folds: f} }

// forget makes the next show begin anew.
func (v *changesView) forget() { v.against, v.lines = "", nil }

// show lists the changes of the state, which has none where none are to be shown.
func (v *changesView) show(state State) {
	against, lines := state.Against, state.Changes
	if len(lines) == 0 || state.elsewhere() {
		against, lines = "", nil
	}
	if against == v.against && slices.Equal(lines, v.lines) {
		return
	}
	v.against, v.lines = against, lines
	v.object.Objects = nil
	if len(lines) > 0 {
		var list []fyne.CanvasObject
		for _, line := range lines {
			text := widget.NewLabel(line)
			text.Wrapping = fyne.TextWrapWord
			list = append(list, flush(text))
		}
		v.object.Objects = section("Against "+against, v.folds, list...)
	}
	v.object.Refresh()
}
