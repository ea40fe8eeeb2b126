package scene

import (
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// Overlay is what lies over the sheet while it is worked on. The zero value
// shows nothing.
type Overlay struct {
	Selected  []geom.Rect     // boxes of selected parts and protectors
	Paths     []geom.Polyline // lines of selected feeders
	Labels    []*draw.Picture // of selected feeders, which their rails would cover
	Hover     geom.Rect       // box of what lies under the pointer; of no width and no height: none
	Handles   []geom.Point    // ends of a bus bar that may be dragged
	Terminals []geom.Point    // where a feeder may begin or end
	Guides    []geom.Segment  // from Snap
	Rubber    geom.Polyline   // the feeder that is being drawn
	Box       geom.Rect       // the box that is being pulled; of no width and no height: none
	Ghosts    []*draw.Picture // from Ghost and GhostProtector
}

// Pens of the overlay, in mm.
const (
	haloApart  = 0.8 // from a box to the halo round it, which stays clear of its tag
	haloWidth  = 1.0
	haloRadius = 1.2
	thinWidth  = 0.3
	railWidth  = 4.2 // over both lines beside a selected feeder
)

// Picture returns the overlay in the colours of the selection. Nothing in it
// covers what it marks: halos run round boxes, and rails along feeders.
func (o Overlay) Picture() *draw.Picture {
	p := draw.NewPicture()
	thin := draw.Pen{Role: draw.RoleAccent, Width: thinWidth}
	if shown(o.Hover) {
		p.Stroke(draw.Rectangle(o.Hover.Grow(haloApart), haloRadius), draw.Pen{Role: draw.RoleAccentSoft, Width: haloWidth})
	}
	for _, box := range o.Selected {
		halo := draw.Rectangle(box.Grow(haloApart), haloRadius)
		p.Stroke(halo, draw.Pen{Role: draw.RoleAccentSoft, Width: haloWidth})
		p.Stroke(halo, thin)
	}
	for _, path := range o.Paths {
		p.Stroke(draw.Line(path...), draw.Pen{Role: draw.RoleAccentSoft, Width: railWidth, Dash: draw.Double})
	}
	for _, label := range o.Labels {
		p.Append(label, geom.Identity())
	}
	for _, guide := range o.Guides {
		p.Stroke(draw.Line(guide.A, guide.B), draw.Pen{Role: draw.RoleAccent, Width: 0.2, Dash: draw.LongDash})
	}
	for _, ghost := range o.Ghosts {
		p.Append(ghost, geom.Identity())
	}
	if len(o.Rubber) > 1 {
		p.Stroke(draw.Line(o.Rubber...), draw.Pen{Role: draw.RoleAccent, Width: feederWidth})
	}
	for _, at := range o.Handles {
		p.FillStroke(draw.Rectangle(geom.Rect{Min: at, Max: at}.Grow(1.2), 0.3), draw.RoleCard, thin)
	}
	for _, at := range o.Terminals {
		p.FillStroke(draw.Circle(at, 1.2), draw.RoleCard, thin)
	}
	if shown(o.Box) {
		p.Stroke(draw.Rectangle(o.Box, 0), draw.Pen{Role: draw.RoleAccent, Width: thinWidth, Dash: draw.Dashed})
	}
	return p
}

// shown reports whether a box is more than a point.
func shown(r geom.Rect) bool { return r.Width() > 0 || r.Height() > 0 }

// GhostProtector returns the symbol of a new protector that hangs from the
// point, turned by quarter turns clockwise, in the colour of the selection.
func GhostProtector(at geom.Point, turn int) *draw.Picture {
	p := draw.NewPicture()
	symbol.Protector().Place(p, at, turn, draw.RoleAccent)
	return p
}
