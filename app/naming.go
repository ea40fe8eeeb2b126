package app

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
)

// fileType is a type of file that a name can be given to.
type fileType struct{ label, ending string }

// naming adds to the toolkit's dialog for the name of a file what it lacks: a
// list of types, a path that is typed whole, and Escape in the field.
type naming struct {
	app          *App
	dialog       *dialog.FileDialog
	title        string // above an error
	types        []fileType
	given        *widget.Entry // the dialog's own field, which it reads; ours lies in its place
	field        *nameField
	list         *look.Select
	save, cancel *widget.Button
	confirm      func() // what the dialog's own button does
	use          func(path string)
}

// typesWidth is the width of the list of types, px.
const typesWidth = 190

// askForName asks for the name of a file of one of the types and hands its path
// on, after a question where there is such a file; failed stands above the reason
// where that fails. The type of the suggested name is the one picked at
// first.
func (a *App) askForName(title, failed, name string, types []fileType, use func(path string)) {
	n := &naming{app: a, title: failed, types: types, use: use}
	n.dialog = dialog.NewFileSave(func(writer fyne.URIWriteCloser, err error) {
		switch {
		case err != nil:
			a.showError(failed, err)
		case writer != nil:
			use(named(writer))
		}
	}, a.window)
	n.dialog.SetTitleText(title)
	n.dialog.SetFileName(name)
	a.showFileDialog(n.dialog)
	n.fit(shownIn(a.window.Canvas().Overlays().Top()))
}

// shownIn returns what a dialog of the toolkit shows, or nil. The overlay that it
// lies in is of a type without a name outside of the toolkit.
func shownIn(overlay fyne.CanvasObject) fyne.CanvasObject {
	content := reflect.Indirect(reflect.ValueOf(overlay)).FieldByName("Content")
	if !content.IsValid() {
		return nil
	}
	if popUp, ok := content.Interface().(*widget.PopUp); ok {
		return popUp.Content
	}
	return nil
}

// fit puts the field and the list into the dialog. A dialog that is not built as
// it was when this was written is left as it is.
func (n *naming) fit(content fyne.CanvasObject) {
	foot, at := n.find(content)
	if foot == nil || n.save == nil || n.cancel == nil {
		return
	}
	n.makeFields()
	n.confirm = n.save.OnTapped
	n.save.OnTapped = n.confirmed
	foot.Objects[at] = container.NewBorder(nil, nil, nil, container.New(wide(typesWidth), n.list), n.field)
	foot.Refresh()
	n.pick(n.typeOf(n.field.Text))
	n.focus()
}

// find looks for the dialog's field and buttons, and returns the container of
// the field and its place there.
func (n *naming) find(o fyne.CanvasObject) (foot *fyne.Container, at int) {
	box, ok := o.(*fyne.Container)
	if !ok {
		return nil, 0
	}
	for i, child := range box.Objects {
		switch child := child.(type) {
		case *widget.Button:
			if child.Importance == widget.HighImportance {
				n.save = child
			} else if len(box.Objects) == 2 {
				n.cancel = child
			}
		case *container.Scroll:
			if entry, ok := child.Content.(*widget.Entry); ok {
				n.given, foot, at = entry, box, i
			}
		case *fyne.Container:
			if found, place := n.find(child); found != nil {
				foot, at = found, place
			}
		}
	}
	return foot, at
}

// makeFields makes the field and the list; the field and the dialog's own follow
// each other.
func (n *naming) makeFields() {
	n.field = newNameField(n)
	n.field.SetText(n.given.Text)
	n.field.OnChanged = n.given.SetText
	n.field.OnSubmitted = func(string) { n.save.OnTapped() }
	changed := n.given.OnChanged
	n.given.OnChanged = func(text string) {
		changed(text)
		if n.field.Text != text {
			n.field.SetText(text)
		}
	}
	var labels []string
	for _, t := range n.types {
		labels = append(labels, t.label)
	}
	n.list = look.NewSelect(labels, func(label string) {
		n.pick(slices.Index(labels, label))
		n.focus()
	})
}

// focus puts the focus into the field, with the name selected.
func (n *naming) focus() {
	n.app.window.Canvas().Focus(n.field)
	n.field.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// pick gives the name the ending of the type, and lists only such files.
func (n *naming) pick(i int) {
	n.list.Selected = n.types[i].label
	n.list.Refresh()
	n.dialog.SetFilter(storage.NewExtensionFileFilter([]string{n.types[i].ending}))
	if bare, ending := n.split(n.field.Text); ending != "" && !strings.EqualFold(ending, n.types[i].ending) {
		n.field.SetText(bare + n.types[i].ending)
	}
}

// typeOf returns the number of the type that the name ends as, or else of the
// one that is picked.
func (n *naming) typeOf(name string) int {
	_, ending := n.split(name)
	return max(0, slices.IndexFunc(n.types, func(t fileType) bool {
		if ending == "" {
			return t.label == n.list.Selected
		}
		return strings.EqualFold(t.ending, ending)
	}))
}

// split takes the ending off a name where it is that of one of the types.
func (n *naming) split(name string) (bare, ending string) {
	for _, t := range n.types {
		if at := len(name) - len(t.ending); at >= 0 && strings.EqualFold(name[at:], t.ending) {
			return name[:at], name[at:]
		}
	}
	return name, ""
}

// confirmed takes what is typed: a folder is gone to, a path typed whole is
// used, and the rest, with its ending, is left to the dialog.
func (n *naming) confirmed() {
	text := strings.TrimSpace(n.field.Text)
	if text == "" {
		return
	}
	path, whole := wholePath(text)
	if whole && isFolder(path) {
		n.goTo(path)
		return
	}
	if _, ending := n.split(text); ending == "" {
		text += n.types[n.typeOf(text)].ending
	}
	if path, whole = wholePath(text); whole {
		n.take(path)
		return
	}
	n.field.SetText(text)
	n.confirm()
}

// take uses a path that was typed whole.
func (n *naming) take(path string) {
	if folder := filepath.Dir(path); !isFolder(folder) {
		n.app.showError(n.title, fmt.Errorf("there is no folder %s; make it first, or type another path", folder))
		return
	}
	n.app.unlessThere(path, false, func() {
		n.dialog.Hide()
		n.use(path)
	})
}

// goTo shows a folder that was typed; the name is still to be typed.
func (n *naming) goTo(path string) {
	if folder, err := storage.ListerForURI(storage.NewFileURI(path)); err == nil {
		n.dialog.SetLocation(folder)
		n.field.SetText("")
	}
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// wholePath returns the path where the text is one from the root or from the
// person's own folder, for which a tilde stands, and reports whether it is.
func wholePath(text string) (string, bool) {
	if rest, ok := strings.CutPrefix(text, "~"); ok && (rest == "" || os.IsPathSeparator(rest[0])) {
		if home, err := os.UserHomeDir(); err == nil {
			return filepath.Join(home, rest), true
		}
	}
	return filepath.Clean(text), filepath.IsAbs(text)
}

// nameField is the field for the name of a file.
type nameField struct {
	widget.Entry
	naming *naming
}

func newNameField(n *naming) *nameField {
	f := &nameField{naming: n}
	f.PlaceHolder = "Name, or a whole path"
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey closes the dialog on Escape.
func (f *nameField) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyEscape {
		f.naming.cancel.OnTapped()
		return
	}
	f.Entry.TypedKey(ev)
}
