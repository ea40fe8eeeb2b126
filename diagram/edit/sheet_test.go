package edit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

// house returns a supply above a switchboard with one protector, a panel below
// it, and a load beside that nothing feeds.
func house(t testing.TB) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		part := func(id diagram.ID, kind diagram.Kind, name string, x, y float64) {
			p := diagram.Part{ID: id, Kind: kind, Name: name, At: geom.Pt(x, y)}
			if kind == diagram.Supply {
				p.System = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid}
			}
			tx.SetPart(p)
		}
		part("supply-1", diagram.Supply, "Utility", 0, -60)
		part("switchboard-1", diagram.Switchboard, "Main", 0, 0)
		part("panel-1", diagram.Panel, "Lab", 0, 60)
		part("load-1", diagram.Load, "Pump", 80, 60)
		feeder := func(id, from, to diagram.ID) {
			tx.SetFeeder(diagram.Feeder{
				ID: id, From: diagram.End{Part: from}, To: diagram.End{Part: to}, Length: 10,
				Switch: diagram.SwitchData{Kind: diagram.Breaker},
			})
		}
		feeder("feeder-1", "supply-1", "switchboard-1")
		feeder("feeder-2", "switchboard-1", "panel-1")
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "switchboard-1", Offset: 20})
	})
}

func drive(t testing.TB) *edittest.Driver {
	t.Helper()
	return edittest.New(t, house(t), edit.Options{})
}

// places writes the records as one line each: where parts lie, what feeders
// lead between, what protectors hang on.
func places(doc *diagram.Document) string {
	var out strings.Builder
	for p := range doc.Parts() {
		fmt.Fprintf(&out, "%s at %g,%g", p.ID, p.At.X, p.At.Y)
		if p.Turn != 0 {
			fmt.Fprintf(&out, " turn %d", p.Turn)
		}
		if p.Span != 0 {
			fmt.Fprintf(&out, " span %g", p.Span)
		}
		out.WriteString("\n")
	}
	for f := range doc.Feeders() {
		fmt.Fprintf(&out, "%s %s to %s\n", f.ID, end(f.From), end(f.To))
	}
	for p := range doc.Protectors() {
		fmt.Fprintf(&out, "%s in %s on %s at %g\n", p.ID, p.Plan, p.Bus, p.Offset)
	}
	return out.String()
}

func end(e diagram.End) string { return strings.TrimSuffix(fmt.Sprintf("%s/%s", e.Part, e.Port), "/") }

// changed returns the lines of places that differ, each after - or +.
func changed(before, after string) string {
	had, has := lines(before), lines(after)
	var out []string
	for _, line := range strings.Split(strings.TrimSpace(before), "\n") {
		if !has[line] {
			out = append(out, "-"+line)
		}
	}
	for _, line := range strings.Split(strings.TrimSpace(after), "\n") {
		if !had[line] {
			out = append(out, "+"+line)
		}
	}
	return strings.Join(out, "\n")
}

func lines(text string) map[string]bool {
	out := map[string]bool{}
	for _, line := range strings.Split(text, "\n") {
		out[line] = true
	}
	return out
}

// gesture is one row of a table of gestures: what is done, what it changes,
// how many entries the history grows by, and what is selected at the end.
type gesture struct {
	name     string
	do       func(d *edittest.Driver)
	changes  string
	label    string // of the last entry; empty: the history does not grow
	selected string
}

// try plays each gesture on the house, then takes it back and does it again.
func try(t *testing.T, gestures []gesture) {
	t.Helper()
	for _, g := range gestures {
		t.Run(g.name, func(t *testing.T) {
			d := drive(t)
			first := places(d.Document())
			g.do(d)
			last := places(d.Document())
			if diff := cmp.Diff(strings.TrimSpace(g.changes), changed(first, last)); diff != "" {
				t.Errorf("changes (-want +got):\n%s", diff)
			}
			if got := d.UndoLabel(); got != g.label {
				t.Errorf("label: got %q, want %q", got, g.label)
			}
			if got := selected(d); got != g.selected {
				t.Errorf("selected: got %q, want %q", got, g.selected)
			}
			backAndForth(t, d, first, last)
		})
	}
}

func backAndForth(t *testing.T, d *edittest.Driver, first, last string) {
	t.Helper()
	if d.CanUndo() {
		d.Do("undo")
	}
	if diff := cmp.Diff(first, places(d.Document())); diff != "" {
		t.Errorf("one undo does not lead to the first state (-first +got):\n%s", diff)
	}
	if d.CanRedo() {
		d.Do("redo")
	}
	if diff := cmp.Diff(last, places(d.Document())); diff != "" {
		t.Errorf("redo does not lead to the last state (-last +got):\n%s", diff)
	}
}

func selected(d *edittest.Driver) string {
	words := make([]string, len(d.Selection()))
	for i, id := range d.Selection() {
		words[i] = string(id)
	}
	return strings.Join(words, " ")
}
