package scene

import (
	"clampline/diagram"
	"clampline/diagram/geom"
)

// Hit returns what lies under p, or within slack of it where nothing does:
// a protector before the end of a bus bar, that before a part, a part before a
// tag and a tag before a feeder. It never returns OnTerminal; ask Terminal.
func (s *Scene) Hit(p geom.Point, slack float64) (Target, bool) { return Target{}, false }

// Terminal returns the terminal nearest to p within slack, at which a feeder
// may begin or end, and where on the sheet it would. Along a bus bar that is
// the place nearest to p.
func (s *Scene) Terminal(p geom.Point, slack float64) (diagram.End, geom.Point, bool) {
	return diagram.End{}, geom.Point{}, false
}

// Host returns the part to which a protector dropped at p would be attached,
// within slack of it, and the offset along its bus bar in millimetres from the
// middle (0 at other parts).
func (s *Scene) Host(p geom.Point, slack float64) (diagram.ID, float64, bool) {
	return "", 0, false
}

// HostPoint returns where on the sheet a protector meets the part at the
// offset, and how many quarter turns its symbol is turned, and false where
// there is no such part or it takes no protector.
func (s *Scene) HostPoint(part diagram.ID, offset float64) (geom.Point, int, bool) {
	return geom.Point{}, 0, false
}

// Within returns the parts, feeders and protectors that lie wholly in r, parts
// first, each in the order of the ids. Tags and labels don't count.
func (s *Scene) Within(r geom.Rect) []diagram.ID { return nil }

// Box returns the rectangle round a part's symbol, a feeder's line or a
// protector's symbol, without tags and labels.
func (s *Scene) Box(id diagram.ID) (geom.Rect, bool) { return geom.Rect{}, false }

// FeederPath returns the line of the feeder from the part that feeds to the
// part that is fed, or nil where there is none. It must not be altered.
func (s *Scene) FeederPath(id diagram.ID) geom.Polyline { return nil }

// ProtectorAt returns where the protector meets its bus. That may lie beside
// its offset, to stand clear of the feeders.
func (s *Scene) ProtectorAt(id diagram.ID) (geom.Point, bool) { return geom.Point{}, false }

// Route returns the line that a new feeder would take from a terminal to
// another, or to the point at where the other's part is empty; nil where a
// terminal does not exist.
func (s *Scene) Route(from, to diagram.End, at geom.Point) geom.Polyline { return nil }
