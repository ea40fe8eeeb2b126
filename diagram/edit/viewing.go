package edit

import (
	"math"

	"clampline/diagram/geom"
)

// slackPixels is how far beside a thing the pointer may be and still mean it.
const slackPixels = 6

// notchPixels is how far a wheel scrolls at a notch: one step of the zoom.
const notchPixels = 25

// View returns what the window shows.
func (e *Editor) View() View { return e.view }

// SetView shows another part of the sheet, as one remembered from before. Its
// scale must be above 0; the size stays that of the window.
func (e *Editor) SetView(v View) {
	v.Width, v.Height = e.view.Width, e.view.Height
	e.setView(v.scaleAt(ScreenPoint{}, v.Scale))
}

func (e *Editor) setView(v View) {
	if v == e.view {
		return
	}
	e.view = v
	e.versions.view++
	e.overlayChanged()
}

// Resize says how large the window is, in pixels. The whole sheet stays fitted
// where it was; else the place at the left top corner stays.
func (e *Editor) Resize(width, height float64) {
	fitted, v := e.IsFitted(), e.view
	if v.Width == width && v.Height == height {
		return
	}
	v.Width, v.Height = width, height
	e.setView(v)
	if fitted {
		e.ZoomFit()
	}
}

// IsFitted reports whether the view is still that of the last ZoomFit: nobody
// has zoomed or moved it since.
func (e *Editor) IsFitted() bool {
	return e.fitted.Scale == e.view.Scale && e.fitted.Origin == e.view.Origin
}

// Pan moves the sheet by delta on the screen.
func (e *Editor) Pan(delta ScreenPoint) { e.setView(e.view.Pan(delta)) }

// ZoomAt zooms some steps nearer (positive) or farther, with the place under
// at where it was.
func (e *Editor) ZoomAt(at ScreenPoint, steps int) { e.setView(e.view.Zoom(at, steps)) }

// ZoomIn zooms one step nearer to the middle of the window.
func (e *Editor) ZoomIn() { e.ZoomAt(e.view.center(), 1) }

// ZoomOut zooms one step away from the middle of the window.
func (e *Editor) ZoomOut() { e.ZoomAt(e.view.center(), -1) }

// Zoom100 shows the sheet at 100 % with the middle of the window where it was.
func (e *Editor) Zoom100() { e.setView(e.view.Full()) }

// Scales beyond which what is small is not enlarged to fill the window.
const (
	fitNearest       = FullScale
	selectionNearest = 2 * FullScale
)

// ZoomFit shows the whole sheet; an empty one at 100 % about the origin.
func (e *Editor) ZoomFit() {
	view := e.view.Fit(e.Scene().Bounds(), fitNearest)
	if e.Scene().Bounds().IsEmpty() {
		view = e.view.Full().centerOn(geom.Point{})
	}
	e.setView(view)
	e.fitted = view
}

// ZoomToSelection shows what is selected, or the whole sheet where nothing is.
func (e *Editor) ZoomToSelection() {
	box := geom.Empty()
	for _, id := range e.selected {
		if own, ok := e.Scene().Box(id); ok {
			box = box.Union(own)
		}
	}
	if box.IsEmpty() {
		e.ZoomFit()
		return
	}
	e.setView(e.view.Fit(box, selectionNearest))
}

// slack returns how far beside a thing the pointer may be, in mm.
func (e *Editor) slack() float64 { return slackPixels / e.view.Scale }

// scroll moves the view under the pointer. What the tool holds comes along.
func (e *Editor) scroll(ev Event) {
	e.scrollView(ev)
	ev.Kind, ev.At = Hover, e.view.ToSheet(ev.Screen)
	if e.tool.busy() {
		ev.Kind = Drag
	}
	e.point(ev)
}

// scrollView pans, or zooms at the pointer while Control is held. Small steps
// of a trackpad are gathered until they make a step of the zoom.
func (e *Editor) scrollView(ev Event) {
	if !ev.Modifiers.Has(Control) {
		e.wheel = 0
		e.Pan(ev.Delta)
		return
	}
	e.wheel += ev.Delta.Y
	steps := math.Trunc(e.wheel / notchPixels)
	e.wheel -= steps * notchPixels
	if steps != 0 {
		e.ZoomAt(ev.Screen, int(steps))
	}
}
