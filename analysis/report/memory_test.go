package report_test

import (
	"context"
	"image"
	"runtime"
	"testing"

	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/draw/raster"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// mostMemory is what drawing may hold at any zoom, bytes.
const mostMemory = 200 << 20

// A sheet spread over kilometres, its boards as wide as they may be, is painted in
// bounded memory whatever the zoom.
func TestPaintingTakesBoundedMemory(t *testing.T) {
	doc := diagramtest.Building(60)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for p := range doc.Snapshot().Parts() {
			p.At = p.At.Mul(100)
			if p.Kind.IsBoard() {
				p.Span = 1000
			}
			tx.SetPart(p)
		}
	})
	result, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	picture := scene.New(doc, diagram.FirstPlan, mark.Of(doc, result, unit.NorthAmerican), scene.Options{}).Picture()
	painter, out, palette := raster.New(), image.NewRGBA(image.Rect(0, 0, 1920, 1080)), draw.Light()
	most := uint64(0)
	for scale := 1e-3; scale < 300; scale *= 1.7 {
		for part := range doc.Parts() {
			view := raster.View{Scale: scale, Origin: part.At.Sub(geom.Pt(960, 540).Mul(1 / scale))}
			painter.Paint(out, picture, view, palette)
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapInuse)
		}
	}
	t.Logf("%d MB at most", most>>20)
	if most > mostMemory {
		t.Errorf("%d MB in use, want %d at most", most>>20, mostMemory>>20)
	}
}
