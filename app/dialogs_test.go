package app

import (
	"os"
	"path/filepath"
	"testing"

	"clampline/diagram/file"
)

func TestUnsavedQuestion(t *testing.T) {
	for _, row := range []struct {
		reply            string
		stays, isWritten bool
	}{
		{"Keep working", true, false},
		{"Don't save", false, false},
		{"Save", false, true},
	} {
		t.Run(row.reply, func(t *testing.T) {
			a := start(t)
			path := saved(t, house(t), "house.clampline")
			a.OpenPath(path)
			change(t, a, "Mains")
			run(t, a, "new")
			says(t, a, "The sheet has changes that are not saved.")
			answer(t, a, row.reply)
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

// A sheet without a name asks for one before the next thing is done.
func TestUnsavedQuestionForANewSheet(t *testing.T) {
	a := start(t)
	change(t, a, "Grid")
	run(t, a, "new")
	answer(t, a, "Save")
	nameFile(t, a, "", "first")
	quiet(t, a)
	if parts, _, _ := a.editor.Document().Count(); parts != 0 || a.path != "" {
		t.Errorf("%d parts under %q, want a new sheet", parts, a.path)
	}
	if _, err := file.Load(filepath.Join(os.Getenv("HOME"), "first.clampline")); err != nil {
		t.Error(err)
	}
}

func TestClose(t *testing.T) {
	for _, row := range []struct {
		name    string
		changed bool
		reply   string
		closes  bool
	}{
		{"saved", false, "", true},
		{"kept", true, "Keep working", false},
		{"given up", true, "Don't save", true},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := start(t)
			closed := false
			a.window.SetOnClosed(func() { closed = true })
			if row.changed {
				change(t, a, "Grid")
			}
			a.close()
			if row.reply != "" {
				answer(t, a, row.reply)
			}
			if closed != row.closes {
				t.Errorf("closed: %t, want %t", closed, row.closes)
			}
		})
	}
}

func TestWrap(t *testing.T) {
	for _, row := range []struct{ name, text, want string }{
		{"short", "one two", "one two"},
		{"long", "one two three four", "one two\nthree\nfour"},
		{"a long word", "a extraordinary b", "a\nextraordinary\nb"},
		{"paragraphs", "one\n\ntwo", "one\n\ntwo"},
		{"not counted in bytes", "äöü äöü äöü", "äöü äöü\näöü"},
	} {
		if got := wrap(row.text, 8); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
