package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/analysis"
)

// Help tells how each of these is done, and lists each command once with its
// keys, under the menu in which it stands.
func TestHelpIsWhole(t *testing.T) {
	a := start(t)
	groups := a.helpGroups()
	var titles []string
	for _, row := range groups[0].rows {
		titles = append(titles, row.title)
		if row.text == "" || strings.ContainsAny(row.text, "{}") {
			t.Errorf("%s: the text is %q", row.title, row.text)
		}
	}
	for _, want := range []string{"Place a part", "Connect", "Protect", "Read a verdict", "Choose the basis", "Work through findings", "Survey on site", "Compare plans", "Cautions"} {
		if !strings.Contains(strings.Join(titles, "\n"), want) {
			t.Errorf("Help does not tell of %q, only of %q", want, titles)
		}
	}
	for _, c := range a.commands {
		found := 0
		for _, group := range groups {
			for _, row := range group.rows {
				if group.title == "Menu "+c.Menu && row.title == plainLabel(c) && row.text == keysText(c.Keys) {
					found++
				}
			}
		}
		if found != 1 {
			t.Errorf("%q stands %d times in Help, want once", c.Name, found)
		}
	}
}

// What Help says about commands is made of their records.
func TestHelpRefersToCommands(t *testing.T) {
	a := start(t)
	if got, want := a.refer("Take {attach protector}."), "Take Protector (P)."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := a.refer("{no such command}"); got != "{no such command}" {
		t.Errorf("a name of no command becomes %q", got)
	}
}

func TestHelpIsSearched(t *testing.T) {
	for _, row := range []struct {
		words     string
		want, not string
	}{
		{"tidy nothing", "Nothing is found", "Undo"},
		{"SURVEY", "Import survey", "Align left"},
		{"ctrl+s", "Save", "Align left"},
		{"verdict letter", "Nothing is found", "Read a verdict"},
		{"unreached", "Read a verdict", "Undo"},
		{"menu arrange left", "Align left", "Align top"},
	} {
		a := start(t)
		run(t, a, "keys")
		test.Type(a.window.Canvas().Focused(), row.words)
		words := wordsOf(asked(t, a))
		if !strings.Contains(words, row.want) || strings.Contains(words, row.not) {
			t.Errorf("%q: want %q and not %q in %q", row.words, row.want, row.not, words)
		}
		press(a, fyne.KeyEscape)
		says(t, a, "Align left")
		press(a, fyne.KeyEscape)
		quiet(t, a)
	}
}

// Help lists every source, with what is taken from it and how far it can be relied
// on, and opens on them from its menu.
func TestHelpListsTheSources(t *testing.T) {
	a := start(t)
	groups := a.helpGroups()
	last := groups[len(groups)-1]
	if last.title != aboutSources || len(last.rows) != len(analysis.Sources()) {
		t.Fatalf("%q has %d rows, want %d sources", last.title, len(last.rows), len(analysis.Sources()))
	}
	for i, s := range analysis.Sources() {
		if row := last.rows[i]; row.title != s.Name || !strings.Contains(row.text, string(s.Standing)) || len(row.text) < len(s.Taken) {
			t.Errorf("%s: got %+v", s.Name, row)
		}
	}
	run(t, a, "sources")
	got := wordsOf(a.window.Canvas().Overlays().Top())
	if !strings.Contains(got, "UL 1449") || !strings.Contains(got, "common practice") || strings.Contains(got, "Zoom to fit") {
		t.Errorf("the page says %.300q", got)
	}
}
