package app

import (
	"math"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// nativeMenu says that the system draws the menu, and knows how to letter keys.
const nativeMenu = runtime.GOOS == "darwin"

// groupHeads are the commands before which a menu has a line.
var groupHeads = []string{
	"save", "export", "settings", quit, "cut", "select all", "details", "next part", "escape", "connect", "place note",
	"align left", "distribute horizontally", "switch", "move up", "zoom 100", "findings", "new plan", "plan earlier", "lock plan", "remove plan", "differences",
	"next surge", "edit surges",
}

// unlettered is a shortcut that the toolkit obeys but does not letter: it would
// in a grey that cannot be read.
type unlettered struct{ fyne.Shortcut }

// keyGap is the room between the labels and the keys of a menu, in px.
const keyGap = 28

// hairSpace is the narrowest space of the font; it makes up for what whole ones
// leave over.
const (
	hairSpace = "\u200a"
	mostHairs = 15
)

// showKeys letters the keys behind the labels, in a column. The toolkit has none
// but for shortcuts that it letters itself, so the column is made of spaces.
func (m *menu) showKeys(menu *fyne.Menu) {
	if nativeMenu {
		return
	}
	column := float32(0)
	for _, item := range menu.Items {
		column = max(column, menuWidth(item.Label))
	}
	for _, own := range m.items {
		if len(own.command.Keys) > 0 && slices.Contains(menu.Items, own.item) {
			own.item.Label += blank(column+keyGap-menuWidth(own.item.Label)) + own.command.Keys[0].String()
		}
	}
}

// blank returns spaces that are together nearest to a width in px.
func blank(width float32) string {
	whole, hair := menuWidth("x x")-menuWidth("xx"), menuWidth("x"+hairSpace+"x")-menuWidth("xx")
	var best string
	off := math.Inf(1)
	for hairs := range mostHairs + 1 {
		rest := width - float32(hairs)*hair
		count := max(2, int(rest/whole+0.5))
		if d := math.Abs(float64(rest - float32(count)*whole)); d < off {
			best, off = strings.Repeat(" ", count-1)+strings.Repeat(hairSpace, hairs)+" ", d
		}
	}
	return best
}

// menuWidth is how wide a menu writes a text, px.
func menuWidth(text string) float32 {
	return fyne.MeasureText(text, theme.Size(theme.SizeNameText), fyne.TextStyle{}).Width
}

// menu is the main menu, made from the commands.
type menu struct {
	main   *fyne.MainMenu
	items  []menuItem
	recent *fyne.MenuItem
}

type menuItem struct {
	command edit.Command
	item    *fyne.MenuItem
}

func newMenu(a *App) *menu {
	m := &menu{}
	byName := map[string]*fyne.Menu{}
	var menus []*fyne.Menu
	for _, command := range a.commands {
		if byName[command.Menu] == nil {
			byName[command.Menu] = fyne.NewMenu(command.Menu)
			menus = append(menus, byName[command.Menu])
		}
		item := m.add(a, command)
		if slices.Contains(groupHeads, command.Name) {
			byName[command.Menu].Items = append(byName[command.Menu].Items, fyne.NewMenuItemSeparator())
		}
		byName[command.Menu].Items = append(byName[command.Menu].Items, item)
		if command.Name == "open demo" {
			m.recent = fyne.NewMenuItem("Open recent", nil)
			byName[command.Menu].Items = append(byName[command.Menu].Items, m.recent)
		}
	}
	slices.SortStableFunc(menus, func(x, y *fyne.Menu) int { return rank(x.Label) - rank(y.Label) })
	for _, menu := range menus {
		m.showKeys(menu)
	}
	m.main = fyne.NewMainMenu(menus...)
	m.listRecent(a)
	return m
}

// rank orders the menus: File and Edit first, Help last.
func rank(label string) int {
	order := append([]string{menuFile}, edit.Menus()...)
	if at := slices.Index(order, label); at >= 0 {
		return at
	}
	if label == menuHelp {
		return len(order) + 1
	}
	return len(order)
}

func (m *menu) add(a *App, command edit.Command) *fyne.MenuItem {
	item := fyne.NewMenuItem(command.Label, nil)
	item.IsQuit = command.Name == quit
	var shortcut fyne.Shortcut
	if len(command.Keys) > 0 {
		shortcut = shortcutOf(command.Keys[0])
	}
	if shortcut != nil {
		item.Shortcut = unlettered{shortcut}
	}
	if nativeMenu {
		item.Shortcut = shortcut
	}
	item.Action = func() {
		if !a.toEntry(shortcut) && !a.isAsking() {
			a.runCommand(command)
		}
	}
	m.items = append(m.items, menuItem{command, item})
	return item
}

// toEntry hands a shortcut of text editing to the field that has the focus:
// the menu is asked before the field is.
func (a *App) toEntry(shortcut fyne.Shortcut) bool {
	field, ok := a.window.Canvas().Focused().(fyne.Shortcutable)
	if !ok || field == fyne.Shortcutable(a.sheet) {
		return false
	}
	switch s := shortcut.(type) {
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo:
		if typed, ok := field.(interface{ IsTyped() bool }); ok && !typed.IsTyped() {
			return false // what was typed is taken: the sheet takes it back
		}
		field.TypedShortcut(shortcut)
		return true
	case *fyne.ShortcutSelectAll:
		field.TypedShortcut(shortcut)
		return true
	case *fyne.ShortcutCopy:
		s.Clipboard = a.app.Clipboard()
		field.TypedShortcut(s)
		return true
	case *fyne.ShortcutCut:
		s.Clipboard = a.app.Clipboard()
		field.TypedShortcut(s)
		return true
	case *fyne.ShortcutPaste:
		s.Clipboard = a.app.Clipboard()
		field.TypedShortcut(s)
		return true
	}
	return false
}

// isAsking reports whether a dialog waits for its answer: until then no key
// does anything behind it.
func (a *App) isAsking() bool { return a.window.Canvas().Overlays().Top() != nil }

// show greys what cannot run now.
func (m *menu) show(e *edit.Editor) {
	changed := false
	for _, i := range m.items {
		disabled := i.command.MayRun != nil && !i.command.MayRun(e)
		changed = changed || disabled != i.item.Disabled
		i.item.Disabled = disabled
	}
	if changed && nativeMenu {
		m.main.Refresh() // the system's menu is a copy; the window's own is drawn when it opens
	}
}

// listRecent makes the list of recent files anew.
func (m *menu) listRecent(a *App) {
	list := fyne.NewMenu("")
	for _, path := range a.prefs.recent() {
		list.Items = append(list.Items, fyne.NewMenuItem(shorten(path), func() { a.unlessUnsaved(func() { a.openPath(path) }) }))
	}
	if len(list.Items) == 0 {
		none := fyne.NewMenuItem("none yet", nil)
		none.Disabled = true
		list.Items = append(list.Items, none)
	}
	m.recent.ChildMenu = list
	m.main.Refresh()
}

// shorten is a path for a menu: its file and the folder it is in.
func shorten(path string) string {
	return unit.Visible(filepath.Base(path) + "  (" + filepath.Dir(path) + ")")
}
