package app

import (
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/library"
)

// shelved opens the program on the house with the drawer on the protectors. The
// user's own are in the file.
func shelved(t *testing.T, path string) *App {
	t.Helper()
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("XDG_CONFIG_HOME", home)
	a := New(test.NewTempApp(t), Options{Inline: true, Library: path})
	a.window.Resize(fyne.NewSize(1300, 900))
	a.OpenPath(saved(t, house(t), "house.clampline"))
	a.showView(viewProtectors)
	a.refresh()
	return a
}

func libraryPath(t *testing.T) string {
	return filepath.Join(t.TempDir(), "clampline", "protectors.json")
}

// pressed presses a button of the view.
func pressed(t *testing.T, a *App, label string) {
	t.Helper()
	var labels []string
	for _, b := range all[*look.Button](a.library.view.Object()) {
		labels = append(labels, b.Text)
		if b.Text == label {
			if b.Disabled() {
				t.Fatalf("the button %q cannot be pressed", label)
			}
			b.OnTapped()
			return
		}
	}
	t.Fatalf("there is no button %q among %q", label, labels)
}

func (p *protectors) text() string {
	return strings.Join(strings.Fields(wordsOf(p.view.Object())), " ")
}

func protectorsOn(a *App, bus diagram.ID) []diagram.Protector {
	var out []diagram.Protector
	for p := range a.editor.Document().ProtectorsOf(a.editor.Plan()) {
		if p.Bus == bus {
			out = append(out, p)
		}
	}
	return out
}

// One click puts it on the bus, and one undo takes it off.
func TestPutFromTheLibrary(t *testing.T) {
	a := shelved(t, libraryPath(t))
	if text := a.library.text(); !strings.Contains(text, "Select a board, load or junction") {
		t.Errorf("it does not say what to select: %q", text)
	}
	a.editor.Select("supply-1")
	a.refresh()
	if text := a.library.text(); !strings.Contains(text, "Select a board, load or junction: Grid is none") {
		t.Errorf("it does not say why: %q", text)
	}
	a.editor.Select("panel-1")
	a.refresh()
	if text := a.library.text(); !strings.Contains(text, "Is made for 120/240, and the bus has 480Y/277") {
		t.Errorf("it does not say what does not fit: %q", text)
	}
	a.library.view.Pick("type-2-480Y-277")
	if text := a.library.text(); !strings.Contains(text, "OK · ") || !strings.Contains(text, "Nothing speaks against it on Main.") {
		t.Errorf("it does not say what fits: %q", text)
	}
	before := edittest.Text(t, a.editor.Document())
	pressed(t, a, "Put it on Main")
	on := protectorsOn(a, "panel-1")
	if len(on) != 1 || on[0].Name != "SPD 1" || on[0].In != 20e3 {
		t.Fatalf("on the bus is %+v", on)
	}
	if got, want := a.noticed(), "Done: put Type 2 on Main. Ctrl+Z takes it back."; got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	run(t, a, "undo")
	if got := edittest.Text(t, a.editor.Document()); got != before || a.editor.CanUndo() {
		t.Error("one undo does not take it back")
	}
}

// What takes the place of a protector keeps its id, name, leads and place, and
// the breaker that it is on.
func TestReplaceFromTheLibrary(t *testing.T) {
	a := shelved(t, libraryPath(t))
	old := diagram.Protector{
		ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD 1", Offset: 7, Note: "behind the door",
		Leads: diagram.Leads{Phase: diagram.Lead{Length: 0.3}, Bends: 2}, Breaker: diagram.BreakerData{Rated: 60, Poles: 3, Shared: true}, In: 5e3,
	}
	if err := a.editor.Change("add", func(tx *diagram.Tx) error { tx.SetProtector(old); return nil }); err != nil {
		t.Fatal(err)
	}
	a.editor.Select("protector-1")
	a.refresh()
	a.library.view.Pick("type-2-480Y-277")
	pressed(t, a, "Replace SPD 1")
	now, _ := a.editor.Document().Protector("protector-1")
	if now.Name != old.Name || now.Offset != old.Offset || now.Leads != old.Leads || now.Bus != old.Bus {
		t.Errorf("its place is another: %+v", now)
	}
	if b := now.Breaker; b.Rated != 60 || b.Poles != 3 || !b.Shared || b.Least != 30 {
		t.Errorf("its breaker is %+v", b)
	}
	if now.In != 20e3 || now.Type != diagram.Type2 || !strings.HasPrefix(now.Note, "behind the door\nType 2, 480Y/277 V") {
		t.Errorf("it is %+v", now)
	}
	a.library.view.Pick("type-1-480Y-277")
	pressed(t, a, "Replace SPD 1")
	again, _ := a.editor.Document().Protector("protector-1")
	if again.Type != diagram.Type1 {
		t.Errorf("it is %q", again.Type)
	}
	run(t, a, "undo")
	if back, _ := a.editor.Document().Protector("protector-1"); back != now {
		t.Errorf("undo leads to %+v", back)
	}
}

// Several parts get one each in one step, and only what is OK for all of them is.
func TestPutOnSeveral(t *testing.T) {
	a := shelved(t, libraryPath(t))
	a.editor.Select("panel-1", "load-1")
	a.refresh()
	a.library.view.Pick("type-2-480Y-277")
	if text := a.library.text(); !strings.Contains(text, "OK for all 2 selected") {
		t.Errorf("it says %q", text)
	}
	pressed(t, a, "Put it on all 2 selected")
	one, other := protectorsOn(a, "panel-1"), protectorsOn(a, "load-1")
	if len(one) != 1 || len(other) != 1 || one[0].Name == other[0].Name || one[0].Type != other[0].Type {
		t.Fatalf("there are %+v and %+v", one, other)
	}
	run(t, a, "undo")
	if n := len(protectorsOn(a, "panel-1")) + len(protectorsOn(a, "load-1")); n != 0 {
		t.Errorf("after one undo %d are left", n)
	}
	a.editor.Select("panel-1", "supply-1")
	a.refresh()
	if text := a.library.text(); !strings.Contains(text, "Grid is none") {
		t.Errorf("it does not say which takes none: %q", text)
	}
}

// A note of a kind goes with the kind.
func TestReplaceLeavesOutTheNoteOfAKind(t *testing.T) {
	a := shelved(t, libraryPath(t))
	a.editor.Select("panel-1")
	a.refresh()
	a.library.view.Pick("type-2-480Y-277")
	pressed(t, a, "Put it on Main")
	a.editor.Select(protectorsOn(a, "panel-1")[0].ID)
	a.refresh()
	a.library.view.Pick("type-1-480Y-277")
	pressed(t, a, "Replace SPD 1")
	if note := protectorsOn(a, "panel-1")[0].Note; strings.Contains(note, "Type 2,") || !strings.HasPrefix(note, "Type 1,") {
		t.Errorf("the note is %q", note)
	}
}

// What is added is in the file at once, can be edited in the details, and is
// there at the next start.
func TestOwnProtectors(t *testing.T) {
	path := libraryPath(t)
	a := shelved(t, path)
	a.editor.Select("panel-1")
	a.refresh()
	pressed(t, a, "Put it on Main")
	a.editor.Select(protectorsOn(a, "panel-1")[0].ID)
	a.refresh()
	pressed(t, a, "Add SPD 1 to my library")
	kept := loaded(t, path)
	if len(kept) != 1 || kept[0].Protector.Name != "SPD 1" || kept[0].Protector.Bus != "" {
		t.Fatalf("the file holds %+v", kept)
	}
	pressed(t, a, "Edit")
	details := a.details.Object()
	if text := wordsOf(details); !strings.Contains(text, "Protector of your library") {
		t.Fatalf("the details show %q", text)
	}
	typeOverFocused(a, "Quay box")
	if got := loaded(t, path)[0].Protector.Name; got != "Quay box" {
		t.Errorf("the file holds %q", got)
	}
	if !strings.Contains(a.library.text(), "Quay box") {
		t.Error("the list has the old name")
	}
	before := a.editor.DocumentVersion()
	for _, b := range all[*look.Button](details) {
		if b.Text == "Done" {
			b.OnTapped()
			break
		}
	}
	if text := wordsOf(details); strings.Contains(text, "Protector of your library") || a.editor.DocumentVersion() != before {
		t.Errorf("Done leads to %q", text)
	}
	again := shelved(t, path)
	if !strings.Contains(again.library.text(), "Quay box") {
		t.Error("the next start does not list it")
	}
}

// typeOverFocused types over all of the field that has the focus and hands it
// over.
func typeOverFocused(a *App, text string) {
	field := a.window.Canvas().Focused().(field)
	field.TypedShortcut(&fyne.ShortcutSelectAll{})
	typeIn(field, text)
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func loaded(t *testing.T, path string) []library.Entry {
	t.Helper()
	out, err := library.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestRemoveAsks(t *testing.T) {
	path := libraryPath(t)
	a := shelved(t, path)
	pressed(t, a, "Duplicate")
	a.library.endEditing()
	pressed(t, a, "Remove …")
	answer(t, a, "Keep it")
	if got := len(loaded(t, path)); got != 1 {
		t.Fatalf("the file holds %d", got)
	}
	pressed(t, a, "Remove …")
	answer(t, a, "Remove it")
	quiet(t, a)
	if got := len(loaded(t, path)); got != 0 {
		t.Errorf("the file holds %d", got)
	}
}
