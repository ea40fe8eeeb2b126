package scene

import (
	"math"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// A gauge makes the card taller and draws a scale on it, with a bar from low to high
// in the colour of the card and a tick at the limit, each at its share; without one
// there is nothing of it, nor where the card has shrunk to its badge.
func TestGauge(t *testing.T) {
	mark := Mark{Role: draw.RoleTight, Letter: "T", Lines: []string{"1 240 V L-G"}}
	plain, height := gaugeOf(t, mark, Options{})
	mark.Gauge = Gauge{Low: 0.25, High: 0.5, Limit: 0.75}
	shapes, taller := gaugeOf(t, mark, Options{})
	if len(plain) != 0 || len(shapes) != 3 || math.Abs(taller-height-gaugeRoom) > 1e-9 {
		t.Fatalf("got %d shapes without a gauge and %d with one, the card %g mm taller", len(plain), len(shapes), taller-height)
	}
	scale := shapes[0].Path.Bounds()
	share := func(x float64) float64 { return (x - scale.Min.X) / scale.Width() }
	bar, tick := shapes[1].Path.Bounds(), shapes[2].Path.Bounds()
	if math.Abs(share(bar.Min.X)-0.25) > 1e-9 || math.Abs(share(bar.Max.X)-0.5) > 1e-9 || shapes[1].Pen.Role != draw.RoleTight {
		t.Errorf("the bar lies from %g to %g of the scale", share(bar.Min.X), share(bar.Max.X))
	}
	if math.Abs(share(tick.Min.X)-0.75) > 1e-9 || shapes[2].Pen.Role != draw.RoleInk {
		t.Errorf("the tick stands at %g of the scale", share(tick.Min.X))
	}
	if hidden, _ := gaugeOf(t, mark, Options{HideTags: true}); len(hidden) != 0 {
		t.Error("a hidden tag has a gauge")
	}
}

// gaugeOf returns the shapes that a marked panel draws by itself beside its bus bar and
// card, and how tall its tag is.
func gaugeOf(t *testing.T, mark Mark, options Options) ([]draw.Shape, float64) {
	t.Helper()
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Panel", At: geom.Pt(0, 0), Span: 40})
	})
	s := New(doc, diagram.FirstPlan, Marks{Parts: map[diagram.ID]Mark{"panel-1": mark}}, options)
	box := s.parts[0].tag.box
	var out []draw.Shape
	for _, item := range s.Picture().Items() {
		if item.Shape != nil && box.Width() > 0 && box.Contains(item.Bounds.Center()) {
			out = append(out, *item.Shape)
		}
	}
	return out, box.Height()
}
