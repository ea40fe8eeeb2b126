package details

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// folds tells which sections of one kind of form are folded. It lasts as long as
// the program runs.
type folds struct {
	kind   string
	folded map[string]bool // by kind and heading
	use    func(bool)      // notes that a head is used, or left for the sheet
}

func (f folds) is(heading string) bool { return f.folded[f.kind+": "+heading] }

func (f folds) turn(heading string) { f.folded[f.kind+": "+heading] = !f.is(heading) }

// head is the heading of a section. A click or the space bar folds it.
type head struct {
	widget.BaseWidget
	words   string
	folds   folds
	turned  func()
	focused bool
	text    *canvas.Text
	object  *fyne.Container
}

var (
	_ fyne.Tappable      = (*head)(nil)
	_ fyne.Focusable     = (*head)(nil)
	_ desktop.Cursorable = (*head)(nil)
)

func newHead(words string, f folds, turned func()) *head {
	h := &head{words: words, folds: f, turned: turned, text: canvas.NewText("", nil)}
	h.text.TextStyle.Bold = true
	h.text.TextSize = theme.Size(theme.SizeNameText)
	gap := canvas.NewRectangle(color.Transparent)
	gap.SetMinSize(fyne.NewSize(1, 8))
	h.object = container.NewVBox(gap, h.text, canvas.NewLine(theme.Color(look.ColorHair)))
	h.ExtendBaseWidget(h)
	h.write()
	return h
}

func (h *head) isFolded() bool { return h.folds.is(h.words) }

func (h *head) write() {
	h.text.Text = "▾ " + h.words
	if h.isFolded() {
		h.text.Text = "▸ " + h.words
	}
	h.text.Color = theme.Color(look.ColorHeading)
	if h.focused {
		h.text.Color = theme.Color(theme.ColorNamePrimary)
	}
	h.text.Refresh()
}

// Tapped folds or unfolds.
func (h *head) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(h); c != nil {
		c.Focus(h)
	}
	h.turn()
}

func (h *head) turn() {
	h.folds.turn(h.words)
	h.write()
	h.turned()
}

// FocusGained shows that the space bar folds it.
func (h *head) FocusGained() { h.folds.use(true); h.focused = true; h.write() }

// FocusLost takes that away.
func (h *head) FocusLost() { h.focused = false; h.write() }

// TypedRune does nothing: keys come as TypedKey.
func (h *head) TypedRune(rune) {}

// TypedKey folds by the space bar or Enter, and leaves by Escape.
func (h *head) TypedKey(key *fyne.KeyEvent) {
	switch key.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		h.turn()
	case fyne.KeyEscape:
		leave(h, h.folds.use)
	}
}

// Cursor is a hand.
func (h *head) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer returns the renderer.
func (h *head) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(h.object) }

// section is a heading above what folds away with it.
func section(words string, f folds, content ...fyne.CanvasObject) []fyne.CanvasObject {
	below := container.NewVBox(content...)
	var top *head
	show := func() {
		if top.isFolded() {
			below.Hide()
		} else {
			below.Show()
		}
	}
	top = newHead(words, f, show)
	show()
	return []fyne.CanvasObject{top, below}
}

// subheading is a heading of what does not fold.
func subheading(label string) fyne.CanvasObject {
	text := canvas.NewText(label, theme.Color(look.ColorHeading))
	text.TextStyle.Bold = true
	text.TextSize = theme.Size(theme.SizeNameText)
	rule := canvas.NewLine(theme.Color(look.ColorHair))
	gap := canvas.NewRectangle(color.Transparent)
	gap.SetMinSize(fyne.NewSize(1, 8))
	return container.NewVBox(gap, text, rule)
}
