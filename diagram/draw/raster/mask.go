package raster

import (
	"image"
	"math"

	"github.com/fogleman/gg"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// outline is a path to be filled (width zero) or stroked with plain lines, its
// widths in pixels.
type outline struct {
	path     draw.Path
	width    float64
	ink, gap float64
	faint    float64 // share of the ink that is left out, for gaps too fine to be drawn
	lean     float64 // moves the path right and down, see brush
}

const (
	// largestMask is the number of pixels above which a mask is not kept: it is
	// made for the part in the image only, each time.
	largestMask = 1 << 20
	// longestPath is the extent in pixels above which a path is not drawn: a
	// metre of sheet at thirty times the size of print.
	longestPath = 1 << 17
	// longestDashed is the extent in pixels above which a path is drawn without
	// its gaps, of which there would be thousands outside the image.
	longestDashed = 1 << 15
)

// mask draws a path that is not along the axes.
func (b *brush) mask(role draw.Role, o outline) {
	anchor, size, ok := b.frame(o)
	if !ok {
		return
	}
	if period := o.ink + o.gap; period > 0 && period < leastPeriod {
		o.faint, o.ink, o.gap = o.gap/period, 0, 0
	}
	if max(size.Dx(), size.Dy()) > longestDashed {
		o.ink, o.gap = 0, 0
	}
	at := image.Pt(whole(anchor.X), whole(anchor.Y)).Add(b.device.step)
	if !b.loose || size.Dx()*size.Dy() > largestMask {
		visible := size.Intersect(b.surface.bounds().Sub(at))
		if !visible.Empty() {
			b.surface.blend(role, o.cover(b.device.scale, anchor, visible), at)
		}
		return
	}
	key := o.key(b.device.scale, anchor)
	layers, ok := b.painter.cache.get(key)
	if !ok {
		layers = []layer{{draw.RoleInk, o.cover(b.device.scale, anchor, size)}}
		b.painter.cache.put(key, layers)
	}
	b.surface.blend(role, layers[0].mask, at)
}

// frame returns the point of the path that is put on a whole pixel, in pixels,
// and the pixels the mask needs round it; false where no image could hold it.
func (b *brush) frame(o outline) (geom.Point, image.Rectangle, bool) {
	hull := geom.Empty()
	o.path.Each(func(_ draw.Verb, points []geom.Point) {
		for _, p := range points {
			hull = hull.Include(p.Mul(b.device.scale))
		}
	})
	if hull.IsEmpty() || !(math.Max(hull.Width(), hull.Height())+o.width <= longestPath) {
		return geom.Point{}, image.Rectangle{}, false
	}
	anchor := geom.Point{}
	if b.loose {
		anchor = hull.Min
	}
	hull = hull.Move(anchor.Mul(-1)).Grow(o.width/2 + 2)
	return anchor, image.Rect(
		int(math.Floor(hull.Min.X)), int(math.Floor(hull.Min.Y)),
		int(math.Ceil(hull.Max.X)), int(math.Ceil(hull.Max.Y))), true
}

// key names the mask by the path's shape, to a sixty-fourth of a pixel.
func (o outline) key(scale float64, anchor geom.Point) maskKey {
	sum := fingerprint(14695981039346656037)
	sum.add(o.width)
	sum.add(o.ink)
	sum.add(o.gap)
	sum.add(o.faint)
	sum.add(o.lean)
	o.path.Each(func(verb draw.Verb, points []geom.Point) {
		sum.add(float64(verb))
		for _, p := range points {
			sum.add(p.X*scale - anchor.X)
			sum.add(p.Y*scale - anchor.Y)
		}
	})
	return maskKey{kind: pathMask, shape: uint64(sum), size: scale}
}

// fingerprint is a running hash: a word at a time by the multiplier of FNV-1a,
// with the high half folded down so that all bits count.
type fingerprint uint64

func (f *fingerprint) add(v float64) {
	h := (uint64(*f) ^ uint64(int64(math.Round(v*64)))) * 1099511628211
	*f = fingerprint(h ^ h>>29)
}

// cover draws the path's coverage within the given pixels.
func (o outline) cover(scale float64, anchor geom.Point, within image.Rectangle) *image.Alpha {
	canvas := gg.NewContext(within.Dx(), within.Dy())
	canvas.Translate(o.lean-float64(within.Min.X), o.lean-float64(within.Min.Y))
	canvas.SetRGBA(0, 0, 0, 1-o.faint)
	toPixels := geom.Scale(scale).Then(geom.Translate(anchor.Mul(-1)))
	trace(canvas, crisp(o.path.Transform(toPixels)), o.gap == 0)
	if o.width == 0 {
		canvas.Fill()
	} else {
		canvas.SetLineWidth(o.width)
		canvas.SetLineCapButt()
		canvas.SetLineJoinRound()
		if o.gap > 0 {
			canvas.SetDash(o.ink, o.gap)
		}
		canvas.Stroke()
	}
	mask := canvas.AsMask()
	mask.Rect = within
	return trimmed(mask)
}

// trace hands the path to gg. A closed chain of unbroken lines goes over its
// first line again, because gg joins no corner where a chain closes.
func trace(canvas *gg.Context, path draw.Path, unbroken bool) {
	var first *geom.Point
	steps := 0
	path.Each(func(verb draw.Verb, points []geom.Point) {
		steps++
		switch verb {
		case draw.Move:
			canvas.MoveTo(points[0].X, points[0].Y)
			steps, first = 0, nil
		case draw.To:
			if steps == 1 {
				first = &points[0]
			}
			canvas.LineTo(points[0].X, points[0].Y)
		case draw.Curve:
			canvas.CubicTo(points[0].X, points[0].Y, points[1].X, points[1].Y, points[2].X, points[2].Y)
		case draw.Close:
			canvas.ClosePath()
			if first != nil && unbroken {
				canvas.LineTo(first.X, first.Y)
			}
		}
	})
}

// trimmed returns the smallest mask with the same coverage: its clear margins
// cut off, in memory of its own.
func trimmed(mask *image.Alpha) *image.Alpha {
	tight := image.Rectangle{}
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		row := mask.Pix[mask.PixOffset(mask.Rect.Min.X, y):][:mask.Rect.Dx()]
		from, to := extent(row)
		tight = tight.Union(image.Rect(mask.Rect.Min.X+from, y, mask.Rect.Min.X+to, y+1))
	}
	out := image.NewAlpha(tight)
	for y := tight.Min.Y; y < tight.Max.Y; y++ {
		copy(out.Pix[out.PixOffset(tight.Min.X, y):][:tight.Dx()], mask.Pix[mask.PixOffset(tight.Min.X, y):])
	}
	return out
}

// extent returns from where to where the row is not clear.
func extent(row []uint8) (from, to int) {
	to = len(row)
	for from < to && row[from] == 0 {
		from++
	}
	for to > from && row[to-1] == 0 {
		to--
	}
	return from, to
}
