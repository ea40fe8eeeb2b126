package scene

import (
	"fmt"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// putTurned puts one small installation on the sheet, turned as a whole about a
// point: a supply, a board, a transformer, a board behind it, a load at each, and
// protectors on boards and load. The ids end in the turn.
func putTurned(tx *diagram.Tx, about geom.Point, turn int) {
	id := func(name string) diagram.ID { return diagram.ID(fmt.Sprint(name, "-", turn)) }
	put := func(name string, kind diagram.Kind, x, y float64, system diagram.System) {
		tx.SetPart(diagram.Part{ID: id(name), Kind: kind, Name: name, At: about.Add(geom.Turn(turn).Apply(geom.Pt(x, y))), Turn: turn, System: system})
	}
	put("supply", diagram.Supply, 0, -40, wye480)
	put("board", diagram.Switchboard, 0, -10, wye480)
	put("transformer", diagram.Transformer, -20, 15, wye208)
	put("panel", diagram.Panel, -20, 40, diagram.System{})
	put("load", diagram.Load, 20, 20, diagram.System{})
	lead := func(name, from string, port diagram.Port, to string, toPort diagram.Port, data diagram.SwitchData) {
		tx.SetFeeder(diagram.Feeder{
			ID: id(name), Length: 12, Switch: data,
			From: diagram.End{Part: id(from), Port: port}, To: diagram.End{Part: id(to), Port: toPort},
		})
	}
	lead("f-1", "supply", "", "board", "", diagram.SwitchData{})
	lead("f-2", "board", "", "transformer", diagram.Primary, diagram.SwitchData{Kind: diagram.Breaker})
	lead("f-3", "transformer", diagram.Secondary, "panel", "", diagram.SwitchData{})
	lead("f-4", "board", "", "load", "", diagram.SwitchData{Open: true})
	for _, p := range []struct {
		name, host string
		offset     float64
	}{{"p-1", "board", 25}, {"p-2", "panel", -40}, {"p-3", "load", 0}, {"p-4", "load", -1}} {
		tx.SetProtector(diagram.Protector{ID: id(p.name), Plan: diagram.FirstPlan, Bus: id(p.host), Offset: p.offset})
	}
}

// turnedMarks marks what putTurned puts: a feeder in three pieces with two bare
// ends, and a place at which cover ends.
func turnedMarks(turns int) Marks {
	m := Marks{Parts: map[diagram.ID]Mark{}, Feeders: map[diagram.ID]FeederMark{}, Breaks: map[diagram.ID]string{}, Protectors: map[diagram.ID][]string{}}
	for turn := range turns {
		id := func(name string) diagram.ID { return diagram.ID(fmt.Sprint(name, "-", turn)) }
		m.Parts[id("board")] = Mark{Role: draw.RoleHeld, Dash: draw.Solid, Letter: "H", Lines: []string{"1 240 V L-G · 31 %"}, System: ""}
		m.Parts[id("panel")] = Mark{Role: draw.RoleUnreached, Dash: draw.Hatched, Letter: "U", Lines: nil, System: "208Y/120"}
		m.Feeders[id("f-4")] = FeederMark{[]Piece{{0.1, 0.4, draw.RoleHeld, draw.Solid}, {0.4, 0.6, draw.RoleTight, draw.LongDash}, {0.8, 0.9, draw.RoleExceeded, draw.Double}}}
		m.Feeders[id("f-2")] = FeederMark{[]Piece{{0, 1, draw.RoleHeld, draw.Solid}}}
		m.Breaks[id("transformer")], m.Breaks[id("f-4")] = "protection stops here", "and here"
		m.Protectors[id("p-1")], m.Protectors[id("p-3")] = []string{"VPR 1 200 V", "lead 18 in"}, []string{"lead 6 in"}
	}
	return m
}

func turnedScene(t *testing.T) *Scene {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for turn := range 4 {
			putTurned(tx, geom.Pt(200*float64(turn), 0), turn)
		}
	})
	return New(doc, diagram.FirstPlan, turnedMarks(4), Options{Convention: unit.IEC})
}

// What is turned as a whole is drawn turned as a whole, but for text, which stays
// upright and may so have to lie elsewhere.
func TestTurnedSheet(t *testing.T) {
	s := turnedScene(t)
	standClear(t, s)
	drawtest.Text(t, "turned.txt", s.Picture().String())
	drawtest.Text(t, "cards.txt", cardsOf(s.Picture()))
	for turn := 1; turn < 4; turn++ {
		by := geom.Turn(turn).Then(geom.Translate(geom.Pt(200*float64(turn), 0)))
		for _, name := range []string{"f-1", "f-2", "f-3", "f-4"} {
			got := draw.Line(s.FeederPath(diagram.ID(fmt.Sprint(name, "-", turn)))...)
			want := draw.Line(s.FeederPath(diagram.ID(name + "-0"))...).Transform(by)
			if got.String() != want.String() {
				t.Errorf("turn %d: %s runs %s, want %s", turn, name, got, want)
			}
		}
	}
}

// placesOf lists where the texts, cards, badges, leads and protectors of a scene lie,
// without the rest, in the order in which they are drawn.
func placesOf(s *Scene) string {
	var out strings.Builder
	for _, item := range s.Picture().Items() {
		switch {
		case item.Text != nil:
			fmt.Fprintf(&out, "%s %.4g,%.4g %q\n", item.Group, item.Text.At.X, item.Text.At.Y, item.Text.String)
		case item.Stamp != nil && (item.Stamp.Key == "protector" || strings.HasPrefix(item.Stamp.Key, "badge") || strings.HasPrefix(item.Stamp.Key, "card")):
			fmt.Fprintf(&out, "%s %s %.4g,%.4g\n", item.Group, item.Stamp.Key, item.Stamp.At.X, item.Stamp.At.Y)
		case item.Shape != nil && item.Shape.Pen.Width < feederWidth:
			fmt.Fprintf(&out, "%s lead %s\n", item.Group, item.Shape.Path)
		}
	}
	return out.String()
}

// Where everything lies in one place each takes the next place that is free: this
// writes down in which order the places are tried.
func TestStacks(t *testing.T) {
	stack := func(kind diagram.Kind, count int) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			for i := range count {
				tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprintf("s%02d", i)), Kind: kind, Name: fmt.Sprint("Nr ", i)})
			}
		}
	}
	protectors := func(kind diagram.Kind, turn int, offset float64, count int) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "host", Kind: kind, Turn: turn, Name: "Host"})
			for i := range count {
				tx.SetProtector(diagram.Protector{ID: diagram.ID(fmt.Sprintf("p%02d", i)), Plan: diagram.FirstPlan, Bus: "host", Offset: offset})
			}
		}
	}
	labels := Marks{Protectors: map[diagram.ID][]string{"p00": {"one"}, "p01": {"two"}, "p03": {"four"}}}
	badges := Marks{Badges: map[diagram.ID]Badge{}}
	for i := range 24 {
		badges.Badges[diagram.ID(fmt.Sprintf("s%02d", i))] = Badge{i + 1, i%2 == 0}
	}
	for _, row := range []struct {
		name  string
		put   func(*diagram.Tx)
		marks Marks
	}{
		{"panels", stack(diagram.Panel, 15), Marks{}},
		{"transformers", stack(diagram.Transformer, 11), Marks{}},
		{"loads", stack(diagram.Load, 4), Marks{}},
		{"badges", stack(diagram.Junction, 24), badges},
		{"protectors", protectors(diagram.Panel, 0, 7, 9), labels},
		{"protectors-left", protectors(diagram.Panel, 3, -30, 14), labels},
		{"protectors-load", protectors(diagram.Load, 0, 0, 6), labels},
		{"protectors-joint", protectors(diagram.Junction, 1, -2, 9), Marks{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := New(diagramtest.Sheet(t, row.put), diagram.FirstPlan, row.marks, Options{})
			drawtest.Text(t, "stack-"+row.name+".txt", placesOf(s))
		})
	}
}

// cardsOf returns what the cards draw that a picture places, each once.
func cardsOf(p *draw.Picture) string {
	var out strings.Builder
	known := map[string]bool{}
	for _, item := range p.Items() {
		if item.Stamp != nil && strings.HasPrefix(item.Stamp.Key, "card") && !known[item.Stamp.Key] {
			known[item.Stamp.Key] = true
			fmt.Fprintf(&out, "%s\n%s", item.Stamp.Key, item.Stamp.Picture)
		}
	}
	return out.String()
}
