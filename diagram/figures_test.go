package diagram_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// golden compares a text with the file of testdata; UPDATE=1 writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") == "1" {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.ReplaceAll(string(want), "\r\n", "\n"), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", path, diff)
	}
}

// TestUsualText writes what is usual of every figure, in both conventions, with where
// it comes from.
func TestUsualText(t *testing.T) {
	var out strings.Builder
	for f := diagram.UsualFault; f <= diagram.UsualWaveSpeed; f++ {
		u := f.Usual()
		fmt.Fprintf(&out, "%s: %s; %s. %s\n", u.Noun, u.Range(unit.NorthAmerican), u.Range(unit.IEC), u.Source)
		below, above := u.Mark(u.Least*0.99, unit.NorthAmerican), u.Mark(u.Most*1.01, unit.NorthAmerican)
		if above != "over "+u.Mark(u.Most*2, unit.NorthAmerican)[len("over "):] || u.Least > 0 && !strings.HasPrefix(below, "under ") {
			t.Errorf("%s: 1 %% beyond its range it is %q and %q", u.Noun, below, above)
		}
	}
	golden(t, "usual.txt", out.String())
}

// TestBoundsText writes what is said of every number of every record where it lies
// far outside.
func TestBoundsText(t *testing.T) {
	var out strings.Builder
	records := []struct {
		name   string
		record any
		set    func(*diagram.Tx, any)
	}{
		{"info", &diagram.Info{}, func(tx *diagram.Tx, r any) { tx.SetInfo(*r.(*diagram.Info)) }},
		{"plan", &diagram.Plan{ID: "plan-2"}, func(tx *diagram.Tx, r any) { tx.SetPlan(*r.(*diagram.Plan)) }},
		{"part", &diagram.Part{ID: "x", Kind: diagram.Panel}, func(tx *diagram.Tx, r any) { tx.SetPart(*r.(*diagram.Part)) }},
		{"feeder", &diagram.Feeder{ID: "x", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-2"}}, func(tx *diagram.Tx, r any) { tx.SetFeeder(*r.(*diagram.Feeder)) }},
		{"protector", &diagram.Protector{ID: "x", Plan: diagram.FirstPlan, Bus: "panel-2"}, func(tx *diagram.Tx, r any) { tx.SetProtector(*r.(*diagram.Protector)) }},
		{"surge", &diagram.Surge{ID: "x", Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 1, Current: 1}, func(tx *diagram.Tx, r any) { tx.SetSurge(*r.(*diagram.Surge)) }},
	}
	for _, row := range records {
		for _, f := range fieldsOf(reflect.ValueOf(row.record).Elem(), "") {
			before := reflect.New(f.Type()).Elem()
			before.Set(f.Value)
			switch f.Kind() {
			case reflect.Float64:
				f.SetFloat(1e30)
			case reflect.Int:
				f.SetInt(1e9)
			default:
				continue
			}
			_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
				tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply})
				tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
				row.set(tx, row.record)
				return nil
			})
			f.Set(before)
			var invalid *diagram.InvalidError
			if !errors.As(err, &invalid) || len(invalid.Problems) != 1 {
				t.Fatalf("%s, %s: %v", row.name, f.path, err)
			}
			p := invalid.Problems[0]
			write := func(v float64) string { return fmt.Sprintf("%g", v) }
			fmt.Fprintf(&out, "%s, %s: %s (%s)\n", row.name, p.Field, strings.ReplaceAll(p.Remedy, "\u00a0", " "), p.Bounds.Words(write))
		}
	}
	golden(t, "bounds.txt", out.String())
}

// Systems that no preset has, by the definitions: two thirds of the wiring's geometry
// are roots of three, and names are in whole volts from ten on.
func TestOtherSystems(t *testing.T) {
	for _, row := range []struct {
		system                    diagram.System
		text                      string
		neutral, highest, toEarth float64
		lines, phases             int
	}{
		{diagram.System{Wiring: diagram.Wye, Voltage: 415, Neutral: true, Earthing: diagram.TNCS}, "415/240 TN-C-S", 240, 240, 240, 3, 3},
		{diagram.System{Wiring: diagram.Wye, Voltage: 380, Neutral: true, Earthing: diagram.Solid}, "380Y/219", 219.393, 219.393, 219.393, 3, 3},
		{diagram.System{Wiring: diagram.Wye, Voltage: 690, Neutral: true, Earthing: diagram.Unearthed}, "690Y/400 ungrounded", 400, 400, 690, 3, 3},
		{diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Impedance}, "480 delta HRG", 277.128, 277.128, 480, 3, 3},
		{diagram.System{Wiring: diagram.Delta, Voltage: 240, Earthing: diagram.Solid}, "240 delta", 138.564, 138.564, 240, 3, 3},
		{diagram.System{Wiring: diagram.Delta, Voltage: 240, Neutral: true, Earthing: diagram.IT}, "240 delta IT", 138.564, 138.564, 240, 3, 3},
		{diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Earthing: diagram.Solid}, "240 high leg 3-wire", 120, 207.846, 207.846, 3, 3},
		{diagram.System{Wiring: diagram.Split, Voltage: 230, Neutral: true, Earthing: diagram.Solid}, "115/230", 115, 115, 115, 2, 1},
		{diagram.System{Wiring: diagram.Single, Voltage: 9.5, Neutral: true, Earthing: diagram.Solid}, "9.5", 9.5, 9.5, 9.5, 1, 1},
		{diagram.System{Wiring: diagram.Single, Voltage: 10, Neutral: true, Earthing: diagram.Solid}, "10", 10, 10, 10, 1, 1},
		{diagram.System{Wiring: diagram.Single, Voltage: 12.6, Neutral: true, Earthing: diagram.Solid}, "13", 12.6, 12.6, 12.6, 1, 1},
		{diagram.System{Wiring: diagram.Wye}, "not known", 0, 0, 0, 3, 3},
		{diagram.System{Voltage: 400}, "not known", 0, 0, 400, 0, 0},
	} {
		s := row.system
		if s.String() != row.text || s.Lines() != row.lines || s.Phases() != row.phases {
			t.Errorf("got %q, %d lines, %d phases; want %q, %d, %d", s, s.Lines(), s.Phases(), row.text, row.lines, row.phases)
		}
		for i, pair := range [][2]float64{{s.LineToNeutral(), row.neutral}, {s.HighestToNeutral(), row.highest}, {s.HighestToEarth(), row.toEarth}} {
			if math.Abs(pair[0]-pair[1]) > 1e-3 {
				t.Errorf("%s: voltage %d is %g, want %g", s, i, pair[0], pair[1])
			}
		}
	}
	for _, preset := range diagram.Presets() { // 50 Hz goes with the earthings of IEC
		if want := map[bool]float64{true: 50, false: 60}[preset.System.Earthing.IsIEC()]; preset.System.Frequency != want {
			t.Errorf("%s: got %g Hz, want %g", preset.Name, preset.System.Frequency, want)
		}
		if s := preset.System; s.HasMode(diagram.LineNeutral) != s.Neutral || s.HasMode(diagram.NeutralEarth) != s.Neutral || !s.HasMode(diagram.LineEarth) || s.HasMode(diagram.LineLine) != (s.Lines() > 1) {
			t.Errorf("%s has the wrong modes", preset.Name)
		}
	}
	if none := (diagram.System{Neutral: true}); none.HasMode(diagram.LineNeutral) || none.HasMode(diagram.LineEarth) || none.HasMode(diagram.LineLine) {
		t.Error("a system that is not known has modes")
	}
}

// Many records are removed as each would be alone, and an id of nothing, or none at
// all, removes nothing.
func TestRemoveMany(t *testing.T) {
	build := func() *diagram.Document {
		doc := withSurges(t, ring("surge-1"), at(ring("surge-2"), "panel-1"), at(ring("surge-3"), "load-1"))
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-2", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}})
			tx.SetPlan(diagram.Plan{ID: "plan-2", Order: 2})
			for i, bus := range []diagram.ID{"panel-1", "load-1", "load-1"} {
				tx.SetProtector(diagram.Protector{ID: diagram.ID(fmt.Sprintf("protector-%d", i+1)), Plan: []diagram.ID{diagram.FirstPlan, diagram.FirstPlan, "plan-2"}[i], Bus: bus})
			}
		})
		return doc
	}
	all := strings.Fields("plan-1 plan-2 load-1 panel-1 supply-1 feeder-1 feeder-2 protector-1 protector-2 protector-3 surge-1 surge-2 surge-3")
	for _, row := range []struct{ ids, gone string }{
		{"", ""}, {"nothing", ""},
		{"panel-1", "panel-1 feeder-1 feeder-2 protector-1 surge-2"}, {"supply-1", "supply-1 feeder-1"},
		{"load-1 feeder-1", "load-1 feeder-1 feeder-2 protector-2 protector-3 surge-3"},
		{"plan-2 surge-1 protector-1", "plan-2 surge-1 protector-1 protector-3"}, {"protector-2", "protector-2"}, {"feeder-2", "feeder-2"},
	} {
		doc := build()
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			tx.Remove("") // what a surge at the supply in use names as its part
			for _, id := range strings.Fields(row.ids) {
				defer tx.Remove(diagram.ID(id))
			}
		})
		one := contents(doc)
		doc = build()
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			var ids []diagram.ID
			for _, id := range strings.Fields(row.ids) {
				ids = append(ids, diagram.ID(id))
			}
			tx.Remove(ids...)
		})
		if diff := cmp.Diff(one, contents(doc)); diff != "" {
			t.Errorf("%s: one by one and at once (-one +all):\n%s", row.ids, diff)
		}
		var gone []string
		for _, id := range all {
			if !doc.Has(diagram.ID(id)) {
				gone = append(gone, id)
			}
		}
		if got, want := strings.Join(gone, " "), strings.Join(sortedLike(all, row.gone), " "); got != want {
			t.Errorf("%s: %q is gone, want %q", row.ids, got, want)
		}
	}
}

// sortedLike returns words in the order that they have in a list.
func sortedLike(list []string, words string) []string {
	var out []string
	for _, one := range list {
		for _, word := range strings.Fields(words) {
			if word == one {
				out = append(out, word)
			}
		}
	}
	return out
}

// What is said of the sheet itself changes, comes back and joins like any record, and
// a change of another state is the caller's mistake.
func TestChangesOfTheSheetItself(t *testing.T) {
	title := func(doc *diagram.Document, text string) diagram.Change {
		change, err := doc.Edit(func(tx *diagram.Tx) error {
			info := tx.Document().Info()
			info.Title = "in between"
			tx.SetInfo(info)
			info.Title = text
			tx.SetInfo(info)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return change
	}
	doc := diagram.New()
	first, second := title(doc, "A"), title(doc, "B")
	if first.IsEmpty() || first.Info.From.Title != "" || first.Info.To.Title != "A" {
		t.Errorf("the first change is %+v", first.Info)
	}
	if both := first.Then(second); both.Info.From.Title != "" || both.Info.To.Title != "B" {
		t.Errorf("both together are %+v", both.Info)
	}
	if same := title(doc, "B"); !same.IsEmpty() {
		t.Errorf("the same again is %+v", same.Info)
	}
	if alone := (diagram.Change{}).Then(second); alone.Info == nil || alone.Info.From.Title != "A" {
		t.Errorf("after nothing: %+v", alone.Info)
	}
	if alone := second.Then(diagram.Change{}); alone.Info == nil || alone.Info.From.Title != "A" {
		t.Errorf("before nothing: %+v", alone.Info)
	}
	part, _ := diagram.New().Edit(func(tx *diagram.Tx) error { tx.SetPart(diagram.Part{ID: "p", Kind: diagram.Load}); return nil })
	for name, change := range map[string]diagram.Change{"the sheet's data": first, "p": part.Inverse()} {
		func() {
			defer func() {
				if problem := fmt.Sprint(recover()); !strings.Contains(problem, name) {
					t.Errorf("%s: panicked with %q", name, problem)
				}
			}()
			doc.Apply(change)
		}()
	}
	// A change that is taken back whole counts as none, and a second problem is counted.
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		for _, id := range []diagram.ID{"a", "b", "c"} {
			tx.SetPart(diagram.Part{ID: id, Kind: "reactor"})
		}
		return nil
	})
	if err == nil || !strings.HasSuffix(err.Error(), "(and 2 more)") {
		t.Errorf("three problems: %v", err)
	}
	if doc.Info().Title != "B" || doc.Has("a") {
		t.Error("a refused change left something")
	}
}

// Texts may have 20 000 bytes, and no more.
func TestLongestText(t *testing.T) {
	for length, taken := range map[int]bool{20_000: true, 20_001: false} {
		_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
			tx.SetInfo(diagram.Info{Note: strings.Repeat("x", length)})
			return nil
		})
		if (err == nil) != taken || err != nil && !strings.Contains(err.Error(), "use at most 20000 bytes") {
			t.Errorf("%d: %v", length, err)
		}
	}
}

// New ids go on after the highest of the stem, whatever sort of record has it.
func TestNewIDsAmongOthers(t *testing.T) {
	diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for _, id := range []diagram.ID{"panel-3", "panel-x", "panels-99", "pane-50", "transfer-7"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel})
		}
		tx.SetPlan(diagram.Plan{ID: "panel-8", Order: 2})
		for _, want := range []diagram.ID{"panel-9", "panel-10"} {
			if got := tx.NewPartID(diagram.Panel); got != want {
				t.Errorf("got %s, want %s", got, want)
			}
		}
		for got, want := range map[diagram.ID]diagram.ID{
			tx.NewPartID(diagram.TransferSwitch): "transfer-8", tx.NewFeederID(): "feeder-1", tx.NewProtectorID(): "protector-1", tx.NewPlanID(): "plan-2", tx.NewSurgeID(): "surge-1",
		} {
			if got != want {
				t.Errorf("got %s, want %s", got, want)
			}
		}
	})
}

// Every sort of record is called by its name, or else by its id; a feeder without one
// by what it joins.
func TestNamesOfRecords(t *testing.T) {
	doc := withSurges(t, ring("surge-1"))
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Hall\nnorth"})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-2", Name: "Riser", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}})
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD 1"})
		tx.SetProtector(diagram.Protector{ID: "protector-2", Plan: diagram.FirstPlan, Bus: "panel-1"})
		tx.SetPlan(diagram.Plan{ID: "plan-2"})
	})
	for id, want := range map[diagram.ID]string{
		"panel-1": "Hall north", "load-1": "load-1", "feeder-1": "feeder Hall north – load-1", "feeder-2": "Riser",
		"protector-1": "SPD 1", "protector-2": "protector-2", diagram.FirstPlan: "As found", "plan-2": "plan-2", "surge-1": "surge-1", "gone": "gone",
	} {
		if got := doc.NameOf(id); got != want {
			t.Errorf("%s: got %q, want %q", id, got, want)
		}
	}
	index := diagram.NewIndex(doc, diagram.FirstPlan)
	if len(index.FeedersAt("panel-1")) != 2 || len(index.FeedersAt("load-1")) != 2 || len(index.ProtectorsOn("panel-1")) != 2 || len(index.ProtectorsOn("load-1")) != 0 {
		t.Error("the index lists others than are there")
	}
	if got := doc.Extent(); !got.Contains(geom.Pt(0, 0)) || got.Width() != 0 || !diagram.New().Extent().IsEmpty() {
		t.Errorf("the extent is %v", got)
	}
}
