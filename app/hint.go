package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"clampline/app/look"
)

// newHint offers how to begin on a sheet without parts. Clicks beside its
// buttons go to the sheet below; Tab leads from there to the buttons.
func newHint(a *App) *fyne.Container {
	button := func(label string, begin func()) fyne.CanvasObject {
		return look.NewButton(label, func() {
			a.focusSheet() // and not the button, which is about to go
			begin()
		})
	}
	return container.NewCenter(container.NewVBox(
		button("Start with a service and a main switchboard", a.begin),
		button("Open a demo …", a.chooseDemo),
		button("Open a file …", a.open),
		container.NewCenter(look.NewFaint("or take a part from the left; drag from a terminal to draw a feeder")),
	))
}

// begin draws the parts that most sheets start from.
func (a *App) begin() {
	a.refresh()
	if err := a.editor.Start(); err != nil {
		a.showError("Not done", err)
	}
	a.fit()
}
