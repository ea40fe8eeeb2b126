package edit_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

func TestPlace(t *testing.T) {
	try(t, []gesture{
		{"by a click, onto the grid",
			func(d *edittest.Driver) { d.Arm(diagram.Panel); d.Hover(-80, 20).Click(-81, 121) },
			"+panel-2 at -80,120 span 40", "place panel", "panel-2"},
		{"by the digit of its kind",
			func(d *edittest.Driver) { d.Key("7").Click(-80, 120) },
			"+load-2 at -80,120", "place load", "load-2"},
		{"freely",
			func(d *edittest.Driver) { d.Arm(diagram.Load); d.Hold(edit.Alt).Click(-81.5, 121) },
			"+load-2 at -81.5,121", "place load", "load-2"},
		{"turned before",
			func(d *edittest.Driver) { d.Arm(diagram.Panel); d.Key("R", "R", "Shift+R").Click(-80, 120) },
			"+panel-2 at -80,120 turn 1 span 40", "place panel", "panel-2"},
		{"then the tool is down",
			func(d *edittest.Driver) { d.Arm(diagram.Load); d.Click(-80, 120).Click(-80, 160) },
			"+load-2 at -80,120", "place load", ""},
		{"escape puts the tool down",
			func(d *edittest.Driver) { d.Arm(diagram.Load); d.Key(edit.KeyEscape).Click(-80, 120) },
			"", "", ""},
		{"panning leaves the tool up",
			func(d *edittest.Driver) {
				d.Arm(diagram.Load)
				d.Hover(-80, 100).PanBy(edit.Middle, 30, 30).Click(-80, 120)
			},
			"+load-2 at -80,120", "place load", "load-2"},
		{"dropped from the strip",
			func(d *edittest.Driver) { d.DropPart(diagram.Junction, geom.Pt(-79, 122)) },
			"+junction-1 at -80,120", "place junction", "junction-1"},
		{"by keyboard alone",
			func(d *edittest.Driver) { d.Key("7", edit.KeyDown, "Shift+Down", edit.KeyRight, edit.KeyEnter) },
			"+load-2 at 5,5", "place load", "load-2"},
	})
}

func TestShiftGoesOnPlacing(t *testing.T) {
	d := drive(t)
	d.Arm(diagram.Load)
	d.Hold(edit.Shift).Click(-80, 120).Click(-80, 140).Let()
	if got := d.Armed(); got != "place load" {
		t.Errorf("armed: got %q, want the tool still up", got)
	}
	if parts, _, _ := d.Document().Count(); parts != 6 {
		t.Errorf("got %d parts, want 6", parts)
	}
}

func TestNewParts(t *testing.T) {
	wye := func(volts float64, earthing diagram.Earthing, hertz float64) diagram.System {
		return diagram.System{Wiring: diagram.Wye, Voltage: volts, Neutral: true, Earthing: earthing, Frequency: hertz}
	}
	category := func(n int) diagram.Withstand { return diagram.Withstand{Kind: diagram.ByCategory, Category: n} }
	for _, row := range []struct {
		convention unit.Convention
		want       diagram.Part
	}{
		{unit.NorthAmerican, diagram.Part{Kind: diagram.Supply, Name: "Supply 1", System: wye(480, diagram.Solid, 60)}},
		{unit.IEC, diagram.Part{Kind: diagram.Supply, Name: "Supply 1", System: wye(400, diagram.TNS, 50)}},
		{unit.NorthAmerican, diagram.Part{
			Kind: diagram.Transformer, Name: "Transformer 1", System: wye(208, diagram.Solid, 60),
			Transformer: diagram.TransformerData{
				Primary: diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60},
			},
		}},
		{unit.IEC, diagram.Part{
			Kind: diagram.Transformer, Name: "Transformer 1", System: wye(400, diagram.TNS, 50),
			Transformer: diagram.TransformerData{Primary: diagram.System{Wiring: diagram.Delta, Voltage: 400, Frequency: 50}},
		}},
		{unit.NorthAmerican, diagram.Part{
			Kind: diagram.Switchboard, Name: "Switchboard 1", Span: 60,
			Board: diagram.BoardData{Service: true, Bonded: true}, Withstand: category(4),
		}},
		{unit.IEC, diagram.Part{
			Kind: diagram.Panel, Name: "Panel 1", Span: 40,
			Board: diagram.BoardData{Service: true}, Withstand: category(3),
		}},
		{unit.IEC, diagram.Part{Kind: diagram.Load, Name: "Load 1", Withstand: category(2)}},
		{unit.IEC, diagram.Part{Kind: diagram.TransferSwitch, Name: "Transfer switch 1"}},
		{unit.IEC, diagram.Part{Kind: diagram.Junction}},
		{unit.IEC, diagram.Part{Kind: diagram.Note, Name: "Note", Span: 40}},
	} {
		t.Run(string(row.want.Kind)+" "+row.convention.String(), func(t *testing.T) {
			e := edit.New(diagram.New(), edit.Options{Scene: scene.Options{Convention: row.convention}})
			id, err := e.DropPart(row.want.Kind, geom.Pt(0, 0))
			if err != nil {
				t.Fatal(err)
			}
			got, _ := e.Document().Part(id)
			row.want.ID = id
			if diff := cmp.Diff(row.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestNewPartsFollowThoseThereAre(t *testing.T) {
	d := drive(t)
	generator, err := d.DropPart(diagram.Generator, geom.Pt(50, -60))
	if err != nil {
		t.Fatal(err)
	}
	supply, _ := d.Document().Part("supply-1")
	if got, _ := d.Document().Part(generator); got.System != supply.System {
		t.Errorf("system of the generator: got %v, want that of the supply", got.System)
	}
	for _, want := range []string{"Load 1", "Load 2", "Load 3"} {
		id, err := d.DropPart(diagram.Load, geom.Pt(-80, 120))
		if err != nil {
			t.Fatal(err)
		}
		if got := d.Document().NameOf(id); got != want {
			t.Errorf("name: got %q, want %q", got, want)
		}
	}
}

func TestAttach(t *testing.T) {
	try(t, []gesture{
		{"by a click on a bus",
			func(d *edittest.Driver) { d.ArmProtector(); d.Hover(9, 50).Click(9, 60) },
			"+protector-2 in plan-1 on panel-1 at 10", "attach protector to Lab", "protector-2"},
		{"by a click on a load",
			func(d *edittest.Driver) { d.Key("P").Click(80, 60) },
			"+protector-2 in plan-1 on load-1 at 0", "attach protector to Pump", "protector-2"},
		{"not beside",
			func(d *edittest.Driver) { d.Key("P").Click(-80, 30) }, "", "", ""},
		{"not to a supply",
			func(d *edittest.Driver) { d.Key("P").Click(0, -60) }, "", "", ""},
		{"dropped from the strip",
			func(d *edittest.Driver) { d.DropProtector(geom.Pt(-9, 0)) },
			"+protector-2 in plan-1 on switchboard-1 at -10", "attach protector to Main", "protector-2"},
		{"to the selected host at once",
			func(d *edittest.Driver) { d.Click(80, 60).Key("P") },
			"+protector-2 in plan-1 on load-1 at 0", "attach protector to Pump", "protector-2"},
		{"by keys that lead the pointer",
			func(d *edittest.Driver) { d.Hover(80, 50).Key("P", edit.KeyDown, edit.KeyDown, edit.KeyEnter) },
			"+protector-2 in plan-1 on load-1 at 0", "attach protector to Pump", "protector-2"},
	})
}

func TestNewProtector(t *testing.T) {
	given := func(_ *diagram.Document, host diagram.Part) diagram.Protector {
		return diagram.Protector{Name: "for " + host.Name, Type: diagram.Type2, Plan: "elsewhere", Bus: "elsewhere"}
	}
	lead := diagram.Lead{Length: 0.1524} // 6 in
	plain := diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}
	for _, row := range []struct {
		name    string
		options edit.Options
		want    diagram.Protector
	}{
		{"plain", edit.Options{}, diagram.Protector{Name: "SPD 1", Rating: diagram.VPR, Leads: plain}},
		{"plain IEC", edit.Options{Scene: scene.Options{Convention: unit.IEC}}, diagram.Protector{Name: "SPD 1", Rating: diagram.Up, Leads: plain}},
		{"given", edit.Options{DefaultProtector: given}, diagram.Protector{Name: "for Lab", Type: diagram.Type2}},
	} {
		t.Run(row.name, func(t *testing.T) {
			e := edit.New(house(t), row.options)
			id, err := e.AttachTo("panel-1")
			if err != nil {
				t.Fatal(err)
			}
			row.want.ID, row.want.Plan, row.want.Bus = id, diagram.FirstPlan, "panel-1"
			got, _ := e.Document().Protector(id)
			if diff := cmp.Diff(row.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestAttachSaysWhyNot(t *testing.T) {
	d := drive(t)
	d.Key("P").Click(0, -60)
	const want = "a protector goes on a board, load or junction; there is none here"
	if got := d.Status(); got != want {
		t.Errorf("status: got %q, want %q", got, want)
	}
	if got := d.Armed(); got != "attach protector" {
		t.Errorf("armed: got %q, want the tool still up", got)
	}
	if _, err := d.AttachTo("supply-1"); err == nil {
		t.Error("a protector was attached to a supply")
	}
}
