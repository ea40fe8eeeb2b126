package app

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

// Each command runs on an empty sheet and on a large one, with nothing and
// with everything selected, and leaves a valid document.
func TestEveryCommandRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for name, doc := range map[string]func() *diagram.Document{
		"empty": diagram.New,
		"demo":  func() *diagram.Document { return demo(t, 0) },
	} {
		for _, everything := range []bool{false, true} {
			a := start(t)
			for _, c := range a.commands {
				a.setBasis(analysis.HandRule) // the transient would only take time
				a.workOn(doc(), "")
				if everything {
					a.editor.SelectAll()
					a.refresh()
				}
				a.runNamed(c.Name)
				dismiss(a)
				if problems := a.editor.Document().Check(); len(problems) > 0 {
					t.Errorf("%s on the %s sheet: %v", c.Name, name, problems)
				}
			}
		}
	}
}

// dismiss takes away every dialog.
func dismiss(a *App) {
	overlays := a.window.Canvas().Overlays()
	for overlays.Top() != nil {
		overlays.Remove(overlays.Top())
	}
}

func TestNoTwoCommandsShareAKeyOrName(t *testing.T) {
	a := start(t)
	keys, names := map[edit.Key]string{}, map[string]bool{}
	for _, c := range a.commands {
		if names[c.Name] {
			t.Errorf("two commands are named %q", c.Name)
		}
		names[c.Name] = true
		if len(c.Keys) == 0 {
			t.Errorf("%q has no key", c.Name)
		}
		for _, key := range c.Keys {
			if other, taken := keys[key]; taken {
				t.Errorf("%q and %q share %s", other, c.Name, key)
			}
			keys[key] = c.Name
		}
	}
}

func TestMenus(t *testing.T) {
	a := start(t)
	var got []string
	listed := map[string]int{}
	for _, menu := range a.window.MainMenu().Items {
		got = append(got, menu.Label)
		for _, item := range menu.Items {
			listed[strings.TrimSpace(strings.SplitN(item.Label, "  ", 2)[0])]++
		}
	}
	want := append(append([]string{"File"}, edit.Menus()...), "Surge", "Help")
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	for _, c := range a.commands {
		if listed[c.Label] != 1 {
			t.Errorf("%q stands %d times in the menus, want once", c.Label, listed[c.Label])
		}
	}
}

// The menus letter the keys themselves, also those that are no shortcuts to the
// toolkit, and leave none to it: it letters them too pale to read.
func TestMenusShowKeys(t *testing.T) {
	a := start(t)
	for name, key := range map[string]string{"save": "Ctrl+S", "rotate clockwise": "R", "delete": "Delete", "place panel": "6", "keys": "F1", "quit": "Ctrl+Q"} {
		item := itemOf(t, a, name)
		if !strings.HasSuffix(item.Label, " "+key) {
			t.Errorf("%s: the menu says %q, want the key %s", name, item.Label, key)
		}
		if _, lettered := item.Shortcut.(fyne.KeyboardShortcut); lettered {
			t.Errorf("%s: the toolkit letters the key as well", name)
		}
	}
}

// The keys of a menu stand in one column.
func TestMenuKeysLineUp(t *testing.T) {
	a := start(t)
	for _, menu := range a.window.MainMenu().Items {
		var column float32
		for _, item := range menu.Items {
			at := strings.LastIndex(item.Label, " ")
			if !strings.Contains(item.Label, "   ") {
				continue // it has no key
			}
			if left := menuWidth(item.Label[:at+1]); column == 0 {
				column = left
			} else if d := left - column; d > 0.5 || d < -0.5 { // half a pixel is not seen
				t.Errorf("%s: the key of %q is %.2f px off the column", menu.Label, item.Label, d)
			}
		}
		if column == 0 {
			t.Errorf("%s has no keys", menu.Label)
		}
	}
}

// Once a field has handed its text over, undo takes back the change.
func TestUndoFromAFieldThatIsDone(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	f := focusedField(t, a, "panel-1")
	typeIn(f, "X")
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := a.editor.Document().NameOf("panel-1"); got == "Main" {
		t.Fatal("the name was not changed")
	}
	itemOf(t, a, "undo").Action()
	if got := a.editor.Document().NameOf("panel-1"); got != "Main" {
		t.Errorf("undo left the name %q, want Main", got)
	}
}

// Escape takes back what is typed, then leaves the field for the sheet.
func TestEscapeLeavesAField(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	f := focusedField(t, a, "panel-1")
	typeIn(f, "X")
	escape := &fyne.KeyEvent{Name: fyne.KeyEscape}
	f.TypedKey(escape)
	if got := textOf(f); got != "Main" || a.window.Canvas().Focused() != fyne.Focusable(f) {
		t.Errorf("the first Escape left %q", got)
	}
	f.TypedKey(escape)
	if a.window.Canvas().Focused() != nil {
		t.Error("the second Escape did not leave the field")
	}
}

func TestDemoCannotBeWrittenOver(t *testing.T) {
	a := start(t)
	a.OpenDemo()
	if parts, _, _ := a.editor.Document().Count(); parts < 20 || a.path != "" {
		t.Errorf("got %d parts at %q, want the demo building without a path", parts, a.path)
	}
	if got := a.window.Title(); !strings.HasPrefix(got, "Tern Quay Marine Laboratory") {
		t.Errorf("the window is titled %q", got)
	}
	if got := a.status.saved.Text(); got != "not saved yet" {
		t.Errorf("the status line says %q", got)
	}
}

// itemOf returns the item of the menu that runs the command.
func itemOf(t *testing.T, a *App, name string) *fyne.MenuItem {
	t.Helper()
	for _, i := range a.menu.items {
		if i.command.Name == name {
			return i.item
		}
	}
	t.Fatalf("no menu has the command %q", name)
	return nil
}

func TestMenuIsGreyed(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	check := func(when string, want map[string]bool) {
		t.Helper()
		for name, enabled := range want {
			if got := !itemOf(t, a, name).Disabled; got != enabled {
				t.Errorf("%s: %q may run: got %t, want %t", when, name, got, enabled)
			}
		}
	}
	check("at first", map[string]bool{"undo": false, "redo": false, "copy": false, "select all": true, "save": true, "remove plan": false})
	a.editor.Select("panel-1")
	a.refresh()
	check("with a part selected", map[string]bool{"undo": false, "copy": true, "align left": false, "rotate clockwise": true})
	run(t, a, "delete")
	check("with it deleted", map[string]bool{"undo": true, "redo": false, "copy": false})
	run(t, a, "undo")
	check("after undo", map[string]bool{"undo": false, "redo": true, "copy": true})
	run(t, a, "new plan")
	check("with a second plan", map[string]bool{"undo": true, "redo": false, "remove plan": true, "next plan": true})
	if a.bar.undo.Disabled() || !a.bar.redo.Disabled() {
		t.Error("the buttons do not say the same as the menu")
	}
}

// field is what a test needs of the field that has the focus.
type field interface {
	fyne.Focusable
	SelectedText() string
	TypedShortcut(fyne.Shortcut)
}

// focusedField puts the focus into the first field of the details.
func focusedField(t *testing.T, a *App, record diagram.ID) field {
	t.Helper()
	a.editor.Select(record)
	a.focusDetails()
	out, ok := a.window.Canvas().Focused().(field)
	if !ok {
		t.Fatalf("%T has the focus, want a field", a.window.Canvas().Focused())
	}
	return out
}

func typeIn(f fyne.Focusable, text string) {
	for _, r := range text {
		f.TypedRune(r)
	}
}

// textOf returns all that is in the field.
func textOf(f field) string {
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
	return f.SelectedText()
}

// The toolkit asks the menu for a shortcut before the field that has the
// focus.
func TestShortcutsGoToTheField(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	change(t, a, "Mains")
	before := edittest.Text(t, a.editor.Document())
	f := focusedField(t, a, "panel-1")
	press := func(name string) { itemOf(t, a, name).Action() }

	press("select all")
	if got := f.SelectedText(); got != "Main" {
		t.Errorf("select all: got %q, want the text of the field", got)
	}
	press("copy")
	if got := a.app.Clipboard().Content(); got != "Main" {
		t.Errorf("copy: got %q", got)
	}
	press("cut")
	if got := textOf(f); got != "" {
		t.Errorf("cut left %q", got)
	}
	a.app.Clipboard().SetContent("Lab")
	press("paste")
	if got := textOf(f); got != "Lab" {
		t.Errorf("paste: got %q", got)
	}
	press("undo")
	if got := textOf(f); got == "Lab" {
		t.Error("undo does not take back what was pasted")
	}
	press("redo")
	if got := textOf(f); got != "Lab" {
		t.Errorf("redo: got %q", got)
	}
	if after := edittest.Text(t, a.editor.Document()); after != before || a.editor.UndoLabel() != "rename" {
		t.Error("the shortcuts changed the sheet as well")
	}

	a.window.Canvas().Focus(a.sheet)
	press("undo")
	press("undo")
	if a.editor.CanUndo() {
		t.Error("with the sheet focused, undo does not reach it")
	}
}

// What is typed counts, also where a shortcut comes before Enter.
func TestTypedTextIsSaved(t *testing.T) {
	for name, act := range map[string]func(*App){
		"save":  func(a *App) { a.runNamed("save") },
		"close": func(a *App) { a.close() },
	} {
		a := start(t)
		a.OpenPath(saved(t, house(t), "house.clampline"))
		f := focusedField(t, a, "panel-1")
		f.TypedShortcut(&fyne.ShortcutSelectAll{})
		typeIn(f, "Kitchen")
		act(a)
		if part, _ := a.editor.Document().Part("panel-1"); part.Name != "Kitchen" {
			t.Errorf("%s: the part is named %q", name, part.Name)
		}
		if name == "close" {
			says(t, a, "changes that are not saved")
		}
	}
}

// A rebuilt form leaves the focus with no field that is gone.
func TestFocusDoesNotStayWithAFieldThatIsGone(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	run(t, a, "new plan")
	f := focusedField(t, a, "panel-1")
	typeIn(f, "x")
	itemOf(t, a, "next plan").Action()
	if a.window.Canvas().Focused() != nil {
		t.Errorf("%T still has the focus", a.window.Canvas().Focused())
	}
	if part, _ := a.editor.Document().Part("panel-1"); !strings.Contains(part.Name, "x") {
		t.Errorf("what was typed is lost: %q", part.Name)
	}
}

func TestKeysReachTheSheetWithNothingFocused(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("load-1")
	a.window.Canvas().Unfocus()
	a.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if _, ok := a.editor.Document().Part("load-1"); ok {
		t.Error("delete does not reach the sheet")
	}
	a.shortcut(&fyne.ShortcutUndo{})
	if _, ok := a.editor.Document().Part("load-1"); !ok {
		t.Error("undo does not reach the sheet")
	}
}

// The second key of a command stands in no menu.
func TestSecondKeys(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	change(t, a, "Mains")
	run(t, a, "undo")
	a.window.Canvas().Focus(a.sheet)
	a.sheet.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift})
	if a.editor.CanRedo() {
		t.Error("Ctrl+Shift+Z does nothing")
	}
}

func TestF1ShowsTheKeys(t *testing.T) {
	a := start(t)
	a.sheet.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
	says(t, a, "Help")
	says(t, a, "Ctrl+Shift+S")
	for _, c := range a.commands {
		says(t, a, strings.TrimSuffix(c.Label, " …"))
	}
}

// Nothing happens behind a question.
func TestNoKeyWorksBehindADialog(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("load-1")
	a.refresh()
	run(t, a, "about")
	itemOf(t, a, "cut").Action()
	a.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyDelete})
	a.shortcut(&fyne.ShortcutCut{})
	if _, ok := a.editor.Document().Part("load-1"); !ok {
		t.Error("a key reached the sheet behind a dialog")
	}
	answer(t, a, "Close")
	itemOf(t, a, "cut").Action()
	if _, ok := a.editor.Document().Part("load-1"); ok {
		t.Error("no key works after the dialog")
	}
}

// A command that is refused says why.
func TestRefusedCommandSaysWhy(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.app.Clipboard().SetContent("no sheet")
	run(t, a, "paste")
	if got := wordsOf(asked(t, a)); !strings.Contains(got, "clipboard") && !strings.Contains(got, "paste") {
		t.Errorf("got %q, want what is wrong with the clipboard", got)
	}
}

func TestCautions(t *testing.T) {
	a := start(t)
	for _, name := range []string{"cautions", "about"} {
		run(t, a, name)
		says(t, a, "not a substitute for the listing")
		answer(t, a, "Close")
	}
	if !strings.Contains(wordsOf(a.window.Content()), shortCaution) {
		t.Error("the window does not show the short caution")
	}
}

// Every shortcut has the name that the toolkit gives its key.
func TestShortcutsAreOfTheToolkit(t *testing.T) {
	toolkit := []fyne.KeyName{fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyDelete, fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyComma, fyne.KeyEqual, fyne.KeyPlus, fyne.KeyMinus, fyne.KeyF1}
	for _, command := range start(t).commands {
		for _, key := range command.Keys {
			if s, ok := shortcutOf(key).(*desktop.CustomShortcut); ok && len(s.KeyName) > 1 && !slices.Contains(toolkit, s.KeyName) {
				t.Errorf("%s: the toolkit has no key %q", command.Name, s.KeyName)
			}
		}
	}
}
