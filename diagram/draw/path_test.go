package draw

import (
	"math"
	"math/rand/v2"
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
		if !Line(got[i]...).Equal(Line(want[i]...)) {
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
