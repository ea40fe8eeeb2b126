package draw_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

func rect(x0, y0, x1, y1 float64) geom.Rect { return geom.RectOf(geom.Pt(x0, y0), geom.Pt(x1, y1)) }

// near reports whether two rectangles differ by rounding only.
func near(a, b geom.Rect) bool {
	return a.Min.Distance(b.Min) < 1e-9 && a.Max.Distance(b.Max) < 1e-9
}

var fine = draw.Pen{Width: 0.4}

// machine is a symbol that is different in each turn and has a letter.
func machine() *draw.Picture {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(0, 3), geom.Pt(0, 9)), fine)
	p.FillStroke(draw.Circle(geom.Pt(0, 0), 3), draw.RoleCard, fine)
	p.Text(draw.Text{At: geom.Pt(0, 1), Size: 3, Bold: true, Align: draw.Center, String: "G"})
	p.Text(draw.Text{At: geom.Pt(4, 1), Size: 2, Role: draw.RoleFaint, String: "60 kVA"})
	return p
}

func sample() *draw.Picture {
	p := draw.NewPicture()
	p.Fill(draw.Rectangle(rect(-1, -1, 41, 1), 0.5), draw.RoleAccentSoft)
	p.Begin("bus-1")
	p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(40, 0)), draw.Pen{Role: draw.RoleHeld, Width: 2})
	p.Begin("tag")
	p.FillStroke(draw.Rectangle(rect(2, 2, 30, 9), 0), draw.RoleCard, draw.Pen{Role: draw.RoleHeld, Width: 0.4})
	p.Text(draw.Text{At: geom.Pt(4, 6), Size: 3, Bold: true, String: "Main \"switchboard\""})
	p.End()
	p.Text(draw.Text{At: geom.Pt(40, 6), Size: 2.5, Role: draw.RoleFaint, Align: draw.Right, String: "480Y/277"})
	p.End()
	p.Begin("feeder-1")
	p.Stroke(draw.Line(geom.Pt(10, 0), geom.Pt(10, 12.3456), geom.Pt(-0.001, 12.3456)), draw.Pen{Role: draw.RoleUnreached, Width: 0.8, Dash: draw.Hatched})
	p.End()
	p.Place("machine", machine(), geom.Pt(10, 20), 1, draw.RoleExceeded)
	return p
}

func TestPictureText(t *testing.T) {
	drawtest.Text(t, "picture.txt", sample().String())
}

func TestExpandedStampText(t *testing.T) {
	var all []string
	for turn := range 4 {
		stamp := draw.Stamp{Picture: machine(), At: geom.Pt(10, 20), Turn: turn, Role: draw.RoleHeld}
		all = append(all, stamp.Expand().String())
	}
	drawtest.Text(t, "stamps.txt", strings.Join(all, "\n"))
}

func TestZeroPicture(t *testing.T) {
	var p draw.Picture
	if !p.Bounds().IsEmpty() || p.String() != "" || len(p.Items()) != 0 {
		t.Errorf("bounds %v, text %q", p.Bounds(), p.String())
	}
	p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(1, 0)), fine)
	if p.Len() != 1 {
		t.Errorf("got %d items, want 1", p.Len())
	}
}

func TestItemsKnowTheirGroups(t *testing.T) {
	var got []string
	for _, item := range sample().Items() {
		got = append(got, item.Group)
		set := 0
		for _, is := range []bool{item.Shape != nil, item.Text != nil, item.Stamp != nil} {
			if is {
				set++
			}
		}
		if set != 1 {
			t.Errorf("item of %q holds %d things, want 1", item.Group, set)
		}
	}
	want := []string{"", "bus-1", "tag", "tag", "bus-1", "feeder-1", ""}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("groups (-got +want):\n%s", diff)
	}
}

func TestNothingIsNotRecorded(t *testing.T) {
	line := draw.Line(geom.Pt(0, 0), geom.Pt(1, 1))
	nan, inf := math.NaN(), math.Inf(1)
	tests := map[string]func(*draw.Picture){
		"fill with none":     func(p *draw.Picture) { p.Fill(line, draw.RoleNone) },
		"stroke of no width": func(p *draw.Picture) { p.Stroke(line, draw.Pen{}) },
		"empty path":         func(p *draw.Picture) { p.Stroke(draw.Path{}, fine) },
		"not a number":       func(p *draw.Picture) { p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(nan, 1)), fine) },
		"circle of nan":      func(p *draw.Picture) { p.Fill(draw.Circle(geom.Pt(0, 0), nan), draw.RoleInk) },
		"to the infinite":    func(p *draw.Picture) { p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(inf, 1)), fine) },
		"from the infinite":  func(p *draw.Picture) { p.Stroke(draw.Line(geom.Pt(0, -inf), geom.Pt(1, 0)), fine) },
		"infinite":           func(p *draw.Picture) { p.Fill(draw.Circle(geom.Pt(inf, 0), 1), draw.RoleInk) },
		"width nan":          func(p *draw.Picture) { p.Stroke(line, draw.Pen{Width: nan}) },
		"width infinite":     func(p *draw.Picture) { p.Stroke(line, draw.Pen{Width: inf}) },
		"no text":            func(p *draw.Picture) { p.Text(draw.Text{Size: 3, String: "\x00"}) },
		"text of no size":    func(p *draw.Picture) { p.Text(draw.Text{String: "a"}) },
		"text of nan":        func(p *draw.Picture) { p.Text(draw.Text{Size: nan, String: "a"}) },
		"text nowhere":       func(p *draw.Picture) { p.Text(draw.Text{At: geom.Pt(nan, 0), Size: 3, String: "a"}) },
		"empty stamp":        func(p *draw.Picture) { p.Place("k", draw.NewPicture(), geom.Pt(0, 0), 0, draw.RoleInk) },
		"stamp nowhere":      func(p *draw.Picture) { p.Place("k", machine(), geom.Pt(0, nan), 0, draw.RoleInk) },
	}
	for name, act := range tests {
		p := draw.NewPicture()
		act(p)
		if p.Len() != 0 {
			t.Errorf("%s: recorded %s", name, p)
		}
	}
}

// However small, what draws anything is recorded.
func TestSmallThingsAreRecorded(t *testing.T) {
	p := draw.NewPicture()
	p.Text(draw.Text{Size: 0.01, String: "a"})
	p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(0.01, 0)), draw.Pen{Width: 0.001})
	p.Fill(draw.Polygon(geom.Pt(0, 0), geom.Pt(0.01, 0), geom.Pt(0, 0.01)), draw.RoleInk)
	p.Shape(draw.Shape{Path: draw.Line(geom.Pt(0, 0), geom.Pt(1, 0)), Fill: draw.RoleInk, Pen: draw.Pen{Role: draw.RoleNone, Width: 1}})
	if p.Len() != 4 {
		t.Errorf("recorded %s", p)
	}
}

func TestStampBoundsAreThoseOfWhatItDraws(t *testing.T) {
	nested := draw.NewPicture()
	nested.Place("machine", machine(), geom.Pt(3, 4), 1, draw.RoleInk)
	for name, sub := range map[string]*draw.Picture{"plain": machine(), "nested": nested} {
		for turn := -1; turn < 6; turn++ {
			p := draw.NewPicture()
			p.Place(name, sub, geom.Pt(10, 20), turn, draw.RoleInk)
			got, want := p.Bounds(), p.Items()[0].Stamp.Expand().Bounds()
			if !near(got, want) {
				t.Errorf("%s turn %d: got %v, want %v", name, turn, got, want)
			}
		}
	}
}

func TestStampTintsInkOnly(t *testing.T) {
	stamp := draw.Stamp{Picture: machine(), Role: draw.RoleTight}
	got := stamp.Expand().String()
	for _, want := range []string{"fill card stroke tight", "text tight", "text faint"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "ink") {
		t.Errorf("ink left in\n%s", got)
	}
}

func TestTurnedLetterStaysInItsCircle(t *testing.T) {
	for turn := range 4 {
		items := draw.Stamp{Picture: machine(), Turn: turn}.Expand().Items()
		letter := items[2].Text
		middle := letter.At.Sub(geom.Pt(0, draw.CapHeight(letter.Size)/2))
		// As drawn, the letter's middle lies 0.1 mm from the circle's.
		if got := middle.Length(); got > 0.11 {
			t.Errorf("turn %d: middle of the letter is %v mm from the circle's", turn, got)
		}
	}
}

func TestAppendMapsEverything(t *testing.T) {
	tests := []struct {
		name string
		m    geom.Affine
	}{
		{"moved", geom.Translate(geom.Pt(5, -3))},
		{"turned", geom.Turn(1).Then(geom.Translate(geom.Pt(5, 0)))},
		{"scaled", geom.Scale(2)},
		{"mirrored", geom.Affine{A: -1, D: 1}},
	}
	for _, test := range tests {
		p := draw.NewPicture()
		p.Begin("outer")
		p.Append(sample(), test.m)
		p.End()
		drawtest.Text(t, "append-"+test.name+".txt", p.String())
	}
}

func TestAppendKeepsWholePictures(t *testing.T) {
	p := draw.NewPicture()
	p.Append(sample(), geom.Identity())
	if diff := cmp.Diff(p.String(), sample().String()); diff != "" {
		t.Errorf("copy differs (-got +want):\n%s", diff)
	}
	if !near(p.Bounds(), sample().Bounds()) {
		t.Errorf("bounds: got %v, want %v", p.Bounds(), sample().Bounds())
	}
}

func TestEndWithoutBeginPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	draw.NewPicture().End()
}

// recorder writes down what a painter that knows no stamps is told.
type recorder struct {
	told  []string
	depth int
}

func (r *recorder) Begin(id string)  { r.told = append(r.told, "+"+id); r.depth++ }
func (r *recorder) End()             { r.told = append(r.told, "-"); r.depth-- }
func (r *recorder) Shape(draw.Shape) { r.told = append(r.told, "shape") }
func (r *recorder) Text(t draw.Text) { r.told = append(r.told, t.String) }
func (r *recorder) String() string   { return strings.Join(r.told, " ") }

func TestPaintPairsGroups(t *testing.T) {
	var r recorder
	draw.Paint(sample(), &r)
	want := `shape +bus-1 shape +tag shape Main "switchboard" - 480Y/277 - +feeder-1 shape - shape shape G 60 kVA`
	if r.String() != want || r.depth != 0 {
		t.Errorf("got  %s\nwant %s\ndepth %d", r.String(), want, r.depth)
	}
}

func TestPaintWithinLeavesOutTheRest(t *testing.T) {
	var r recorder
	draw.PaintWithin(sample(), rect(38, 4, 39, 5), &r)
	if want := "+bus-1 480Y/277 -"; r.String() != want {
		t.Errorf("got %s, want %s", r.String(), want)
	}
}

func TestEqualIdsAreSeparateGroups(t *testing.T) {
	p := draw.NewPicture()
	for range 2 {
		p.Begin("a")
		p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(1, 0)), fine)
		p.End()
	}
	var r recorder
	draw.Paint(p, &r)
	if want := "+a shape - +a shape -"; r.String() != want {
		t.Errorf("got %s, want %s", r.String(), want)
	}
}

func TestGrowDrawsTheSame(t *testing.T) {
	for _, room := range []draw.Room{{}, {Shapes: 1}, {Texts: 9}, {Stamps: 9}, {Shapes: 99, Texts: 99, Stamps: 99, Groups: 99}} {
		p := draw.NewPicture()
		p.Grow(room)
		p.Append(sample(), geom.Identity())
		if got, want := p.String(), sample().String(); got != want {
			t.Errorf("%+v: got\n%s\nwant\n%s", room, got, want)
		}
	}
}

// A shape in a picture, which keeps the dear strands of double lines, draws those of
// its pen, and its bounds hold them.
func TestStrandsOfRecordedShapes(t *testing.T) {
	p := draw.NewPicture()
	for dash := range draw.Dash(6) {
		p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(9, 0), geom.Pt(9, 5)), draw.Pen{Width: 1, Dash: dash})
		p.Fill(draw.Circle(geom.Pt(0, 0), 1), draw.RoleInk)
	}
	other := draw.NewPicture()
	other.Append(p, geom.Translate(geom.Pt(3, 4)))
	for _, picture := range []*draw.Picture{p, other} {
		for _, item := range picture.Items() {
			s := *item.Shape
			if got, want := fmt.Sprint(s.Strands()), fmt.Sprint(s.Pen.Strands(s.Path)); got != want {
				t.Errorf("%s: %s, want %s", s.Pen.Dash, got, want)
			}
			if got := s.AppendStrands(s.Strands()); len(got) != 2*len(s.Strands()) {
				t.Errorf("%s: %d strands after those that were there", s.Pen.Dash, len(got))
			}
			if s.Bounds() != item.Bounds {
				t.Errorf("%s: bounds %v, recorded %v", s.Pen.Dash, s.Bounds(), item.Bounds)
			}
		}
	}
}
