package scene

import (
	"testing"

	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
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
