package edit_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

func TestConnect(t *testing.T) {
	const made = "+feeder-3 panel-1 to load-1"
	const label = "connect Lab to Pump"
	try(t, []gesture{
		{"from a terminal",
			func(d *edittest.Driver) { d.Drag(80, 55, 5, 60) }, made, label, "feeder-3"},
		{"control-drag from a bus",
			func(d *edittest.Driver) { d.Hold(edit.Control).Drag(5, 60, 80, 60) }, made, label, "feeder-3"},
		{"with the tool, by a drag",
			func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 60, 80, 60) }, made, label, "feeder-3"},
		{"with the tool, by two clicks",
			func(d *edittest.Driver) { d.Key("C").Click(5, 60).Hover(40, 60).Click(80, 60) }, made, label, "feeder-3"},
		{"with the tool, by keyboard",
			func(d *edittest.Driver) {
				d.Select("panel-1")
				d.Key("C", edit.KeyEnter, edit.KeyTab, edit.KeyEnter)
			}, made, label, "feeder-3"},
		{"two selected parts",
			func(d *edittest.Driver) { d.Click(80, 60).ShiftClick(5, 60).Key("C") },
			made, label, "feeder-3"},
		{"to nothing",
			func(d *edittest.Driver) { d.Drag(80, 55, -80, 30) }, "", "", "load-1"},
		{"to itself",
			func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 60, -10, 60) }, "", "", ""},
		{"twice between the same",
			func(d *edittest.Driver) { d.ArmFeeder(); d.Drag(5, 60, 5, 0) }, "", "", ""},
		{"escape",
			func(d *edittest.Driver) { d.Press(80, 55).DragTo(5, 60).Key(edit.KeyEscape).Release() }, "", "", "load-1"},
		{"panning in between",
			func(d *edittest.Driver) {
				d.Key("C").Click(5, 60).Hover(40, 60).PanBy(edit.Middle, 20, 20).Click(80, 60)
			}, made, label, "feeder-3"},
	})
}

func TestReconnect(t *testing.T) {
	try(t, []gesture{
		{"the far end",
			func(d *edittest.Driver) { d.Drag(0, 50, 80, 60) },
			"-feeder-2 switchboard-1 to panel-1\n+feeder-2 switchboard-1 to load-1",
			"reconnect feeder from Main to Lab", "feeder-2"},
		{"the head",
			func(d *edittest.Driver) { d.Drag(0, 10, 0, -60) },
			"-feeder-2 switchboard-1 to panel-1\n+feeder-2 supply-1 to panel-1",
			"reconnect feeder from Main to Lab", "feeder-2"},
		{"to nothing",
			func(d *edittest.Driver) { d.Drag(0, 50, -80, 80) }, "", "", "feeder-2"},
		{"to where it leads from",
			func(d *edittest.Driver) { d.Drag(0, 50, -10, 0) }, "", "", "feeder-2"},
	})
}

// TestDirection checks that power flows from what feeds to what is fed,
// whichever way the feeder is drawn.
func TestDirection(t *testing.T) {
	for _, row := range []struct {
		name       string
		a, b       diagram.Kind
		from, port string
		to, toPort string
	}{
		{"supply to panel", diagram.Supply, diagram.Panel, "a", "", "b", ""},
		{"panel to supply", diagram.Panel, diagram.Supply, "b", "", "a", ""},
		{"load to panel", diagram.Load, diagram.Panel, "b", "", "a", ""},
		{"panel to panel as drawn", diagram.Panel, diagram.Panel, "a", "", "b", ""},
		{"panel to transformer below", diagram.Panel, diagram.Transformer, "a", "", "b", "primary"},
		{"transformer to panel below", diagram.Transformer, diagram.Panel, "a", "secondary", "b", ""},
		{"transformer to supply", diagram.Transformer, diagram.Supply, "b", "", "a", "primary"},
		{"transformer to load", diagram.Transformer, diagram.Load, "a", "secondary", "b", ""},
		{"generator to transfer switch", diagram.Generator, diagram.TransferSwitch, "a", "", "b", "emergency"},
		{"supply to transfer switch", diagram.Supply, diagram.TransferSwitch, "a", "", "b", "normal"},
		{"transfer switch to panel below", diagram.TransferSwitch, diagram.Panel, "a", "load", "b", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			e := edit.New(diagram.New(), edit.Options{})
			a, _ := e.DropPart(row.a, geom.Pt(0, 0))
			b, _ := e.DropPart(row.b, geom.Pt(0, 100))
			id, err := e.Connect(a, b)
			if err != nil {
				t.Fatal(err)
			}
			ids := map[string]diagram.ID{"a": a, "b": b}
			got, _ := e.Document().Feeder(id)
			want := [2]diagram.End{
				{Part: ids[row.from], Port: diagram.Port(row.port)},
				{Part: ids[row.to], Port: diagram.Port(row.toPort)},
			}
			if [2]diagram.End{got.From, got.To} != want {
				t.Errorf("got %v to %v, want %v to %v", got.From, got.To, want[0], want[1])
			}
		})
	}
}

func TestSecondFeederTakesTheFreeSide(t *testing.T) {
	e := edit.New(diagram.New(), edit.Options{})
	transfer, _ := e.DropPart(diagram.TransferSwitch, geom.Pt(0, 0))
	for _, want := range []diagram.Port{diagram.Normal, diagram.Emergency} {
		board, _ := e.DropPart(diagram.Panel, geom.Pt(-20, -100))
		id, err := e.Connect(board, transfer)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := e.Document().Feeder(id); got.To.Port != want {
			t.Errorf("got %q, want %q", got.To.Port, want)
		}
	}
}

// TestAFedBoardFeeds draws from a new panel up to a board that has its supply.
func TestAFedBoardFeeds(t *testing.T) {
	d := drive(t)
	panel, _ := d.DropPart(diagram.Panel, geom.Pt(-100, 60))
	id, err := d.Connect(panel, "switchboard-1")
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := d.Document().Feeder(id); got.From.Part != "switchboard-1" {
		t.Errorf("it is fed from %s, want switchboard-1", got.From.Part)
	}
}

func TestNewFeeder(t *testing.T) {
	for _, row := range []struct {
		convention unit.Convention
		length     float64
	}{{unit.NorthAmerican, 9.144}, {unit.IEC, 10}} {
		e := edit.New(house(t), edit.Options{Scene: scene.Options{Convention: row.convention}})
		id, err := e.Connect("panel-1", "load-1")
		if err != nil {
			t.Fatal(err)
		}
		got, _ := e.Document().Feeder(id)
		if got.Length != row.length || got.Material != diagram.Copper || got.Switch.Kind != diagram.Breaker {
			t.Errorf("%v: got %g m of %s behind a %s", row.convention, got.Length, got.Material, got.Switch.Kind)
		}
	}
}

func TestTransformerTakesItsPrimaryFromWhatFeedsIt(t *testing.T) {
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 600, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	split := diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid}
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS}
	byHand := diagram.System{Wiring: diagram.Delta, Voltage: 600}
	for _, row := range []struct {
		name   string
		supply diagram.System
		given  diagram.System // set by hand before; zero: not touched
		want   diagram.System
	}{
		{"a delta on three lines", wye, diagram.System{}, diagram.System{Wiring: diagram.Delta, Voltage: 600, Earthing: diagram.Unearthed, Frequency: 60}},
		{"across two lines", split, diagram.System{}, diagram.System{Wiring: diagram.Single, Voltage: 240, Earthing: diagram.Unearthed}},
		{"line and neutral", single, diagram.System{}, single},
		{"set by hand", wye, byHand, byHand},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			err := d.Change("set supply", func(tx *diagram.Tx) error {
				part, _ := tx.Part("supply-1")
				part.System = row.supply
				tx.SetPart(part)
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
			id, _ := d.DropPart(diagram.Transformer, geom.Pt(0, 120))
			if row.given.Known() {
				err := d.Change("set primary", func(tx *diagram.Tx) error {
					part, _ := tx.Part(id)
					part.Transformer.Primary = row.given
					tx.SetPart(part)
					return nil
				})
				if err != nil {
					t.Fatal(err)
				}
			}
			if _, err := d.Connect("panel-1", id); err != nil {
				t.Fatal(err)
			}
			if got, _ := d.Document().Part(id); got.Transformer.Primary != row.want {
				t.Errorf("got %v, want %v", got.Transformer.Primary, row.want)
			}
		})
	}
}
