package details

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
)

// entry is a text field that hands its text over on Enter and when it loses
// the focus, and takes back the old text on Escape.
type entry struct {
	widget.Entry
	read   func() string      // the text that stands for the value now
	commit func(string) error // takes the text, or says why not
	tell   func(message string)
	use    func(bool)     // notes that the field is used, or left for the sheet; may be nil
	shown  string         // the text last read
	unit   string         // that of a number alone
	narrow bool           // it has half of the usual room
	words  string         // that stand beside the unit where they have room
	figure *diagram.Usual // that the field is of; nil where nothing is known of it
}

// unbarred lets the text of a line scroll, so that the cursor stays in view in
// a long one, and shows no bar: it is none of the toolkit's directions, and all
// but ScrollNone scroll. A bar would lie on the letters.
const unbarred = fyne.ScrollNone + 1

func newEntry(read func() string, commit func(string) error, tell func(string)) *entry {
	e := &entry{read: read, commit: commit, tell: tell}
	e.Scroll = unbarred
	e.ExtendBaseWidget(e)
	e.revert()
	return e
}

func (e *entry) revert() {
	e.shown = e.read()
	e.SetText(e.shown)
}

// refresh shows the value of the document where it has changed. What somebody
// is typing stays until then.
func (e *entry) refresh() {
	if e.read() != e.shown {
		e.revert()
		e.tell("")
	}
}

// take commits what was typed. The message stays until the next entry.
func (e *entry) take() {
	text := e.Text
	if !e.IsTyped() {
		return
	}
	err := e.commit(text)
	e.revert()
	if err != nil {
		e.tell(err.Error())
		return
	}
	e.tell("")
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

// FocusGained notes that the field is used.
func (e *entry) FocusGained() {
	if e.use != nil {
		e.use(true)
	}
	e.Entry.FocusGained()
}

// hint has words stand in the field while it is empty, after its unit where
// there is one. Words that have no room beside the unit are left out.
func (e *entry) hint(words string) {
	e.words = words
	room := 24 // letters
	if e.narrow {
		room = 9
	}
	switch {
	case e.unit == "":
	case utf8.RuneCountInString(e.unit+hintGap+words) > room || words == "":
		words = e.unit
	default:
		words = e.unit + hintGap + words
	}
	if e.PlaceHolder != words {
		e.SetPlaceHolder(words)
	}
}

const hintGap = " · "
