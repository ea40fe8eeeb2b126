package details

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram"
)

func (s *shower) slider() *widget.Slider {
	s.t.Helper()
	var out *widget.Slider
	visit(s.Object(), func(o fyne.CanvasObject) {
		if bar, ok := o.(*widget.Slider); ok {
			out = bar
		}
	})
	if out == nil {
		s.t.Fatal("there is nothing to drag")
	}
	return out
}

func (s *shower) leads() [3]float64 {
	p, _ := s.Document().Protector("protector-1")
	return [3]float64{p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length}
}

// A drag changes the sheet at each step, is one entry of the history, and the
// next drag is another.
func TestSlideOfTheLeads(t *testing.T) {
	s := newShower(t, house(t))
	s.show("protector-1")
	bar := s.slider()
	drag := func(to ...float32) {
		for _, share := range to {
			at := fyne.NewPos(share*bar.Size().Width, 5)
			bar.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
			if got := s.leads(); math.Abs(got[0]-bar.Value) > 1e-9 || got[1] != got[0] || got[2] != got[0] {
				t.Errorf("at %g of the way: the leads are %v, the bar stands at %g", share, got, bar.Value)
			}
		}
		bar.DragEnd()
	}
	drag(0.3, 0.5, 0.7)
	first := s.leads()
	drag(0.8, 0.9)
	for _, want := range [][3]float64{first, {6 * inch, 6 * inch, 6 * inch}} {
		s.edit.Undo()
		s.show()
		if got := s.leads(); got != want {
			t.Errorf("after undo: got %v, want %v", got, want)
		}
		if math.Abs(bar.Value-want[0]) > 1e-9 {
			t.Errorf("after undo the bar stands at %g, want %g", bar.Value, want[0])
		}
	}
	if s.edit.CanUndo() {
		t.Errorf("more to undo: %q", s.edit.UndoLabel())
	}
	test.Tap(bar)
	if !s.edit.CanUndo() {
		t.Error("a click does not set the length")
	}
}

// A length beyond the range stands at its end and is not changed by being shown.
func TestSlideBeyondItsRange(t *testing.T) {
	s := newShower(t, house(t))
	s.show("protector-1")
	if err := s.Change("lengthen", func(tx *diagram.Tx) error {
		p, _ := tx.Protector("protector-1")
		setAllLeads(&p, 9)
		tx.SetProtector(p)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	if bar := s.slider(); bar.Value != bar.Max || s.leads()[0] != 9 || s.edit.UndoLabel() != "lengthen" {
		t.Errorf("the bar stands at %g of %g, the lead is %g after %q", bar.Value, bar.Max, s.leads()[0], s.edit.UndoLabel())
	}
}
