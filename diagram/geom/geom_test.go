package geom

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const rounding = 1e-12 // mm, of sums and products of a few hundred

func nearPoint(a, b Point) bool { return a.Distance(b) <= rounding*100 }

func TestPoint(t *testing.T) {
	p := Pt(3, 4)
	if p.Length() != 5 || p.Distance(Pt(6, 8)) != 5 || p.Add(Pt(1, -2)) != Pt(4, 2) || p.Sub(Pt(1, -2)) != Pt(2, 6) || p.Mul(-2) != Pt(-6, -8) {
		t.Errorf("got %v: %g, %g, %v, %v, %v", p, p.Length(), p.Distance(Pt(6, 8)), p.Add(Pt(1, -2)), p.Sub(Pt(1, -2)), p.Mul(-2))
	}
	for _, row := range []struct {
		at, want Point
		pitch    float64
	}{
		{Pt(3.7, -3.7), Pt(4, -4), 2}, {Pt(2.9, 3.1), Pt(2, 4), 2}, {Pt(0.3, 0.7), Pt(0.5, 0.5), 0.5},
		{Pt(3.7, 1.2), Pt(3.7, 1.2), 0}, {Pt(3.7, 1.2), Pt(3.7, 1.2), -2},
	} {
		if got := row.at.Snap(row.pitch); got != row.want {
			t.Errorf("%v by %g: got %v, want %v", row.at, row.pitch, got, row.want)
		}
	}
	for _, odd := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if Pt(odd, 0).Finite() || Pt(0, odd).Finite() {
			t.Errorf("%g counts as a number", odd)
		}
	}
	if !p.Finite() {
		t.Error("3, 4 counts as no number")
	}
}

// A map after another does what both do, its inverse undoes it, and four quarter
// turns are none.
func TestAffine(t *testing.T) {
	maps := []Affine{Identity(), Translate(Pt(3, -7)), Scale(2.5), Turn(1), Turn(2), Turn(3), {A: 1, B: 2, C: 3, D: 4, E: 5, F: 6}}
	points := []Point{{}, Pt(1, 0), Pt(0, 1), Pt(-3, 11)}
	for _, a := range maps {
		back, ok := a.Inverse()
		if !ok {
			t.Errorf("%v has no inverse", a)
		}
		for _, p := range points {
			if got := back.Apply(a.Apply(p)); !nearPoint(got, p) {
				t.Errorf("%v undone at %v: got %v", a, p, got)
			}
			for _, b := range maps {
				if got, want := a.Then(b).Apply(p), b.Apply(a.Apply(p)); !nearPoint(got, want) {
					t.Errorf("%v then %v at %v: got %v, want %v", a, b, p, got, want)
				}
			}
		}
	}
	if _, ok := (Affine{A: 1, B: 2, C: 2, D: 4}).Inverse(); ok {
		t.Error("what squeezes the plane to a line has an inverse")
	}
	// clockwise on the sheet, y downward: right, down, left, up
	for n, want := range map[int]Point{0: {1, 0}, 1: {0, 1}, 2: {-1, 0}, 3: {0, -1}, 4: {1, 0}, -1: {0, -1}, -5: {0, -1}, 6: {-1, 0}} {
		if got := Turn(n).Apply(Pt(1, 0)); got != want {
			t.Errorf("%d quarter turns: got %v, want %v", n, got, want)
		}
		if down := Turn(n).Apply(Pt(0, 1)); down != Pt(-want.Y, want.X) { // a quarter turn behind
			t.Errorf("%d quarter turns of what points down: got %v", n, down)
		}
	}
	p := Pt(3, -7)
	if Identity().Apply(p) != p || Translate(Pt(1, 2)).Apply(p) != Pt(4, -5) || Scale(2).Apply(p) != Pt(6, -14) {
		t.Errorf("%v: left %v, moved %v, scaled %v", p, Identity().Apply(p), Translate(Pt(1, 2)).Apply(p), Scale(2).Apply(p))
	}
	if got := (Affine{A: 1, B: 2, C: 3, D: 4, E: 5, F: 6}).Apply(Pt(10, 100)); got != Pt(315, 426) { // A x + C y + E, B x + D y + F
		t.Errorf("got %v, want 315, 426", got)
	}
}

func TestApplyRect(t *testing.T) {
	r := RectOf(Pt(1, 2), Pt(3, 6))
	for _, row := range []struct {
		m    Affine
		want Rect
	}{
		{Translate(Pt(10, 0)), Rect{Pt(11, 2), Pt(13, 6)}},
		{Scale(-1), Rect{Pt(-3, -6), Pt(-1, -2)}},
		{Turn(1), Rect{Pt(-6, 1), Pt(-2, 3)}},
		{Affine{A: 1, C: 1, D: 1}, Rect{Pt(3, 2), Pt(9, 6)}},            // x + y, y
		{Affine{A: 1, B: 1, D: 1}, Rect{Pt(1, 3), Pt(3, 9)}},            // x, x + y
		{Affine{A: 1, B: 1, C: -1, D: 1}, Rect{Pt(1-6, 3), Pt(3-2, 9)}}, // an eighth of a turn, and longer
	} {
		if got := row.m.ApplyRect(r); got != row.want {
			t.Errorf("%v: got %v, want %v", row.m, got, row.want)
		}
	}
	if got := Turn(1).ApplyRect(Empty()); !got.IsEmpty() {
		t.Errorf("of nothing: got %v", got)
	}
}

func TestRect(t *testing.T) {
	r := RectOf(Pt(3, 6), Pt(1, 2))
	if r != (Rect{Pt(1, 2), Pt(3, 6)}) || RectOf(Pt(3, 2), Pt(1, 6)) != r || r.Width() != 2 || r.Height() != 4 || r.Center() != Pt(2, 4) {
		t.Errorf("got %v, %g by %g round %v", r, r.Width(), r.Height(), r.Center())
	}
	if got, want := r.Corners(), [4]Point{{1, 2}, {3, 2}, {3, 6}, {1, 6}}; got != want {
		t.Errorf("corners: got %v, want %v", got, want)
	}
	if r.Move(Pt(1, -1)) != (Rect{Pt(2, 1), Pt(4, 5)}) || r.Grow(1) != (Rect{Pt(0, 1), Pt(4, 7)}) || !r.Grow(-1.5).IsEmpty() || !Empty().Grow(5).IsEmpty() {
		t.Errorf("moved %v, grown %v, shrunk %v, nothing grown %v", r.Move(Pt(1, -1)), r.Grow(1), r.Grow(-1.5), Empty().Grow(5))
	}
	for _, row := range []struct {
		p  Point
		in bool
	}{{Pt(2, 4), true}, {Pt(1, 2), true}, {Pt(3, 6), true}, {Pt(0.9, 4), false}, {Pt(3.1, 4), false}, {Pt(2, 1.9), false}, {Pt(2, 6.1), false}} {
		if r.Contains(row.p) != row.in {
			t.Errorf("%v in %v: got %v", row.p, r, !row.in)
		}
	}
	if (Rect{}).IsEmpty() || !Empty().IsEmpty() || !(Rect{Pt(1, 0), Pt(0, 5)}).IsEmpty() || !(Rect{Pt(0, 1), Pt(5, 0)}).IsEmpty() {
		t.Error("what is empty is told wrong")
	}
}

// Two rectangles, one of them moved to every side of the other.
func TestTwoRects(t *testing.T) {
	r := RectOf(Pt(0, 0), Pt(10, 10))
	for _, row := range []struct {
		name            string
		s               Rect
		overlaps, holds bool
	}{
		{"itself", r, true, true},
		{"inside", RectOf(Pt(2, 2), Pt(3, 3)), true, true},
		{"at a corner", RectOf(Pt(10, 10), Pt(12, 12)), true, false},
		{"at the other corner", RectOf(Pt(-2, -2), Pt(0, 0)), true, false},
		{"left", RectOf(Pt(-2, 2), Pt(-1, 3)), false, false},
		{"right", RectOf(Pt(11, 2), Pt(12, 3)), false, false},
		{"above", RectOf(Pt(2, -3), Pt(3, -1)), false, false},
		{"below", RectOf(Pt(2, 11), Pt(3, 12)), false, false},
		{"across", RectOf(Pt(-5, 4), Pt(15, 5)), true, false},
		{"round it", RectOf(Pt(-5, -5), Pt(15, 15)), true, false},
		{"out at the bottom", RectOf(Pt(2, 2), Pt(3, 11)), true, false},
		{"nothing", Empty(), false, false},
	} {
		if r.Overlaps(row.s) != row.overlaps || row.s.Overlaps(r) != row.overlaps || r.Holds(row.s) != row.holds {
			t.Errorf("%s: got overlaps %v and %v, holds %v", row.name, r.Overlaps(row.s), row.s.Overlaps(r), r.Holds(row.s))
		}
		union := r.Union(row.s)
		if !union.Holds(r) || row.s.IsEmpty() && union != r || !row.s.IsEmpty() && !union.Holds(row.s) || union != row.s.Union(r) {
			t.Errorf("%s: got the union %v", row.name, union)
		}
	}
	if got := Empty().Include(Pt(4, 5)).Include(Pt(1, 7)); got != (Rect{Pt(1, 5), Pt(4, 7)}) {
		t.Errorf("of two points: got %v", got)
	}
}

func TestSegment(t *testing.T) {
	s := Segment{Pt(2, 1), Pt(10, 7)} // 10 long
	for _, row := range []struct {
		p               Point
		share, distance float64
	}{
		{Pt(2, 1), 0, 0}, {Pt(10, 7), 1, 0}, {Pt(6, 4), 0.5, 0}, {Pt(6-3, 4+4), 0.5, 5}, {Pt(9, 0), 0.5, 5},
		{Pt(2-3, 1-4), 0, 5}, {Pt(10+3, 7+4), 1, 5}, {Pt(4, 2.5), 0.25, 0},
	} {
		if got := s.Nearest(row.p); math.Abs(got-row.share) > rounding || math.Abs(s.Distance(row.p)-row.distance) > rounding*10 {
			t.Errorf("%v: got share %g at %g mm, want %g at %g", row.p, got, s.Distance(row.p), row.share, row.distance)
		}
	}
	if s.Length() != 10 || s.At(0.5) != Pt(6, 4) || s.At(0) != s.A {
		t.Errorf("got %g mm, middle %v", s.Length(), s.At(0.5))
	}
	if point := (Segment{Pt(1, 1), Pt(1, 1)}); point.Nearest(Pt(5, 5)) != 0 || point.Distance(Pt(4, 5)) != 5 {
		t.Errorf("of one point: got %g, %g", point.Nearest(Pt(5, 5)), point.Distance(Pt(4, 5)))
	}
}

func TestSegmentMeets(t *testing.T) {
	r := RectOf(Pt(0, 0), Pt(10, 10))
	for _, row := range []struct {
		name string
		s    Segment
		want bool
	}{
		{"inside", Segment{Pt(2, 2), Pt(3, 3)}, true},
		{"through", Segment{Pt(-5, 5), Pt(15, 6)}, true},
		{"through, the other way", Segment{Pt(15, 6), Pt(-5, 5)}, true},
		{"along the edge", Segment{Pt(-5, 10), Pt(15, 10)}, true},
		{"upright along the edge", Segment{Pt(0, -5), Pt(0, 15)}, true},
		{"to the corner", Segment{Pt(-5, -5), Pt(0, 0)}, true},
		{"past the corner", Segment{Pt(-5, 5), Pt(5, 15.1)}, false},
		{"just at the corner", Segment{Pt(-5, 5), Pt(5, 15)}, true},
		{"level above", Segment{Pt(-5, -1), Pt(15, -1)}, false},
		{"level below", Segment{Pt(-5, 11), Pt(15, 11)}, false},
		{"upright beside", Segment{Pt(11, -5), Pt(11, 15)}, false},
		{"ends before", Segment{Pt(-5, 5), Pt(-1, 5)}, false},
		{"begins behind", Segment{Pt(11, 5), Pt(15, 5)}, false},
		{"a point inside", Segment{Pt(5, 5), Pt(5, 5)}, true},
		{"a point outside", Segment{Pt(5, 15), Pt(5, 15)}, false},
	} {
		if got := row.s.Meets(r); got != row.want {
			t.Errorf("%s: got %v", row.name, got)
		}
	}
	if (Segment{Pt(-5, 5), Pt(15, 5)}).Meets(Empty()) {
		t.Error("meets nothing")
	}
}

// An angle of 30 and 40 mm.
func TestPolyline(t *testing.T) {
	l := Polyline{Pt(0, 0), Pt(30, 0), Pt(30, 40)}
	if l.Length() != 70 || l.Bounds() != RectOf(Pt(0, 0), Pt(30, 40)) || l.Distance(Pt(33, 20)) != 3 || l.Distance(Pt(10, -2)) != 2 {
		t.Errorf("got %g mm in %v, %g and %g from it", l.Length(), l.Bounds(), l.Distance(Pt(33, 20)), l.Distance(Pt(10, -2)))
	}
	for _, row := range []struct {
		share    float64
		at, step Point
	}{
		{0, Pt(0, 0), Pt(1, 0)}, {-1, Pt(0, 0), Pt(1, 0)}, {1.0 / 7, Pt(10, 0), Pt(1, 0)}, {5.0 / 7, Pt(30, 20), Pt(0, 1)},
		{1, Pt(30, 40), Pt(0, 1)}, {2, Pt(30, 40), Pt(0, 1)},
	} {
		if at, step := l.At(row.share); !nearPoint(at, row.at) || !nearPoint(step, row.step) {
			t.Errorf("at %g: got %v toward %v, want %v toward %v", row.share, at, step, row.at, row.step)
		}
	}
	doubled := Polyline{Pt(0, 0), Pt(0, 0), Pt(10, 0), Pt(10, 0)} // pieces of no length
	if at, step := doubled.At(0.5); at != Pt(5, 0) || step != Pt(1, 0) {
		t.Errorf("with pieces of no length: got %v toward %v", at, step)
	}
	for _, row := range []struct {
		from, to float64
		want     Polyline
	}{
		{0, 1, l}, {0, 3.0 / 7, Polyline{Pt(0, 0), Pt(30, 0)}}, {1.0 / 7, 5.0 / 7, Polyline{Pt(10, 0), Pt(30, 0), Pt(30, 20)}},
		{5.0 / 7, 6.0 / 7, Polyline{Pt(30, 20), Pt(30, 30)}}, {1.0 / 7, 2.0 / 7, Polyline{Pt(10, 0), Pt(20, 0)}},
	} {
		got := l.Cut(row.from, row.to)
		if len(got) != len(row.want) {
			t.Errorf("cut from %g to %g: got %v, want %v", row.from, row.to, got, row.want)
			continue
		}
		for i := range got {
			if !nearPoint(got[i], row.want[i]) {
				t.Errorf("cut from %g to %g: got %v, want %v", row.from, row.to, got, row.want)
			}
		}
	}
}

// A cut at a corner has it once.
func TestCutAtACorner(t *testing.T) {
	l := Polyline{Pt(0, 0), Pt(8, 0), Pt(8, 8)}
	for _, row := range []struct {
		from, to float64
		want     Polyline
	}{{0.5, 1, Polyline{Pt(8, 0), Pt(8, 8)}}, {0, 0.5, Polyline{Pt(0, 0), Pt(8, 0)}}} {
		if diff := cmp.Diff(row.want, l.Cut(row.from, row.to)); diff != "" {
			t.Errorf("from %g to %g: -want +got\n%s", row.from, row.to, diff)
		}
	}
}

func TestPolylineOfLittle(t *testing.T) {
	for _, l := range []Polyline{nil, {Pt(3, 4)}} {
		if l.Length() != 0 || !math.IsInf(l.Distance(Pt(0, 0)), 1) || l.Meets(RectOf(Pt(-9, -9), Pt(9, 9))) {
			t.Errorf("%v: got %g mm, %g from the origin", l, l.Length(), l.Distance(Pt(0, 0)))
		}
	}
	if at, step := (Polyline{}).At(0.5); at != (Point{}) || step != (Point{}) {
		t.Errorf("of nothing: got %v toward %v", at, step)
	}
	if at, step := (Polyline{Pt(3, 4)}).At(0.5); at != Pt(3, 4) || step != (Point{}) {
		t.Errorf("of one point: got %v toward %v", at, step)
	}
	if got := (Polyline{}).Cut(0, 1); got != nil {
		t.Errorf("cut of nothing: got %v", got)
	}
	l := Polyline{Pt(0, 0), Pt(30, 0), Pt(30, 40)}
	for _, row := range []struct {
		r    Rect
		want bool
	}{{RectOf(Pt(10, -1), Pt(11, 1)), true}, {RectOf(Pt(29, 30), Pt(31, 31)), true}, {RectOf(Pt(5, 5), Pt(25, 35)), false}} {
		if l.Meets(row.r) != row.want {
			t.Errorf("meets %v: got %v", row.r, !row.want)
		}
	}
	if diff := cmp.Diff(Polyline{Pt(0, 0), Pt(30, 0), Pt(30, 40)}, l); diff != "" {
		t.Error(diff)
	}
}
