package edit_test

import (
	"math"
	"testing"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
)

// near is how far computed places and scales may lie from exact ones: a few
// roundings of numbers of this size.
const near = 1e-9

func TestViewThereAndBack(t *testing.T) {
	v := edit.View{Scale: 3.7, Origin: geom.Pt(-12.5, 40), Width: 900, Height: 700}
	for _, p := range []geom.Point{{}, geom.Pt(1, 2), geom.Pt(-300, 1e4)} {
		if got := v.ToSheet(v.ToScreen(p)); got.Distance(p) > near*(1+p.Length()) {
			t.Errorf("%v: got %v", p, got)
		}
	}
	if got := v.ToScreen(v.Origin); got != (edit.ScreenPoint{}) {
		t.Errorf("the origin is shown at %v", got)
	}
}

func TestFullScale(t *testing.T) {
	d := drive(t)
	if got := d.View().Percent(); math.Abs(got-100) > near {
		t.Errorf("a new view is at %g %%", got)
	}
	a, b := d.View().ToScreen(geom.Pt(0, 0)), d.View().ToScreen(geom.Pt(25.4, 0))
	if got := b.X - a.X; math.Abs(got-96) > near {
		t.Errorf("an inch is %g px at 100 %%, want 96", got)
	}
}

func TestZoomKeepsThePlaceUnderThePointer(t *testing.T) {
	d := drive(t)
	d.Hover(60, -30)
	at := d.View().ToScreen(geom.Pt(60, -30))
	for _, turn := range []float64{25, 25, 75, -200, 50} {
		d.Hold(edit.Control).Scroll(0, turn)
		if got := d.View().ToSheet(at); got.Distance(geom.Pt(60, -30)) > near*100 {
			t.Errorf("after %g px: %v lies under the pointer", turn, got)
		}
	}
}

func TestZoomSteps(t *testing.T) {
	for _, row := range []struct {
		name  string
		from  float64 // per cent
		steps int
		want  float64 // per cent
	}{
		{"one in", 100, 1, 100 * math.Pow(2, 0.25)},
		{"four in double", 100, 4, 200},
		{"four out halve", 100, -4, 50},
		{"from between rungs to the next above", 110, 1, 100 * math.Pow(2, 0.25)},
		{"from between rungs to the next below", 110, -1, 100},
		{"no further than 1600 %", 1500, 9, 1600},
		{"no further than 5 %", 6, -9, 5},
		{"from the least to a rung", 5, 1, 100 * math.Pow(2, -17.0/4)},
	} {
		t.Run(row.name, func(t *testing.T) {
			v := edit.View{Scale: edit.FullScale * row.from / 100, Width: 800, Height: 600}
			if got := v.Zoom(edit.ScreenPoint{X: 10, Y: 10}, row.steps).Percent(); math.Abs(got-row.want) > near*row.want {
				t.Errorf("got %g %%, want %g %%", got, row.want)
			}
		})
	}
}

// TestZoomThereAndBack checks that the ladder does not drift, so that what was
// drawn at a scale can be used again.
func TestZoomThereAndBack(t *testing.T) {
	v := edit.View{Scale: edit.FullScale, Width: 800, Height: 600}
	seen := map[int]float64{0: v.Scale}
	for i := 1; i <= 16; i++ {
		v = v.Zoom(edit.ScreenPoint{X: 33, Y: 55}, 1)
		seen[i] = v.Scale
	}
	for i := 15; i >= 0; i-- {
		v = v.Zoom(edit.ScreenPoint{X: 71, Y: 5}, -1)
		if v.Scale != seen[i] {
			t.Errorf("rung %d: got %v, want %v", i, v.Scale, seen[i])
		}
	}
}

func TestSmallStepsOfATrackpadAddUp(t *testing.T) {
	d := drive(t)
	d.Hold(edit.Control)
	for range 10 {
		d.Scroll(0, 5)
	}
	if got, want := d.View().Percent(), 100*math.Sqrt2; math.Abs(got-want) > near*want {
		t.Errorf("after 50 px: got %g %%, want two steps, %g %%", got, want)
	}
}

func TestPan(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
	}{
		{"two fingers", func(d *edittest.Driver) { d.Scroll(40, -30) }},
		{"middle button", func(d *edittest.Driver) { d.PanBy(edit.Middle, 40, -30) }},
		{"space bar", func(d *edittest.Driver) { d.Hold(edit.Space).PanBy(edit.Left, 40, -30) }},
		{"from a part", func(d *edittest.Driver) { d.Hover(80, 60).PanBy(edit.Middle, 40, -30) }},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			before := d.View().ToScreen(geom.Pt(0, 0))
			row.do(d)
			after := d.View().ToScreen(geom.Pt(0, 0))
			if math.Abs(after.X-before.X-40) > near*1000 || math.Abs(after.Y-before.Y+30) > near*1000 {
				t.Errorf("the sheet moved by %v, want 40 and -30", after.Sub(before))
			}
			if d.CanUndo() || selected(d) != "" {
				t.Error("panning did something else besides")
			}
		})
	}
}

func TestPanningShowsAHand(t *testing.T) {
	d := drive(t)
	d.PressWith(edit.Middle, 0, 0)
	if got := d.Cursor(); got != edit.Hand {
		t.Errorf("cursor: got %d, want %d", got, edit.Hand)
	}
	d.Release()
	if got := d.Cursor(); got == edit.Hand {
		t.Error("the hand stays after the release")
	}
}

func TestFit(t *testing.T) {
	for _, row := range []struct {
		name string
		do   func(d *edittest.Driver)
		seen []diagram.ID
		most float64 // per cent
	}{
		{"all", func(d *edittest.Driver) { d.Do("zoom fit") }, []diagram.ID{"supply-1", "load-1", "panel-1"}, 100},
		{"the selection", func(d *edittest.Driver) { d.Select("load-1"); d.Do("zoom selection") }, []diagram.ID{"load-1"}, 200},
		{"revealed", func(d *edittest.Driver) { d.Pan(edit.ScreenPoint{X: 5000}); d.Reveal("load-1") }, []diagram.ID{"load-1"}, 100},
	} {
		t.Run(row.name, func(t *testing.T) {
			d := drive(t)
			row.do(d)
			for _, id := range row.seen {
				if box, ok := d.Scene().Box(id); !ok || !d.View().Rect().Holds(box) {
					t.Errorf("%s at %v is not in the view %v", id, box, d.View().Rect())
				}
			}
			if got := d.View().Percent(); got > row.most+near*100 {
				t.Errorf("zoomed to %g %%, want at most %g %%", got, row.most)
			}
		})
	}
}

// Two parts are not blown up to fill the window.
func TestFitOfLittle(t *testing.T) {
	d := edittest.New(t, diagram.New(), edit.Options{})
	if err := d.Start(); err != nil {
		t.Fatal(err)
	}
	d.ZoomFit()
	if got := d.View().Percent(); math.Abs(got-100) > near*100 {
		t.Errorf("two parts are shown at %g %%, want 100 %%", got)
	}
}

// A sheet of any size fits, and from there the zoom goes nearer step by step
// and no farther.
func TestFitOfMuch(t *testing.T) {
	d := drive(t)
	if _, err := d.DropPart(diagram.Load, geom.Pt(60_000, 9_000)); err != nil {
		t.Fatal(err)
	}
	d.ZoomFit()
	fitted := d.View()
	if !fitted.Rect().Holds(d.Scene().Bounds()) {
		t.Fatalf("at %g %% the view %v does not hold the sheet %v", fitted.Percent(), fitted.Rect(), d.Scene().Bounds())
	}
	d.ZoomOut()
	if got := d.View().Percent(); got > fitted.Percent() {
		t.Errorf("zooming out from %g %% leads to %g %%", fitted.Percent(), got)
	}
	d.ZoomIn()
	if got := d.View().Percent(); got <= fitted.Percent() || got > 1.2*fitted.Percent() {
		t.Errorf("zooming in from %g %% leads to %g %%, want one step", fitted.Percent(), got)
	}
}

// What was fitted stays fitted as the window changes its size, until somebody
// looks elsewhere.
func TestFitStaysWithTheWindow(t *testing.T) {
	d := drive(t)
	d.ZoomFit()
	d.Resize(500, 300)
	if box := d.Scene().Bounds(); !d.IsFitted() || !d.View().Rect().Holds(box) {
		t.Errorf("in a smaller window the view %v does not hold the sheet %v", d.View().Rect(), box)
	}
	for name, look := range map[string]func(){
		"zoomed": d.ZoomIn, "moved": func() { d.Pan(edit.ScreenPoint{X: 7}) },
	} {
		d.ZoomFit()
		look()
		before := d.View()
		d.Resize(600+before.Width, 400)
		if after := d.View(); d.IsFitted() || after.Scale != before.Scale || after.Origin != before.Origin {
			t.Errorf("%s: the view goes from %v to %v with the window", name, before, after)
		}
	}
}

func TestFitOfNothing(t *testing.T) {
	d := edittest.New(t, diagram.New(), edit.Options{})
	d.Pan(edit.ScreenPoint{X: 5000})
	d.ZoomFit()
	if v := d.View(); math.Abs(v.Percent()-100) > near || v.Middle().Length() > near {
		t.Errorf("got %g %% about %v", v.Percent(), v.Middle())
	}
	none := edit.New(house(t), edit.Options{})
	before := none.View()
	none.ZoomFit()
	if none.View() != before {
		t.Errorf("a window without a size was zoomed to %v", none.View())
	}
}

func TestTabBringsIntoView(t *testing.T) {
	d := drive(t)
	d.Pan(edit.ScreenPoint{X: 5000})
	d.Key(edit.KeyTab)
	if box, _ := d.Scene().Box("supply-1"); !d.View().Rect().Holds(box) {
		t.Errorf("%v is not in the view %v", box, d.View().Rect())
	}
}
