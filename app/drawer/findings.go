package drawer

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// State is what the findings are shown for.
type State struct {
	Document   *diagram.Document // that goes on changing; another one begins anew
	Plan       diagram.ID        // that is shown
	Findings   []analysis.Finding
	Aside      []analysis.SetAside // which are not among them
	Selected   []diagram.ID
	Convention unit.Convention
	Due        bool // a newer result is to come: nothing may be mended by this one
	Unjudged   bool // there is no result yet: that there is no finding says nothing
}

// Hands are what the findings ask for. None may be nil.
type Hands struct {
	GoTo     func(records []diagram.ID)
	Mend     func([]analysis.Finding) // by the change of each, as one step
	Own      func() []library.Entry   // the user's protectors, to choose from
	Library  func(analysis.Opening)   // shows the protectors that fit there
	Copy     func()                   // the plan, and shows the copy
	Aside    func(analysis.Finding)   // sets it aside, after it has asked why
	Again    func(analysis.SetAside)  // counts it again
	Remember func(Settings)
}

// Settings are what lasts from one start to the next.
type Settings struct {
	Hide     [severities]bool // by severity
	Grouping Grouping         // empty for Ungrouped
}

// Findings is the list of what is wrong or doubtful, above it what is listed,
// and beside it the whole of the one with the cursor. Use NewFindings.
type Findings struct {
	hands    Hands
	state    State
	filter   filter
	grouping Grouping
	folded   map[string]bool // groups of which only the heading is listed
	kept     []analysis.Finding
	lines    []line
	at       int               // line of the cursor; -1 where there is none
	picked   *analysis.Finding // that is shown whole; nil where none is
	followed bool              // sheet and details show what was picked, or it was mended
	left     int               // line of the cursor whose finding is gone, and no other took its place; -1 where that is not so
	going    bool              // the selection is that of a finding, and narrows nothing

	object *fyne.Container
	body   *fyne.Container
	empty  *widget.Label
	none   *widget.Label // over a list in which nothing is left
	bar    *bar
	list   *list
	whole  *whole
	icons  [severities]fyne.Resource
}

// NewFindings returns an empty list.
func NewFindings(hands Hands, settings Settings) *Findings {
	f := &Findings{hands: hands, grouping: Ungrouped, folded: map[string]bool{}, at: -1, left: -1, icons: iconsOf()}
	f.filter.hide = settings.Hide
	if slices.Contains(Groupings(), settings.Grouping) {
		f.grouping = settings.Grouping
	}
	f.empty, f.none = widget.NewLabel(""), widget.NewLabel("")
	f.none.Alignment, f.none.Wrapping = fyne.TextAlignCenter, fyne.TextWrapWord
	f.whole = newWhole(f.mend, f.mendAll, f.copyPlan, f.setAside)
	f.list = newList(func() int { return len(f.lines) }, func() fyne.CanvasObject { return newRow() }, f.update)
	f.list.OnSelected = f.click
	f.list.step, f.list.enter, f.list.fold = f.step, f.goThere, f.fold
	f.bar = newBar(f)
	f.lay()
	f.relist()
	return f
}

// lay lays it out.
func (f *Findings) lay() {
	left := container.NewStack(look.NewGround(look.ColorCard), f.list, f.none)
	margin := layout.NewCustomPaddedLayout(4, 4, 6, 6)
	split := container.NewHSplit(left, container.New(margin, f.whole.object))
	split.SetOffset(0.5)
	f.body = container.New(flow{}, append([]fyne.CanvasObject{split}, f.bar.objects()...)...)
	f.object = container.NewStack(f.body, container.NewCenter(f.empty))
}

// EmptyText returns what stands where no finding does, or nothing where one does.
func (f *Findings) EmptyText() string {
	if f.state.any() {
		return ""
	}
	return f.empty.Text
}

// Object returns what to place in the window.
func (f *Findings) Object() fyne.CanvasObject { return f.object }

// Show brings the list up to date. What has the cursor keeps it while it is
// listed.
func (f *Findings) Show(s State) {
	before := f.state
	f.state = s
	if s.Document != before.Document {
		f.forget()
	}
	f.filter.aside = f.filter.aside && len(s.Aside) > 0 // the last one that counts again takes the others' list back
	scoped := f.takeScope(before)
	if !scoped && s.Document == before.Document && s.Convention == before.Convention && s.Unjudged == before.Unjudged && sameFindings(s.Findings, before.Findings) && slices.EqualFunc(s.Aside, before.Aside, sameAside) {
		if s.Due != before.Due || s.Plan != before.Plan {
			f.showWhole()
		}
		return
	}
	if scoped || s.Document != before.Document || sameFindings(s.Findings, before.Findings) {
		f.relistFrom(f.at)
		return
	}
	f.relistWith(f.successor)
}

// forget lists all of another sheet, but for what the settings hide.
func (f *Findings) forget() {
	f.filter = filter{hide: f.filter.hide}
	f.folded, f.kept, f.lines, f.at, f.left = map[string]bool{}, nil, nil, -1, -1
	f.picked, f.followed = nil, false
	f.bar.search.SetText("")
}

// takeScope lets the list follow the selection and reports whether that
// changes it. What the list itself selects, going to a finding, must not take
// the others away.
func (f *Findings) takeScope(before State) bool {
	if f.going || slices.Equal(f.state.Selected, before.Selected) {
		return false
	}
	f.filter.scope = slices.Clone(f.state.Selected)
	return f.filter.only
}

// sameFindings reports whether two lists are one.
func sameFindings(a, b []analysis.Finding) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

func sameAside(a, b analysis.SetAside) bool { return a.By == b.By && a.Severity == b.Severity }

// any reports whether there is something to list.
func (s State) any() bool { return len(s.Findings)+len(s.Aside) > 0 }

// asideOf returns how a finding is set aside, and whether it is.
func (s State) asideOf(x analysis.Finding) (analysis.SetAside, bool) {
	at := slices.IndexFunc(s.Aside, func(a analysis.SetAside) bool { return a.Key() == x.Key() })
	if at < 0 {
		return analysis.SetAside{}, false
	}
	return s.Aside[at], true
}

// ShowFirst puts the cursor on the first finding that is listed.
func (f *Findings) ShowFirst() {
	if first := slices.IndexFunc(f.lines, func(l line) bool { return !l.isHeading() }); first >= 0 {
		f.moveTo(first)
	}
}

// relist lists the findings that the filter keeps.
func (f *Findings) relist() { f.relistFrom(0) }

// relistFrom is relist where the cursor goes to a line, or to one after it, if
// what it was on is gone.
func (f *Findings) relistFrom(next int) { f.relistWith(func() int { return f.from(next) }) }

// relistWith is relist where another says which finding has the cursor if what
// it was on is gone; -1 for none.
func (f *Findings) relistWith(other func() int) {
	heading := f.heading()
	f.kept = f.filter.keep(f.state)
	f.lines = arrange(f.kept, f.grouping, f.folded, f.state.Document)
	f.pick(heading, other)
	f.empty.SetText(emptyText(f.state.Unjudged))
	setVisible(f.empty, !f.state.any())
	setVisible(f.body, f.state.any())
	setVisible(f.none, len(f.lines) == 0)
	f.none.SetText(f.noneText())
	f.bar.show(f)
	f.list.Refresh()
	f.showWhole()
}

// emptyText says why there is no finding.
func emptyText(unjudged bool) string {
	if unjudged {
		return "Not judged yet."
	}
	return "No findings."
}

// noneText says why nothing is listed.
func (f *Findings) noneText() string {
	if f.filter.only && len(f.filter.scope) == 0 {
		return "Nothing is selected: pick parts on the sheet to list what concerns them."
	}
	return "None of the findings is listed."
}

// update writes a line of the list.
func (f *Findings) update(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(f.lines) {
		return
	}
	l, r := f.lines[i], o.(*row)
	if l.isHeading() {
		r.showHeading(l, f.folded[l.group], f.state.Convention)
	} else {
		finding := f.kept[l.finding]
		r.showFinding(finding, f.icons[finding.Severity], f.aboutLine(finding), f.state.Convention)
	}
	r.mark(i == f.at, f.list.focused)
}

// aboutLine is what stands at the right of a finding in the list: its subject,
// where that is not the heading above it, and whether it is critical.
func (f *Findings) aboutLine(finding analysis.Finding) string {
	var words []string
	if finding.Critical {
		words = append(words, "critical")
	}
	if f.grouping != BySubject {
		words = append(words, unit.Terms(finding.Subject, f.state.Convention))
	}
	return strings.Join(words, " · ")
}

// click goes to the finding that was clicked, or folds a group.
func (f *Findings) click(i widget.ListItemID) {
	f.list.UnselectAll() // the same line may be clicked again
	if i >= len(f.lines) {
		return
	}
	f.moveTo(i)
	f.goThere()
}

// goThere goes to what the finding with the cursor is about, or folds the group
// under it.
func (f *Findings) goThere() {
	if f.at < 0 {
		return
	}
	if group := f.heading(); group != "" {
		f.folded[group] = !f.folded[group]
		f.relist()
		return
	}
	f.going, f.followed = true, true
	f.hands.GoTo(f.picked.Records)
	f.going = false
}

// fold folds or unfolds the group that the cursor is in.
func (f *Findings) fold(folded bool) {
	if f.at < 0 || f.lines[f.at].group == "" {
		return
	}
	group := f.lines[f.at].group
	f.folded[group] = folded
	if folded {
		f.at = slices.IndexFunc(f.lines, func(l line) bool { return l.isHeading() && l.group == group })
	}
	f.relist()
	f.list.ScrollTo(f.at)
}

// showWhole shows all of the finding that was picked last.
func (f *Findings) showWhole() {
	if f.picked == nil {
		f.whole.empty()
		return
	}
	f.whole.show(*f.picked, len(alike(f.kept, *f.picked)), f.state)
}

func (f *Findings) mend() {
	if f.picked == nil || !f.picked.Mend.IsThere() || f.state.Due {
		return
	}
	f.list.takeFocus() // the button may go
	f.followed = true
	if choices := f.choices(); len(choices) > 0 {
		f.choose(choices)
		return
	}
	f.hands.Mend([]analysis.Finding{*f.picked})
}

func (f *Findings) mendAll() {
	if f.picked != nil && !f.state.Due {
		f.list.takeFocus()
		f.followed = true
		f.hands.Mend(alike(f.kept, *f.picked))
	}
}

// setAside sets the picked finding aside, or counts it again.
func (f *Findings) setAside() {
	if f.picked == nil || f.state.Due {
		return
	}
	f.list.takeFocus()
	if a, ok := f.state.asideOf(*f.picked); ok {
		f.hands.Again(a)
		return
	}
	f.hands.Aside(*f.picked)
}

func (f *Findings) copyPlan() {
	f.list.takeFocus()
	f.hands.Copy()
}

func setVisible(o fyne.CanvasObject, visible bool) {
	switch {
	case visible && !o.Visible():
		o.Show()
	case !visible && o.Visible():
		o.Hide()
	}
}
