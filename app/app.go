package app

import (
	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/app/details"
	"clampline/app/drawer"
	"clampline/app/look"
	"clampline/app/parts"
	"clampline/app/sheet"
	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/scene"
)

// Options are what the window needs from its surroundings.
type Options struct {
	// Recovery is the folder of the recovery copies; empty keeps none.
	Recovery string
	// Library is the file of the user's own protectors; empty keeps none.
	Library string
	// Modifiers returns the keys that are held; nil stands for none.
	Modifiers func() fyne.KeyModifier
	// Inline runs background work at once, for tests.
	Inline bool
}

// App is the program with its one window. Use New.
type App struct {
	app     fyne.App
	window  fyne.Window
	options Options
	prefs   prefs
	look    look.Theme
	run     executor

	editor    *edit.Editor
	path      string // of the file, or empty while it has none
	held      holding
	shown     shown
	follow    []region // what follows the state
	words     words
	marked    marked
	basis     analysis.Basis // of what is judged
	surge     surgeChoice    // that counts, on the transient basis
	editing   bool           // the surge cases are shown in the details
	judge     *judge
	judgement judgement
	sure      surety
	copy      recovery
	notice    notice
	questions []*question // those that wait for an answer

	sheet      *sheet.Sheet
	legend     []scene.LegendEntry // on its card
	strip      *parts.Strip
	details    *details.Panel
	findings   *drawer.Findings
	library    *protectors
	comparison comparison
	buying     buying
	bar        *bar
	status     *status
	regions    *regions
	own        []edit.Command // of the window
	commands   []edit.Command // own, and those of the editor
	menu       *menu
}

// New returns the program with an empty sheet. Show opens its window.
func New(a fyne.App, options Options) *App {
	nameOnly()
	out := &App{app: a, options: options, prefs: prefs{a.Preferences()}, run: beside(fyne.Do), follow: regionList()}
	if options.Inline {
		out.run = inline()
	}
	out.look = look.Theme{Dark: out.prefs.dark()}
	out.basis = out.prefs.basis()
	a.Settings().SetTheme(out.look)
	out.window = a.NewWindow("Clampline")
	out.judge = &judge{run: out.run, done: out.judged}
	out.copy.keeper.run = out.run
	out.build()
	out.workOn(diagram.New(), "")
	if warning := out.library.own.own.Warning(); warning != "" {
		out.showMessage("Your library of protectors", out.library.own.path+"\n\n"+warning)
	}
	out.window.Resize(out.prefs.size())
	out.window.SetCloseIntercept(out.close)
	return out
}

// Window returns the window.
func (a *App) Window() fyne.Window { return a.window }

// Editor returns the editor of the sheet that is open.
func (a *App) Editor() *edit.Editor { return a.editor }

// Show opens the window.
func (a *App) Show() { a.window.Show() }

// workOn makes the document the one that is worked on.
func (a *App) workOn(doc *diagram.Document, path string) {
	a.path = path
	a.judgement, a.surge, a.editing = judgement{}, surgeChoice{}, false
	a.editor = edit.New(doc, edit.Options{
		Scene:            scene.Options{Convention: a.prefs.convention(doc)},
		DefaultProtector: analysis.TypicalFor,
		FocusDetails:     a.focusDetails,
		Clipboard:        a.app.Clipboard(),
	})
	a.sheet.SetEditor(a.editor)
	a.refresh()
	a.fit()
	a.focusSheet()
}

// fit shows the whole sheet.
func (a *App) fit() {
	a.editor.ZoomFit()
	a.refresh()
}

// focusDetails puts the focus into the form of the selection.
func (a *App) focusDetails() {
	a.editing = false
	a.refresh() // the form may still be that of the selection before
	a.details.FocusFirst(a.window.Canvas())
}
