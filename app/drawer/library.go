package drawer

import (
	"cmp"
	"slices"

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

// LibraryState is what the library of protectors is shown for.
type LibraryState struct {
	Entries    []library.Entry
	Broken     string // why the user's own cannot be read, and what to do; empty where they can
	Convention unit.Convention
	Hidden     bool // nobody sees the view: it may be brought up to date later
	Due        bool // a newer result is to come: nothing is checked by this one

	// Buses take a protector each: the selected parts, or that of the selected
	// protector; none where there is none, and Why says in few words what to
	// select.
	Buses   []diagram.ID
	BusName string       // of one, or how many there are
	Kind    diagram.Kind // of one part; empty for several
	Why     string

	// Protector is the selected one; empty where none is.
	Protector     diagram.ID
	ProtectorName string

	// Check returns the findings on an entry if it stood on each of Buses. It is nil where
	// nothing is known yet; Result tells when it would find something else.
	Check  func(library.Entry) []analysis.Finding
	Result *analysis.Result
}

// LibraryHands are what the library asks for. None may be nil.
type LibraryHands struct {
	Put       func(library.Entry) // on the bus
	Replace   func(library.Entry) // the selected protector
	Add       func()              // the selected protector to the user's own
	Edit      func(library.Entry)
	Duplicate func(library.Entry)
	Remove    func(library.Entry)
	Import    func()
	Export    func()
	Reload    func() // the user's own, after they could not be read
	Seen      func() // the view has come into view
}

// Library is the list of protectors to pick from, above it what is listed, and
// beside it the whole of the one with the cursor. Use NewLibrary.
type Library struct {
	hands  LibraryHands
	state  LibraryState
	fits   fits
	words  string
	only   bool // those that fit the bus
	kept   []library.Entry
	at     int        // line of the cursor; -1 where there is none
	picked diagram.ID // entry with the cursor

	object *shownView
	bar    *libraryBar
	list   *list
	none   *widget.Label
	plate  *nameplate
	signs  signs
}

// NewLibrary returns an empty library.
func NewLibrary(hands LibraryHands) *Library {
	l := &Library{hands: hands, at: -1, signs: newSigns()}
	l.none = widget.NewLabel("")
	l.none.Alignment, l.none.Wrapping = fyne.TextAlignCenter, fyne.TextWrapWord
	l.list = newList(func() int { return len(l.kept) }, func() fyne.CanvasObject { return newEntryRow() }, l.update)
	l.list.OnSelected = func(i widget.ListItemID) {
		l.list.UnselectAll()
		l.moveTo(i)
	}
	l.list.step, l.list.enter, l.list.fold = l.step, l.put, func(bool) {}
	l.plate = newNameplate(l)
	l.bar = newLibraryBar(l)
	card := func(o ...fyne.CanvasObject) fyne.CanvasObject {
		return container.NewStack(append([]fyne.CanvasObject{look.NewGround(look.ColorCard)}, o...)...)
	}
	split := container.NewHSplit(card(l.list, l.none), card(container.New(layout.NewCustomPaddedLayout(4, 4, 6, 6), l.plate.object)))
	split.SetOffset(0.5)
	body := container.New(flow{}, append([]fyne.CanvasObject{split}, l.bar.objects()...)...)
	l.object = newShownView(container.NewBorder(l.bar.trouble(), nil, nil, nil, body), func() { l.hands.Seen() })
	l.relist()
	return l
}

// Object returns what to place in the window.
func (l *Library) Object() fyne.CanvasObject { return l.object }

// Show brings the library up to date. What has the cursor keeps it while it is
// listed.
func (l *Library) Show(s LibraryState) {
	before := l.state
	l.state = s
	if !sameLibrary(s, before) {
		l.relist()
	}
}

// sameLibrary reports whether two states show alike.
func sameLibrary(a, b LibraryState) bool {
	return a.Broken == b.Broken && a.Convention == b.Convention && a.Hidden == b.Hidden && a.Due == b.Due &&
		slices.Equal(a.Buses, b.Buses) && a.BusName == b.BusName && a.Kind == b.Kind && a.Why == b.Why && a.Protector == b.Protector && a.ProtectorName == b.ProtectorName &&
		a.Result == b.Result && (a.Check == nil) == (b.Check == nil) && slices.Equal(a.Entries, b.Entries)
}

// Pick puts the cursor on the entry with the id, if need be with nothing left
// out of the list.
func (l *Library) Pick(id diagram.ID) {
	if !slices.ContainsFunc(l.kept, func(e library.Entry) bool { return e.Protector.ID == id }) {
		l.showAll()
	}
	l.picked = id
	l.relist()
	if l.at >= 0 {
		l.list.ScrollTo(l.at)
	}
}

// ShowFitting lists those that fit the selected bus, whatever was searched for.
func (l *Library) ShowFitting() {
	l.words, l.only = "", true
	l.bar.search.SetText("")
	l.relist()
}

// relist lists the entries that are kept, unless nobody sees it.
func (l *Library) relist() {
	if l.state.Hidden {
		return
	}
	l.fits.update(l.state)
	l.kept = library.Search(l.state.Entries, l.words)
	if l.only && len(l.state.Buses) > 0 {
		l.kept = slices.DeleteFunc(slices.Clone(l.kept), func(e library.Entry) bool { return !l.fits.of(e).suits() })
	}
	l.at = slices.IndexFunc(l.kept, func(e library.Entry) bool { return e.Protector.ID == l.picked })
	if l.at < 0 && len(l.kept) > 0 {
		l.at, l.picked = 0, l.kept[0].Protector.ID
	}
	l.none.SetText(l.noneText())
	setVisible(l.none, len(l.kept) == 0)
	l.bar.show(l)
	l.list.Refresh()
	l.plate.show(l)
}

// noneText says why nothing is listed.
func (l *Library) noneText() string {
	if l.only && len(l.state.Buses) > 0 {
		return "No protector of the library is OK for " + l.state.BusName + cmp.Or(map[bool]string{true: " and has these words."}[l.words != ""], ".")
	}
	return "No protector of the library has these words."
}

// entry returns the one with the cursor, and false where there is none.
func (l *Library) entry() (library.Entry, bool) {
	if l.at < 0 || l.at >= len(l.kept) {
		return library.Entry{}, false
	}
	return l.kept[l.at], true
}

// step moves the cursor by so many lines.
func (l *Library) step(by int) {
	if len(l.kept) > 0 {
		l.moveTo(min(max(l.at+by, 0), len(l.kept)-1))
	}
}

func (l *Library) moveTo(i int) {
	if i >= len(l.kept) {
		return
	}
	l.at, l.picked = i, l.kept[i].Protector.ID
	l.list.ScrollTo(i)
	l.list.Refresh()
	l.plate.top()
	l.plate.show(l)
}

// update writes a line of the list.
func (l *Library) update(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(l.kept) {
		return
	}
	r := o.(*entryRow)
	r.show(l.kept[i], l.fits.of(l.kept[i]), l)
	r.mark(i == l.at, l.list.focused)
}

// put places the entry with the cursor, where it can be placed.
func (l *Library) put() {
	if e, ok := l.entry(); ok && len(l.state.Buses) > 0 {
		l.hands.Put(e)
	}
}

// showAll leaves nothing out.
func (l *Library) showAll() {
	l.words, l.only = "", false
	l.bar.search.SetText("")
	l.relist()
}

// tally tells how many entries are listed.
func (l *Library) tally() string { return toldOf(len(l.kept), len(l.state.Entries)) }

// own returns how many entries are the user's.
func (l *Library) own() int {
	n := 0
	for _, e := range l.state.Entries {
		if e.Own {
			n++
		}
	}
	return n
}

// onBus is the name of the bus, short enough for a button.
func (l *Library) onBus() string { return cutTo(l.state.BusName, nameRunes) }

// nameRunes is how long a name may be on a button or a check.
const nameRunes = 24

func cutTo(text string, most int) string {
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	return string(runes[:most-1]) + "…"
}

// shownView is an object that says when it is shown after it was hidden.
type shownView struct {
	widget.BaseWidget
	content fyne.CanvasObject
	shown   func()
}

func newShownView(content fyne.CanvasObject, shown func()) *shownView {
	v := &shownView{content: content, shown: shown}
	v.ExtendBaseWidget(v)
	return v
}

// CreateRenderer returns the renderer: the content.
func (v *shownView) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(v.content) }

// Show shows the content and says so.
func (v *shownView) Show() {
	before := v.Visible()
	v.BaseWidget.Show()
	if !before {
		v.shown()
	}
}
