package edit

import (
	"slices"
	"strings"

	"clampline/diagram"
)

// Key is a key pressed with all of the modifiers and no others.
type Key struct {
	Modifiers Modifiers
	Name      string // as in Event.Key
}

// String returns the key as menus show it, such as "Ctrl+Shift+Z".
func (k Key) String() string {
	var words []string
	for _, m := range []struct {
		held Modifiers
		word string
	}{{Control, "Ctrl"}, {Alt, "Alt"}, {Shift, "Shift"}} {
		if k.Modifiers.Has(m.held) {
			words = append(words, m.word)
		}
	}
	return strings.Join(append(words, k.Name), "+")
}

// Command is one thing the editor can be told to do. Menu, keyboard and help
// read the same records.
type Command struct {
	Name   string // does not change between releases
	Label  string // as a menu shows it
	Menu   string // the menu it stands in
	Keys   []Key  // may be none; no two commands share one
	MayRun func(*Editor) bool
	Run    func(*Editor) error
}

// Names of the menus, in order.
const (
	MenuEdit    = "Edit"
	MenuPlace   = "Place"
	MenuArrange = "Arrange"
	MenuView    = "View"
	MenuPlan    = "Plan"
)

// Menus returns the menus that commands stand in, in order.
func Menus() []string { return []string{MenuEdit, MenuPlace, MenuArrange, MenuView, MenuPlan} }

// Commands returns every command, in the order of the menus.
func Commands() []Command {
	return slices.Concat(editCommands(), stepCommands(), placeCommands(), arrangeCommands(), viewCommands(), planCommands(), keyCommands())
}

func key(name string) Key             { return Key{Name: name} }
func shiftKey(name string) Key        { return Key{Shift, name} }
func controlKey(name string) Key      { return Key{Control, name} }
func controlShiftKey(name string) Key { return Key{Control | Shift, name} }
func altKey(name string) Key          { return Key{Alt, name} }
func keys(list ...Key) []Key          { return list }
func always(*Editor) bool             { return true }
func hasSelection(e *Editor) bool     { return len(e.selected) > 0 }
func hasParts(count int) func(*Editor) bool {
	return func(e *Editor) bool { return selects(e, count, e.doc.Part) }
}

// plain makes a command's function of one that cannot be refused.
func plain(f func(*Editor)) func(*Editor) error {
	return func(e *Editor) error { f(e); return nil }
}

// Names of the commands that arm a tool.
const (
	commandConnect = "connect"
	commandAttach  = "attach protector"
)

func placeCommand(kind diagram.Kind) string { return "place " + string(kind) }
