package app

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// seenIn returns what the window says, greyed commands and buttons among it.
func seenIn(a *App) string {
	out := []string{a.window.Title(), wordsOf(a.window.Content()), drawn(a), fmt.Sprint(a.bar.surge.Options, a.regions.hint.Visible())}
	for _, i := range a.menu.items {
		out = append(out, fmt.Sprint(i.command.Name, " greyed: ", i.item.Disabled))
	}
	for _, b := range []interface{ Disabled() bool }{a.bar.undo, a.bar.redo, a.bar.surge} {
		out = append(out, fmt.Sprint(b.Disabled()))
	}
	return strings.Join(out, "\n")
}

// doings are what a person does in the window and what happens to it, each
// without a word to what follows.
func doings(rng *rand.Rand, a *App, folder string) []doing {
	e := a.editor
	change := func(do func(tx *diagram.Tx)) func() {
		return func() { _ = e.Change("change", func(tx *diagram.Tx) error { do(tx); return nil }) }
	}
	return []doing{
		{"select", func() { e.Select([]diagram.ID{"panel-1", "load-1", "feeder-1", "protector-1"}[rng.IntN(4)]) }},
		{"select all", e.SelectAll},
		{"hover", func() { e.Handle(edit.Event{Kind: edit.Hover, At: geom.Pt(0, 50*float64(rng.IntN(4)))}) }},
		{"zoom", e.ZoomFit},
		{"arm", e.ArmProtector},
		{"rename", change(func(tx *diagram.Tx) {
			if p, ok := tx.Part("load-1"); ok {
				p.Name = fmt.Sprint("Pump ", rng.IntN(100))
				tx.SetPart(p)
			}
		})},
		{"leads", change(func(tx *diagram.Tx) {
			if p, ok := tx.Protector("protector-1"); ok {
				p.Leads.Phase.Length = rng.Float64()
				tx.SetProtector(p)
			}
		})},
		{"remove", change(func(tx *diagram.Tx) { tx.Remove("protector-1", "feeder-2") })},
		{"empty", change(func(tx *diagram.Tx) { tx.Remove("supply-1", "panel-1", "load-1") })},
		{"undo", e.Undo},
		{"redo", e.Redo},
		{"save", e.MarkSaved},
		{"another plan", func() { plans := e.Document().Plans(); e.SetPlan(plans[rng.IntN(len(plans))].ID) }},
		{"differences", func() { e.MarkDifferences(e.Against() == "") }},
		{"against another plan", func() { plans := e.Document().Plans(); e.CompareWith(plans[rng.IntN(len(plans))].ID) }},
		{"the key that shows another plan", func() {
			e.Handle(edit.Event{Kind: []edit.EventKind{edit.KeyPress, edit.KeyRelease}[rng.IntN(2)], Key: edit.KeyGlance})
		}},
		{"another basis", func() { a.basis = []analysis.Basis{analysis.HandRule, analysis.Transient}[rng.IntN(2)] }},
		{"other units", func() { a.prefs.setUnits([]units{unitsUS, unitsIEC}[rng.IntN(2)]) }},
		{"another name", func() { a.path = filepath.Join(folder, fmt.Sprint(rng.IntN(3))) }},
		{"for reading", func() { a.held.reading = !a.held.reading }},
		{"no copy", func() { a.copy.failure = []string{"", "disk full"}[rng.IntN(2)] }},
		{"surge cases", func() { a.editing = !a.editing }},
		{"entry", func() { a.library.editing = []diagram.ID{"", a.library.own.entries()[0].Protector.ID}[rng.IntN(2)] }},
		{"drawer", func() { a.regions.drawer.Show([]string{viewFindings, viewProtectors}[rng.IntN(2)]) }},
	}
}

type doing struct {
	name string
	do   func()
}

// threePlans returns the house with a protector in the first of three plans.
func threePlans(t *testing.T) *diagram.Document {
	t.Helper()
	doc := house(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for _, name := range []string{"Cheap", "Good"} {
			tx.SetPlan(diagram.Plan{ID: tx.NewPlanID(), Name: name, Order: 2})
		}
		board, _ := tx.Part("panel-1")
		p := analysis.TypicalFor(doc, board)
		p.ID, p.Plan, p.Bus, p.Name = "protector-1", diagram.FirstPlan, "panel-1", "SPD 1"
		tx.SetProtector(p)
		tx.SetSurge(diagram.Surge{ID: "surge-1", Wave: diagram.CombinationWave, Path: diagram.LinesToEarth, Voltage: 6000, Current: 3000})
	})
	return doc
}

// What follows the state says all that it depends on: shown once more without a
// cause, it is as it was. Results come when they come.
func TestRegionsMissNothing(t *testing.T) {
	a, rng, runs, sheet := shelved(t, libraryPath(t)), diagramtest.Rand(1), &held{}, threePlans(t)
	if _, err := a.library.own.add(diagram.Protector{Name: "My own"}); err != nil {
		t.Fatal(err)
	}
	a.library.reload()
	a.judge.run = runs.executor()
	folder := t.TempDir()
	for range 400 {
		all := append(doings(rng, a, folder), doing{"another sheet", func() { a.workOn(sheet.Snapshot(), "") }})
		for range 5 { // what most happens
			all = append(all, all[0], doing{"a result", func() { runs.next() }})
		}
		step := all[rng.IntN(len(all))]
		step.do()
		a.refresh()
		before := seenIn(a)
		for _, r := range a.follow {
			if r.name == "judgement" {
				continue // asks for another one
			}
			r.show(a)
			if diff := cmp.Diff(before, seenIn(a)); diff != "" {
				t.Fatalf("after %q the region %q is out of date:\n%s", step.name, r.name, diff)
			}
		}
	}
}

// Each thing that the window shows has a facet, and no two have the same but undo
// and redo, which are one.
func TestEveryChangeHasAFacet(t *testing.T) {
	seen := map[facet]string{}
	var vary func(v reflect.Value, name string, now *shown)
	vary = func(v reflect.Value, name string, now *shown) {
		switch {
		case v.Kind() == reflect.Struct && name != "surge":
			for i := range v.NumField() {
				vary(v.Field(i), v.Type().Field(i).Name, now)
			}
			return
		case v.Kind() == reflect.Struct:
			v = v.Field(0)
		}
		settable := reflect.NewAt(v.Type(), v.Addr().UnsafePointer()).Elem()
		before := reflect.ValueOf(settable.Interface())
		switch v.Kind() {
		case reflect.Pointer:
			settable.Set(reflect.New(v.Type().Elem()))
		case reflect.String:
			settable.SetString("another")
		case reflect.Bool:
			settable.SetBool(true)
		default:
			settable.Set(reflect.ValueOf(1).Convert(v.Type()))
		}
		got := changed(now, &shown{})
		if other, double := seen[got]; got == 0 || got&(got-1) != 0 || double && other+name != "undoredo" {
			t.Errorf("%s: the facet is %b, as that of %q", name, got, other)
		}
		seen[got] = name
		settable.Set(before)
	}
	now := &shown{}
	vary(reflect.ValueOf(now).Elem(), "", now)
	var all facet
	for f := range seen {
		all |= f
	}
	if all != ofAll {
		t.Errorf("the facets are %b, want %b", all, ofAll)
	}
}
