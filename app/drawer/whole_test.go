package drawer

import (
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestMend(t *testing.T) {
	s := newShower(t, Settings{})
	if s.whole.mend.Visible() || s.whole.all.Visible() {
		t.Error("a finding that nothing mends has a button")
	}
	s.key(fyne.KeyDown)
	if got := s.whole.mend.Text; got != "Mend it: shorten the leads" || !s.whole.mend.Visible() {
		t.Errorf("the button says %q, shown: %t", got, s.whole.mend.Visible())
	}
	if got := s.whole.all.Text; got != "Mend all 2 like this" || !s.whole.all.Visible() {
		t.Errorf("the other button says %q, shown: %t", got, s.whole.all.Visible())
	}
	test.Tap(s.whole.mend)
	test.Tap(s.whole.all)
	if len(s.asked.mended) != 2 || len(s.asked.mended[0]) != 1 || s.asked.mended[0][0].What != leads1 || len(s.asked.mended[1]) != 2 {
		t.Errorf("asked to mend %v", s.asked.mended)
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.list); c.Focused() != fyne.Focusable(s.list) {
		t.Errorf("%T has the focus, want the list: the button may go", c.Focused())
	}
}

// What the filter leaves out is not mended along.
func TestMendAllOfTheList(t *testing.T) {
	s := newShower(t, Settings{})
	test.Type(s.bar.search, "SPD 2")
	if !s.whole.mend.Visible() || s.whole.all.Visible() {
		t.Errorf("of one alone: mend %t, mend all %t", s.whole.mend.Visible(), s.whole.all.Visible())
	}
}

// While a newer result is due, this one mends nothing.
func TestNothingIsMendedByAnOldResult(t *testing.T) {
	s := newShower(t, Settings{})
	s.key(fyne.KeyDown)
	s.state.Due = true
	s.Show(s.state)
	if !s.whole.mend.Disabled() || !s.whole.all.Disabled() {
		t.Error("a button can be pressed")
	}
	s.whole.mend.OnTapped()
	s.whole.all.OnTapped()
	if len(s.asked.mended) != 0 {
		t.Errorf("asked to mend %v", s.asked.mended)
	}
	s.state.Due = false
	s.find(sample())
	if s.whole.mend.Disabled() || s.whole.all.Disabled() {
		t.Error("with the newest result no button can be pressed")
	}
}

func TestLongLabelOnAButton(t *testing.T) {
	if got := cut("move the protector"); got != "move the protector" {
		t.Errorf("got %q", got)
	}
	got := cut(strings.Repeat("größer ", 20))
	if n := utf8.RuneCountInString(got); n != labelRunes || !strings.HasSuffix(got, "…") {
		t.Errorf("got %q, %d letters", got, n)
	}
}
