package app

import (
	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/mark"
	"clampline/app/details"
	"clampline/app/drawer"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/edit"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
	"slices"
)

// state names one state of what is judged.
type state struct {
	editor   *edit.Editor
	document uint64
	plan     diagram.ID
	basis    analysis.Basis
	surge    surgeChoice
}

// shown tells what the regions of the window were last brought up to.
type shown struct {
	state
	selection  uint64
	overlay    uint64 // rises with all that the sheet shows
	convention unit.Convention
	result     *analysis.Result
	bands      *bands
	against    diagram.ID // the plan from which differences are marked
	progress   int64      // of the work on them
	gaveUp     bool
	editing    bool       // the surge cases
	entry      diagram.ID // of the library, that is edited
	library    bool       // its view is seen
	comparing  bool       // the view of the plans is seen
	compared   int64      // rises with what is solved for it
	bought     int64      // rises with what is known of what a protector buys
	undo, redo bool
	saved      bool
	reading    bool // the file is another window's
	uncopied   bool // no recovery copy could be written
	path       string
	notice     string
}

// facet is something of what is shown that may change, or several of it together.
type facet uint32

// The facets, under the names of what they are of.
const (
	ofEditor facet = 1 << iota
	ofDocument
	ofPlan
	ofBasis
	ofSurge
	ofSelection
	ofOverlay
	ofConvention
	ofResult
	ofGaveUp
	ofEditing
	ofEntry
	ofLibrary
	ofHistory
	ofSaved
	ofReading
	ofCopy
	ofPath
	ofNotice
	ofBands
	ofAgainst
	ofProgress
	ofComparing
	ofCompared
	ofBuys

	ofAll     = ofBuys<<1 - 1
	ofState   = ofEditor | ofDocument | ofPlan | ofBasis | ofSurge
	ofPicture = ofEditor | ofOverlay
	ofLists   = ofAll &^ (ofOverlay | ofNotice | ofBands | ofProgress | ofComparing | ofCompared | ofBuys) // of the drawer, which does not follow the pointer
)

// changed returns what differs between two states of the window.
func changed(now, before *shown) facet {
	var out facet
	for _, c := range [...]struct {
		is facet
		so bool
	}{
		{ofEditor, now.editor != before.editor},
		{ofDocument, now.document != before.document},
		{ofPlan, now.plan != before.plan},
		{ofBasis, now.basis != before.basis},
		{ofSurge, now.surge != before.surge},
		{ofSelection, now.selection != before.selection},
		{ofOverlay, now.overlay != before.overlay},
		{ofConvention, now.convention != before.convention},
		{ofResult, now.result != before.result},
		{ofGaveUp, now.gaveUp != before.gaveUp},
		{ofEditing, now.editing != before.editing},
		{ofEntry, now.entry != before.entry},
		{ofLibrary, now.library != before.library},
		{ofHistory, now.undo != before.undo || now.redo != before.redo},
		{ofSaved, now.saved != before.saved},
		{ofReading, now.reading != before.reading},
		{ofCopy, now.uncopied != before.uncopied},
		{ofPath, now.path != before.path},
		{ofNotice, now.notice != before.notice},
		{ofBands, now.bands != before.bands},
		{ofAgainst, now.against != before.against},
		{ofProgress, now.progress != before.progress},
		{ofComparing, now.comparing != before.comparing},
		{ofCompared, now.compared != before.compared},
		{ofBuys, now.bought != before.bought},
	} {
		if c.so {
			out |= c.is
		}
	}
	return out
}

// region is something that follows the state of the window.
type region struct {
	name string
	on   facet      // what it depends on
	show func(*App) // brings it up to date
}

// regionList returns what follows the state, in the order in which it does.
func regionList() []region {
	return []region{
		{"details", ofState | ofSelection | ofConvention | ofResult | ofBands | ofAgainst | ofEditing | ofEntry | ofBuys, func(a *App) { a.details.Show(a.detailState()) }},
		// of the menu: a change alone is followed by a result, and so is a drag, not at each step
		{"menu", ofPlan | ofBasis | ofSelection | ofResult | ofHistory | ofEntry, func(a *App) { a.menu.show(a.editor) }},
		{"hint", ofState, (*App).showHint},
		{"judgement", ofState, func(a *App) { a.judge.ask(a.request()) }},
		{"what it buys", ofState | ofSelection | ofResult, (*App).seekBuys}, // after the judgement is asked for
		{"plans", ofState, func(a *App) { a.bar.showPlans(a) }},
		{"surge cases", ofState | ofConvention, func(a *App) { a.bar.showSurges(a) }},
		{"sheet", ofPicture, func(a *App) { a.sheet.Update() }},
		{"strip", ofPicture, func(a *App) { a.strip.Show(a.editor.Armed()) }},
		{"findings", ofLists, (*App).showFindings},
		{"library", ofLists, func(a *App) { a.library.show() }},
		{"comparison", ofState | ofConvention | ofResult | ofBands | ofComparing | ofCompared, (*App).showComparison},
		{"bar", ofAll, func(a *App) { a.bar.show(a) }},
		{"status", ofAll, func(a *App) { a.status.show(a) }},
		{"title", ofAll, (*App).title},
	}
}

func (a *App) state() state {
	return state{a.editor, a.editor.DocumentVersion(), a.editor.Plan(), a.basis, a.surge}
}

// now returns what the regions have to show.
func (a *App) now() shown {
	e := a.editor
	return shown{
		state:     a.state(),
		selection: e.SelectionVersion(), overlay: e.OverlayVersion(),
		convention: a.convention(), result: a.judgement.result, gaveUp: a.judgement.gaveUp, editing: a.editing,
		bands: a.sure.found, against: e.Against(), progress: a.sure.progress(), comparing: a.isCompareSeen(), compared: a.comparison.version, bought: a.buying.version,
		entry: a.library.editing, library: a.library.isSeen(),
		undo: a.canUndo(), redo: a.canRedo(), saved: e.IsSaved(), reading: a.held.reading, uncopied: a.copy.failure != "",
		path: a.path, notice: a.noticed(),
	}
}

// refresh brings every region up to date with the editor. It runs on each move
// of the pointer: what costs more than a little is done only where it changes.
func (a *App) refresh() {
	a.editor.SetOptions(scene.Options{Convention: a.convention()})
	a.forgetBands()
	a.forgetBuys()
	a.mark()
	before := a.shown
	now := a.closeForms(before, a.now())
	if now == before {
		return
	}
	a.shown = now
	differs := changed(&now, &before)
	for _, r := range a.follow {
		if r.on&differs != 0 {
			r.show(a)
		}
	}
}

// closeForms ends the editing of the surge cases where something else was
// selected, which is to be seen, and that of an entry of the library there and
// where the list is gone that it was opened from.
func (a *App) closeForms(before, now shown) shown {
	selected := now.selection != before.selection
	if before.editing && selected {
		a.editing, now.editing = false, false
	}
	if left := before.library && !now.library; before.entry != "" && (selected || left) {
		a.library.editing, now.entry = "", ""
	}
	return now
}

// showHint shows the hint on a sheet without parts.
func (a *App) showHint() {
	parts, _, _ := a.editor.Document().Count()
	a.regions.showHint(parts == 0)
}

// subject returns what is to be judged now.
func (a *App) subject() subject {
	return subject{a.editor.Document(), a.editor.Plan(), a.basis, a.surge}
}

func (a *App) request() request {
	return request{subject: a.subject(), version: a.editor.DocumentVersion() + 1, bus: details.BusOf(a.editor.Document(), a.editor.Selection()), convention: a.convention()}
}

func (a *App) detailState() details.State {
	return details.State{
		Against: a.against(), Changes: a.changes(),
		Selected: a.editor.Selection(), Plan: a.editor.Plan(), Convention: a.convention(), Result: a.judgement.result, Bands: a.bandsShown(),
		Surges: a.editing, Done: a.endSurges, Entry: a.library.entry(),
		Explain: func(bus diagram.ID) (analysis.BusResult, bool) {
			if a.judgement.explained.ID != bus {
				a.judgement.explain(bus)
			}
			return a.judgement.explained, a.judgement.explained.ID == bus
		},
		Buys: a.buying.buys, SolveBuys: a.solveBuys,
		ExplainFault: func(at diagram.End) (analysis.Fault, bool) {
			return fault.Explain(a.judgement.snapshot, a.judgement.result.Topology, at)
		},
	}
}

// judged takes the outcome of a background run, unless something else is to be
// judged by now.
func (a *App) judged(j judgement) {
	if j.subject != a.subject() {
		return
	}
	first, before := a.judgement.result == nil, a.judgement.unsolved
	a.judgement = j
	a.refresh()
	if j.gaveUp {
		a.findings.ShowFirst()
	}
	if j.unsolved != nil && (before == nil || before.Error() != j.unsolved.Error()) {
		a.findings.ShowFirst()
		a.note("The transient is not solved: " + unit.Words(j.unsolved.Error(), a.convention()))
	}
	if first && a.editor.IsFitted() {
		a.fit() // what the marks add to the drawing is to be seen too
	}
}

// marked tells which result the drawing shows.
type marked struct {
	editor     *edit.Editor
	result     *analysis.Result
	convention unit.Convention
	bands      *bands
	against    string // the plan from which differences are marked; empty for none
}

// mark hands the result to the drawing.
func (a *App) mark() {
	j, now := &a.judgement, marked{a.editor, a.judgement.result, a.convention(), a.sure.found, a.against()}
	if now == a.marked {
		return
	}
	a.marked = now
	if j.result == nil {
		a.editor.SetMarks(scene.Marks{})
		return
	}
	if j.convention != now.convention {
		j.marks, j.convention = mark.Of(j.snapshot, j.result, now.convention), now.convention
	}
	a.editor.SetMarks(mark.WithBands(j.marks, a.bandsShown(), now.convention))
	entries := j.marks.Legend
	if now.against != "" {
		entries = slices.Concat(entries, scene.DifferenceLegend(now.against))
	}
	a.showLegend(entries)
}

// against returns the name of the plan from which differences are marked, or nothing.
func (a *App) against() string {
	if id := a.editor.Against(); id != "" {
		return a.editor.Document().NameOf(id)
	}
	return ""
}

// showLegend puts the entries on the card of the sheet, unless it has them.
func (a *App) showLegend(entries []scene.LegendEntry) {
	if !slices.Equal(entries, a.legend) {
		a.legend = entries
		a.layLegend()
	}
}

// layLegend puts the card on the sheet, unless it is hidden.
func (a *App) layLegend() {
	card := draw.NewPicture()
	if a.prefs.legend() {
		card = scene.Legend(a.legend)
	}
	a.sheet.SetLegend(card)
}

// changes are how the selected protector differs from that plan.
func (a *App) changes() []string {
	if selected := a.editor.Selection(); len(selected) == 1 {
		return a.editor.ChangesOf(selected[0])
	}
	return nil
}

// toggleLegend shows or hides the card.
func (a *App) toggleLegend() {
	a.prefs.setLegend(!a.prefs.legend())
	a.layLegend()
}

// showFindings lists the findings, and counts them and the verdicts.
func (a *App) showFindings() {
	state := drawer.State{
		Document: a.editor.Document(), Plan: a.editor.Plan(), Selected: a.editor.Selection(), Convention: a.convention(), Due: a.judge.isWorking(),
	}
	switch {
	case a.judgement.result != nil:
		state.Findings, state.Aside = a.judgement.result.Findings, a.judgement.result.Aside
	case a.judgement.gaveUp:
		state.Findings = []analysis.Finding{gaveUpFinding()}
	default:
		state.Unjudged = true
	}
	a.findings.Show(state)
	a.regions.drawer.SetCount(viewFindings, len(state.Findings))
	a.status.count(a.judgement.result)
}

// words is the convention, and what it was found for.
type words struct {
	editor     *edit.Editor
	document   uint64
	units      units
	convention unit.Convention
}

// convention returns the units and words of the sheet. They may depend on its
// sources, so they are looked up where the document has changed.
func (a *App) convention() unit.Convention {
	now := words{a.editor, a.editor.DocumentVersion(), a.prefs.units(), a.words.convention}
	if now != a.words {
		now.convention = a.prefs.convention(a.editor.Document())
		a.words = now
	}
	return now.convention
}
