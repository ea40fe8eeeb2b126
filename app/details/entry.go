package details

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
)

// entry is a text field that hands its text over on Enter and when it loses
// the focus, and takes back the old text on Escape.
type entry struct {
	widget.Entry
	read   func() (text string, varies bool) // what stands for the value now; nothing where several records differ
	commit func(string) error                // takes the text, or says why not
	tell   func(message string)
	use    func(bool)     // notes that the field is used, or left for the sheet; may be nil
	shown  string         // the text last read
	varies bool           // it was left empty since several records differ
	unit   string         // that of a number alone
	narrow bool           // it has half of the usual room
	words  string         // that stand beside the unit where they have room
	fresh  bool           // the press that is going on brought the focus
	wrong  string         // why the text that stands in it was not taken, or nothing
	figure *diagram.Usual // that the field is of; nil where nothing is known of it
}

// unbarred lets the text of a line scroll, so that the cursor stays in view in
// a long one, and shows no bar: it is none of the toolkit's directions, and all
// but ScrollNone scroll. A bar would lie on the letters.
const unbarred = fyne.ScrollNone + 1

func newEntry(read func() (string, bool), commit func(string) error, tell func(string)) *entry {
	e := &entry{read: read, commit: commit, tell: tell}
	e.Scroll = unbarred
	e.ExtendBaseWidget(e)
	e.revert()
	return e
}

func (e *entry) revert() {
	e.shown, e.varies = e.read()
	e.wrong = ""
	e.SetText(e.shown)
	e.hint(e.words)
}

// refresh shows the value of the document where it has changed. What somebody
// is typing stays until then.
func (e *entry) refresh() {
	if text, varies := e.read(); text != e.shown || varies != e.varies {
		e.revert()
		e.tell("")
	}
}

// take commits what was typed. A wrong text stays, to be mended, and so does the
// message of it.
func (e *entry) take() {
	if !e.IsTyped() {
		e.forgive()
		return
	}
	if err := e.commit(e.Text); err != nil {
		e.wrong = err.Error()
		e.tell(e.wrong)
		return
	}
	e.revert()
	e.tell("")
}

// forgive takes the message away of a text that was put right by hand.
func (e *entry) forgive() {
	if e.wrong != "" {
		e.wrong = ""
		e.tell("")
	}
}

// refusal returns why the text in the field was not taken, or nothing.
func (e *entry) refusal() string {
	if !e.IsTyped() {
		return ""
	}
	return e.wrong
}

// FocusLost commits.
func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	e.take()
}

// IsTyped reports whether the field holds text that was not handed over.
func (e *entry) IsTyped() bool { return e.Text != e.shown }

// TypedKey commits on Enter, and takes back on Escape or else leaves the field.
func (e *entry) TypedKey(key *fyne.KeyEvent) {
	switch {
	case key.Name == fyne.KeyEscape && e.IsTyped():
		e.revert()
		e.tell("")
	case key.Name == fyne.KeyEscape:
		e.tell("")
		leave(e, e.use)
	case !e.MultiLine && (key.Name == fyne.KeyReturn || key.Name == fyne.KeyEnter):
		e.take()
		e.selectAll()
	case !look.FunctionKey(e, key):
		e.Entry.TypedKey(key)
	}
}

// leave gives up the focus, so that keys go to the sheet.
func leave(o fyne.CanvasObject, use func(bool)) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		c.Unfocus()
	}
	if use != nil {
		use(false)
	}
}

// FocusGained notes that the field is used, and selects its text, so that typing
// replaces it.
func (e *entry) FocusGained() {
	if e.use != nil {
		e.use(true)
	}
	e.Entry.FocusGained()
	e.fresh = true
	e.selectAll()
}

// selectAll selects the text of a line; a paragraph is written on.
func (e *entry) selectAll() {
	if !e.MultiLine {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// MouseDown sets the cursor, as the toolkit does, which gives the field the
// focus on the way.
func (e *entry) MouseDown(ev *desktop.MouseEvent) {
	e.fresh = false
	e.Entry.MouseDown(ev)
}

// MouseUp ends a click: where it brought the focus, the text is selected again,
// which the press has undone.
func (e *entry) MouseUp(ev *desktop.MouseEvent) {
	e.Entry.MouseUp(ev)
	if e.fresh {
		e.selectAll()
	}
	e.fresh = false
}

// Dragged selects what is dragged over.
func (e *entry) Dragged(ev *fyne.DragEvent) {
	e.fresh = false
	e.Entry.Dragged(ev)
}

// hint has words stand in the field while it is empty, after its unit where
// there is one. Words that have no room beside the unit are left out.
func (e *entry) hint(words string) {
	e.words = words
	switch {
	case e.varies:
		words = theyVary
	case e.unit == "":
	case e.isLong(e.unit+hintGap+words) || words == "":
		words = e.unit
	default:
		words = e.unit + hintGap + words
	}
	if e.PlaceHolder != words {
		e.SetPlaceHolder(words)
	}
}

// isLong reports whether a text has no room in the field.
func (e *entry) isLong(text string) bool {
	room := 24 // letters
	if e.narrow {
		room = 9
	}
	return utf8.RuneCountInString(text) > room
}

const hintGap = " · "
