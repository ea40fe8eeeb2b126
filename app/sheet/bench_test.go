package sheet

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// BenchmarkPaint measures one frame of a window of 1500 by 900: the event and
// the painting, without what the toolkit and the screen add.
func BenchmarkPaint(b *testing.B) {
	const width, height = 1500, 900
	for name, step := range map[string]func(h *hand, i int){
		"pan": func(h *hand, i int) { h.editor.Pan(edit.ScreenPoint{X: float64(8 - i%2*16)}) },
		"overlay": func(h *hand, i int) {
			h.MouseMoved(h.mouse(h.on(geom.Pt(float64(i%2)*60-12, 110)), 0))
			h.editor.Select([]diagram.ID{"part-3", "part-4"}[i%2])
		},
		"drag": func(h *hand, i int) {
			at := h.on(geom.Pt(float64(5+5*(i%9))-12, 110+float64(5*(i%4))))
			h.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
		},
	} {
		for _, parts := range []int{100, 1000, 10_000} {
			b.Run(fmt.Sprintf("%s/%d", name, parts), func(b *testing.B) {
				h := newHand(b, diagramtest.Building(parts))
				h.Resize(fyne.NewSize(width, height))
				h.SetLegend(legend())
				h.editor.Zoom100()
				h.editor.Reveal("part-3")
				h.paint(width, height)
				if name == "drag" {
					h.press(h.on(geom.Pt(-12, 110)), desktop.MouseButtonPrimary)
					step(h, 1)
					if h.part("part-3").At == geom.Pt(0, 110) {
						b.Fatal("the gesture does not move the part")
					}
				}
				for i := 0; b.Loop(); i++ {
					step(h, i)
					h.paint(width, height)
				}
			})
		}
	}
}
