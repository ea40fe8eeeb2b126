package edit_test

import (
	"testing"

	"clampline/diagram/edit"
)

// What a list leads to can be read: a view too small for lettering goes to
// 100 % about it, and one that is large enough only moves.
func TestRevealCanBeRead(t *testing.T) {
	e := edit.New(house(t), edit.Options{})
	e.Resize(800, 600)
	for range 12 {
		e.ZoomOut()
	}
	e.Reveal("panel-1")
	if got := e.View().Percent(); got != 100 {
		t.Errorf("from far away: got %g %%, want 100", got)
	}
	box, _ := e.Scene().Box("panel-1")
	if !e.View().Rect().Holds(box) {
		t.Error("from far away: it is not in view")
	}
	e.ZoomIn()
	before := e.View().Percent()
	e.Reveal("panel-1")
	if got := e.View().Percent(); got != before {
		t.Errorf("from near: got %g %%, want %g", got, before)
	}
}
