package draw

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"clampline/diagram/geom"
)

// exact is the tolerance where only rounding of floating point may differ.
const exact = 1e-9

func rect(x0, y0, x1, y1 float64) geom.Rect { return geom.RectOf(geom.Pt(x0, y0), geom.Pt(x1, y1)) }

func near(a, b geom.Rect, tolerance float64) bool {
	return a.Min.Distance(b.Min) <= tolerance && a.Max.Distance(b.Max) <= tolerance
}

func TestPathBounds(t *testing.T) {
	var wave Path
	wave.MoveTo(geom.Pt(0, 0))
	wave.CurveTo(geom.Pt(1, 4), geom.Pt(3, -4), geom.Pt(4, 0))
	// y = 12 t (1-t)^2 - 12 t^2 (1-t), extreme at t = 1/2 -+ 1/(2 sqrt 3): 2/sqrt 3.
	peak := 2 / math.Sqrt(3)
	tests := []struct {
		name string
		path Path
		want geom.Rect
	}{
		{"line", Line(geom.Pt(3, 1), geom.Pt(-2, 5)), rect(-2, 1, 3, 5)},
		{"sharp rectangle", Rectangle(rect(1, 2, 5, 9), 0), rect(1, 2, 5, 9)},
		{"rounded rectangle", Rectangle(rect(1, 2, 5, 9), 1.5), rect(1, 2, 5, 9)},
		{"radius beyond half the side", Rectangle(rect(1, 2, 5, 9), 99), rect(1, 2, 5, 9)},
		{"circle", Circle(geom.Pt(2, -3), 5), rect(-3, -8, 7, 2)},
		{"half circle downward", Arc(geom.Pt(0, 0), 2, 0, 2), rect(-2, 0, 2, 2)},
		{"eighth of a circle", Arc(geom.Pt(0, 0), 1, 0, 0.5), rect(math.Sqrt2/2, 0, 1, math.Sqrt2/2)},
		{"wave", wave, rect(0, -peak, 4, peak)},
	}
	for _, test := range tests {
		if got := test.path.Bounds(); !near(got, test.want, exact) {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
	if got := (Path{}).Bounds(); !got.IsEmpty() {
		t.Errorf("empty path: got %v, want nothing", got)
	}
	if got := Rectangle(geom.Empty(), 1); !got.IsEmpty() {
		t.Errorf("empty rectangle: got %v, want an empty path", got)
	}
}

func TestArcLiesOnItsCircle(t *testing.T) {
	// A cubic Bezier of a quarter turn leaves the circle by less than 2.8e-4 of
	// the radius (closed form of its greatest radius, at about 0.21).
	const radius, off = 10.0, 2.8e-3
	for _, sweep := range []float64{0.3, 1, 2.5, 4, -1.7} {
		for _, line := range Arc(geom.Pt(1, 2), radius, 0.6, sweep).Flatten(1e-4) {
			for _, p := range line {
				if got := p.Distance(geom.Pt(1, 2)); math.Abs(got-radius) > off {
					t.Errorf("sweep %v: %v is %v from the centre, want %v", sweep, p, got, radius)
				}
			}
		}
	}
}

func TestFlattenStaysWithinTolerance(t *testing.T) {
	for _, tolerance := range []float64{0.5, 0.1, 0.01} {
		line := Circle(geom.Pt(0, 0), 10).Flatten(tolerance)[0]
		if line[0] != line[len(line)-1] {
			t.Errorf("tolerance %v: ends at %v, want %v", tolerance, line[len(line)-1], line[0])
		}
		for i := 1; i < len(line); i++ {
			middle := line[i-1].Add(line[i]).Mul(0.5)
			if got := 10 - middle.Length(); got > tolerance {
				t.Errorf("tolerance %v: chord %d is %v inside the circle", tolerance, i, got)
			}
		}
	}
}

func TestFlattenPieces(t *testing.T) {
	path := Polygon(geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1))
	path.LineTo(geom.Pt(-1, -1)) // after a close: from the beginning of the piece
	path.Append(Line(geom.Pt(5, 5), geom.Pt(6, 5)))
	got := path.Flatten(0.1)
	want := []geom.Polyline{
		{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 0}},
		{{X: 0, Y: 0}, {X: -1, Y: -1}},
		{{X: 5, Y: 5}, {X: 6, Y: 5}},
	}
	if len(got) != len(want) {
		t.Fatalf("got %d pieces, want %d", len(got), len(want))
	}
	for i := range want {
		if !slices.Equal(got[i], want[i]) {
			t.Errorf("piece %d: got %v, want %v", i, got[i], want[i])
		}
	}
}

func TestTransformMapsBounds(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		path := Circle(geom.Pt(random.Float64()*9, random.Float64()*9), 1+random.Float64())
		m := geom.Turn(random.IntN(4)).Then(geom.Translate(geom.Pt(random.Float64(), 3)))
		if got, want := path.Transform(m).Bounds(), m.ApplyRect(path.Bounds()); !near(got, want, exact) {
			t.Fatalf("bounds of %v under %v: got %v, want %v", path, m, got, want)
		}
	}
}

func TestAsRectangle(t *testing.T) {
	r := rect(1, 2, 5, 9)
	if got, ok := Rectangle(r, 0).AsRectangle(); !ok || got != r {
		t.Errorf("rectangle: got %v, %v", got, ok)
	}
	if got, ok := Rectangle(r, 0).Transform(geom.Turn(1)).AsRectangle(); !ok || got != rect(-9, 1, -2, 5) {
		t.Errorf("turned rectangle: got %v, %v", got, ok)
	}
	// Either way round it is one, and with any coordinate of a corner moved it is none.
	for name, corners := range map[string][4]geom.Point{
		"clockwise": {{X: 1, Y: 2}, {X: 5, Y: 2}, {X: 5, Y: 9}, {X: 1, Y: 9}}, "the other way": {{X: 1, Y: 2}, {X: 1, Y: 9}, {X: 5, Y: 9}, {X: 5, Y: 2}},
	} {
		if got, ok := Polygon(corners[:]...).AsRectangle(); !ok || got != r {
			t.Errorf("%s: got %v, %v", name, got, ok)
		}
		for i := range corners {
			for _, step := range []geom.Point{{X: 0.5}, {Y: 0.5}} {
				bent := corners
				bent[i] = bent[i].Add(step)
				if _, ok := Polygon(bent[:]...).AsRectangle(); ok {
					t.Errorf("%s, corner %d moved by %v: taken for a rectangle", name, i, step)
				}
			}
		}
	}
	others := map[string]Path{
		"rounded": Rectangle(r, 1), "open": Line(r.Min, geom.Pt(5, 2), r.Max, geom.Pt(1, 9)),
		"aslant": Polygon(geom.Pt(0, 0), geom.Pt(2, 1), geom.Pt(2, 3), geom.Pt(0, 2)), "empty": {},
	}
	for name, path := range others {
		if _, ok := path.AsRectangle(); ok {
			t.Errorf("%s: taken for a rectangle", name)
		}
	}
}

// TestLinesAreApart makes lines longer, which must change neither other lines
// nor the points that they were made of.
func TestLinesAreApart(t *testing.T) {
	points := make([]geom.Point, 12)
	for i := range points {
		points[i] = geom.Pt(float64(i), 0)
	}
	for count := 1; count < len(points); count++ {
		line := Line(points[:count]...)
		before := line.String()
		longer, closed := line, line
		longer.LineTo(geom.Pt(99, 99))
		closed.Close()
		if got, want := longer.String(), before+" L 99,99"; got != want {
			t.Errorf("longer: got %s, want %s", got, want)
		}
		if got, want := closed.String(), before+" Z"; got != want {
			t.Errorf("closed: got %s, want %s", got, want)
		}
		if got := Line(points[:count]...).String(); got != before || points[count] != geom.Pt(float64(count), 0) {
			t.Errorf("a line of %d points changed to %s, the point after it to %v", count, got, points[count])
		}
	}
}

// Curves of every bend, of one that is a parabola, of a straight one and of loops:
// the bounds are those of many points along them, and none lies outside.
func TestCurveBounds(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	at := func() geom.Point { return geom.Pt(float64(random.IntN(9)), float64(random.IntN(9))) }
	curves := [][4]geom.Point{
		{{X: 0, Y: 0}, {X: 2, Y: 4}, {X: 4, Y: 4}, {X: 6, Y: 0}},  // y = 12 t (1-t): a parabola, up to 3
		{{X: 0, Y: 0}, {X: 4, Y: 2}, {X: 4, Y: 4}, {X: 0, Y: 6}},  // the same in x
		{{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}},  // straight
		{{X: 0, Y: 0}, {X: 0, Y: 0}, {X: 0, Y: 0}, {X: 0, Y: 0}},  // a point
		{{X: 0, Y: 0}, {X: 9, Y: 9}, {X: -9, Y: 9}, {X: 0, Y: 0}}, // a loop
	}
	for range 200 {
		curves = append(curves, [4]geom.Point{at(), at(), at(), at()})
	}
	for _, c := range curves {
		path := curve(c[:]...)
		want := geom.Empty()
		for i := range 1001 {
			// De Casteljau's construction, by halves of halves of the sides.
			s := float64(i) / 1000
			mix := func(a, b geom.Point) geom.Point { return a.Mul(1 - s).Add(b.Mul(s)) }
			a, b, d := mix(c[0], c[1]), mix(c[1], c[2]), mix(c[2], c[3])
			want = want.Include(mix(mix(a, b), mix(b, d)))
		}
		// Between two of a thousand points a curve with sides of up to 18 mm rises by at
		// most an eighth of its second derivative (6 × 36 mm) by the step squared.
		if got := path.Bounds(); !near(got, want, 6*36.0/8/1e6) {
			t.Errorf("%v: bounds %v, want %v", path, got, want)
		}
	}
}

// A curve is cut into the least number of equal pieces for which the bound of the
// chord's error holds: an eighth of the greatest second derivative, which is six
// times the second difference of the control points, by the step squared.
func TestFlattenCounts(t *testing.T) {
	// Second differences: of a quarter circle of radius 10 mm k = 10 × 4/3 × tan(π/8),
	// (10-2×10+10-k, 0-2k+10): 4.477 and 1.046, so 4.598 mm; of the arch 4 and 4 mm; of
	// the hook 0 and 16 mm, of the crook the same from its other end.
	for _, test := range []struct {
		name      string
		curve     [4]geom.Point
		tolerance float64
		want      int
	}{
		{"arch, a tenth", [4]geom.Point{{X: 0, Y: 0}, {X: 2, Y: 4}, {X: 4, Y: 4}, {X: 6, Y: 0}}, 0.1, 6},       // √(0.75×4/0.1) = 5.48
		{"arch, a hundredth", [4]geom.Point{{X: 0, Y: 0}, {X: 2, Y: 4}, {X: 4, Y: 4}, {X: 6, Y: 0}}, 0.01, 18}, // 17.3
		{"hook", [4]geom.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 2, Y: 0}, {X: 3, Y: 16}}, 0.3, 7},               // √40 = 6.3
		{"crook", [4]geom.Point{{X: 3, Y: 16}, {X: 2, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 0}}, 0.3, 7},
		{"straight", [4]geom.Point{{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}}, 0.01, 1},
		{"as exact as can be", [4]geom.Point{{X: 0, Y: 0}, {X: 200, Y: 400}, {X: 400, Y: 400}, {X: 600, Y: 0}}, 1e-9, 256}, // bounded
	} {
		line := curve(test.curve[:]...).Flatten(test.tolerance)[0]
		if got := len(line) - 1; got != test.want {
			t.Errorf("%s: %d pieces, want %d", test.name, got, test.want)
		}
		if line[0] != test.curve[0] || line[len(line)-1] != test.curve[3] {
			t.Errorf("%s: runs from %v to %v", test.name, line[0], line[len(line)-1])
		}
	}
}

// Steps on a path that has none yet, and the joint of an arc to what comes before.
func TestPathText(t *testing.T) {
	var fromLine, fromCurve, closed, joined, apart Path
	fromLine.LineTo(geom.Pt(1, 2))
	fromLine.LineTo(geom.Pt(3, 4))
	fromCurve.CurveTo(geom.Pt(1, 2), geom.Pt(3, 4), geom.Pt(5, 6))
	closed.Close()
	joined.MoveTo(geom.Pt(0, 0))
	joined.LineTo(geom.Pt(3, 0))
	joined.ArcTo(geom.Pt(2, 0), 1, 0, 1) // begins at 3,0
	apart.MoveTo(geom.Pt(3, 0))
	apart.LineTo(geom.Pt(0, 0))
	apart.ArcTo(geom.Pt(2, 0), 1, 0, -1)
	// A quarter's control points lie 4/3 tan(π/8) = 0.55 of the radius along the tangents.
	for _, row := range []struct {
		path Path
		want string
	}{
		{fromLine, "M 1,2 L 3,4"}, {fromCurve, "M 1,2 C 1,2 3,4 5,6"}, {closed, ""},
		{joined, "M 0,0 L 3,0 C 3,0.55 2.55,1 2,1"},
		{apart, "M 3,0 L 0,0 L 3,0 C 3,-0.55 2.55,-1 2,-1"},
		{Arc(geom.Pt(0, 0), 2, 1.5, 0.5), "M -1.41,1.41 C -1.79,1.04 -2,0.53 -2,0"}, // half: 4/3 tan(π/16) × 2 = 0.53
		{Circle(geom.Pt(0, 0), 1), "M 1,0 C 1,0.55 0.55,1 0,1 C -0.55,1 -1,0.55 -1,0 C -1,-0.55 -0.55,-1 0,-1 C 0.55,-1 1,-0.55 1,0 Z"},
		{Rectangle(rect(0, 0, 4, 2), 9), "M 0,1 C 0,0.45 0.45,0 1,0 L 3,0 C 3.55,0 4,0.45 4,1 C 4,1.55 3.55,2 3,2 L 1,2 C 0.45,2 0,1.55 0,1 Z"},
		{Rectangle(rect(0, 0, 4, 2), -1), "M 0,0 L 4,0 L 4,2 L 0,2 Z"},
	} {
		if got := row.path.String(); got != row.want {
			t.Errorf("got  %s\nwant %s", got, row.want)
		}
	}
}
