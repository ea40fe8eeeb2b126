package app

import (
	"fmt"
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
	backups := a.countPicker(q, keyBackups, a.prefs.backups(), []int{1, 3, 5, 10, 20}, "%d", nil)
	copies := a.countPicker(q, keyCopies, a.prefs.copies(), []int{1, 3, 5, 10, 20}, "%d", nil)
	period := a.countPicker(q, keyPeriod, int(a.prefs.period().Seconds()), []int{1, 3, 10, 30, 60}, "every %d s", a.keepTime)
	form := widget.NewForm(
		widget.NewFormItem("Units and words", words),
		widget.NewFormItem("Theme", themes),
		widget.NewFormItem("Recent files", forget),
		widget.NewFormItem("Backups beside a sheet", backups),
		widget.NewFormItem("Recovery copy of changes", period),
		widget.NewFormItem("Recovery copies kept", copies),
	)
	q.show("Settings", form, fyne.NewSize(520, 0), closing())
}

// countPicker offers some numbers for a setting; picked, which may be nil, runs
// after another one was picked.
func (a *App) countPicker(q *question, key string, now int, numbers []int, words string, picked func()) *picker {
	var labels []string
	for _, n := range numbers {
		labels = append(labels, fmt.Sprintf(words, n))
	}
	out := newPicker(labels, q)
	out.Selected = fmt.Sprintf(words, now)
	out.OnChanged = func(label string) {
		a.prefs.store.SetInt(key, numbers[slices.Index(labels, label)])
		if picked != nil {
			picked()
		}
	}
	return out
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
	a.showComparison()
	a.refresh()
}
