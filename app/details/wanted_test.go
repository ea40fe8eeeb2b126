package details

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// wantsExamples types nonsense in every field: what comes of it begins with the
// field and what to type, and the example in it is taken, and is nothing unusual.
func (b *bench[R]) wantsExamples(t *testing.T, rows []row[R]) {
	t.Helper()
	for _, g := range b.grips {
		e, ok := g.object.(*entry)
		if !ok || !g.shown {
			continue
		}
		g.enter("abc")
		if *g.message == "" { // a text
			b.editor.Undo()
			g.refresh()
			continue
		}
		_, demand, found := strings.Cut(*g.message, " must be ")
		if !found || !strings.HasSuffix(demand, "; “abc” is not") {
			t.Errorf("%s: got %q", g.name, *g.message)
		}
		_, such, found := strings.Cut(strings.TrimSuffix(demand, "; “abc” is not"), ", such as ")
		if !found {
			continue // its bounds are named
		}
		*g.message = ""
		g.enter(such)
		if *g.message != "" || e.Text == "" {
			t.Errorf("%s: its own example %s gives %q and %q", g.name, such, e.Text, *g.message)
		}
		b.usual(t, rows, g.name)
		b.editor.Undo()
		g.refresh()
	}
}

// usual wants the row not to find its value unusual.
func (b *bench[R]) usual(t *testing.T, rows []row[R], name string) {
	t.Helper()
	for _, r := range rows {
		if r.mark == nil || !strings.HasSuffix(strings.TrimRight(name, " #12"), unit.SentenceCase(r.label)) {
			continue
		}
		if mark := r.mark(b.record(), b.target.convention); mark != "" {
			t.Errorf("the example of %s is unusual at %s: %s", name, r.label, mark)
		}
	}
}

func TestMessageNamesTheField(t *testing.T) {
	for _, row := range []struct{ field, enter, want string }{
		{"Length", "abc", "Length must be a number with ft, in or m, such as 45 ft; “abc” is not"},
		{"Length", "-3", "Length must be 0 or more, such as 45 ft; “-3” is not"},
		{"Length", "2000 km", "Length must be 0 ft to 328 100 ft"},
		{"C, point to point", "abc", "C, point to point must be a number, such as 12 000; “abc” is not"},
		{"Breaker or switch at the source end: Poles", "9", "Poles must be a whole number from 0 to 4; “9” is not"},
	} {
		doc := put(t, diagram.Part{ID: "a", Kind: diagram.Panel}, diagram.Part{ID: "b", Kind: diagram.Load},
			diagram.Feeder{ID: "x", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}, Switch: diagram.SwitchData{Kind: diagram.Breaker}})
		aim := func(e Editor) target[diagram.Feeder] { return feederTarget(e, []diagram.ID{"x"}, unit.NorthAmerican) }
		b := newBench(t, doc, aim, feederRows(unit.NorthAmerican))
		g := b.find(row.field)
		g.enter(row.enter)
		if got := strings.ReplaceAll(*g.message, "\u00a0", " "); got != row.want {
			t.Errorf("%s: got %q, want %q", row.enter, got, row.want)
		}
	}
}
