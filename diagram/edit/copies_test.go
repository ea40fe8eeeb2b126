package edit_test

import (
	"math"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

// secondProtector is the house with another protector on the switchboard.
func secondProtector(t *testing.T) *edittest.Driver {
	t.Helper()
	d := drive(t)
	_, err := d.AttachTo("switchboard-1")
	must(t, err)
	return d
}

func TestCopiesOfProtectors(t *testing.T) {
	for _, row := range []struct {
		name     string
		pick     []diagram.ID
		onto     diagram.ID
		want     string // hosts of the new ones
		label    string
		selected string
	}{
		{"one of two on a board", []diagram.ID{"protector-1"}, "switchboard-1", "switchboard-1", "paste a protector", "protector-3"},
		{"both of them", []diagram.ID{"protector-1", "protector-2"}, "panel-1", "panel-1 panel-1", "paste 2 protectors", "protector-3 protector-4"},
		{"onto what takes none, so where it was", []diagram.ID{"protector-1"}, "supply-1", "switchboard-1", "paste a protector", "protector-3"},
		{"onto a load", []diagram.ID{"protector-2"}, "load-1", "load-1", "paste a protector", "protector-3"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := secondProtector(t)
			d.Select(row.pick...)
			d.Key("Ctrl+C")
			d.Select(row.onto)
			d.Key("Ctrl+V")
			var hosts []string
			for _, id := range []diagram.ID{"protector-3", "protector-4", "protector-5"} {
				if p, ok := d.Document().Protector(id); ok {
					hosts = append(hosts, string(p.Bus))
				}
			}
			if got := strings.Join(hosts, " "); got != row.want || d.UndoLabel() != row.label || selected(d) != row.selected {
				t.Errorf("got on %q, %q, %q selected; want on %q, %q, %q",
					got, d.UndoLabel(), selected(d), row.want, row.label, row.selected)
			}
			if parts, _, _ := d.Document().Count(); parts != 4 {
				t.Errorf("there are %d parts, want the 4 of before", parts)
			}
		})
	}
}

// A protector copied from another sheet does not go on what takes none and has
// only the id of its board.
func TestProtectorOfAnotherSheet(t *testing.T) {
	from := drive(t)
	from.Select("protector-1")
	text, err := from.Copy()
	must(t, err)
	doc := diagram.New()
	_, err = doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "switchboard-1", Kind: diagram.Supply, Name: "Utility"})
		return nil
	})
	must(t, err)
	into := edittest.New(t, doc, edit.Options{})
	const want = "select the board, load or junction on which to paste the protector"
	if err := into.Paste(text, geom.Pt(0, 0)); err == nil || err.Error() != want {
		t.Errorf("got %v, want %q", err, want)
	}
}

// Copies take ids that nobody has, also between those there are, and a note keeps
// its text, which is no name of a series.
func TestCopiesAreApart(t *testing.T) {
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		for i, id := range []diagram.ID{"panel-1", "panel-4", "panel-2"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel, At: geom.Pt(0, 40*float64(i))})
		}
		tx.SetPart(diagram.Part{ID: "note-1", Kind: diagram.Note, Name: "Panel 3", At: geom.Pt(90, 0)})
		return nil
	})
	must(t, err)
	d := edittest.New(t, doc, edit.Options{})
	d.SelectAll()
	must(t, d.Duplicate())
	if parts, _, _ := d.Document().Count(); parts != 8 || len(d.Selection()) != 4 {
		t.Errorf("got %d parts with %d selected, want 8 with 4", parts, len(d.Selection()))
	}
	if note, _ := d.Document().Part("note-2"); note.Name != "Panel 3" || note.At != geom.Pt(100, 10) {
		t.Errorf("the note reads %q at %v", note.Name, note.At)
	}
	d.Select()
	if err := d.Duplicate(); err == nil || !strings.HasPrefix(err.Error(), "nothing to copy is selected") {
		t.Errorf("of nothing: got %v", err)
	}
	if _, err := d.Cut(); err == nil {
		t.Error("nothing was cut")
	}
	if _, err := d.AddPlan("", diagram.FirstPlan); err != nil {
		t.Error(err)
	}
}

// Whatever else is selected, each of these labels says what was done.
func TestSwitchLabels(t *testing.T) {
	for _, row := range []struct {
		picked []diagram.ID
		want   string
	}{
		{[]diagram.ID{"feeder-1"}, "close feeder from Utility to Main"},
		{[]diagram.ID{"feeder-2"}, "open feeder from Main to Lab"},
		{[]diagram.ID{"feeder-1", "transfer-1"}, "switch"},
		{[]diagram.ID{"feeder-2", "transfer-1"}, "switch"},
		{[]diagram.ID{"transfer-1", "load-1"}, "throw Transfer switch 1"},
		{[]diagram.ID{"feeder-1", "feeder-2"}, "switch"},
		{[]diagram.ID{"transfer-1", "transfer-2"}, "switch"},
	} {
		d := drive(t)
		for _, x := range []float64{-80, -120} {
			_, err := d.DropPart(diagram.TransferSwitch, geom.Pt(x, 30))
			must(t, err)
		}
		d.Select("feeder-1")
		d.Key("O")
		d.Select(row.picked...)
		if d.Key("O"); d.UndoLabel() != row.want {
			t.Errorf("%v: got %q, want %q", row.picked, d.UndoLabel(), row.want)
		}
	}
	d := drive(t) // a feeder without a switch at its head stays as it is
	must(t, d.Change("set", func(tx *diagram.Tx) error {
		feeder, _ := tx.Feeder("feeder-1")
		feeder.Switch = diagram.SwitchData{}
		tx.SetFeeder(feeder)
		return nil
	}))
	if d.Select("feeder-1"); d.CanSwitch() {
		t.Error("a feeder without a switch can be switched")
	}
}

func TestStatusOfFacts(t *testing.T) {
	d := drive(t)
	must(t, d.Change("set", func(tx *diagram.Tx) error {
		part, _ := tx.Part("panel-1")
		part.Name = "A"
		tx.SetPart(part)
		part, _ = tx.Part("load-1")
		part.Name = strings.Repeat("x", 40)
		tx.SetPart(part)
		part, _ = tx.Part("switchboard-1")
		part.Name = " \n"
		tx.SetPart(part)
		feeder, _ := tx.Feeder("feeder-2")
		feeder.Name, feeder.Switch.Open = "Riser", true
		tx.SetFeeder(feeder)
		protector, _ := tx.Protector("protector-1")
		protector.Name, protector.Type = "SPD 1", diagram.Type2
		tx.SetProtector(protector)
		return nil
	}))
	for id, want := range map[diagram.ID]string{
		"panel-1": "A · panel", "load-1": strings.Repeat("x", 40) + " · load", "switchboard-1": "switchboard-1 · switchboard",
		"feeder-2": "Riser · 33 ft · open", "feeder-1": "Feeder from Utility to switchboard-1 · 33 ft",
		"protector-1": "SPD 1 · " + string(diagram.Type2),
	} {
		if d.Select(id); d.Status() != want {
			t.Errorf("%s: got %q, want %q", id, d.Status(), want)
		}
	}
	d.Key(edit.KeyEscape)
	d.ArmFeeder()
	d.Press(5, 60).DragTo(-80, 30)
	if got := d.Status(); got != "From A to: a part; Escape stops" {
		t.Errorf("while it is drawn: got %q", got)
	}
	if d.Cancel(); d.Armed() != "connect" {
		t.Errorf("after it: armed %q", d.Armed())
	}
	d.Key(edit.KeyEscape).Press(20, 7).DragTo(-80, 30)
	if got := d.Status(); got != "Drop the protector on a board, load or junction" {
		t.Errorf("a protector over nothing: got %q", got)
	}
	if d.DragTo(80, 60); d.Status() != "Drop the protector on "+strings.Repeat("x", 40) {
		t.Errorf("a protector over the load: got %q", d.Status())
	}
}

// Other buttons do not disturb a pan, and a gesture with a button held is not
// turned into one.
func TestButtonsTogether(t *testing.T) {
	d := drive(t)
	d.PressWith(edit.Middle, 0, 0)
	d.Handle(edit.Event{Kind: edit.Release, Button: edit.Left})
	if d.Cursor() != edit.Hand {
		t.Error("the left button ended a pan with the middle one")
	}
	if d.Cancel(); d.Cursor() == edit.Hand {
		t.Error("the pan goes on without the window")
	}
	d.Hold(edit.Space).RightClick(80, 60).Let()
	if got := selected(d); got != "load-1" {
		t.Errorf("the right button with the space bar selected %q, want the load", got)
	}
	view := d.View()
	d.Press(80, 60).DragTo(100, 60)
	d.PressWith(edit.Middle, 100, 60)
	d.Handle(edit.Event{Kind: edit.Release, Button: edit.Middle})
	if d.Cursor() != edit.Move || d.View() != view {
		t.Error("the middle button disturbed a drag")
	}
	d.Press(100, 60).Release()
	if load, _ := d.Document().Part("load-1"); load.At.X != 100 {
		t.Errorf("the load was left at %g", load.At.X)
	}
}

// From three quarters of 100 % on lettering can be read; two steps of the zoom away
// it cannot.
func TestReadable(t *testing.T) {
	for steps, want := range map[int]float64{-1: 100 * math.Pow(2, -0.25), -2: 100, 1: 100 * math.Pow(2, 0.25)} {
		d := drive(t)
		d.ZoomAt(edit.ScreenPoint{X: 600, Y: 400}, steps)
		d.Reveal("panel-1")
		if got := d.View().Percent(); math.Abs(got-want) > 1e-9*want {
			t.Errorf("after %d steps: revealed at %g %%, want %g %%", steps, got, want)
		}
	}
	d := drive(t)
	d.Pan(edit.ScreenPoint{X: 5000})
	d.ZoomToSelection() // nothing is selected
	if !d.IsFitted() || !d.View().Rect().Holds(d.Scene().Bounds()) {
		t.Error("the selection of nothing is not the whole sheet")
	}
}
