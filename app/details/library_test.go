package details

import (
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// kept is an entry of a library that lives in the test.
type kept struct {
	protector     diagram.Protector
	set, dragged  int
	back, dropped int
	done          int
}

func (k *kept) entry() *LibraryEntry {
	return &LibraryEntry{
		ID:      "own-1",
		Get:     func() (diagram.Protector, bool) { return k.protector, true },
		Set:     func(f func(*diagram.Protector)) error { f(&k.protector); k.set++; return nil },
		Drag:    func(f func(*diagram.Protector)) error { f(&k.protector); k.dragged++; return nil },
		Dropped: func() { k.dropped++ },
		Back:    func() { k.back++ },
		Changed: k.set > 0,
		Done:    func() { k.done++ },
		Check: func(p diagram.Protector) []analysis.Finding {
			if p.In <= p.Imax {
				return nil
			}
			return []analysis.Finding{{Severity: analysis.Error, What: "Its In is above its Imax", Why: "no nameplate has that", Remedy: "correct one of them"}}
		},
	}
}

func TestEntryOfTheLibrary(t *testing.T) {
	s := newShower(t, house(t))
	s.judge()
	s.show("panel-1")
	k := &kept{protector: diagram.Protector{ID: "own-1", Name: "Quay box", Imax: 40e3}}
	show := func() {
		state := s.state
		state.Entry = k.entry()
		s.Panel.Show(state)
	}
	show()
	s.wants(true, "Quay box", "Protector of your library", "Type or class", "Leads", "40 kA")
	s.wants(false, "Main", "Working", "Sharp bends", "Breaker shared with other loads", "In the surge", "above its Imax")
	if !s.button("Take back").Disabled() {
		t.Error("there is nothing to take back")
	}
	for _, e := range s.fields() {
		if e.Text == "40 kA" {
			e.FocusGained()
			e.SetText("20 kA")
			e.FocusLost()
		}
	}
	k.protector.In = 30e3
	show()
	s.wants(true, "Its In is above its Imax.", "No nameplate has that. Correct one of them.")
	s.button("Take back").OnTapped()
	s.button("Done").OnTapped()
	bar := s.slider()
	bar.SetValue(0.3)
	bar.OnChangeEnded(0.3)
	if k.set != 1 || k.protector.Imax != 20e3 || k.back != 1 || k.done != 1 || k.dragged != 1 || k.dropped == 0 || s.edit.CanUndo() {
		t.Errorf("got %+v, and an entry in the history: %t", k, s.edit.CanUndo())
	}
	s.show()
	s.wants(true, "Main", "Working")
	if text := s.words(); strings.Contains(text, "Quay box") {
		t.Errorf("the entry is still there: %q", text)
	}
}

// An entry without a name asks for one, and is not called by its id.
func TestEntryWithoutAName(t *testing.T) {
	s := newShower(t, house(t))
	k := &kept{protector: diagram.Protector{ID: "own-1"}}
	state := s.state
	state.Entry = k.entry()
	s.Panel.Show(state)
	s.wants(true, "(no name)")
	s.wants(false, "own-1")
	if got := s.fields()[0].PlaceHolder; got != "type a name" {
		t.Errorf("the field of the name says %q", got)
	}
}
