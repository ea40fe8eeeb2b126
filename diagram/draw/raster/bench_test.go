package raster

import (
	"fmt"
	"image"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// sheet returns a picture of n placed symbols in a square, each with two
// labels, and a feeder from each to the next.
func sheet(n int) *draw.Picture {
	kinds := []*draw.Picture{protector(), windings(), machine()}
	roles := []draw.Role{draw.RoleInk, draw.RoleHeld, draw.RoleTight, draw.RoleExceeded}
	out := draw.NewPicture()
	across := 1
	for across*across < n {
		across++
	}
	for i := range n {
		at := geom.Pt(float64(i%across)*25.3, float64(i/across)*27.7)
		out.Begin(fmt.Sprintf("part-%d", i))
		out.Stroke(draw.Line(at, at.Add(geom.Pt(0, 13)), at.Add(geom.Pt(25.3, 13))),
			draw.Pen{Role: roles[i%4], Width: 0.8, Dash: draw.Dash(i % 6)})
		out.Place(fmt.Sprintf("kind-%d", i%3), kinds[i%3], at, i%4, roles[i%4])
		out.Text(draw.Text{At: at.Add(geom.Pt(4, -2)), Size: 2.9, Bold: true, String: fmt.Sprintf("Panel %d", i)})
		out.Text(draw.Text{At: at.Add(geom.Pt(4, 2)), Size: 2.6, Role: draw.RoleFaint, String: fmt.Sprintf("%d V L-G", 600+i%900)})
		out.End()
	}
	return out
}

func BenchmarkPaint(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		picture := sheet(n)
		whole := fit(picture.Bounds(), 1500, 900)
		middle := View{Scale: 3.78, Origin: picture.Bounds().Center()}
		for name, view := range map[string]View{"full size": middle, "fit": whole} {
			view.GridPitch = 2.5
			b.Run(fmt.Sprintf("%d/%s/pan", n, name), func(b *testing.B) { benchmarkPan(b, picture, view) })
			b.Run(fmt.Sprintf("%d/%s/zoom cold", n, name), func(b *testing.B) { benchmarkZoom(b, picture, view) })
		}
	}
}

// benchmarkPan moves by some pixels a frame, to and fro, with warm masks.
func benchmarkPan(b *testing.B, picture *draw.Picture, view View) {
	dst, painter := image.NewRGBA(image.Rect(0, 0, 1500, 900)), New()
	start := view.Origin
	step := func(i int) {
		view.Origin = start.Add(geom.Pt(float64(i%16)*3, float64(i%16)*2).Mul(1 / view.Scale))
		painter.Paint(dst, picture, view, draw.Light())
	}
	for i := range 16 {
		step(i)
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		step(i)
	}
}

// benchmarkZoom paints each frame at a scale whose masks are not yet made.
func benchmarkZoom(b *testing.B, picture *draw.Picture, view View) {
	dst, painter := image.NewRGBA(image.Rect(0, 0, 1500, 900)), New()
	scale := view.Scale
	b.ReportAllocs()
	for i := range b.N {
		view.Scale = scale * (1 + float64(i)*1e-6)
		painter.cache.shrink(0)
		clear(painter.faces)
		painter.Paint(dst, picture, view, draw.Light())
	}
}
