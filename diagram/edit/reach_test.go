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
