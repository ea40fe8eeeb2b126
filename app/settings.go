package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// settings shows what lasts from one start to the next; each takes effect at
// once.
func (a *App) settings() {
	choices := []units{unitsBySheet, unitsUS, unitsIEC}
	labels := []string{"as the supply of the sheet suggests", "North American: ft, in, AWG, ground", "IEC: m, mm, mm², earth"}
	q := &question{app: a}
	words := newPicker(labels, q)
	words.Selected = labels[max(0, slices.Index(choices, a.prefs.units()))]
	words.OnChanged = func(picked string) {
		a.prefs.setUnits(choices[slices.Index(labels, picked)])
		a.refresh()
	}
	themes := newPicker([]string{"light", "dark"}, q)
	themes.Selected = map[bool]string{false: "light", true: "dark"}[a.look.Dark]
	themes.OnChanged = func(picked string) { a.setDark(picked == "dark") }
	forget := newButton("Forget the recent files", q, func() { a.prefs.clearRecent(); a.menu.listRecent(a) })
	form := widget.NewForm(
		widget.NewFormItem("Units and words", words),
		widget.NewFormItem("Theme", themes),
		widget.NewFormItem("Recent files", forget),
	)
	q.show("Settings", form, fyne.NewSize(520, 0), closing())
}

// setDark changes the theme of window and sheet.
func (a *App) setDark(dark bool) {
	if dark == a.look.Dark {
		return
	}
	a.look = look.Theme{Dark: dark}
	a.prefs.setDark(dark)
	a.app.Settings().SetTheme(a.look)
	palette := a.look.Palette()
	a.sheet.SetPalette(palette)
	a.strip.SetPalette(palette)
	a.details.Rebuild()
	a.refresh()
}
