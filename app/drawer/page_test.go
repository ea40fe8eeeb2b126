package drawer

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// Where the buttons would take the room of the text they scroll with it, and
// the text is in view first.
func TestPage(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	paragraph := func() fyne.CanvasObject {
		return look.NewFaintParagraph(strings.Repeat("The leads are long. ", 40))
	}
	for _, row := range []struct {
		name          string
		width, height float32
		note          string
		scrolls       bool
	}{
		{"room for both", 450, 180, recordNote("As found", false), false},
		{"a low drawer", 450, 150, recordNote("As found", false), true},
		{"a low drawer, no note", 450, 120, "", false},
		{"a narrow one", 320, 160, recordNote("As found", false), true},
		{"a narrow and high one", 320, 260, recordNote("As found", false), false},
	} {
		mend, all, duplicate := look.NewButton("Mend it: shorten the leads of SPD 1", func() {}), look.NewButton("Mend all 4", func() {}), look.NewButton("Duplicate plan first", func() {})
		p := newPage(paragraph(), paragraph(), mend, all)
		p.noteBeside(duplicate)
		p.tell(row.note)
		setVisible(duplicate, row.note != "")
		w := test.NewTempWindow(t, p.object)
		w.SetPadded(false)
		w.Resize(fyne.NewSize(row.width, row.height))
		if p.scrolls != row.scrolls {
			t.Errorf("%s: the buttons scroll: %t", row.name, p.scrolls)
		}
		if got := p.scroll.Size().Height; got < textHeight {
			t.Errorf("%s: the text has %g px", row.name, got)
		}
		for _, b := range []*look.Button{mend, all, duplicate} {
			if !b.Visible() {
				continue
			}
			w.Canvas().Focus(b)
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b)
			if at.Y < 0 || at.Y+b.Size().Height > row.height+0.5 || at.X+b.Size().Width > row.width {
				t.Errorf("%s: with the focus %q is at %v, out of view", row.name, b.Text, at)
			}
		}
		w.Resize(fyne.NewSize(row.width, 500))
		if p.scrolls || p.scroll.Offset.Y != 0 {
			t.Errorf("%s: with more room the buttons scroll: %t, the text is moved by %g px", row.name, p.scrolls, p.scroll.Offset.Y)
		}
	}
}

func TestRecorded(t *testing.T) {
	doc := house(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "Plan 2", Order: 5})
		tx.SetProtector(diagram.Protector{ID: "protector-3", Plan: "plan-2", Bus: "panel-1", Name: "SPD 3"})
	})
	mend := analysis.NewMend("shorten the leads", "", change)
	for _, row := range []struct {
		name    string
		records []diagram.ID
		mend    analysis.Mend
		plan    diagram.ID
		want    bool
	}{
		{"a protector as found", []diagram.ID{"protector-1"}, mend, diagram.FirstPlan, true},
		{"one after its board", []diagram.ID{"panel-1", "protector-1"}, mend, diagram.FirstPlan, true},
		{"a part", []diagram.ID{"panel-1"}, mend, diagram.FirstPlan, false},
		{"nothing to mend", []diagram.ID{"protector-1"}, analysis.Mend{}, diagram.FirstPlan, false},
		{"a protector of another plan", []diagram.ID{"protector-3"}, mend, "plan-2", false},
		{"of a result that is out of date", []diagram.ID{"protector-1"}, mend, "plan-2", false},
	} {
		name, got := Recorded(analysis.Finding{Records: row.records, Mend: row.mend}, doc, row.plan)
		if got != row.want || got && name != "As found" {
			t.Errorf("%s: got %q, %t", row.name, name, got)
		}
	}
}

// A lock is said in place of that.
func TestRecordThatIsLocked(t *testing.T) {
	s := newShower(t, Settings{})
	diagramtest.Edit(t, s.state.Document, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan, Name: "As found", Locked: true})
	})
	s.state.Plan = diagram.FirstPlan
	s.find(sample())
	s.key(fyne.KeyDown)
	s.key(fyne.KeyDown)
	if got := s.whole.note.Text(); !s.whole.duplicate.Visible() || !strings.Contains(got, "is locked") || !strings.Contains(got, "(Plan, Unlock plan)") {
		t.Errorf("the note is %q", got)
	}
}

// The copy of a plan has the same finding about another protector, and that is
// picked.
func TestFindingOfACopyIsPicked(t *testing.T) {
	s := newShower(t, Settings{})
	s.state.Plan = diagram.FirstPlan
	s.find(sample())
	s.key(fyne.KeyDown)
	s.key(fyne.KeyDown)
	if !s.whole.duplicate.Visible() || s.whole.note.Text() != recordNote("As found", false) {
		t.Fatalf("nothing says that it changes the record: %q", s.whole.note.Text())
	}
	test.Tap(s.whole.duplicate)
	if s.asked.copied != 1 {
		t.Errorf("asked for %d copies", s.asked.copied)
	}
	copied := sample()
	copied[1].Records, copied[2].Records = []diagram.ID{"protector-3"}, []diagram.ID{"protector-4"}
	s.state.Plan = "plan-2"
	s.find(copied)
	if got := s.picked.Records; len(got) != 1 || got[0] != "protector-4" {
		t.Errorf("picked is %q about %v", s.picked.What, got)
	}
	if s.whole.duplicate.Visible() || s.whole.note.Visible() {
		t.Error("in the copy it is offered again")
	}
}
