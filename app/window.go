package app

import (
	"cmp"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/app/details"
	"clampline/app/drawer"
	"clampline/app/look"
	"clampline/app/parts"
	"clampline/app/sheet"
	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// forward is the editor that is open, for regions that outlive it.
type forward struct{ app *App }

func (f forward) Document() *diagram.Document { return f.app.editor.Document() }

func (f forward) Change(label string, change func(*diagram.Tx) error) error {
	err := f.app.editor.Change(label, change)
	f.app.refresh()
	return err
}

func (f forward) ChangeKeyed(key, label string, change func(*diagram.Tx) error) error {
	err := f.app.editor.ChangeKeyed(key, label, change)
	f.app.refresh()
	return err
}

func (f forward) EndKeyed() { f.app.editor.EndKeyed() }

// build makes the regions and lays them out.
func (a *App) build() {
	a.editor = edit.New(diagram.New(), edit.Options{})
	palette := a.look.Palette()
	a.sheet = sheet.New(a.editor, palette)
	a.sheet.Changed = a.refresh
	a.sheet.Key = a.key
	a.sheet.Focused = a.detailsLeft
	a.sheet.Shortcut = a.shortcut
	a.sheet.Modifiers = a.options.Modifiers
	a.showLegend(mark.Of(diagram.New(), &analysis.Result{}, unit.NorthAmerican).Legend)
	a.strip = parts.New(palette, parts.Hands{
		Take:  func(command string) { a.runNamed(command) },
		Lift:  a.lift,
		Carry: func(at fyne.Position) { a.sheet.Carry(at) },
		Drop:  a.drop,
	})
	a.details = details.New(forward{a})
	a.details.Choose = a.chooseImage
	a.details.Lost = func(why string) { a.note("Not taken: " + why) }
	a.findings = drawer.NewFindings(drawer.Hands{GoTo: a.goTo, Mend: a.mend,
		Own: func() []library.Entry { return a.library.own.entries() }, Library: a.showFitting, Copy: a.copyPlan, Aside: a.askAside, Again: a.countAgain, Remember: a.prefs.setFindings}, a.prefs.findings())
	a.library = newProtectors(a)
	a.newComparison()
	a.own = a.ownCommands()
	a.commands = plansInOrder(slices.Concat(a.own, a.editorCommands()))
	a.bar = newBar(a)
	a.status = newStatus(func() { a.showView(viewFindings) })
	a.menu = newMenu(a)
	a.regions = newRegions(a)
	a.window.SetMainMenu(a.menu.main)
	a.listen()
	a.window.SetContent(a.regions.object)
	a.window.SetOnDropped(func(_ fyne.Position, files []fyne.URI) { a.openDropped(files) })
	a.regions.setDrawer(a.prefs.drawer())
}

// detailsLeft notes that the keys go to the sheet.
func (a *App) detailsLeft() { a.details.Unuse() }

// lift takes up what is dragged from the strip. Other than the command, it
// does not look at what is selected.
func (a *App) lift(command string) {
	switch command {
	case "connect":
		a.editor.ArmFeeder()
	case "attach protector":
		a.editor.ArmProtector()
	default:
		a.runNamed(command)
	}
	a.refresh()
}

// drop ends a drag from the strip: over the sheet it places, elsewhere it puts
// the tool down.
func (a *App) drop(at fyne.Position) {
	if !a.sheet.Drop(at) {
		a.editor.Handle(edit.Event{Kind: edit.KeyPress, Key: edit.KeyEscape})
	}
	a.refresh()
}

// goTo selects the records of a finding and brings them into view.
func (a *App) goTo(records []diagram.ID) {
	a.editor.Select(records...)
	if len(records) > 0 {
		a.editor.Reveal(records[0])
	}
	a.refresh()
}

// title names the file, with a mark while it is not saved.
func (a *App) title() {
	name := cmp.Or(a.editor.Document().Info().Title, "New sheet")
	if a.path != "" {
		name = filepath.Base(a.path)
	}
	if a.held.reading {
		name += " (for reading)"
	}
	if !a.editor.IsSaved() {
		name = "• " + name
	}
	if title := unit.Visible(name) + " – Clampline"; title != a.window.Title() {
		a.window.SetTitle(title)
	}
}

// Names of the views in the drawer.
const viewFindings = "Findings"

// regions lays the window out: bar above, strip at the left, details at the
// right, drawer and status line below.
type regions struct {
	object *fyne.Container
	middle *fyne.Container // sheet alone, or sheet above drawer
	sheet  fyne.CanvasObject
	split  *container.Split
	drawer *drawer.Tabs
	hint   *fyne.Container // on a sheet without parts
	open   bool
}

// detailsWidth is how wide the details are at least, px. It does not follow from
// what they show, or sheet and drawer would move with the selection.
const detailsWidth = 342

// drawerShare is the share of the height that the sheet has above the drawer at
// first.
const drawerShare = 0.64

func newRegions(a *App) *regions {
	r := &regions{hint: newHint(a)}
	r.sheet = container.NewStack(a.sheet, r.hint)
	r.drawer = drawer.NewTabs(func(name string) { a.prefs.setView(name); a.viewed() }, func() { a.setDrawer(false) })
	r.drawer.Add(viewFindings, a.findings.Object())
	r.drawer.Add(viewCompare, a.comparison.view.Object())
	r.drawer.Add(viewProtectors, a.library.view.Object())
	r.drawer.Show(a.prefs.view())
	r.split = container.NewVSplit(r.sheet, container.NewStack(look.NewGround(look.ColorBand), r.drawer.Object()))
	r.split.SetOffset(drawerShare)
	r.middle = container.NewStack(r.sheet)
	right := container.New(wide(detailsWidth), container.NewStack(look.NewGround(look.ColorBand), a.details.Object()))
	across := container.NewHSplit(r.middle, right)
	across.SetOffset(0.75)
	left := container.NewStack(look.NewGround(look.ColorBand), a.strip.Object())
	r.object = container.NewBorder(a.bar.object, a.status.object, left, nil, across)
	return r
}

// showHint shows the hint on a sheet without parts.
func (r *regions) showHint(empty bool) {
	switch {
	case empty && !r.hint.Visible():
		r.hint.Show()
	case !empty && r.hint.Visible():
		r.hint.Hide()
	}
}

func (r *regions) setDrawer(open bool) {
	r.open = open
	r.middle.RemoveAll()
	if open {
		r.split.Leading = r.sheet
		r.middle.Add(r.split)
		r.split.Refresh()
		return
	}
	r.middle.Add(r.sheet)
}

func (a *App) setDrawer(open bool) {
	a.prefs.setDrawer(open)
	a.regions.setDrawer(open)
	a.sheet.Update()
	a.viewed()
}

// viewed brings the window up to date after another view of the drawer is seen:
// an entry of the library is closed with the list.
func (a *App) viewed() {
	if a.regions != nil {
		a.details.Commit()
		a.refresh()
	}
}

// showView opens the drawer on the view with the name.
func (a *App) showView(name string) {
	if a.regions.drawer.Show(name) {
		a.prefs.setView(name)
		a.viewed()
	}
	if !a.regions.open {
		a.setDrawer(true)
	}
}

// toggleView opens the drawer on the view with the name, or closes the drawer
// where it is open on it.
func (a *App) toggleView(name string) {
	if a.regions.open && a.regions.drawer.Shown() == name {
		a.setDrawer(false)
		return
	}
	a.showView(name)
}
