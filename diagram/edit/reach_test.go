package edit_test

import (
	"strings"
	"testing"

	"clampline/diagram/edit"
)

// Every command can be reached by a key, and by the menu unless it only moves
// by arrow keys or drops what is under way.
func TestEveryCommandCanBeReached(t *testing.T) {
	for _, command := range edit.Commands() {
		keysOnly := strings.HasPrefix(command.Name, "move ") || command.Name == "escape"
		if len(command.Keys) == 0 {
			t.Errorf("%s has no key", command.Name)
		}
		if (command.Menu == "") != keysOnly {
			t.Errorf("%s stands in menu %q", command.Name, command.Menu)
		}
	}
}

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
