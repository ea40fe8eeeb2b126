package draw

import (
	"math"
	"testing"

	"clampline/diagram/geom"
)

func TestDashesDiffer(t *testing.T) {
	type look struct {
		strands  int
		ink, gap float64
	}
	for _, width := range []float64{0.25, 0.8, 2} {
		known := map[look]Dash{}
		for dash := Solid; dash < dashCount; dash++ {
			strands := Pen{Width: width, Dash: dash}.Strands(Line(geom.Pt(0, 0), geom.Pt(9, 0)))
			last := strands[len(strands)-1]
			this := look{len(strands), last.Ink, last.Gap}
			if other, ok := known[this]; ok {
				t.Errorf("width %v: %s looks like %s", width, dash, other)
			}
			known[this] = dash
		}
	}
}

func TestPatternIsAllOrNothing(t *testing.T) {
	for dash := Solid; dash < dashCount; dash++ {
		ink, gap := dash.Pattern(0.8)
		if (ink > 0) != (gap > 0) {
			t.Errorf("%s: ink %v and gap %v, want both or neither", dash, ink, gap)
		}
	}
}

func TestStrandsStayWithinReach(t *testing.T) {
	paths := map[string]Path{
		"line": Line(geom.Pt(0, 0), geom.Pt(30, 0)),
		"arc":  Arc(geom.Pt(0, 0), 12, 0.2, 2),
	}
	for name, path := range paths {
		for _, width := range []float64{0.25, 0.8, 2} {
			for dash := Solid; dash < dashCount; dash++ {
				pen := Pen{Width: width, Dash: dash}
				want := path.Bounds().Grow(pen.Reach() + flatness)
				for _, strand := range pen.Strands(path) {
					if got := strand.Path.Bounds().Grow(strand.Width / 2); !want.Holds(got) {
						t.Errorf("%s %s %v: strand covers %v, want within %v", name, dash, width, got, want)
					}
				}
			}
		}
	}
}

func TestDoubleLineIsParallel(t *testing.T) {
	pen := Pen{Width: 2, Dash: Double}
	apart, _ := pen.double()
	tests := []struct {
		name  string
		path  Path
		right string // the line to the right of the path's direction
	}{
		{"corner", Line(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 10)), "M 0,0.64 L 9.36,0.64 L 9.36,10"},
		{"closed", Polygon(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 10), geom.Pt(0, 10)), "M 0.64,0.64 L 9.36,0.64 L 9.36,9.36 L 0.64,9.36 Z"},
		{"repeated point", Line(geom.Pt(0, 0), geom.Pt(0, 0), geom.Pt(10, 0)), "M 0,0.64 L 10,0.64"},
		{"nearly back", Line(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(0, 1)), "M 0,0.64 L 10,0.64 L -0.06,0.36"}, // no spike, which would reach to 138 mm
		{"aslant", Line(geom.Pt(0, 0), geom.Pt(3, 4), geom.Pt(7, 1)), "M -0.51,0.38 L 2.87,4.9 L 7.38,1.51"},   // by 0.64 × (-0.8, 0.6), then (0.6, 0.8)
		{"obtuse", Line(geom.Pt(0, 0), geom.Pt(5, 0), geom.Pt(9, 3)), "M 0,0.64 L 4.79,0.64 L 8.62,3.51"},      // corner at 5 - 0.64 tan(½ atan(3/4))
		{"straight curve", curve(geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(2, 0), geom.Pt(3, 0)), "M 0,0.64 L 3,0.64"},
		{"point alone", Line(geom.Pt(1, 1)), ""},
	}
	if apart != 0.64 {
		t.Fatalf("half the distance: got %v, want 0.64", apart)
	}
	for _, test := range tests {
		if got := pen.Strands(test.path)[1].Path.String(); got != test.right {
			t.Errorf("%s: got %s, want %s", test.name, got, test.right)
		}
	}
}

func curve(points ...geom.Point) Path {
	var p Path
	p.MoveTo(points[0])
	p.CurveTo(points[1], points[2], points[3])
	return p
}

func TestDoubleLineAboutCircle(t *testing.T) {
	pen := Pen{Width: 2, Dash: Double}
	strands := pen.Strands(Circle(geom.Pt(0, 0), 10))
	for i, want := range []float64{10.64, 9.36} { // left of a clockwise circle is outside
		for _, line := range strands[i].Path.Flatten(1) {
			for _, p := range line {
				if got := p.Length(); math.Abs(got-want) > 2*flatness {
					t.Fatalf("line %d: radius %v, want %v", i, got, want)
				}
			}
		}
	}
}

func joined(a, b Path) Path {
	var p Path
	p.Append(a)
	p.Append(b)
	return p
}

func further(p Path, to geom.Point) Path {
	p.LineTo(to)
	return p
}

func TestStraight(t *testing.T) {
	tests := []struct {
		name string
		path Path
		want bool
	}{
		{"corner", Line(geom.Pt(0, 0), geom.Pt(5, 0), geom.Pt(5, 9)), true},
		{"rectangle", Rectangle(rect(0, 0, 4, 4), 0), true},
		{"sum of tenths", Line(geom.Pt(0, 0.1+0.2), geom.Pt(5, 0.3)), true},
		{"aslant", Line(geom.Pt(0, 0), geom.Pt(5, 1)), false},
		{"closed aslant", Polygon(geom.Pt(0, 0), geom.Pt(5, 0), geom.Pt(5, 5)), false},
		{"rounded", Rectangle(rect(0, 0, 4, 4), 1), false},
		{"out of line by less than a thousandth", Line(geom.Pt(0, 0), geom.Pt(5, 0.0009)), true},
		{"out of line by more", Line(geom.Pt(0, 0), geom.Pt(-0.0011, 5)), false},
		{"two pieces", joined(Line(geom.Pt(0, 0), geom.Pt(5, 0)), Line(geom.Pt(9, 9), geom.Pt(9, 12))), true},
		{"the second aslant", joined(Line(geom.Pt(0, 0), geom.Pt(5, 0)), Line(geom.Pt(9, 9), geom.Pt(8, 12))), false},
		{"on from where it closed", further(Polygon(geom.Pt(1, 1), geom.Pt(5, 1), geom.Pt(5, 9), geom.Pt(1, 9)), geom.Pt(1, -5)), true},
		{"aslant from there", further(Polygon(geom.Pt(1, 1), geom.Pt(5, 1), geom.Pt(5, 9), geom.Pt(1, 9)), geom.Pt(5, 9)), false},
	}
	for _, test := range tests {
		if got := (Pen{Width: 1}).Strands(test.path)[0].Straight; got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
}

func TestPenThatDrawsNothing(t *testing.T) {
	for name, pen := range map[string]Pen{"no width": {}, "no role": {Role: RoleNone, Width: 1}, "negative": {Width: -1}} {
		if strands := pen.Strands(Line(geom.Pt(0, 0), geom.Pt(1, 1))); strands != nil || pen.Reach() != 0 {
			t.Errorf("%s: %d strands, reach %v, want none", name, len(strands), pen.Reach())
		}
	}
}
