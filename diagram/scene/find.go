package scene

import (
	"math"
	"slices"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/route"
)

// Host returns the part to which a protector dropped at p would be attached,
// within slack of it, and the offset along its bus bar in millimetres from the
// middle (0 at other parts).
func (s *Scene) Host(p geom.Point, slack float64) (diagram.ID, float64, bool) {
	var id diagram.ID
	offset, best := 0.0, math.Inf(1)
	for i := range s.parts {
		q := &s.parts[i]
		d := away(q.box, p)
		if !q.kind.TakesProtector() || d > slack || d >= best {
			continue
		}
		id, best = q.id, d
		step, axis := p.Sub(q.at), q.axis()
		reach := q.halfSpan()
		offset = math.Max(-reach, math.Min(reach, step.X*axis.X+step.Y*axis.Y))
	}
	return id, offset, id != ""
}

// HostPoint returns where on the sheet a protector at the offset hangs from
// the part, and how many quarter turns its symbol is turned, and false where
// there is no such part or it takes no protector.
func (s *Scene) HostPoint(part diagram.ID, offset float64) (geom.Point, int, bool) {
	i, ok := s.partAt[part]
	if !ok || !s.parts[i].kind.TakesProtector() {
		return geom.Point{}, 0, false
	}
	q := &s.parts[i]
	if reach := q.halfSpan(); q.kind.IsBoard() {
		offset = math.Max(-reach, math.Min(reach, offset))
	}
	_, at := q.hostPoints(offset)
	return at, q.turn, true
}

// Within returns the parts, feeders and protectors that lie wholly in r, parts
// first, each in the order of the ids. Tags and labels don't count.
func (s *Scene) Within(r geom.Rect) []diagram.ID {
	var out []diagram.ID
	for i := range s.parts {
		if r.Holds(s.parts[i].box) {
			out = append(out, s.parts[i].id)
		}
	}
	for i := range s.feeders {
		if r.Holds(s.feeders[i].bounds) {
			out = append(out, s.feeders[i].id)
		}
	}
	for i := range s.protectors {
		if r.Holds(s.protectors[i].box) {
			out = append(out, s.protectors[i].id)
		}
	}
	return out
}

// Box returns the rectangle round a part's symbol, a feeder's line or a
// protector's symbol, without tags and labels.
func (s *Scene) Box(id diagram.ID) (geom.Rect, bool) {
	if i, ok := s.partAt[id]; ok {
		return s.parts[i].box, true
	}
	if i, ok := s.feederAt(id); ok {
		return s.feeders[i].bounds, true
	}
	if i, ok := s.protectorAt(id); ok {
		return s.protectors[i].box, true
	}
	return geom.Rect{}, false
}

func (s *Scene) feederAt(id diagram.ID) (int, bool) {
	return slices.BinarySearchFunc(s.feeders, id, func(f feeder, id diagram.ID) int { return diagram.CompareID(f.id, id) })
}

func (s *Scene) protectorAt(id diagram.ID) (int, bool) {
	return slices.BinarySearchFunc(s.protectors, id, func(p protector, id diagram.ID) int { return diagram.CompareID(p.id, id) })
}

// FeederPath returns the line of the feeder from the part that feeds to the
// part that is fed, or nil where there is none. It must not be altered.
func (s *Scene) FeederPath(id diagram.ID) geom.Polyline {
	if i, ok := s.feederAt(id); ok {
		return s.feeders[i].line
	}
	return nil
}

// FeederLabel returns the label of the feeder alone, which is empty where none is
// shown.
func (s *Scene) FeederLabel(id diagram.ID) *draw.Picture {
	p := draw.NewPicture()
	if i, ok := s.feederAt(id); ok {
		s.feeders[i].paintLabel(p)
	}
	return p
}

// ProtectorAt returns where the protector hangs from its bus. That may lie
// beside its offset, to stand clear of the feeders.
func (s *Scene) ProtectorAt(id diagram.ID) (geom.Point, bool) {
	if i, ok := s.protectorAt(id); ok {
		return s.protectors[i].at, true
	}
	return geom.Point{}, false
}

// Route returns the line that a new feeder would take from a terminal to
// another, or to the point at where the other's part is empty; nil where a
// terminal does not exist. It leaves the other feeders of a bus bar out of
// account.
func (s *Scene) Route(from, to diagram.End, at geom.Point) geom.Polyline {
	begin, ok := s.routeTerminal(from)
	if !ok {
		return nil
	}
	end := route.Terminal{At: at}
	if to.Part != "" {
		if end, ok = s.routeTerminal(to); !ok {
			return nil
		}
	}
	return route.Between(begin, end, s.walls())
}

// Ghost returns the symbol of a new part of the kind as it would stand at a
// point, turned by quarter turns clockwise, in the colour of the selection.
func Ghost(kind diagram.Kind, at geom.Point, turn int) *draw.Picture {
	var p part
	p.put(&diagram.Part{Kind: kind, At: at, Turn: turn})
	out := draw.NewPicture()
	p.symbol.Place(out, p.at, p.turn, draw.RoleAccent)
	return out
}
