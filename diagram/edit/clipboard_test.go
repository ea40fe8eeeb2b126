package edit_test

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

func TestCopyPaste(t *testing.T) {
	try(t, []gesture{
		{"parts with their feeder and protector, at the pointer",
			func(d *edittest.Driver) {
				d.Select("switchboard-1", "panel-1")
				d.Key("Ctrl+C").Hover(-101, 31).Key("Ctrl+V")
			},
			"+panel-2 at -100,60\n+switchboard-2 at -100,0\n+feeder-3 switchboard-2 to panel-2\n" +
				"+protector-2 in plan-1 on switchboard-2 at 20",
			"paste 2 parts", "panel-2 switchboard-2"},
		{"beside what it would cover",
			func(d *edittest.Driver) { d.Click(80, 60).Key("Ctrl+C", "Ctrl+V") },
			"+load-2 at 90,70", "paste a part", "load-2"},
		{"in the middle where the pointer is elsewhere",
			func(d *edittest.Driver) { d.Click(80, 60).Key("Ctrl+C").Leave().Key("Ctrl+V") },
			"+load-2 at 10,10", "paste a part", "load-2"},
		{"duplicate",
			func(d *edittest.Driver) { d.Click(80, 60).Key("Ctrl+D") },
			"+load-2 at 90,70", "duplicate a part", "load-2"},
		{"a protector onto the selected host",
			func(d *edittest.Driver) { d.Click(20, 7).Key("Ctrl+C").Click(5, 60).Key("Ctrl+V") },
			"+protector-2 in plan-1 on panel-1 at 20", "paste a protector", "protector-2"},
		{"a protector onto its own host",
			func(d *edittest.Driver) { d.Click(20, 7).Key("Ctrl+C", "Ctrl+V") },
			"+protector-2 in plan-1 on switchboard-1 at 20", "paste a protector", "protector-2"},
		{"a protector and an unrelated part",
			func(d *edittest.Driver) {
				d.Select("load-1", "protector-1")
				d.Key("Ctrl+C").Hover(-100, 30).Key("Ctrl+V")
			},
			"+load-2 at -100,30\n+protector-2 in plan-1 on switchboard-1 at 20", "paste a part", "load-2"},
		{"cut",
			func(d *edittest.Driver) { d.Click(80, 60).Key("Ctrl+X") },
			"-load-1 at 80,60", "cut Pump", ""},
		{"a feeder alone cannot be copied",
			func(d *edittest.Driver) { d.Click(0, 40).Key("Ctrl+C", "Ctrl+V") }, "", "", "feeder-2"},
	})
}

func TestPasteTwiceLiesApart(t *testing.T) {
	d := drive(t)
	d.Click(80, 60).Key("Ctrl+C", "Ctrl+V", "Ctrl+V")
	seen := map[geom.Point]diagram.ID{}
	for part := range d.Document().Parts() {
		if other, ok := seen[part.At]; ok {
			t.Errorf("%s covers %s", part.ID, other)
		}
		seen[part.At] = part.ID
	}
}

func TestCutAndPasteIntoAnotherPlanAndSheet(t *testing.T) {
	from := drive(t)
	from.Select("switchboard-1")
	text, err := from.Cut()
	must(t, err)

	into := edittest.New(t, diagram.New(), edit.Options{})
	plan, err := into.AddPlan("Other", "")
	must(t, err)
	must(t, into.Paste(text, geom.Pt(2, 3)))
	const want = "switchboard-1 at 0,5\nprotector-1 in plan-2 on switchboard-1 at 20\n"
	if got := places(into.Document()); got != want {
		t.Errorf("got:\n%swant:\n%s", got, want)
	}
	if into.Plan() != plan {
		t.Errorf("plan: got %s", into.Plan())
	}
}

func TestPastedNamesGoOn(t *testing.T) {
	for _, row := range []struct{ name, want string }{
		{"Panel 3", "Panel 8"}, {"Lab", "Lab 2"}, {"", ""}, {"Panel 7", "Panel 8"}, {"Room 1001A", "Room 1001A 2"},
	} {
		d := drive(t)
		must(t, d.Change("rename", func(tx *diagram.Tx) error {
			must(t, rename("load-1", row.name)(tx))
			return rename("supply-1", "Panel 7")(tx)
		}))
		d.Select("load-1")
		must(t, d.Duplicate())
		part, _ := d.Document().Part(d.Selection()[0])
		if part.Name != row.want {
			t.Errorf("copy of %q: got %q, want %q", row.name, part.Name, row.want)
		}
	}
}

func TestPasteIsSeen(t *testing.T) {
	d := drive(t)
	d.Click(80, 60)
	text, err := d.Copy()
	must(t, err)
	must(t, d.Paste(text, geom.Pt(4000, 0)))
	if part, _ := d.Document().Part("load-2"); !d.View().Rect().Contains(part.At) {
		t.Errorf("what was pasted at %v lies outside the view %v", part.At, d.View().Rect())
	}
}

func TestPasteRefuses(t *testing.T) {
	protector := func() string {
		d := drive(t)
		d.Select("protector-1")
		text, err := d.Copy()
		must(t, err)
		return text
	}()
	for _, row := range []struct{ name, text, want string }{
		{"nothing", "", "the clipboard holds nothing that was copied from a sheet"},
		{"prose", "Dear sirs,", "the clipboard holds nothing that was copied from a sheet"},
		{"other JSON", `{"a":1}`, "the clipboard cannot be pasted: "},
		{"cut short", protector[:len(protector)/2], "the clipboard cannot be pasted: "},
		{"a protector without a host", protector, "select the board, load or junction on which to paste the protector"},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := edittest.New(t, diagram.New(), edit.Options{})
			err := d.Paste(row.text, geom.Pt(0, 0))
			if err == nil || !strings.HasPrefix(err.Error(), row.want) || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line that begins %q", err, row.want)
			}
			if d.CanUndo() {
				t.Error("it left an entry in the history")
			}
		})
	}
}

// held is a clipboard of the system.
type held struct{ text string }

func (h *held) Content() string        { return h.text }
func (h *held) SetContent(text string) { h.text = text }

func TestClipboardOfTheSystem(t *testing.T) {
	var board held
	d := edittest.New(t, house(t), edit.Options{Clipboard: &board})
	d.Click(80, 60).Key("Ctrl+C")
	if !strings.Contains(board.text, `"Pump"`) {
		t.Errorf("the clipboard holds %.40q", board.text)
	}
	board.text = "something else"
	d.Key("Ctrl+V")
	if got := d.Status(); !strings.HasPrefix(got, "the clipboard holds nothing") {
		t.Errorf("status: got %q", got)
	}
}

// What became of a protector goes along where it is cut and pasted, and not where it is
// copied: the copy hangs nowhere yet.
func TestCopiesAreNotInstalled(t *testing.T) {
	installed := diagram.Installed{Date: "2026-11-29", By: "A. Tern"}
	for _, row := range []struct {
		does string
		want int
	}{{"duplicate", 1}, {"cut", 1}} {
		d := drive(t)
		id := diagram.ID("protector-1")
		must(t, d.Change("install", func(tx *diagram.Tx) error {
			p, _ := tx.Protector(id)
			p.Installed = installed
			tx.SetProtector(p)
			return nil
		}))
		p, _ := d.Document().Protector(id)
		d.Select(p.Bus)
		d.Do(row.does)
		if row.does == "cut" {
			d.Do("paste")
		}
		got := 0
		for p := range d.Document().Protectors() {
			if p.Installed == installed {
				got++
			}
		}
		if got != row.want {
			t.Errorf("%s: %d are installed, want %d", row.does, got, row.want)
		}
	}
}
