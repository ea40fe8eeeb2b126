package details

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"clampline/analysis"
	"clampline/analysis/waveform"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/unit"
)

// press presses a button of the panel.
func (s *shower) press(label string) {
	s.t.Helper()
	pressed := false
	visit(s.Object(), func(o fyne.CanvasObject) {
		if b, ok := o.(*look.Button); ok && b.Text == label && !pressed {
			pressed = true
			b.OnTapped()
		}
	})
	if !pressed {
		s.t.Fatalf("there is no button %q", label)
	}
}

// enter types into the first field whose text is the old one.
func (s *shower) enter(old, text string) {
	s.t.Helper()
	for _, e := range s.fields() {
		if e.Text == old {
			e.FocusGained()
			e.SetText(text)
			e.FocusLost()
			return
		}
	}
	s.t.Fatalf("no field holds %q", old)
}

// add adds what a line of the menu stands for.
func (s *shower) add(standard, name string) {
	s.t.Helper()
	menu := presetMenu(s.Document(), s.state.Convention, s.cases.put)
	for _, item := range menu.Items {
		if standard == "" && item.Label == name {
			item.Action()
			return
		}
		if item.Label == standard {
			for _, child := range item.ChildMenu.Items {
				if child.Label == name {
					child.Action()
					return
				}
			}
		}
	}
	s.t.Fatalf("the menu has no %q under %q", name, standard)
}

func surgeShower(t *testing.T) *shower {
	t.Helper()
	s := newShower(t, house(t))
	s.surges = true
	s.show("panel-1")
	return s
}

func TestUsualCasesAreListed(t *testing.T) {
	s := surgeShower(t)
	s.wants(true, "Surge cases", "these are the usual ones", "Supply, all lines", "Supply, line to neutral", "Supply, ring wave", "the supply in use", "lines to ground", "6 kV", "3 kA")
	s.wants(false, "Withstand by", "Working")
	s.convention = unit.IEC
	s.show()
	s.wants(true, "lines to earth")
	s.press("Supply, ring wave")
	s.wants(true, "ring, 0.5 µs 100 kHz", "0.5 kA")
	s.press("Done")
	s.wants(true, "Main", "Withstand by")
}

// The first change, whatever it is, makes all of the usual ones the sheet's
// own, in one step.
func TestUsualCasesBecomeOwn(t *testing.T) {
	usual := SurgeNames(surgeShower(t).Document(), unit.NorthAmerican)
	but := func(at int, instead ...string) []string { return slices.Concat(usual[:at], instead, usual[at+1:]) }
	for _, row := range []struct {
		name string
		act  func(s *shower)
		want []string
	}{
		{"an edit", func(s *shower) { s.press("Supply, ring wave"); s.enter("Supply, ring wave", "Ring") }, but(2, "Ring")},
		{"a blank one", func(s *shower) { s.add("", "Blank") }, append(slices.Clone(usual), fmt.Sprintf("Surge case %d", len(usual)+1))},
		{"one of a standard", func(s *shower) { s.add("IEC 61000-4-5", "Surge level 4, line to ground") }, append(slices.Clone(usual), "Surge level 4, line to ground")},
		{"a removal", func(s *shower) { s.press("Supply, line to neutral"); s.press("Remove") }, but(1)},
	} {
		s := surgeShower(t)
		before := edittest.Text(t, s.Document())
		row.act(s)
		if got := SurgeNames(s.Document(), s.state.Convention); !slices.Equal(got, row.want) || len(s.Document().Surges()) != len(row.want) {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
		s.wants(true, row.want...)
		s.wants(false, "the usual ones:")
		s.edit.Undo()
		s.show()
		if edittest.Text(t, s.Document()) != before {
			t.Errorf("%s: one undo does not lead back", row.name)
		}
		s.wants(true, append([]string{"these are the usual ones"}, usual...)...)
	}
}

// A value that is no change leaves the sheet without surge cases of its own.
func TestNoChangeMakesNothingOwn(t *testing.T) {
	s := surgeShower(t)
	s.enter("6 kV", "6000 V")
	if s.edit.CanUndo() {
		t.Errorf("the same voltage is a change: %q", s.edit.UndoLabel())
	}
}

func TestAddedCaseIsPicked(t *testing.T) {
	s := surgeShower(t)
	s.add("IEC 61000-4-5", "Surge level 3, line to line (2005)")
	s.wants(true, "line to line", "2 kV", "1 kA")
	s.press("Remove")
	usual := len(SurgeNames(house(t), unit.NorthAmerican))
	if got := len(s.Document().Surges()); got != usual {
		t.Errorf("got %d after it was removed again, want %d", got, usual)
	}
	for range usual {
		s.press("Remove")
	}
	s.wants(true, "these are the usual ones")
}

// Every wave is read to its end in the list of the narrowest panel.
func TestWavesHaveRoom(t *testing.T) {
	s := surgeShower(t)
	s.window.Resize(fyne.NewSize(342+2*theme.Padding(), 900))
	for _, wave := range diagram.Waves() {
		err := s.Change("wave", func(tx *diagram.Tx) error {
			own := ownSurges(tx)[0]
			own.Wave = wave
			tx.SetSurge(own)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		s.show()
		s.wants(true, diagram.FieldOf(diagram.SurgeFields(), "wave").Spoken(string(wave), unit.NorthAmerican))
	}
}

// What the document refuses is said beneath the field.
func TestSurgeIsRefusedInPlace(t *testing.T) {
	s, stands := surgeShower(t), "6 kV"
	for _, text := range []string{"0 V", "-1 kV", "2 MV", "six"} {
		s.enter(stands, text)
		stands = text // to be mended
		s.wants(true, map[string]string{"0 V": "must be 1 mV to 1 MV", "-1 kV": "must be 0 or more, such as 6 kV", "2 MV": "must be 1 mV to 1 MV", "six": "six"}[text])
		if s.edit.CanUndo() {
			t.Errorf("%s was taken", text)
		}
	}
}

// Every preset is a surge case that a document takes, under a name of its own,
// and its numbers are the standard's where the standard states them.
func TestEveryPresetCanBeAdded(t *testing.T) {
	s := surgeShower(t)
	for _, preset := range waveform.Presets() {
		before := len(analysis.SurgesOf(s.Document()))
		s.cases.put(surgeOf(s.Document(), preset))
		list := s.Document().Surges()
		if len(list) != before+1 {
			t.Fatalf("%s was not added", preset.Name)
		}
		got := list[len(list)-1]
		if got.Current != preset.Current || preset.Voltage > 0 && got.Voltage != preset.Voltage || !strings.HasPrefix(got.Note, preset.Standard) {
			t.Errorf("%s: got %+v", preset.Name, got)
		}
		if preset.Voltage == 0 && got.Voltage < 6e3 {
			t.Errorf("%s: a current alone is driven by %g V", preset.Name, got.Voltage)
		}
	}
	names := SurgeNames(s.Document(), s.state.Convention)
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			t.Errorf("two are called %q", name)
		}
	}
	count := 0
	for _, item := range presetMenu(s.Document(), unit.IEC, nil).Items {
		if item.ChildMenu != nil {
			count += len(item.ChildMenu.Items)
		}
	}
	if want := len(waveform.Presets()) + len(analysis.UsualSurges(s.Document())); count != want {
		t.Errorf("the menu has %d of %d presets and usual cases", count, want)
	}
}

func TestArrivals(t *testing.T) {
	doc := put(t,
		diagram.Part{ID: "panel-2", Kind: diagram.Panel, Name: "Main"}, diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main"},
		diagram.Part{ID: "load-1", Kind: diagram.Load}, diagram.Part{ID: "note-1", Kind: diagram.Note, Name: "A"})
	want := []option[diagram.ID]{{"", "the supply in use"}, {"panel-1", "Main"}, {"panel-2", "Main (panel-2)"}, {"load-1", "load-1"}}
	if got := arrivals(doc, "the supply in use"); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// A part that comes while the surge cases are shown can be picked at once.
func TestArrivalsFollowTheSheet(t *testing.T) {
	s := surgeShower(t)
	if err := s.Change("add", func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "panel-9", Kind: diagram.Panel, Name: "Annex"})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	picked := false
	visit(s.Object(), func(o fyne.CanvasObject) {
		if list, ok := o.(*look.Select); ok && slices.Contains(list.Options, "Annex") {
			list.SetSelected("Annex")
			picked = true
		}
	})
	if got := analysis.SurgesOf(s.Document())[0].Part; !picked || got != "panel-9" {
		t.Errorf("picked %t: the surge arrives at %q", picked, got)
	}
}

func TestDistinct(t *testing.T) {
	got := Distinct([]string{"A", "B", "A"}, []diagram.ID{"x", "y", "z"})
	if want := []string{"A", "B", "A (z)"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
