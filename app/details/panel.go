package details

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// State is what the panel shows.
type State struct {
	Selected   []diagram.ID
	Plan       diagram.ID
	Convention unit.Convention
	Result     *analysis.Result             // nil while there is none
	Bands      map[diagram.ID]analysis.Band // of the result; nil where nobody has asked

	// Changes are how the selected protector differs from the plan of the name
	// Against, where that is marked.
	Against string
	Changes []string

	// Surges shows the surge cases in place of the selection; Done is called
	// where the person has done with them.
	Surges bool
	Done   func()

	// Entry is shown in place of the selection and of the surge cases; nil where
	// no entry of the library is edited.
	Entry *LibraryEntry

	// Explain returns the result of a bus with its workings, which the result
	// of all buses leaves out. It is called where another bus, another result or
	// other units are to be shown.
	Explain func(bus diagram.ID) (analysis.BusResult, bool)

	Buys      Buys   // what the selected protector buys
	SolveBuys func() // by the transient, or stops that; nil where nothing is selected that buys

	// ExplainFault returns the fault current at a terminal with its working, as
	// Explain does for a bus. Nil where fault currents are not explained.
	ExplainFault func(at diagram.End) (analysis.Fault, bool)
}

// elsewhere reports whether something else than the selection is shown.
func (s State) elsewhere() bool { return s.Surges || s.Entry != nil }

// entry returns the id of the entry that is edited, or nothing.
func (s State) entry() diagram.ID {
	if s.Entry == nil {
		return ""
	}
	return s.Entry.ID
}

// Panel is the right-hand region of the window. Use New.
type Panel struct {
	editor  Editor
	name    *widget.RichText
	about   *look.Faint
	verdict *look.Faint // of a feeder along its length
	heads   *heads
	fields  *fyne.Container
	cases   *casesView
	library *libraryView
	fault   *faultView
	duty    *dutyView
	buys    *buysView
	cost    *costView
	changes *changesView
	working *workingView
	object  *fyne.Container // the form alone, or above the working
	scroll  *container.Scroll
	split   *container.Split
	state   State
	built   bool // for the record, plan and convention of the state, or for its surge cases
	forms   []*form
	folded  map[string]bool // sections, as folds has them
	used    bool            // it is what was last used

	// Choose asks for an image and hands it on as diagram.EncodeImage has it; nil
	// where nobody can be asked.
	Choose func(use func(image string))

	// Lost is told why a text was not taken whose field goes, since something
	// else is shown; nil where nobody asks.
	Lost func(why string)
}

// New returns an empty panel that edits through the editor.
func New(editor Editor) *Panel {
	p := &Panel{editor: editor, fields: container.NewVBox(), folded: map[string]bool{}}
	p.fault, p.duty, p.working = newFaultView(p.foldsOf("results")), newDutyView(p.foldsOf("results")), newWorkingView(p)
	p.buys, p.cost = newBuysView(p.foldsOf("results")), newCostView(p.foldsOf("results"))
	p.changes = newChangesView(p.foldsOf("results"))
	p.cases, p.library = newCasesView(p), newLibraryView(p)
	p.name = widget.NewRichText(&widget.TextSegment{Style: look.Style(look.ColorHeading, look.SizeHeading, true, true)})
	p.name.Wrapping = fyne.TextWrapWord
	p.about, p.verdict = look.NewFaintParagraph(""), look.NewFaintParagraph("")
	p.heads = &heads{name: p.name, about: p.about, verdict: p.verdict}
	p.scroll = padded(p.on, container.NewVBox(container.New(p.heads, p.name, p.about, p.verdict), p.changes.object, p.fields, p.buys.object, p.cost.object, p.fault.object, p.duty.object))
	p.scroll.OnScrolled = func(fyne.Position) {
		for _, f := range p.forms {
			f.explain(false, "", nil) // the pointer is on something else now
		}
	}
	p.split = container.NewVSplit(p.scroll, p.working.object)
	p.split.SetOffset(0.52)
	p.object = container.NewStack(p.scroll)
	return p
}

// flush takes the margin off a text, so that it begins where the labels of the
// fields do.
func flush(o fyne.CanvasObject) fyne.CanvasObject {
	margin := -theme.Size(theme.SizeNameInnerPadding)
	return container.New(layout.NewCustomPaddedLayout(margin/2, margin/2, margin, margin), o)
}

// padded lets an object scroll on a ground.
func padded(on func(fyne.CanvasObject) fyne.CanvasObject, o fyne.CanvasObject) *container.Scroll {
	return container.NewVScroll(on(margined(o)))
}

// foldsOf returns the folds of a kind of form.
func (p *Panel) foldsOf(kind string) folds { return folds{kind, p.folded, p.use} }

// margined sets an object off from the edges of the panel.
func margined(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(4, 4, 10, 14), o)
}

// Object returns what to place in the window.
func (p *Panel) Object() fyne.CanvasObject { return p.object }

// Show brings the panel up to date. Fields that somebody is typing in keep
// their text.
func (p *Panel) Show(state State) {
	same := p.built && state.Surges == p.state.Surges && state.entry() == p.state.entry() && state.Plan == p.state.Plan && state.Convention == p.state.Convention
	switch {
	case state.Entry != nil:
	case state.Surges:
		same = same && p.cases.fits(p.editor.Document())
	default:
		same = same && slices.Equal(state.Selected, p.state.Selected)
	}
	p.state = state
	p.head()
	if same {
		p.refresh()
	} else {
		p.build()
		p.scroll.ScrollToTop()
		p.working.scroll.ScrollToTop()
	}
	p.changes.show(state)
	p.fault.show(p.editor.Document(), state)
	p.duty.show(p.editor.Document(), state)
	p.buys.show(p.editor.Document(), state)
	p.cost.show(p.editor.Document(), state)
	p.showWorking(p.working.show(p.editor.Document(), state))
}

// showWorking gives the working the lower half of the panel, or the form all
// of it.
func (p *Panel) showWorking(there bool) {
	want := fyne.CanvasObject(p.scroll)
	if there {
		want = p.split
	}
	if p.object.Objects[0] == want {
		return
	}
	p.object.Objects = []fyne.CanvasObject{want}
	p.object.Refresh()
}

// Rebuild makes all of it anew, after a change of theme.
func (p *Panel) Rebuild() {
	p.built = false
	p.working.forget()
	p.changes.forget()
	p.fault.forget()
	p.duty.forget()
	p.buys.forget()
	p.cost.forget()
	p.Show(p.state)
}

// FocusFirst puts the focus into the field that is wanted most, with its text
// selected, so that typing replaces it.
func (p *Panel) FocusFirst(c fyne.Canvas) {
	for _, f := range p.forms {
		if field := f.foremost(); field != nil {
			c.Focus(field)
			if text, ok := field.(*entry); ok {
				text.selectAll() // also where it had the focus
			}
			return
		}
	}
}

// Commit takes what is typed and not yet handed over, as a change of focus
// does.
func (p *Panel) Commit() {
	for _, f := range p.forms {
		f.commit()
	}
}

func (p *Panel) refresh() {
	switch {
	case p.state.Entry != nil:
		p.library.show(p.state)
	case p.state.Surges:
		p.cases.refresh()
	}
	for _, f := range p.forms {
		f.refresh()
	}
}

// build makes the rows anew. A field that had the focus is gone then, and
// keys must not go on to it.
func (p *Panel) build() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p.object); c != nil && p.holds(c.Focused()) {
		c.Unfocus()
		p.use(true)
	}
	lost := p.refused()
	p.forms = p.makeForms()
	p.built = true
	p.fields.RemoveAll()
	switch {
	case p.state.Entry != nil:
		p.fields.Add(p.library.object)
	case p.state.Surges:
		p.fields.Add(p.cases.object)
	}
	for _, f := range p.forms {
		p.fields.Add(f.object)
	}
	if p.state.Entry != nil {
		p.fields.Add(p.library.findings)
	}
	p.fields.Refresh()
	if lost != "" && p.Lost != nil {
		p.Lost(lost)
	}
}

// refused returns why a text that stands in a field was not taken, or nothing.
func (p *Panel) refused() string {
	for _, f := range p.forms {
		if why := f.refused(); why != "" {
			return why
		}
	}
	return ""
}

func (p *Panel) holds(field fyne.Focusable) bool {
	return field != nil && slices.ContainsFunc(p.forms, func(f *form) bool { return f.holds(field) })
}

func (p *Panel) makeForms() []*form {
	c := p.state.Convention
	if p.state.Entry != nil {
		p.library.show(p.state)
		return []*form{newForm(entryTarget(p.state.Entry, c), entryRows(c), p.foldsOf("protector"))}
	}
	if p.state.Surges {
		p.cases.show()
		return []*form{newForm(surgeTarget(p.editor, p.cases.at, c), surgeRows(c, p.editor.Document), p.foldsOf("surge case"))}
	}
	switch len(p.state.Selected) {
	case 0:
		info := infoTarget(p.editor, c)
		info.choose = p.Choose
		sheet := newForm(info, infoRows(c), p.foldsOf("sheet"))
		codes := newForm(infoTarget(p.editor, c), codesRows(c, p.editor.Document), p.foldsOf("sheet"))
		plan := newForm(planTarget(p.editor, p.state.Plan, c), append([]row[diagram.Plan]{heading[diagram.Plan]("Plan")}, planRows(c)...), p.foldsOf("sheet"))
		costs := newForm(infoTarget(p.editor, c), costRows(c), p.foldsOf("sheet"))
		return []*form{sheet, plan, codes, costs}
	}
	return p.recordForm(p.state.Selected)
}

// recordForm is that of one record, or of several alike.
func (p *Panel) recordForm(ids []diagram.ID) []*form {
	c, doc := p.state.Convention, p.editor.Document()
	if kind, ok := kindOf(doc, ids); ok {
		return []*form{newForm(partTarget(p.editor, ids, c), shared(partRows(kind, c, p.editor.Document), ids), p.foldsOf(string(kind)))}
	}
	if all(ids, doc.Feeder) {
		return []*form{newForm(feederTarget(p.editor, ids, c), shared(feederRows(c), ids), p.foldsOf("feeder"))}
	}
	if all(ids, doc.Protector) {
		return []*form{newForm(protectorTarget(p.editor, ids, c), shared(protectorRows(c), ids), p.foldsOf("protector"))}
	}
	return nil
}

// alike reports whether all that is selected has the same form.
func (p *Panel) alike() bool {
	doc, ids := p.editor.Document(), p.state.Selected
	_, parts := kindOf(doc, ids)
	return parts || all(ids, doc.Feeder) || all(ids, doc.Protector)
}

// kindOf returns the kind of parts that have the same form.
func kindOf(doc *diagram.Document, ids []diagram.ID) (kind diagram.Kind, ok bool) {
	for i, id := range ids {
		part, ok := doc.Part(id)
		if !ok || i > 0 && part.Kind != kind && !(part.Kind.IsBoard() && kind.IsBoard()) {
			return "", false
		}
		kind = part.Kind
	}
	return kind, len(ids) > 0
}

// all reports whether all ids are of records of a sort.
func all[R any](ids []diagram.ID, of func(diagram.ID) (R, bool)) bool {
	return !slices.ContainsFunc(ids, func(id diagram.ID) bool { _, ok := of(id); return !ok })
}

// shared leaves out of the rows of several records the name, which is of each alone.
func shared[R any](rows []row[R], ids []diagram.ID) []row[R] {
	if len(ids) < 2 {
		return rows
	}
	return slices.DeleteFunc(slices.Clone(rows), func(r row[R]) bool { return r.label == "name" })
}
