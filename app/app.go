package app

import (
	"time"

	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/app/details"
	"clampline/app/drawer"
	"clampline/app/look"
	"clampline/app/parts"
	"clampline/app/sheet"
	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// Options are what the window needs from its surroundings.
type Options struct {
	// Recovery is the folder of the recovery copies; empty keeps none.
	Recovery string
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

	editor *edit.Editor
	path   string // of the file, or empty while it has none
	shown  shown
	judge  *judge
	result *analysis.Result
	took   time.Duration
	asked  time.Time
	copy   recovery

	sheet    *sheet.Sheet
	strip    *parts.Strip
	details  *details.Panel
	findings *drawer.Findings
	bar      *bar
	status   *status
	regions  *regions
	commands []edit.Command
	menu     *menu
}

// shown tells what the regions of the window were last brought up to.
type shown struct {
	editor                              *edit.Editor
	document, scene, selection, overlay uint64
	view                                uint64
	plan                                diagram.ID
	convention                          unit.Convention
	result                              *analysis.Result
}

// New returns the program with an empty sheet. Show opens its window.
func New(a fyne.App, options Options) *App {
	out := &App{app: a, options: options, prefs: prefs{a.Preferences()}, run: executor{
		background: func(f func()) { go f() },
		window:     fyne.Do,
	}}
	if options.Inline {
		out.run = executor{func(f func()) { f() }, func(f func()) { f() }}
	}
	out.look = look.Theme{Dark: out.prefs.dark()}
	a.Settings().SetTheme(out.look)
	out.window = a.NewWindow("Clampline")
	out.judge = &judge{run: out.run, done: out.judged}
	out.copy.keeper.run = out.run
	out.build()
	out.take(diagram.New(), "")
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

// take makes the document the one that is worked on.
func (a *App) take(doc *diagram.Document, path string) {
	a.path = path
	a.result = nil
	a.editor = edit.New(doc, edit.Options{
		Scene:            scene.Options{Convention: a.prefs.convention(doc)},
		DefaultProtector: a.usualProtector,
		FocusDetails:     func() { a.details.FocusFirst(a.window.Canvas()) },
		Clipboard:        a.app.Clipboard(),
	})
	a.sheet.SetEditor(a.editor)
	a.refresh()
	a.editor.ZoomFit()
	a.refresh()
}

// usualProtector is what a new protector on the host is, by the system that
// arrives there.
func (a *App) usualProtector(doc *diagram.Document, host diagram.Part) diagram.Protector {
	node := analysis.Trace(doc).Node(host)
	if node == nil {
		return analysis.TypicalProtector(diagram.System{})
	}
	return analysis.TypicalProtector(node.System)
}

// refresh brings every region up to date with the editor. It costs little
// where nothing changed.
func (a *App) refresh() {
	convention := a.prefs.convention(a.editor.Document())
	a.editor.SetOptions(scene.Options{Convention: convention})
	now := shown{
		editor: a.editor, document: a.editor.DocumentVersion(), scene: a.editor.SceneVersion(), selection: a.editor.SelectionVersion(),
		overlay: a.editor.OverlayVersion(), view: a.editor.ViewVersion(), plan: a.editor.Plan(), convention: convention, result: a.result,
	}
	before := a.shown
	a.shown = now
	if now == before {
		return
	}
	fresh := now.editor != before.editor
	if fresh || now.document != before.document || now.plan != before.plan {
		a.asked = time.Now()
		a.judge.ask(a.editor.Document(), a.editor.Plan())
	}
	if fresh || now.document != before.document || now.selection != before.selection || now.plan != before.plan ||
		now.convention != before.convention || now.result != before.result {
		a.details.Show(a.detailState(convention))
	}
	if fresh || now.result != before.result || now.convention != before.convention {
		a.mark(convention)
	}
	a.sheet.Update()
	a.strip.Show(a.editor.Armed())
	a.bar.show(a)
	a.status.show(a)
	a.menu.show(a)
	a.title()
}

func (a *App) detailState(convention unit.Convention) details.State {
	return details.State{
		Selected: a.editor.Selection(), Plan: a.editor.Plan(), Convention: convention, Result: a.result,
		Explain: func(bus diagram.ID) (analysis.BusResult, bool) {
			return assess.Explain(a.editor.Document(), a.editor.Plan(), bus)
		},
	}
}

// judged takes the outcome of a background run.
func (a *App) judged(result *analysis.Result, err error) {
	if err != nil {
		return // only a cancelled run fails, and the newer one follows
	}
	if _, ok := a.editor.Document().Plan(result.Plan); !ok {
		return
	}
	a.took = time.Since(a.asked)
	a.result = result
	a.refresh()
}

// mark hands the result to the drawing and to the findings.
func (a *App) mark(convention unit.Convention) {
	if a.result == nil {
		a.editor.SetMarks(scene.Marks{})
		a.findings.Show(nil)
		return
	}
	marks := mark.Of(a.editor.Document(), a.result, convention)
	a.editor.SetMarks(marks)
	a.sheet.SetLegend(scene.Legend(marks.Legend))
	a.findings.Show(a.result.Findings)
	a.regions.countFindings(len(a.result.Findings))
}
