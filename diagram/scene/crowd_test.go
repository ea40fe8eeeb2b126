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

// Loads that stand closer than their tags are wide hang them in rows, each on a
// line of its own; what has no room there keeps its letter, or nothing where it
// has none.
func TestCrowdOfLoads(t *testing.T) {
	marks := Marks{Parts: map[diagram.ID]Mark{}}
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for i := range 16 {
			id := diagram.ID(fmt.Sprintf("l%02d", i))
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Load, Name: fmt.Sprint("Load number ", i), At: geom.Pt(9*float64(i), 0), Turn: i / 12})
			if i%2 == 0 {
				marks.Parts[id] = Mark{Role: draw.RoleTight, Letter: "T", Lines: []string{"1 640 V L-N · 96 %"}[:i%4/2]}
			}
		}
		// Two that stand in the way of the rows below, and of the leads.
		tx.SetPart(diagram.Part{ID: "shelf", Kind: diagram.Junction, At: geom.Pt(27, 30)})
		tx.SetPart(diagram.Part{ID: "table", Kind: diagram.Junction, At: geom.Pt(60, 22)})
	})
	s := New(doc, diagram.FirstPlan, marks, Options{})
	standClear(t, s)
	drawtest.Text(t, "crowd-loads.txt", placesOf(s))
}

// The label of a feeder says what is known of it, beside the longest piece of its
// line: right or left of an upright one, above or below a level one.
func TestLabels(t *testing.T) {
	names := []string{"", "Riser", "", "Riser", "", "", "", ""}
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for i, to := range []geom.Point{{X: 0, Y: 60}, {X: 90, Y: 14}, {X: -90, Y: 20}, {X: 0, Y: 12}, {X: 0, Y: -60}, {X: 60, Y: 60}, {X: 0, Y: 7}, {X: 0, Y: 60}} {
			from := geom.Pt(250*float64(i%4), 200*float64(i/4))
			a, b := diagram.ID(fmt.Sprint("a", i)), diagram.ID(fmt.Sprint("b", i))
			tx.SetPart(diagram.Part{ID: a, Kind: diagram.Junction, At: from})
			tx.SetPart(diagram.Part{ID: b, Kind: diagram.Junction, At: from.Add(to)})
			tx.SetFeeder(diagram.Feeder{
				ID: diagram.ID(fmt.Sprint("f", i)), Name: names[i], From: diagram.End{Part: a}, To: diagram.End{Part: b},
				Length: []float64{24, 0, 0.3}[i%3], Area: []float64{0, 50e-6, 50e-6, 0}[i%4], Parallel: []int{1, 2}[i%2],
				Switch: []diagram.SwitchData{{}, {Kind: diagram.Fuse}}[i%2],
			})
		}
	})
	marks := Marks{Breaks: map[diagram.ID]string{"f0": "protection stops here", "f7": "and here"}}
	s := New(doc, diagram.FirstPlan, marks, Options{Convention: unit.IEC})
	standClear(t, s)
	drawtest.Text(t, "labels.txt", s.Picture().String())
	for f := range doc.Feeders() {
		if got, want := textsOf(s.FeederLabel(f.ID), f.ID), textsOf(s.Picture(), f.ID); got != want {
			t.Errorf("the label of %s alone is %s, in the picture %s", f.ID, got, want)
		}
	}
	if got := s.FeederLabel("nobody").Len(); got != 0 {
		t.Errorf("a feeder that is not there has a label of %d items", got)
	}
}

// textsOf returns what a picture writes of a record, and where.
func textsOf(p *draw.Picture, id diagram.ID) string {
	var out strings.Builder
	for _, item := range p.Items() {
		if item.Text != nil && item.Group == string(id) {
			fmt.Fprintf(&out, "%v %q; ", item.Text.At, item.Text.String)
		}
	}
	return out.String()
}

// Feeders of one line put their labels one after the other along it.
func TestLabelsOfOneLine(t *testing.T) {
	for name, to := range map[string]geom.Point{"upright": {Y: 100}, "level": {X: 100}} {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Junction})
			tx.SetPart(diagram.Part{ID: "b", Kind: diagram.Junction, At: to})
			for i := range 12 {
				tx.SetFeeder(diagram.Feeder{ID: diagram.ID(fmt.Sprintf("f%02d", i)), Length: 5, From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}})
			}
		})
		badges := map[diagram.ID]Badge{}
		for i := range 12 {
			badges[diagram.ID(fmt.Sprintf("f%02d", i))] = Badge{i + 95, i%3 == 0}
		}
		s := New(doc, diagram.FirstPlan, Marks{Badges: badges}, Options{})
		drawtest.Text(t, "stack-labels-"+name+".txt", placesOf(s))
	}
}

// Feeders that leave a board as close as the teeth of a comb leave badges no room
// but on lines: there they cover no switch, no symbol and no text all the same.
func TestBadgesOnAComb(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel, Span: 80, At: geom.Pt(38, 0)})
		for i := range 26 {
			joint := diagram.ID(fmt.Sprintf("j%02d", i))
			tx.SetPart(diagram.Part{ID: joint, Kind: diagram.Junction, At: geom.Pt(3*float64(i), 40)})
			tx.SetFeeder(diagram.Feeder{ID: diagram.ID(fmt.Sprintf("f%02d", i)), Switch: diagram.SwitchData{Kind: diagram.Breaker}, From: diagram.End{Part: "board"}, To: diagram.End{Part: joint}})
		}
	})
	marks := Marks{Badges: badgesOnAll(doc)}
	s := New(doc, diagram.FirstPlan, marks, Options{})
	for id, at := range s.badgeAt {
		for what, box := range s.things() {
			if what != "badge of "+string(id) && box.Overlaps(marks.Badges[id].box(at).Grow(-badgeRim)) {
				t.Errorf("the badge of %s at %v covers %s at %v", id, at, what, box)
			}
		}
	}
	drawtest.Text(t, "comb.txt", placesOf(s))
}

// In an alley between loads a badge has room on the line alone; where loads stand
// on that, too, it takes the first place of all, beside the middle of the line.
func TestBadgesInAnAlley(t *testing.T) {
	for name, columns := range map[string][]float64{"alley": {-25.5, -17, -8.5, 8.5, 17, 25.5}, "no-alley": {-25.5, -17, -8.5, 0, 8.5, 17, 25.5}} {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Junction, At: geom.Pt(0, -30)})
			tx.SetPart(diagram.Part{ID: "b", Kind: diagram.Junction, At: geom.Pt(0, 50)})
			tx.SetFeeder(diagram.Feeder{ID: "f", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}})
			for i, x := range columns {
				for j := range 11 {
					tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprint("l", i, "-", j)), Kind: diagram.Load, At: geom.Pt(x, -40+10*float64(j))})
				}
			}
		})
		badges := map[diagram.ID]Badge{"f": {1, true}, "l0-5": {1, true}, "l3-5": {2, false}}
		s := New(doc, diagram.FirstPlan, Marks{Badges: badges}, Options{HideTags: true, HideLabels: true})
		drawtest.Text(t, name+".txt", draw.Line(s.FeederPath("f")...).String()+"\n"+placesOf(s))
	}
}

// Where tags and labels are hidden, they take no room either.
func TestHiddenTextTakesNoRoom(t *testing.T) {
	doc, marks := ternQuay(t)
	marks.Badges = badgesOnAll(doc)
	drawtest.Text(t, "quay-hidden.txt", placesOf(New(doc, diagram.FirstPlan, marks, Options{HideTags: true, HideLabels: true})))
}

// Boards, each with one more fence of joints round it: below the bar, at its right
// end, above it, at its left end, below and above over the left end, and in the
// second row below and above. The tag goes where the fences leave off.
func TestFencedBoards(t *testing.T) {
	along := func(y float64) []geom.Point { return []geom.Point{{X: -8, Y: y}, {X: 2, Y: y}, {X: 12, Y: y}} }
	fences := [][]geom.Point{nil, along(5), {{X: 25}}, along(-5), {{X: -25}}, {{X: -22, Y: 5}}, {{X: -22, Y: -5}}, along(12), along(-12)}
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for board := range fences {
			at := geom.Pt(0, 100*float64(board))
			tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprint("b", board)), Kind: diagram.Panel, Name: "Nr 00", At: at})
			for i, fence := range fences[:board+1] {
				for j, post := range fence {
					tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprint("j", board, "-", i, "-", j)), Kind: diagram.Junction, At: at.Add(post)})
				}
			}
		}
	})
	drawtest.Text(t, "fences.txt", placesOf(New(doc, diagram.FirstPlan, Marks{}, Options{})))
}
