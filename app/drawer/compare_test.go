package drawer

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/unit"
)

// compared is a view of the two plans of a small sheet, in a window of a size.
func compared(t *testing.T, size fyne.Size) (*Compare, CompareState, *[]diagram.ID) {
	t.Helper()
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, System: diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}})
		for _, id := range []diagram.ID{"panel-1", "panel-2"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel, Name: strings.ToUpper(string(id)), Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 3}})
			tx.SetFeeder(diagram.Feeder{ID: "to-" + id, From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: id}, Length: 30})
		}
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load, Name: "Pump", Load: diagram.LoadData{Critical: true}, Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 2}})
		tx.SetFeeder(diagram.Feeder{ID: "to-load", From: diagram.End{Part: "panel-2"}, To: diagram.End{Part: "load-1"}, Length: 1})
		tx.SetPlan(diagram.Plan{ID: "second", Name: "Better", Order: 2})
		p := diagram.Protector{ID: "p", Plan: "second", Bus: "panel-1", Name: "SPD", Price: 120, Hours: 2}
		for i := range p.Modes {
			p.Modes[i] = diagram.ModeRating{Connected: true, Level: 700, MCOV: 320}
		}
		tx.SetProtector(p)
		tx.SetInfo(diagram.Info{Costs: diagram.Costs{Currency: "XYZ", Rate: 10}})
	})
	in, err := compare.Solve(context.Background(), &assess.Engine{}, compare.Input{Document: doc, Plans: compare.All(doc), Basis: analysis.HandRule})
	if err != nil {
		t.Fatal(err)
	}
	var went []diagram.ID
	go1 := func(id diagram.ID) { went = append(went, id) }
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	c := NewCompare(CompareHands{GoTo: go1, ShowPlan: go1, Seen: func() {}})
	w := test.NewTempWindow(t, c.Object())
	w.Resize(size)
	state := CompareState{Table: in.Table(), Plan: "second", Convention: unit.NorthAmerican, Palette: draw.Light()}
	c.Show(state)
	return c, state, &went
}

func names(c *Compare) string {
	var out []string
	for _, row := range c.kept {
		out = append(out, string(row.Part.ID))
	}
	return strings.Join(out, " ")
}

// What is checked and picked above decides what is listed; the button takes it off again.
func TestCompareFilters(t *testing.T) {
	c, _, _ := compared(t, fyne.NewSize(900, 240))
	check := func(when, want string) {
		t.Helper()
		if got := names(c); got != want {
			t.Errorf("%s: got %q, want %q", when, got, want)
		}
	}
	check("at first", "panel-1 panel-2 load-1")
	test.Tap(c.bar.changes)
	check("what changes", "panel-1")
	test.Tap(c.bar.changes)
	test.Tap(c.bar.open)
	check("still not held", "panel-2 load-1")
	test.Tap(c.bar.critical)
	check("and critical", "load-1")
	if !c.bar.all.Visible() || !strings.Contains(c.bar.told.Text(), "1 of 3 shown") {
		t.Errorf("the bar says %q", c.bar.told.Text())
	}
	test.Tap(c.bar.all)
	check("all", "panel-1 panel-2 load-1")
	if c.bar.open.Checked || c.bar.critical.Checked || c.bar.all.Visible() {
		t.Error("the checks still stand")
	}
	c.bar.sort.SetSelected("Worst first")
	check("worst in the plan on the sheet first", "panel-2 load-1 panel-1")
}

// The heads have the totals: by letters, what is left, and what it costs.
func TestCompareHeads(t *testing.T) {
	c, state, _ := compared(t, fyne.NewSize(900, 240))
	got := strings.Join(headLines(state.Table, state.Table.Plans[1]), "\n")
	for _, want := range []string{"H 1 · U 2", "\nU 1\n", "2\u00a0h · 140\u00a0XYZ"} {
		if !strings.Contains(got, want) {
			t.Errorf("got %q, want %q in it", got, want)
		}
	}
	state.Table.Plans[1].Aside[0] = 2
	if got := findingsText(state.Table.Plans[1]); !strings.HasSuffix(got, " · 2 set aside") {
		t.Errorf("got %q", got)
	}
	if len(c.heads.Objects) != 3 {
		t.Errorf("got %d heads", len(c.heads.Objects))
	}
}

// A verdict is told by its letter and by its colour, a plan that is not solved by neither.
func TestCompareCells(t *testing.T) {
	c, state, _ := compared(t, fyne.NewSize(900, 240))
	row := newSideRow(2)
	row.show(c.kept[0], state)
	held, unreached := row.cells[1], row.cells[0]
	if held.letter.Text != "H" || held.badge.FillColor != draw.Light()[draw.RoleHeld] || unreached.letter.Text != "U" || unreached.badge.FillColor == held.badge.FillColor {
		t.Errorf("got %q and %q", unreached.letter.Text, held.letter.Text)
	}
	if got := held.figure.Text; !strings.Contains(got, "V L-") || !strings.Contains(got, "%") {
		t.Errorf("got %q", got)
	}
	c.kept[0].Cells[1].Band = &analysis.Band{Low: 712, High: 1234}
	if row.show(c.kept[0], state); !strings.HasSuffix(strings.ReplaceAll(held.figure.Text, "\u00a0", " "), "712 V to 1 230 V") {
		t.Errorf("with a band it says %q", held.figure.Text)
	}
	c.kept[0].Cells[1] = compare.Cell{}
	if row.show(c.kept[0], state); held.letter.Text != "" || held.figure.Text != "…" {
		t.Errorf("not solved it says %q %q", held.letter.Text, held.figure.Text)
	}
}

// The cursor stays with its board when others go, and the head of a plan shows it.
func TestCompareCursor(t *testing.T) {
	c, state, went := compared(t, fyne.NewSize(900, 240))
	c.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	test.Tap(c.bar.open)
	if c.picked != "load-1" || c.at != 1 {
		t.Errorf("the cursor is at %d, on %s", c.at, c.picked)
	}
	c.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	c.heads.Objects[1].(*planHead).Tapped(nil)
	if got := *went; len(got) != 2 || got[0] != "load-1" || got[1] != state.Table.Plans[0].ID {
		t.Errorf("went to %v", got)
	}
}

// Other plans make other columns, and none at all does no harm; with many the view scrolls
// sideways and is no wider for it.
func TestCompareOfOtherPlans(t *testing.T) {
	c, state, _ := compared(t, fyne.NewSize(620, 200))
	wide := state
	wide.Table = &compare.Table{Document: state.Table.Document, Plans: append(state.Table.Plans, state.Table.Plans...)}
	for _, row := range state.Table.Rows {
		row.Cells = append(row.Cells, row.Cells...)
		wide.Table.Rows = append(wide.Table.Rows, row)
	}
	before := c.Object().MinSize().Width
	for _, s := range []CompareState{wide, {}, state, wide} {
		c.Show(s)
		for range c.kept {
			c.update(0, c.list.CreateItem())
		}
	}
	if got := c.Object().MinSize().Width; got > before || before > 620 {
		t.Errorf("it is %g wide at least, before %g", got, before)
	}
	if badges := len(newSideRow(4).cells); badges != 4 {
		t.Errorf("got %d cells", badges)
	}
}
