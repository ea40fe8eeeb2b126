package scene

import (
	"clampline/diagram"
	"clampline/diagram/geom"
)

// Snap returns by how much to move the box of a moving part, beyond where the
// pointer has put it, so that it lines up: its middle or an edge with that of
// another part within slack, or else its middle with the grid of the given
// pitch (zero: no grid). Each direction is settled on its own. The segments
// are the guides to show. Parts in exclude are passed over.
//
// Hand it the box of the part under the pointer, not of all that moves: grids
// hold for middles.
func (s *Scene) Snap(moving geom.Rect, exclude map[diagram.ID]bool, slack, grid float64) (geom.Point, []geom.Segment) {
	return geom.Point{}, nil
}
