package edit_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/scene"
)

// rename returns a change of the name of a part.
func rename(id diagram.ID, name string) func(*diagram.Tx) error {
	return func(tx *diagram.Tx) error {
		part, ok := tx.Part(id)
		if !ok {
			return errors.New("there is no such part")
		}
		part.Name = name
		tx.SetPart(part)
		return nil
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func TestChange(t *testing.T) {
	d := drive(t)
	version := d.DocumentVersion()
	must(t, d.Change("rename part", rename("panel-1", "Workshop")))
	if got := d.Document().NameOf("panel-1"); got != "Workshop" {
		t.Errorf("name: got %q", got)
	}
	if d.DocumentVersion() <= version {
		t.Error("the version of the document did not rise")
	}
	if got := d.UndoLabel(); got != "rename part" {
		t.Errorf("label: got %q", got)
	}
}

func TestChangeRefused(t *testing.T) {
	for _, row := range []struct {
		name string
		f    func(*diagram.Tx) error
	}{
		{"by the caller", func(tx *diagram.Tx) error { tx.Remove("panel-1"); return errors.New("no") }},
		{"as invalid", func(tx *diagram.Tx) error {
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Turn: 9})
			return nil
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			first := places(d.Document())
			if err := d.Change("change", row.f); err == nil {
				t.Error("it was taken")
			}
			if diff := cmp.Diff(first, places(d.Document())); diff != "" {
				t.Errorf("(-before +after):\n%s", diff)
			}
			if d.CanUndo() || !d.IsSaved() {
				t.Error("a refused change left a trace in the history")
			}
			must(t, d.Change("rename part", rename("panel-1", "Workshop")))
		})
	}
}

func TestChangeThatChangesNothing(t *testing.T) {
	d := drive(t)
	must(t, d.Change("rename part", rename("panel-1", "Lab")))
	if d.CanUndo() || !d.IsSaved() {
		t.Error("it left an entry in the history")
	}
}

func TestKeyedChangesJoin(t *testing.T) {
	set := func(d *edittest.Driver, key, name string) {
		must(t, d.ChangeKeyed(key, "rename", rename("panel-1", name)))
	}
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want int
	}{
		{"one key", func(d *edittest.Driver) { set(d, "a", "1"); set(d, "a", "2"); set(d, "a", "3") }, 1},
		{"two keys", func(d *edittest.Driver) { set(d, "a", "1"); set(d, "b", "2") }, 2},
		{"no key", func(d *edittest.Driver) { set(d, "", "1"); set(d, "", "2") }, 2},
		{"ended", func(d *edittest.Driver) { set(d, "a", "1"); d.EndKeyed(); set(d, "a", "2") }, 2},
		{"saved between", func(d *edittest.Driver) { set(d, "a", "1"); d.MarkSaved(); set(d, "a", "2") }, 2},
		{"undone between", func(d *edittest.Driver) { set(d, "a", "1"); set(d, "b", "2"); d.Undo(); set(d, "a", "3") }, 2},
		{"clicked between", func(d *edittest.Driver) { set(d, "a", "1"); d.Click(-80, 30); set(d, "a", "2") }, 2},
		{"back to the start", func(d *edittest.Driver) { set(d, "a", "1"); set(d, "a", "Lab") }, 0},
		{"back and on", func(d *edittest.Driver) { set(d, "a", "1"); set(d, "a", "Lab"); set(d, "a", "2") }, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			got := 0
			for ; d.CanUndo(); got++ {
				d.Undo()
			}
			if got != row.want {
				t.Errorf("got %d entries, want %d", got, row.want)
			}
			if name := d.Document().NameOf("panel-1"); name != "Lab" {
				t.Errorf("undo led to %q, want Lab", name)
			}
		})
	}
}

func TestSaved(t *testing.T) {
	set := func(d *edittest.Driver, name string) { must(t, d.Change("rename", rename("panel-1", name))) }
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want bool
	}{
		{"new", func(*edittest.Driver) {}, true},
		{"changed", func(d *edittest.Driver) { set(d, "1") }, false},
		{"saved", func(d *edittest.Driver) { set(d, "1"); d.MarkSaved() }, true},
		{"undone to it", func(d *edittest.Driver) { set(d, "1"); d.MarkSaved(); set(d, "2"); d.Undo() }, true},
		{"redone to it", func(d *edittest.Driver) { set(d, "1"); d.MarkSaved(); d.Undo(); d.Redo() }, true},
		{"undone past it", func(d *edittest.Driver) { set(d, "1"); d.MarkSaved(); d.Undo() }, false},
		{"another branch", func(d *edittest.Driver) { set(d, "1"); d.MarkSaved(); d.Undo(); set(d, "2") }, false},
		{"in a gesture", func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 60) }, false},
		{"after a dropped gesture", func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 60).Cancel() }, true},
		{"selected only", func(d *edittest.Driver) { d.Click(80, 60) }, true},
		{"marked unsaved", func(d *edittest.Driver) { d.MarkUnsaved() }, false},
		{"keyed there and back", func(d *edittest.Driver) {
			must(t, d.ChangeKeyed("a", "rename", rename("panel-1", "1")))
			must(t, d.ChangeKeyed("a", "rename", rename("panel-1", "Lab")))
		}, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			if got := d.IsSaved(); got != row.want {
				t.Errorf("got %t, want %t", got, row.want)
			}
		})
	}
}

// TestUndoBringsBackTheSelection deletes, undoes and redoes, and looks at what
// is selected after each.
func TestUndoBringsBackTheSelection(t *testing.T) {
	d := drive(t)
	d.Click(80, 60).ShiftClick(5, 60).Key(edit.KeyDelete)
	for _, step := range []struct{ do, want string }{
		{"undo", "load-1 panel-1"}, {"redo", ""}, {"undo", "load-1 panel-1"},
	} {
		d.Do(step.do)
		if got := selected(d); got != step.want {
			t.Errorf("%s: selected %q, want %q", step.do, got, step.want)
		}
	}
	d.Arm(diagram.Load)
	d.Click(-80, 120).Do("undo")
	if got := selected(d); got != "load-1 panel-1" {
		t.Errorf("after placing was undone: selected %q", got)
	}
}

func TestUndoShowsThePlanItIsAbout(t *testing.T) {
	d := drive(t)
	other, err := d.AddPlan("Other", "")
	must(t, err)
	if _, err := d.AttachTo("panel-1"); err != nil {
		t.Fatal(err)
	}
	d.SetPlan(diagram.FirstPlan)
	d.Undo()
	if got := d.Plan(); got != other {
		t.Errorf("got %s, want %s", got, other)
	}
	d.Undo()
	if got := d.Plan(); got != diagram.FirstPlan {
		t.Errorf("after the plan is gone: got %s, want %s", got, diagram.FirstPlan)
	}
}

func TestUndoIsUnlimited(t *testing.T) {
	const steps = 1000
	d := drive(t)
	for i := range steps {
		must(t, d.Change("rename", rename("panel-1", fmt.Sprint(i))))
	}
	got := 0
	for ; d.CanUndo(); got++ {
		d.Undo()
	}
	if got != steps || d.Document().NameOf("panel-1") != "Lab" {
		t.Errorf("got %d steps back to %q", got, d.Document().NameOf("panel-1"))
	}
}

func TestChangeDropsTheGesture(t *testing.T) {
	d := drive(t)
	d.Press(80, 60).DragTo(120, 60)
	must(t, d.Change("rename", rename("panel-1", "Workshop")))
	d.DragTo(150, 60).Release()
	if load, _ := d.Document().Part("load-1"); load.At.X != 80 {
		t.Errorf("the load stands at %g, want 80", load.At.X)
	}
	if got := d.UndoLabel(); got != "rename" {
		t.Errorf("label: got %q", got)
	}
}

// TestVersions checks that each version rises with what it stands for, and
// only then.
func TestVersions(t *testing.T) {
	read := func(d *edittest.Driver) [5]uint64 {
		return [5]uint64{d.DocumentVersion(), d.SceneVersion(), d.ViewVersion(), d.SelectionVersion(), d.OverlayVersion()}
	}
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		want [5]bool // document, scene, view, selection, overlay
	}{
		{"hover over nothing", func(d *edittest.Driver) { d.Hover(-80, 30) }, [5]bool{}},
		{"hover over a part", func(d *edittest.Driver) { d.Hover(80, 60) }, [5]bool{4: true}},
		{"select", func(d *edittest.Driver) { d.Select("panel-1") }, [5]bool{3: true, 4: true}},
		{"select again", func(d *edittest.Driver) { d.Select("load-1") }, [5]bool{}},
		{"pan", func(d *edittest.Driver) { d.Scroll(10, 0) }, [5]bool{2: true, 4: true}},
		{"drag", func(d *edittest.Driver) { d.Press(80, 60).DragTo(120, 60) }, [5]bool{true, true, false, false, true}},
		{"same size", func(d *edittest.Driver) { d.Resize(edittest.Width, edittest.Height) }, [5]bool{}},
		{"same plan", func(d *edittest.Driver) { d.SetPlan(diagram.FirstPlan) }, [5]bool{}},
		{"same options", func(d *edittest.Driver) { d.SetOptions(scene.Options{}) }, [5]bool{}},
		{"other options", func(d *edittest.Driver) { d.SetOptions(scene.Options{HideLabels: true}) }, [5]bool{1: true, 4: true}},
		{"marks", func(d *edittest.Driver) { d.SetMarks(scene.Marks{}) }, [5]bool{1: true, 4: true}},
		{"change", func(d *edittest.Driver) { must(t, d.Change("rename", rename("panel-1", "Workshop"))) }, [5]bool{0: true, 1: true, 4: true}},
		{"change to the same", func(d *edittest.Driver) { must(t, d.Change("rename", rename("panel-1", "Lab"))) }, [5]bool{}},
		{"drag that moves nothing, dropped", func(d *edittest.Driver) { d.Hover(80, 60).Press(80, 60).DragTo(81, 60).Cancel() }, [5]bool{4: true}},
		{"no plan", func(d *edittest.Driver) { d.SetPlan("panel-1") }, [5]bool{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			d.Select("load-1")
			before := read(d)
			row.do(d)
			after := read(d)
			for i, name := range []string{"document", "scene", "view", "selection", "overlay"} {
				if got := after[i] > before[i]; got != row.want[i] {
					t.Errorf("%s rose: got %t, want %t", name, got, row.want[i])
				}
			}
		})
	}
}
