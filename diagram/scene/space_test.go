package scene

import (
	"fmt"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// TestSpace compares the space with a plain set of cells, some of them in its
// grid and some outside.
func TestSpace(t *testing.T) {
	rng := diagramtest.Rand(1)
	box := func() geom.Rect {
		at := geom.Pt(rng.Float64()*300-150, rng.Float64()*300-150)
		return geom.RectOf(at, at.Add(geom.Pt(rng.Float64()*90, rng.Float64()*90)))
	}
	for round := range 50 {
		s := newSpace([]geom.Rect{box(), geom.Empty()}[round%2])
		taken := map[[2]int]bool{}
		for i := range 6 {
			r := box()
			if i%2 == 0 {
				s.take(r)
			} else {
				s.wall(r)
			}
			eachCell(r, func(cell [2]int) { taken[cell] = true })
		}
		for range 40 {
			r := box()
			want := true
			eachCell(r, func(cell [2]int) { want = want && !taken[cell] })
			if got := s.free(r); got != want {
				t.Fatalf("free(%v) = %v, want %v", r, got, want)
			}
		}
	}
}

func eachCell(r geom.Rect, visit func([2]int)) {
	w := windowOf(r)
	for y := w.top; y <= w.bottom; y++ {
		for x := w.left; x <= w.right; x++ {
			visit([2]int{x, y})
		}
	}
}

func TestWallsBlock(t *testing.T) {
	s := newSpace(geom.RectOf(geom.Pt(0, 0), geom.Pt(9, 9)))
	s.wall(geom.RectOf(geom.Pt(-200, 10), geom.Pt(200, 12)))
	tests := []struct {
		name string
		a, b geom.Point
		want bool
	}{
		{"down through it", geom.Pt(70, -90), geom.Pt(70, 90), true},
		{"up through it", geom.Pt(-70, 90), geom.Pt(-70, -90), true},
		{"down to above it", geom.Pt(70, -90), geom.Pt(70, 9), false},
		{"along it", geom.Pt(-300, 11), geom.Pt(300, 11), true},
		{"along beside it", geom.Pt(-300, 14), geom.Pt(300, 14), false},
		{"past its end", geom.Pt(201, -90), geom.Pt(201, 90), false},
	}
	for _, test := range tests {
		if got := s.Blocked(test.a, test.b); got != test.want {
			t.Errorf("%s: blocked %v, want %v", test.name, got, test.want)
		}
	}
}

// What is kept free for others is so until it is given up, cell by cell, in the grid
// and outside it.
func TestKeptColumns(t *testing.T) {
	rng := diagramtest.Rand(2)
	s, kept := newSpace(geom.RectOf(geom.Pt(0, 0), geom.Pt(60, 60))), map[[2]int]bool{}
	box := func() geom.Rect {
		at := geom.Pt(float64(rng.IntN(600)-300), float64(rng.IntN(600)-300))
		return geom.RectOf(at, at.Add(geom.Pt(float64(rng.IntN(80)), float64(rng.IntN(80)))))
	}
	for range 300 {
		r, wanted := box(), rng.IntN(3) > 0
		s.keep(r, wanted)
		eachCell(r, func(cell [2]int) { kept[cell] = wanted })
		for range 10 {
			r, want := box(), false
			eachCell(r, func(cell [2]int) { want = want || kept[cell] })
			if got := s.waitedFor(r); got != want {
				t.Fatalf("waitedFor(%v) = %v, want %v", r, got, want)
			}
			if !s.free(r) {
				t.Fatalf("%v is taken, and not only kept", r)
			}
		}
	}
}

// A straight piece is blocked where a wall stands on one of its cells.
func TestBlockedIsCellByCell(t *testing.T) {
	rng := diagramtest.Rand(3)
	s, walls := newSpace(geom.RectOf(geom.Pt(0, 0), geom.Pt(60, 60))), map[[2]int]bool{}
	at := func() geom.Point { return geom.Pt(rng.Float64()*600-300, rng.Float64()*600-300) }
	for range 60 {
		a := at()
		r := geom.RectOf(a, a.Add(geom.Pt(rng.Float64()*30, rng.Float64()*30)))
		s.wall(r)
		eachCell(r, func(cell [2]int) { walls[cell] = true })
	}
	for i := range 2000 {
		a, b := at(), at()
		if i%2 == 0 {
			b.X = a.X
		} else {
			b.Y = a.Y
		}
		want := false
		eachCell(geom.RectOf(a, b), func(cell [2]int) { want = want || walls[cell] })
		if got := s.Blocked(a, b); got != want {
			t.Fatalf("from %v to %v: blocked %v, want %v", a, b, got, want)
		}
	}
}

// The cells of an extent are those whose middles, at halves of millimetres, lie in
// it, and the one it lies in where it holds no middle.
func TestCells(t *testing.T) {
	for _, row := range []struct {
		low, high   float64
		first, last int
	}{{0.5, 0.5, 0, 0}, {0, 1, 0, 0}, {0.4, 3.6, 0, 3}, {0.6, 3.4, 1, 2}, {0.6, 0.9, 0, 0}, {0.6, 1.2, 0, 0}, {0.9, 1.4, 1, 1}, {-0.5, 0.4, -1, -1}, {-0.4, 0.4, 0, 0}, {-3, -1, -3, -2}, {-0.4, -0.2, -1, -1}} {
		if first, last := cells(row.low, row.high); first != row.first || last != row.last {
			t.Errorf("from %g to %g: cells %d to %d, want %d to %d", row.low, row.high, first, last, row.first, row.last)
		}
	}
}

// What stands less than a millimetre under a bar is no hindrance to a protector,
// whose end touches the bar, and what stands lower is.
func TestRoomOfAProtector(t *testing.T) {
	for low, want := range map[float64]geom.Point{1.7: {X: 10, Y: 0.9}, 2.6: {X: 12.5, Y: 0.9}} {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel})
			tx.SetPart(diagram.Part{ID: "joint", Kind: diagram.Junction, At: geom.Pt(5.5, low-1.1)}) // up to x = 6.6; the protector reaches from 6.2 to 13.8
			tx.SetProtector(diagram.Protector{ID: "p", Plan: diagram.FirstPlan, Bus: "board", Offset: 10})
		})
		if got, _ := New(doc, diagram.FirstPlan, Marks{}, Options{}).ProtectorAt("p"); got != want {
			t.Errorf("a joint down to %g: the protector hangs at %v, want %v", low, got, want)
		}
	}
}

// A switch is drawn where the first piece of its feeder is at least as long as it,
// 8 mm.
func TestRoomOfASwitch(t *testing.T) {
	for length, want := range map[float64]bool{7.99: false, 8: true} {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Junction})
			tx.SetPart(diagram.Part{ID: "b", Kind: diagram.Junction, At: geom.Pt(0, length)})
			tx.SetFeeder(diagram.Feeder{ID: "f", Switch: diagram.SwitchData{Kind: diagram.Fuse}, From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}})
		})
		s := New(doc, diagram.FirstPlan, Marks{}, Options{})
		if got := strings.Contains(s.Picture().String(), "place fuse"); got != want {
			t.Errorf("a feeder of %g mm along %v: a switch %v, want %v", length, s.FeederPath("f"), got, want)
		}
	}
}

// The tag of a load keeps off the column under another that waits for its own,
// which is 1 mm to each side of its middle. A card of 14 mm reaches 7 mm from the
// middle and so meets a column that begins at 6.4 mm, and none that does at 7.2: it
// hangs out to the left then, with 3.5 mm left to the right of the middle.
func TestColumnsUnderLoads(t *testing.T) {
	for away, want := range map[float64]float64{7.4: 3.5 - 14, 8.2: -7, 9.5: -7} {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Load, Name: "Pump"})
			tx.SetPart(diagram.Part{ID: "b", Kind: diagram.Load, Name: "Pump", At: geom.Pt(away, 0)})
		})
		for _, item := range New(doc, diagram.FirstPlan, Marks{}, Options{}).Picture().Items() {
			if item.Group == "a" && item.Stamp != nil && item.Stamp.Key == `card/14/5.2/""` && item.Stamp.At.X != want {
				t.Errorf("beside a load %g mm away the card begins at %g, want %g", away, item.Stamp.At.X, want)
			}
		}
	}
}

// No label lies on the sign at which cover ends, which stands across the lead of a
// transformer 9.9 mm below its middle.
func TestRoomOfABreak(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "T", Kind: diagram.Transformer})
		tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel, At: geom.Pt(0, 17)})
		tx.SetFeeder(diagram.Feeder{ID: "f", Length: 3, From: diagram.End{Part: "T", Port: diagram.Secondary}, To: diagram.End{Part: "board"}})
	})
	sign := symbol.Break().Outline.Move(geom.Pt(0, 9.9))
	for ends, clear := range map[string]bool{"": false, "protection stops here": true} {
		s := New(doc, diagram.FirstPlan, Marks{Breaks: map[diagram.ID]string{"T": ends}}, Options{})
		if got := s.FeederLabel("f").Bounds(); got.Overlaps(sign) == clear {
			t.Errorf("where the sign says %q: a label in %v, the sign in %v", ends, got, sign)
		}
	}
}

// Nor does a badge that finds room on a line alone: in an alley between loads it
// stands below the sign, which reaches 11.9 mm down, and nearer where there is none.
func TestBadgeBesideABreak(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "T", Kind: diagram.Transformer})
		tx.SetPart(diagram.Part{ID: "joint", Kind: diagram.Junction, At: geom.Pt(0, 80)})
		tx.SetFeeder(diagram.Feeder{ID: "f", From: diagram.End{Part: "T", Port: diagram.Secondary}, To: diagram.End{Part: "joint"}})
		for i, x := range []float64{-25.5, -17, -8.5, 8.5, 17, 25.5} {
			for j := range 8 {
				tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprint("l", i, "-", j)), Kind: diagram.Load, At: geom.Pt(x, 17+10*float64(j))})
			}
		}
	})
	sign := symbol.Break().Outline.Move(geom.Pt(0, 9.9))
	for ends, clear := range map[string]bool{"": false, "protection stops here": true} {
		marks := Marks{Breaks: map[diagram.ID]string{"T": ends}, Badges: map[diagram.ID]Badge{"f": {1, true}}}
		s := New(doc, diagram.FirstPlan, marks, Options{HideTags: true})
		at := s.badgeAt["f"]
		if box := marks.Badges["f"].box(at); at.X != 0 || box.Overlaps(sign) == clear {
			t.Errorf("where the sign says %q: a badge at %v, the sign in %v", ends, at, sign)
		}
	}
}
