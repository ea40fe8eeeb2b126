package edit

import (
	"math"

	"clampline/diagram/geom"
)

// FullScale is the scale of 100 %, in pixels for each millimetre.
const FullScale = 96 / 25.4

// Bounds and steps of the zoom. Fixed steps let the window reuse what it drew
// at a scale.
const (
	leastScale     = 0.05 * FullScale
	greatestScale  = 16 * FullScale
	stepsPerOctave = 4
	fitMargin      = 24 // px kept clear round what is fitted
)

// ScreenPoint is a place in the window, or the step between two, in pixels to
// the right and downward from its left top corner.
type ScreenPoint struct{ X, Y float64 }

// Sub returns the step from q to p.
func (p ScreenPoint) Sub(q ScreenPoint) ScreenPoint { return ScreenPoint{p.X - q.X, p.Y - q.Y} }

// Length returns the length of the step in pixels.
func (p ScreenPoint) Length() float64 { return math.Hypot(p.X, p.Y) }

// View is the part of the sheet that the window shows. It is a value: methods
// return the view after the change.
type View struct {
	Scale         float64    // px for each mm, above 0
	Origin        geom.Point // the place on the sheet at the left top corner
	Width, Height float64    // px
}

// ToSheet returns the place on the sheet that is shown at p.
func (v View) ToSheet(p ScreenPoint) geom.Point {
	return v.Origin.Add(geom.Pt(p.X, p.Y).Mul(1 / v.Scale))
}

// ToScreen returns where in the window p is shown.
func (v View) ToScreen(p geom.Point) ScreenPoint {
	d := p.Sub(v.Origin).Mul(v.Scale)
	return ScreenPoint{d.X, d.Y}
}

// Rect returns the rectangle of the sheet that is shown.
func (v View) Rect() geom.Rect {
	return geom.RectOf(v.Origin, v.ToSheet(ScreenPoint{v.Width, v.Height}))
}

// Middle returns the place on the sheet in the middle of the window.
func (v View) Middle() geom.Point { return v.Rect().Center() }

// Percent returns the zoom, 100 at FullScale.
func (v View) Percent() float64 { return 100 * v.Scale / FullScale }

// Pan returns the view with the sheet moved by delta on the screen.
func (v View) Pan(delta ScreenPoint) View {
	v.Origin = v.Origin.Sub(geom.Pt(delta.X, delta.Y).Mul(1 / v.Scale))
	return v
}

// Zoom returns the view some steps nearer (positive) or farther, with the
// place under at where it was. Scales lie on a ladder of four steps to a
// doubling through 100 %; from between two rungs the first step leads to the
// next.
func (v View) Zoom(at ScreenPoint, steps int) View {
	return v.scaleAt(at, ladder(v.Scale, steps))
}

// ladder returns the scale some rungs above or below.
func ladder(scale float64, steps int) float64 {
	const same = 1e-6 // of a rung: a rung that was computed is still that rung
	rung := stepsPerOctave * math.Log2(scale/FullScale)
	switch {
	case steps > 0:
		rung = math.Floor(rung + same)
	case steps < 0:
		rung = math.Ceil(rung - same)
	}
	return FullScale * math.Exp2((rung+float64(steps))/stepsPerOctave)
}

// Full returns the view at 100 % with the middle where it was.
func (v View) Full() View { return v.scaleAt(v.center(), FullScale) }

func (v View) center() ScreenPoint { return ScreenPoint{v.Width / 2, v.Height / 2} }

func (v View) scaleAt(at ScreenPoint, scale float64) View {
	anchor := v.ToSheet(at)
	least := math.Min(leastScale, v.Scale) // a very large sheet was fitted below it
	v.Scale = math.Max(least, math.Min(greatestScale, scale))
	v.Origin = anchor.Sub(geom.Pt(at.X, at.Y).Mul(1 / v.Scale))
	return v
}

// Fit returns the view that shows all of r with a margin, no nearer than the
// given scale and as far away as it takes. An empty rectangle, or a window
// without a size, leaves the view as it is.
func (v View) Fit(r geom.Rect, nearest float64) View {
	width, height := v.Width-2*fitMargin, v.Height-2*fitMargin
	if r.IsEmpty() || width <= 0 || height <= 0 {
		return v
	}
	v.Scale = math.Min(nearest, math.Min(width/r.Width(), height/r.Height()))
	return v.centerOn(r.Center())
}

func (v View) centerOn(p geom.Point) View {
	v.Origin = p.Sub(geom.Pt(v.Width, v.Height).Mul(0.5 / v.Scale))
	return v
}

// Show returns the view moved by as little as brings r into it; a rectangle
// larger than the window is centred.
func (v View) Show(r geom.Rect) View {
	shown := v.Rect().Grow(-fitMargin / v.Scale)
	if r.IsEmpty() || shown.IsEmpty() || shown.Holds(r) {
		return v
	}
	if r.Width() > shown.Width() || r.Height() > shown.Height() {
		return v.centerOn(r.Center())
	}
	v.Origin = v.Origin.Add(geom.Pt(
		inside(r.Min.X, r.Max.X, shown.Min.X, shown.Max.X),
		inside(r.Min.Y, r.Max.Y, shown.Min.Y, shown.Max.Y)))
	return v
}

// inside returns by how much the window from low to high must move to hold the
// stretch from a to b.
func inside(a, b, low, high float64) float64 {
	return math.Min(0, a-low) + math.Max(0, b-high)
}
