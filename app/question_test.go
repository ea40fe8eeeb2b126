package app

import (
	"testing"

	"fyne.io/fyne/v2"

	"clampline/diagram/file"
)

func TestEscapeClosesADialog(t *testing.T) {
	a := start(t)
	for _, name := range []string{"settings", "cautions", "about", "keys", "open demo"} {
		run(t, a, name)
		if !a.isAsking() {
			t.Fatalf("%s: there is no dialog", name)
		}
		press(a, fyne.KeyEscape)
		if a.isAsking() {
			t.Errorf("%s: Escape did not close the dialog", name)
		}
	}
}

// Enter gives the main reply and Escape the one that changes nothing, also
// where nothing in the dialog has the focus.
func TestKeysAnswerTheUnsavedQuestion(t *testing.T) {
	for _, row := range []struct {
		name      string
		keys      []fyne.KeyName
		unfocused bool
		stays     bool
		isWritten bool
	}{
		{"Enter saves", []fyne.KeyName{fyne.KeyReturn}, false, false, true},
		{"Enter with nothing focused", []fyne.KeyName{fyne.KeyEnter}, true, false, true},
		{"Escape keeps working", []fyne.KeyName{fyne.KeyEscape}, false, true, false},
		{"Escape with nothing focused", []fyne.KeyName{fyne.KeyEscape}, true, true, false},
		{"the arrow leads to Don't save", []fyne.KeyName{fyne.KeyLeft, fyne.KeyReturn}, false, false, false},
		{"other keys do nothing", []fyne.KeyName{fyne.KeyDelete, fyne.KeyEscape}, false, true, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			path := saved(t, house(t), "house.clampline")
			a.OpenPath(path)
			change(t, a, "Mains")
			run(t, a, "new")
			if row.unfocused {
				a.window.Canvas().Unfocus()
			}
			for _, key := range row.keys {
				press(a, key)
			}
			quiet(t, a)
			if stays := a.path == path; stays != row.stays {
				t.Errorf("the sheet stays: %t, want %t", stays, row.stays)
			}
			doc, err := file.Load(path)
			if err != nil {
				t.Fatal(err)
			}
			if part, _ := doc.Part("supply-1"); (part.Name == "Mains") != row.isWritten {
				t.Errorf("the file holds %q, written: want %t", part.Name, row.isWritten)
			}
		})
	}
}

func TestKeysRenameAPlan(t *testing.T) {
	for key, want := range map[fyne.KeyName]string{fyne.KeyReturn: "Best", fyne.KeyEscape: "As found"} {
		a := start(t)
		run(t, a, "rename plan")
		typeIn(a.window.Canvas().Focused(), "Best") // over what is selected
		press(a, key)
		quiet(t, a)
		if got := a.editor.Document().NameOf(a.editor.Plan()); got != want {
			t.Errorf("%s: got %q, want %q", key, got, want)
		}
	}
}

func TestKeysChooseADemo(t *testing.T) {
	a := start(t)
	run(t, a, "open demo")
	press(a, fyne.KeyDown)
	press(a, fyne.KeyReturn)
	quiet(t, a)
	if got, want := a.editor.Document().Info().Title, demo(t, 1).Info().Title; got != want {
		t.Errorf("got %q, want the second demo, %q", got, want)
	}
}

func TestKeysLeaveTheSettings(t *testing.T) {
	for i := range 4 { // from each thing that Tab leads to
		a := start(t)
		run(t, a, "settings")
		for range i {
			a.window.Canvas().FocusNext()
		}
		press(a, fyne.KeyEscape)
		if a.isAsking() {
			t.Errorf("Escape does not close the settings after %d Tabs", i)
		}
	}
}

// A file is not written over by a key that is held too long.
func TestEnterWritesNothingOver(t *testing.T) {
	a := start(t)
	path := saved(t, house(t), "house.clampline")
	written := false
	a.unlessThere(path, false, func() { written = true })
	press(a, fyne.KeyReturn)
	quiet(t, a)
	if written {
		t.Error("Enter wrote over the file")
	}
}
