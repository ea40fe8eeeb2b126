package scene

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// Overlay is what lies over the sheet while it is worked on. The zero value
// shows nothing.
type Overlay struct {
	Selected  []geom.Rect     // boxes of selected parts and protectors
	Paths     []geom.Polyline // lines of selected feeders
	Hover     geom.Rect       // box of what lies under the pointer; of no width: none
	Handles   []geom.Point    // ends of a bus bar that may be dragged
	Terminals []geom.Point    // where a feeder may begin or end
	Guides    []geom.Segment  // from Snap
	Rubber    geom.Polyline   // the feeder that is being drawn
	Box       geom.Rect       // the box that is being pulled; of no width: none
	Ghosts    []*draw.Picture // from Ghost and GhostProtector
}

// Picture returns the overlay in the colours of the selection.
func (o Overlay) Picture() *draw.Picture { return draw.NewPicture() }

// Ghost returns the symbol of a new part of the kind as it would stand at a
// point, turned by quarter turns clockwise, in the colour of the selection.
func Ghost(kind diagram.Kind, at geom.Point, turn int) *draw.Picture { return draw.NewPicture() }

// GhostProtector returns the symbol of a new protector that meets its bus at
// the point, turned by quarter turns clockwise, in the colour of the selection.
func GhostProtector(at geom.Point, turn int) *draw.Picture { return draw.NewPicture() }
