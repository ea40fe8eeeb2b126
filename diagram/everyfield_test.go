package diagram_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// field is one value within a record, by its path: "Leads.Phase.Length".
type field struct {
	path string
	reflect.Value
}

// fieldsOf returns every value within a record.
func fieldsOf(v reflect.Value, path string) []field {
	var out []field
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			out = append(out, fieldsOf(v.Field(i), strings.TrimPrefix(path+"."+v.Type().Field(i).Name, "."))...)
		}
	case reflect.Array:
		for i := range v.Len() {
			out = append(out, fieldsOf(v.Index(i), path)...)
		}
	default:
		return []field{{path, v}}
	}
	return out
}

// spoilt are values that a field may not have, by what it holds.
func spoilt(f field) []any {
	switch f.Kind() {
	case reflect.Float64:
		out := []any{math.NaN(), math.Inf(1), math.Inf(-1), 2e12, -2e12}
		if f.path != "At.X" && f.path != "At.Y" && f.path != "Offset" { // places on the sheet
			out = append(out, -1.0)
		}
		return out
	case reflect.Int:
		out := []any{-10_001, 10_001}
		if f.path != "Order" {
			out = append(out, -1)
		}
		return out
	case reflect.String:
		if f.Type() == reflect.TypeFor[string]() {
			return []any{"\xff", strings.Repeat("x", 20_001)}
		}
		return []any{"thyristor"}
	}
	return nil
}

// free are the fields in which anything goes: what the file held for others, which
// is checked where it is read, and ids, which have tests of their own.
func isFree(f field) bool {
	return f.path == "Extra" || f.Type() == reflect.TypeFor[diagram.ID]()
}

// No field of any record takes what is no number, word or text.
func TestEveryFieldIsChecked(t *testing.T) {
	part := diagram.Part{ID: "panel-1", Kind: diagram.Panel}
	for name, test := range map[string]struct {
		record any
		set    func(*diagram.Tx, any)
	}{
		"info": {&diagram.Info{}, func(tx *diagram.Tx, r any) { tx.SetInfo(*r.(*diagram.Info)) }},
		"plan": {&diagram.Plan{ID: "plan-2"}, func(tx *diagram.Tx, r any) { tx.SetPlan(*r.(*diagram.Plan)) }},
		"part": {&part, func(tx *diagram.Tx, r any) { tx.SetPart(*r.(*diagram.Part)) }},
		"feeder": {&diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-2"}}, func(tx *diagram.Tx, r any) {
			tx.SetFeeder(*r.(*diagram.Feeder))
		}},
		"protector": {&diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-2"}, func(tx *diagram.Tx, r any) {
			tx.SetProtector(*r.(*diagram.Protector))
		}},
		"aside": {&diagram.Aside{ID: "aside-1", Plan: diagram.FirstPlan, Rule: "leads.long", About: "panel-2"}, func(tx *diagram.Tx, r any) { tx.SetAside(*r.(*diagram.Aside)) }},
		"surge": {&diagram.Surge{ID: "surge-1", Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 1, Current: 1}, func(tx *diagram.Tx, r any) {
			tx.SetSurge(*r.(*diagram.Surge))
		}},
	} {
		doc := diagram.New()
		try := func() error {
			_, err := doc.Snapshot().Edit(func(tx *diagram.Tx) error {
				tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply})
				tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
				test.set(tx, test.record)
				return nil
			})
			return err
		}
		if err := try(); err != nil {
			t.Fatalf("%s as it is: %v", name, err)
		}
		for _, f := range fieldsOf(reflect.ValueOf(test.record).Elem(), "") {
			if isFree(f) {
				continue
			}
			before := reflect.New(f.Type()).Elem()
			before.Set(f.Value)
			for _, value := range spoilt(f) {
				f.Set(reflect.ValueOf(value).Convert(f.Type()))
				if try() == nil {
					t.Errorf("%s: %s takes %.20v", name, f.path, value)
				}
			}
			f.Set(before)
		}
	}
}

// Both ends of each range are taken, and what lies just beyond is not.
func TestLimits(t *testing.T) {
	type record struct {
		part      diagram.Part
		feeder    diagram.Feeder
		protector diagram.Protector
		plan      diagram.Plan
	}
	for name, row := range map[string]struct {
		set       func(*record, float64)
		low, high float64
	}{
		"turn":            {func(r *record, v float64) { r.part.Turn = int(v) }, 0, 3},
		"category":        {func(r *record, v float64) { r.part.Withstand.Category = int(v) }, 0, 4},
		"impedance":       {func(r *record, v float64) { r.part.Transformer.Impedance = v }, 0, 100},
		"reactance":       {func(r *record, v float64) { r.part.Source.Reactance = v }, 0, 1000},
		"spaces":          {func(r *record, v float64) { r.part.Board.Spaces = int(v) }, 0, 10_000},
		"free spaces":     {func(r *record, v float64) { r.part.Board.FreeSpaces = int(v) }, 0, 10_000},
		"span":            {func(r *record, v float64) { r.part.Span = v }, 0, 10_000},
		"place":           {func(r *record, v float64) { r.part.At.X = v }, -1e6, 1e6},
		"voltage":         {func(r *record, v float64) { r.part.System.Voltage = v }, 0, 1e6},
		"length":          {func(r *record, v float64) { r.feeder.Length = v }, 0, 1e5},
		"sets":            {func(r *record, v float64) { r.feeder.Parallel = int(v) }, 0, 100},
		"area":            {func(r *record, v float64) { r.feeder.Area = v }, 0, 1},
		"poles":           {func(r *record, v float64) { r.feeder.Switch.Poles = int(v) }, 0, 4},
		"breaker's poles": {func(r *record, v float64) { r.protector.Breaker.Poles = int(v) }, 0, 4},
		"lead":            {func(r *record, v float64) { r.protector.Leads.Earth.Length = v }, 0, 1000},
		"offset":          {func(r *record, v float64) { r.protector.Offset = v }, -10_000, 10_000},
		"order":           {func(r *record, v float64) { r.plan.Order = int(v) }, -10_000, 10_000},
		"bends":           {func(r *record, v float64) { r.protector.Leads.Bends = int(v) }, 0, 10_000},
		// what may be 0, or in a range of its own
		"resistance":      {func(r *record, v float64) { r.feeder.Resistance = v }, 1e-6, 1},
		"loop reactance":  {func(r *record, v float64) { r.feeder.Reactance = v }, 1e-6, 0.1},
		"constant":        {func(r *record, v float64) { r.feeder.Constant = v }, 10, 1e6},
		"surge impedance": {func(r *record, v float64) { r.feeder.SurgeImpedance = v }, 1, 1e4},
		"velocity":        {func(r *record, v float64) { r.feeder.Velocity = v }, 1e7, 2.998e8},
	} {
		try := func(v float64) error {
			r := record{
				part:      diagram.Part{ID: "panel-1", Kind: diagram.Panel},
				feeder:    diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}},
				protector: diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1"},
				plan:      diagram.Plan{ID: "plan-2"},
			}
			row.set(&r, v)
			_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
				tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply})
				tx.SetPart(r.part)
				tx.SetFeeder(r.feeder)
				tx.SetProtector(r.protector)
				tx.SetPlan(r.plan)
				return nil
			})
			return err
		}
		beyond := math.Max(1, row.high) * 1e-6 // of a whole number, the next
		if whole := row.low == math.Trunc(row.low) && row.high <= 10_000 && row.high != 1 && row.high != 0.1; whole {
			beyond = 1
		}
		for v, taken := range map[float64]bool{0: true, row.low: true, row.high: true, row.high + beyond: false} {
			if err := try(v); (err == nil) != taken {
				t.Errorf("%s of %g: got %v", name, v, err)
			}
		}
		if row.low > 0 && try(row.low*0.99) == nil {
			t.Errorf("%s of %g is taken", name, row.low*0.99)
		}
	}
}

// What goes with a plan are the protectors of that plan alone, and the last plan
// stays.
func TestRemoveAPlan(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPlan(diagram.Plan{ID: "plan-2"})
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1"})
		tx.SetProtector(diagram.Protector{ID: "protector-2", Plan: "plan-2", Bus: "panel-1"})
	})
	remove := func(id diagram.ID) error {
		_, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove(id); return nil })
		return err
	}
	if err := remove("plan-2"); err != nil {
		t.Fatal(err)
	}
	_, first := doc.Protector("protector-1")
	_, second := doc.Protector("protector-2")
	if !first || second || len(doc.Plans()) != 1 {
		t.Errorf("got %d plans, the first one's protector %v, the other's %v", len(doc.Plans()), first, second)
	}
	if err := remove(diagram.FirstPlan); err == nil || !strings.Contains(err.Error(), "plan") {
		t.Errorf("the last plan went: %v", err)
	}
	if problems := doc.Check(); len(problems) != 0 {
		t.Errorf("got %v", problems)
	}
}

// A surge of 100 000 A can be typed, and one of a million; more is none.
func TestHighSurgeCurrents(t *testing.T) {
	for amps, taken := range map[float64]bool{100e3: true, 1e6: true, 1.000001e6: false, 0: false} {
		_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
			tx.SetSurge(diagram.Surge{ID: "surge-1", Path: diagram.LineToEarth, Wave: diagram.CurrentWave, Voltage: 6000, Current: amps})
			return nil
		})
		if (err == nil) != taken {
			t.Errorf("%g A: got %v", amps, err)
		}
	}
}

// Of two conductors the voltage between neutral and earth is nothing where the
// earthing holds them together, and that of a line to neutral where it does not.
func TestModeVoltages(t *testing.T) {
	wye := func(e diagram.Earthing) diagram.System {
		return diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: e}
	}
	high := diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid}
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS}
	for _, row := range []struct {
		system diagram.System
		want   [diagram.ModeCount]float64 // L-N, L-G, N-G, L-L
	}{
		{wye(diagram.TNS), [diagram.ModeCount]float64{230, 230, 0, 400}},
		{wye(diagram.TT), [diagram.ModeCount]float64{230, 230, 0, 400}},
		{wye(diagram.IT), [diagram.ModeCount]float64{230, 400, 230, 400}},
		{wye(""), [diagram.ModeCount]float64{230, 400, 230, 400}},
		{high, [diagram.ModeCount]float64{207.846, 207.846, 0, 240}}, // √3/2 of 240 V
		{single, [diagram.ModeCount]float64{230, 230, 0, 0}},
	} {
		for mode, want := range row.want {
			if got := row.system.ModeVoltage(diagram.Mode(mode)); math.Abs(got-want) > 1e-3 {
				t.Errorf("%s, %s: got %g V, want %g", row.system, diagram.Mode(mode), got, want)
			}
		}
	}
}

// A feeder to a terminal that is not there is told which there are.
func TestTerminalsAreNamed(t *testing.T) {
	for _, row := range []struct {
		kind diagram.Kind
		port diagram.Port
		want string // empty where it is taken
	}{
		{diagram.Transformer, "middle", `use "primary" or "secondary"`}, {diagram.Transformer, "", `use "primary" or "secondary"`},
		{diagram.Transformer, diagram.Secondary, ""}, {diagram.Panel, "", ""}, {diagram.Panel, diagram.Primary, `use ""`}, {diagram.Note, "", "connect it to another part"},
	} {
		_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
			tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply})
			tx.SetPart(diagram.Part{ID: "part-1", Kind: row.kind})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "part-1", Port: row.port}})
			return nil
		})
		if (err == nil) != (row.want == "") || err != nil && !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s %q: got %v, want %q", row.kind, row.port, err, row.want)
		}
	}
}

// A record of any sort has an id that can stand in a file, and one that no record of
// another sort has.
func TestEveryIDIsChecked(t *testing.T) {
	for name, set := range map[string]func(*diagram.Tx, diagram.ID){
		"plan": func(tx *diagram.Tx, id diagram.ID) { tx.SetPlan(diagram.Plan{ID: id}) },
		"part": func(tx *diagram.Tx, id diagram.ID) { tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel}) },
		"feeder": func(tx *diagram.Tx, id diagram.ID) {
			tx.SetFeeder(diagram.Feeder{ID: id, From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "panel-2"}})
		},
		"protector": func(tx *diagram.Tx, id diagram.ID) {
			tx.SetProtector(diagram.Protector{ID: id, Plan: diagram.FirstPlan, Bus: "panel-1"})
		},
		"surge": func(tx *diagram.Tx, id diagram.ID) {
			tx.SetSurge(diagram.Surge{ID: id, Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 1, Current: 1})
		},
	} {
		for _, id := range []diagram.ID{"x-1", "", "a b", "panel-1", "feeder-1"} {
			doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
				tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
				tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
				tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "panel-2"}})
			})
			own := name == "part" && id == "panel-1" || name == "feeder" && id == "feeder-1"
			_, err := doc.Edit(func(tx *diagram.Tx) error { set(tx, id); return nil })
			if (err == nil) != (id == "x-1" || own) {
				t.Errorf("%s %q: got %v", name, string(id), err)
			}
		}
	}
}
