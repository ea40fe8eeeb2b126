package edit_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

// A new transformer takes its primary from what its board is fed with, whatever
// lies between; where that is not known or the supply goes round in a circle, it
// keeps the usual one.
func TestPrimaryFromFarAbove(t *testing.T) {
	wye := func(volts float64) diagram.System {
		return diagram.System{Wiring: diagram.Wye, Voltage: volts, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	}
	type end = diagram.End
	for _, row := range []struct {
		name  string
		build func(tx *diagram.Tx)
		links [][2]end
		want  float64 // voltage of the primary
	}{
		{"no feeder above", nil, nil, 480},
		{"through two boards", nil, [][2]end{{{Part: "s"}, {Part: "a"}}, {{Part: "a"}, {Part: "p"}}}, 600},
		{"from the selected side of a transfer switch", nil,
			[][2]end{{{Part: "g"}, {Part: "x", Port: diagram.Emergency}}, {{Part: "s"}, {Part: "x", Port: diagram.Normal}}, {{Part: "x", Port: diagram.Common}, {Part: "p"}}}, 600},
		{"from the other side", func(tx *diagram.Tx) {
			part, _ := tx.Part("x")
			part.Transfer.Position = diagram.ToEmergency
			tx.SetPart(part)
		}, [][2]end{{{Part: "s"}, {Part: "x", Port: diagram.Normal}}, {{Part: "g"}, {Part: "x", Port: diagram.Emergency}}, {{Part: "x", Port: diagram.Common}, {Part: "p"}}}, 415},
		{"from the secondary of another", nil, [][2]end{{{Part: "s"}, {Part: "t", Port: diagram.Primary}}, {{Part: "t", Port: diagram.Secondary}, {Part: "p"}}}, 240},
		{"from the primary of another, whose own feed is not followed", nil,
			[][2]end{{{Part: "s"}, {Part: "t", Port: diagram.Primary}}, {{Part: "t", Port: diagram.Primary}, {Part: "p"}}}, 480},
		{"from a transformer that does not say", func(tx *diagram.Tx) {
			part, _ := tx.Part("t")
			part.System = diagram.System{}
			tx.SetPart(part)
		}, [][2]end{{{Part: "s"}, {Part: "t", Port: diagram.Primary}}, {{Part: "t", Port: diagram.Secondary}, {Part: "p"}}}, 480},
		{"round in a circle", nil, [][2]end{{{Part: "a"}, {Part: "p"}}, {{Part: "p"}, {Part: "a"}}}, 480},
	} {
		t.Run(row.name, func(t *testing.T) {
			doc := diagram.New()
			_, err := doc.Edit(func(tx *diagram.Tx) error {
				tx.SetPart(diagram.Part{ID: "s", Kind: diagram.Supply, System: wye(600)})
				tx.SetPart(diagram.Part{ID: "g", Kind: diagram.Generator, System: wye(415)})
				tx.SetPart(diagram.Part{ID: "t", Kind: diagram.Transformer, System: wye(240), Transformer: diagram.TransformerData{Primary: wye(600)}})
				tx.SetPart(diagram.Part{ID: "x", Kind: diagram.TransferSwitch})
				tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Panel})
				tx.SetPart(diagram.Part{ID: "p", Kind: diagram.Panel})
				for _, link := range row.links {
					tx.SetFeeder(diagram.Feeder{ID: tx.NewFeederID(), From: link[0], To: link[1], Length: 10})
				}
				if row.build != nil {
					row.build(tx)
				}
				return nil
			})
			must(t, err)
			d := edittest.New(t, doc, edit.Options{})
			id, err := d.DropPart(diagram.Transformer, geom.Pt(0, 120))
			must(t, err)
			_, err = d.Connect("p", id)
			must(t, err)
			if got, _ := d.Document().Part(id); got.Transformer.Primary.Voltage != row.want {
				t.Errorf("got a primary of %v, want %g V", got.Transformer.Primary, row.want)
			}
		})
	}
}

// A new source takes the system of the first one that says what it is.
func TestSystemOfANewSource(t *testing.T) {
	d := drive(t)
	set(t, d, "supply-1", func(p *diagram.Part) { p.System = diagram.System{} })
	first, err := d.DropPart(diagram.Generator, geom.Pt(50, -60))
	must(t, err)
	if got, _ := d.Document().Part(first); got.System.Voltage != 480 {
		t.Errorf("where none says: got %v, want the usual 480 V", got.System)
	}
	set(t, d, first, func(p *diagram.Part) { p.System.Voltage = 416 })
	second, err := d.DropPart(diagram.Supply, geom.Pt(100, -60))
	must(t, err)
	if got, _ := d.Document().Part(second); got.System.Voltage != 416 {
		t.Errorf("after one that says: got %v, want 416 V", got.System)
	}
	// The board of the service is the first one; those after it are not bonded.
	for i, want := range []bool{true, false} {
		id, err := d.DropPart(diagram.Panel, geom.Pt(200, 40*float64(i)))
		must(t, err)
		if got, _ := d.Document().Part(id); got.Board.Service != want || got.Board.Bonded != want {
			t.Errorf("panel %d: got %+v, want the service and its bond: %t", i+1, got.Board, want)
		}
	}
}

// Of the terminals of a transformer that is turned, a feeder takes the one that
// looks to the other part, and a free one before one that has its feeder.
func TestTerminalThatLooksThere(t *testing.T) {
	for turn, want := range []diagram.Port{diagram.Secondary, diagram.Primary, diagram.Primary, diagram.Secondary} {
		d := drive(t)
		id, err := d.DropPart(diagram.Transformer, geom.Pt(-100, 0))
		must(t, err)
		set(t, d, id, func(p *diagram.Part) { p.Turn = turn })
		// below and to the right: a quarter turn clockwise brings the primary, above, to the right
		board, err := d.DropPart(diagram.Junction, map[bool]geom.Point{true: geom.Pt(-100, 80), false: geom.Pt(-20, 30)}[turn%2 == 0])
		must(t, err)
		feeder, err := d.Connect(id, board)
		must(t, err)
		got, _ := d.Document().Feeder(feeder)
		if port := map[bool]diagram.Port{true: got.From.Port, false: got.To.Port}[got.From.Part == id]; port != want {
			t.Errorf("%d quarter turns: got %q, want %q", turn, port, want)
		}
	}
	d := drive(t)
	id, err := d.DropPart(diagram.Transformer, geom.Pt(-100, -30))
	must(t, err)
	for i, want := range []diagram.Port{diagram.Primary, diagram.Secondary, diagram.Secondary} {
		junction, err := d.DropPart(diagram.Junction, geom.Pt(-100-20*float64(i), -80))
		must(t, err)
		feeder, err := d.Connect(junction, id)
		must(t, err)
		got, _ := d.Document().Feeder(feeder)
		if port := got.From.Port + got.To.Port; port != want { // a junction has one without a name
			t.Errorf("feeder %d from above: got %q, want %q", i+1, port, want)
		}
	}
}

func TestStarterStands(t *testing.T) {
	d := edittest.New(t, diagram.New(), edit.Options{})
	must(t, d.Start())
	// The board below its service, on one upright line of the grid, six pitches apart.
	const want = "supply-1 at 100,30\nswitchboard-1 at 100,60\nfeeder-1 supply-1 to switchboard-1\n"
	if got := places(d.Document()); got != want {
		t.Errorf("got:\n%swant:\n%s", got, want)
	}
	if board, _ := d.Document().Part("switchboard-1"); board.Withstand.Category != 4 {
		t.Errorf("at the origin of an installation equipment is of category IV: got %v", board.Withstand)
	}
}
