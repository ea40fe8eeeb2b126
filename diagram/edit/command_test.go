package edit_test

import (
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

func TestCommandsAreWhole(t *testing.T) {
	names, keys := map[string]bool{}, map[edit.Key]string{}
	for _, c := range edit.Commands() {
		if c.Name == "" || c.Label == "" || c.MayRun == nil || c.Run == nil {
			t.Errorf("command %q lacks a name, label or function", c.Name)
		}
		if names[c.Name] {
			t.Errorf("two commands are named %q", c.Name)
		}
		names[c.Name] = true
		if !slices.Contains(edit.Menus(), c.Menu) {
			t.Errorf("command %q stands in menu %q, which there is not", c.Name, c.Menu)
		}
		if len(c.Keys) == 0 {
			t.Errorf("command %q has no key", c.Name)
		}
		for _, key := range c.Keys {
			if other, taken := keys[key]; taken {
				t.Errorf("commands %q and %q share %s", other, c.Name, key)
			}
			keys[key] = c.Name
		}
	}
}

// TestCommandsOnAnySheet runs each command on an empty sheet and on the house
// with all of it selected: none may panic or leave an invalid document.
func TestCommandsOnAnySheet(t *testing.T) {
	for _, c := range edit.Commands() {
		for name, doc := range map[string]*diagram.Document{"empty": diagram.New(), "house": house(t)} {
			d := edittest.New(t, doc, edit.Options{})
			d.SelectAll()
			if !c.MayRun(d.Editor) {
				continue
			}
			err := c.Run(d.Editor)
			if err != nil && (strings.ContainsAny(err.Error(), "\n.") || strings.HasPrefix(err.Error(), "edit:")) {
				t.Errorf("%s on %s: %q is no message for a person", c.Name, name, err)
			}
			if problems := d.Document().Check(); len(problems) > 0 {
				t.Errorf("%s on %s: %v", c.Name, name, problems)
			}
		}
	}
}

func TestCommandsThatMayNotRun(t *testing.T) {
	d := drive(t)
	for _, name := range []string{
		"undo", "redo", "cut", "copy", "duplicate", "delete", "select none", "details", "rotate clockwise",
		"align left", "distribute vertically", "switch", "zoom selection", "next plan", "remove plan", "move up",
	} {
		if c, ok := edittest.Find(name); !ok || c.MayRun(d.Editor) {
			t.Errorf("command %q: found %t, and it may run where there is nothing for it", name, ok)
		}
	}
}

func TestKeyText(t *testing.T) {
	for _, row := range []struct {
		key  edit.Key
		want string
	}{
		{edit.Key{Name: "R"}, "R"},
		{edit.Key{Modifiers: edit.Shift, Name: "R"}, "Shift+R"},
		{edit.Key{Modifiers: edit.Control | edit.Shift | edit.Alt, Name: "Z"}, "Ctrl+Alt+Shift+Z"},
	} {
		if got := row.key.String(); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}

func TestArmed(t *testing.T) {
	d := drive(t)
	for _, c := range edit.Commands() {
		if c.Menu != edit.MenuPlace {
			continue
		}
		must(t, c.Run(d.Editor))
		if got := d.Armed(); got != c.Name {
			t.Errorf("after %q: armed %q", c.Name, got)
		}
	}
	d.Key(edit.KeyEscape)
	if got := d.Armed(); got != "" {
		t.Errorf("after Escape: armed %q", got)
	}
}

func TestTabGoesInReadingOrder(t *testing.T) {
	d := drive(t)
	want := []diagram.ID{"supply-1", "switchboard-1", "panel-1", "load-1", "supply-1"}
	for _, id := range want {
		if d.Key(edit.KeyTab); selected(d) != string(id) {
			t.Errorf("Tab: got %q, want %s", selected(d), id)
		}
	}
	for _, id := range []diagram.ID{"load-1", "panel-1"} {
		if d.Key("Shift+Tab"); selected(d) != string(id) {
			t.Errorf("Shift+Tab: got %q, want %s", selected(d), id)
		}
	}
	d.Key(edit.KeyEscape, "Shift+Tab")
	if got := selected(d); got != "load-1" {
		t.Errorf("Shift+Tab from nothing: got %q, want the last", got)
	}
}

func TestBracketsGoRoundWhatIsAttached(t *testing.T) {
	d := drive(t)
	d.Select("switchboard-1")
	for _, id := range []diagram.ID{"protector-1", "feeder-1", "feeder-2", "switchboard-1", "protector-1"} {
		if d.Key("]"); selected(d) != string(id) {
			t.Errorf("]: got %q, want %s", selected(d), id)
		}
	}
	for _, id := range []diagram.ID{"switchboard-1", "feeder-2"} {
		if d.Key("["); selected(d) != string(id) {
			t.Errorf("[: got %q, want %s", selected(d), id)
		}
	}
	d.Key(edit.KeyTab)
	if got := selected(d); got != "panel-1" {
		t.Errorf("Tab from a feeder: got %q, want the part after its own", got)
	}
}

// TestByKeyboardAlone draws a supply, a panel and a load, connects them,
// protects the panel, opens a feeder and moves the protector, with no mouse.
func TestByKeyboardAlone(t *testing.T) {
	d := edittest.New(t, diagram.New(), edit.Options{})
	d.Leave()
	d.Key("1", edit.KeyUp, edit.KeyUp, edit.KeyUp, edit.KeyUp, edit.KeyUp, edit.KeyUp, edit.KeyEnter)
	d.Key("6", edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyEnter)
	d.Key("7", edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyDown, edit.KeyEnter)
	d.Key(edit.KeyTab, "C", edit.KeyEnter, edit.KeyTab, edit.KeyEnter, edit.KeyEscape)
	d.Select("panel-1")
	d.Key("C", edit.KeyEnter, edit.KeyTab, edit.KeyEnter, edit.KeyEscape, edit.KeyEscape)
	d.Key(edit.KeyTab, edit.KeyTab, "P", edit.KeyRight)
	d.Key("]", "O")
	const want = "load-1 at 0,30\npanel-1 at 0,0 span 40\nsupply-1 at 0,-30\n" +
		"feeder-1 supply-1 to panel-1\nfeeder-2 panel-1 to load-1\n" +
		"protector-1 in plan-1 on panel-1 at 5\n"
	if got := places(d.Document()); got != want {
		t.Errorf("got:\n%swant:\n%s", got, want)
	}
	if feeder, _ := d.Document().Feeder("feeder-1"); !feeder.Switch.Open {
		t.Error("the feeder was not opened")
	}
}

// With nothing selected P takes up a protector, Tab leads to what can have it
// and Enter attaches it there.
func TestProtectByKeyboardAlone(t *testing.T) {
	for _, row := range []struct {
		name string
		keys []string
		want diagram.ID
	}{
		{"the first board", []string{"P", edit.KeyTab, edit.KeyEnter}, "switchboard-1"},
		{"the next one", []string{"P", edit.KeyTab, edit.KeyTab, edit.KeyEnter}, "panel-1"},
		{"back round the sheet", []string{"P", "Shift+" + edit.KeyTab, edit.KeyEnter}, "load-1"},
		{"round the sheet", []string{"P", edit.KeyTab, edit.KeyTab, edit.KeyTab, edit.KeyTab, edit.KeyEnter}, "switchboard-1"},
	} {
		d := drive(t)
		d.Hover(300, 300).Key(row.keys...)
		if got := hostsOf(d); !slices.Equal(got, []diagram.ID{row.want}) {
			t.Errorf("%s: a protector hangs on %v, want %s (%s)", row.name, got, row.want, d.Status())
		}
	}
	d := drive(t)
	d.Hover(300, 300).Key("P", edit.KeyTab, "Shift+"+edit.KeyEnter, edit.KeyTab, edit.KeyEnter)
	if got, want := hostsOf(d), []diagram.ID{"switchboard-1", "panel-1"}; !slices.Equal(got, want) {
		t.Errorf("with Shift: protectors hang on %v, want %v", got, want)
	}
	d = drive(t)
	d.Key("P", edit.KeyTab, edit.KeyEscape, edit.KeyEnter)
	if got := hostsOf(d); len(got) > 0 || d.Armed() != "" {
		t.Errorf("after Escape: protectors hang on %v, armed %q", got, d.Armed())
	}
	empty := edittest.New(t, diagram.New(), edit.Options{})
	empty.Key("P", edit.KeyTab)
	if !strings.Contains(empty.Status(), "a protector goes on a board") {
		t.Errorf("on an empty sheet: %q", empty.Status())
	}
}

// hostsOf returns what the protectors added by the test hang on.
func hostsOf(d *edittest.Driver) []diagram.ID {
	var out []diagram.ID
	for p := range d.Document().ProtectorsOf(d.Plan()) {
		if p.ID != "protector-1" {
			out = append(out, p.Bus)
		}
	}
	return out
}

func TestStatus(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want string
	}{
		{"nothing", func(*edittest.Driver) {}, "Nothing selected"},
		{"a part", func(d *edittest.Driver) { d.Select("supply-1") }, "Utility · supply · 480Y/277"},
		{"a feeder", func(d *edittest.Driver) { d.Select("feeder-2") }, "Feeder from Main to Lab · 33 ft"},
		{"a protector", func(d *edittest.Driver) { d.Select("protector-1") }, "Protector on Main"},
		{"several", func(d *edittest.Driver) { d.Select("supply-1", "panel-1") }, "2 parts selected"},
		{"a name of two lines", func(d *edittest.Driver) {
			must(t, d.Change("rename", rename("supply-1", "µ grid\n of the  town")))
			d.Select("supply-1")
		}, "µ grid of the town · supply · 480Y/277"},
		{"a long name", func(d *edittest.Driver) {
			must(t, d.Change("rename", rename("panel-1", strings.Repeat("ß", 100))))
			d.Select("panel-1")
		}, strings.Repeat("ß", 39) + "… · panel"},
		{"all sorts", func(d *edittest.Driver) { d.SelectAll() }, "7 things selected"},
		{"placing", func(d *edittest.Driver) { d.Arm(diagram.Panel) }, "Click where the panel goes; R turns it, Shift goes on, Escape stops"},
		{"connecting", func(d *edittest.Driver) { d.ArmFeeder(); d.Press(5, 60).DragTo(80, 60) }, "From Lab to Pump"},
		{"moving", func(d *edittest.Driver) { d.Press(80, 60).DragTo(90, 60) }, "Moving Pump; Alt suspends snapping, Escape puts back"},
		{"refused", func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 60, -80, 30) }, "a feeder ends at a part; there is none here"},
		{"refused, then on", func(d *edittest.Driver) {
			d.ArmFeeder()
			d.Drag(5, 60, -80, 30).Key(edit.KeyEscape)
		}, "Nothing selected"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := d.Status(); got != row.want {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}

func TestCursor(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want edit.Cursor
	}{
		{"over nothing", func(d *edittest.Driver) { d.Hover(-80, 30) }, edit.Arrow},
		{"over a part", func(d *edittest.Driver) { d.Hover(80, 60) }, edit.Move},
		{"over a terminal", func(d *edittest.Driver) { d.Hover(80, 55) }, edit.Cross},
		{"over the end of a bus", func(d *edittest.Driver) { d.Hover(20, 60) }, edit.ResizeH},
		{"over a feeder", func(d *edittest.Driver) { d.Hover(0, 30) }, edit.Arrow},
		{"with a part to place", func(d *edittest.Driver) { d.Arm(diagram.Load) }, edit.Cross},
		{"away from the sheet", func(d *edittest.Driver) { d.Hover(80, 60).Leave() }, edit.Arrow},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := d.Cursor(); got != row.want {
				t.Errorf("got %d, want %d", got, row.want)
			}
		})
	}
}

func TestOverlayIsKept(t *testing.T) {
	d := drive(t)
	d.Select("panel-1")
	first := d.Overlay()
	if d.Overlay() != first {
		t.Error("the overlay is made anew where nothing has changed")
	}
	d.Arm(diagram.Load)
	d.Hover(-80, 30)
	if d.Overlay() == first {
		t.Error("the overlay does not follow the tool")
	}
	if _, err := d.DropPart(diagram.Load, geom.Pt(-80, 30)); err != nil {
		t.Fatal(err)
	}
}
