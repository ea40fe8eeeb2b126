package sheet

import (
	"bytes"
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
)

// shot paints the sheet and returns a picture of its own.
func (h *hand) shot(width, height int) *image.RGBA {
	h.t.Helper()
	shown, ok := h.paint(width, height).(*image.RGBA)
	if !ok || shown.Rect != image.Rect(0, 0, width, height) || shown.Stride != 4*width {
		h.t.Fatalf("got %T %v, want a plain picture of %d by %d", shown, shown.Bounds(), width, height)
	}
	return &image.RGBA{Pix: bytes.Clone(shown.Pix), Stride: shown.Stride, Rect: shown.Rect}
}

func equal(a, b *image.RGBA) bool { return bytes.Equal(a.Pix, b.Pix) }

// inked returns the smallest rectangle that holds what differs from the ground
// with its dots.
func inked(picture, ground *image.RGBA) image.Rectangle {
	var out image.Rectangle
	for y := range picture.Rect.Dy() {
		for x := range picture.Rect.Dx() {
			if picture.RGBAAt(x, y) != ground.RGBAAt(x, y) {
				out = out.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return out
}

func TestPaintShowsTheSheetAtAnyDensity(t *testing.T) {
	for _, ratio := range []int{1, 2} {
		h := newHand(t, house(t))
		empty := newHand(t, diagram.New())
		empty.editor.SetView(h.editor.View())
		got := inked(h.shot(ratio*width, ratio*height), empty.shot(ratio*width, ratio*height))
		bounds, view := h.editor.Scene().Bounds(), h.editor.View()
		from, to := view.ToScreen(bounds.Min), view.ToScreen(bounds.Max)
		want := image.Rect(ratio*int(from.X), ratio*int(from.Y), ratio*int(to.X), ratio*int(to.Y))
		const slack = 6 // px of line width, rounding and the room that a text is given
		if grown := want.Inset(-slack * ratio); !got.In(grown) || got.Dx() < want.Dx()*3/4 || got.Dy() < want.Dy()*3/4 {
			t.Errorf("at %d px to the unit the drawing lies in %v, want about %v", ratio, got, want)
		}
	}
}

// Where only the overlay changes, the drawing is not painted again: a mark put
// into it by hand stays.
func TestOverlayKeepsTheDrawing(t *testing.T) {
	h := newHand(t, house(t))
	before := h.shot(width, height)
	mark := color.RGBA{255, 0, 255, 255}
	h.base.SetRGBA(3, 3, mark)
	marked := func() bool { return h.shot(width, height).RGBAAt(3, 3) == mark }

	h.MouseMoved(h.mouse(h.on(pump), 0))
	hovered := h.shot(width, height)
	if equal(hovered, before) {
		t.Error("what is hovered does not show")
	}
	h.editor.Select("load-1")
	if !marked() {
		t.Error("the selection makes it paint the drawing again")
	}
	h.editor.Arm(diagram.Panel)
	h.MouseMoved(h.mouse(h.on(geom.Pt(-60, 20)), 0))
	if !marked() {
		t.Error("a part to place makes it paint the drawing again")
	}
	h.editor.Pan(edit.ScreenPoint{X: 1})
	if marked() {
		t.Error("a pan leaves the drawing as it was")
	}
}

func TestEachChangeIsPainted(t *testing.T) {
	for name, act := range map[string]func(h *hand){
		"a part moved": func(h *hand) { h.drag(pump, geom.Pt(60, 120)) },
		"a zoom":       func(h *hand) { h.editor.ZoomIn() },
		"the colours":  func(h *hand) { h.SetPalette(draw.Dark()) },
		"another sheet": func(h *hand) {
			view := h.editor.View()
			h.SetEditor(edit.New(diagram.New(), edit.Options{}))
			h.editor.SetView(view)
		},
		"marks": func(h *hand) {
			h.editor.SetMarks(scene.Marks{Parts: map[diagram.ID]scene.Mark{"panel-1": {Role: draw.RoleHeld, Letter: "H"}}})
		},
		"legend": func(h *hand) { h.SetLegend(legend()) },
	} {
		t.Run(name, func(t *testing.T) {
			h := newHand(t, house(t))
			before := h.shot(width, height)
			if !equal(before, h.shot(width, height)) {
				t.Fatal("the same sheet is painted in two ways")
			}
			act(h)
			if equal(before, h.shot(width, height)) {
				t.Error("it does not show")
			}
		})
	}
}

func legend() *draw.Picture {
	return scene.Legend([]scene.LegendEntry{{Role: draw.RoleHeld, Letter: "H", Text: "Held"}, {Role: draw.RoleTight, Letter: "T", Text: "Tight"}})
}

func TestLegendStandsInTheLeftFoot(t *testing.T) {
	h := newHand(t, house(t))
	before := h.shot(width, height)
	view := h.editor.View()
	h.SetLegend(legend())
	h.editor.SetView(view)
	got := inked(h.shot(width, height), before)
	bounds := legend().Bounds()
	want := image.Rect(legendMargin, height-legendMargin-int(bounds.Height()*legendShare*edit.FullScale), legendMargin+int(bounds.Width()*legendShare*edit.FullScale), height-legendMargin)
	if d := 4; !got.In(want.Inset(-d)) || !want.In(got.Inset(-d)) {
		t.Errorf("the legend lies in %v, want %v", got, want)
	}
	h.editor.ZoomIn()
	zoomed := h.shot(width, height)
	for _, at := range []image.Point{want.Min.Add(image.Pt(20, 12)), want.Max.Sub(image.Pt(20, 12))} {
		if zoomed.RGBAAt(at.X, at.Y) == before.RGBAAt(at.X, at.Y) {
			t.Errorf("after a zoom nothing is at %v", at)
		}
	}
}

// Nothing is fitted under the legend, also of a low sheet; of one that is lower
// still the legend is left out.
func TestFitStandsClearOfTheLegend(t *testing.T) {
	h := newHand(t, house(t))
	h.SetLegend(legend())
	for _, high := range []float32{110, 160, 200, height} {
		h.Resize(fyne.NewSize(width, high))
		h.editor.ZoomFit()
		foot, taken := h.editor.View().ToScreen(h.editor.Scene().Bounds().Max).Y, h.legendFoot(float64(high))
		if top := float64(high) - taken; foot > top {
			t.Errorf("%g px high: the drawing reaches down to %g, the legend up to %g", high, foot, top)
		}
		if shown := taken > 0; shown != (high >= 160) {
			t.Errorf("%g px high: the legend is shown: %t", high, shown)
		}
	}
}

// A window that is folded away has no size.
func TestPaintWithoutASize(t *testing.T) {
	h := newHand(t, house(t))
	h.SetLegend(legend())
	h.Resize(fyne.NewSize(0, 0))
	h.shot(0, 0)
	h.shot(1, 1)
	h.Resize(fyne.NewSize(width, height))
	h.editor.ZoomFit()
	if empty := image.NewRGBA(image.Rect(0, 0, width, height)); equal(h.shot(width, height), empty) {
		t.Error("nothing is painted afterwards")
	}
}

// The same picture in one buffer: the toolkit uploads it at once.
func TestPaintReusesItsBuffer(t *testing.T) {
	h := newHand(t, diagramtest.Building(100))
	h.paint(width, height)
	if got := testing.AllocsPerRun(5, func() { h.paint(width, height) }); got > 20 {
		t.Errorf("%g allocations for a picture that has not changed", got)
	}
}
