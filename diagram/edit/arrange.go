package edit

import (
	"cmp"
	"math"
	"slices"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Rotate turns the selected parts by quarter turns clockwise: one about its
// middle, several about the middle of them all. Notes stay upright.
func (e *Editor) Rotate(turns int) error {
	parts := e.selectedParts()
	around := geom.Empty()
	for _, part := range parts {
		around = around.Include(part.At)
	}
	center := around.Center()
	if len(parts) > 1 {
		center = center.Snap(gridPitch)
	}
	about := geom.Translate(center.Mul(-1)).Then(geom.Turn(turns)).Then(geom.Translate(center))
	return e.Change("rotate "+e.describe(idsOf(parts)), func(tx *diagram.Tx) error {
		for _, part := range parts {
			part.At = about.Apply(part.At)
			if part.Kind != diagram.Note {
				part.Turn = (part.Turn + turns + 4) % 4
			}
			tx.SetPart(part)
		}
		return nil
	})
}

// AlignLeft brings the left edges of the selected parts to the leftmost one.
func (e *Editor) AlignLeft() error {
	return e.align("left", func(own, all geom.Rect) geom.Point { return geom.Pt(all.Min.X-own.Min.X, 0) })
}

// AlignCentre brings the middles of the selected parts onto one upright line
// of the grid.
func (e *Editor) AlignCentre() error {
	return e.align("centre", func(own, all geom.Rect) geom.Point {
		return geom.Pt(all.Center().Snap(gridPitch).X-own.Center().X, 0)
	})
}

// AlignTop brings the top edges of the selected parts to the topmost one.
func (e *Editor) AlignTop() error {
	return e.align("top", func(own, all geom.Rect) geom.Point { return geom.Pt(0, all.Min.Y-own.Min.Y) })
}

// AlignMiddle brings the middles of the selected parts onto one level line of
// the grid.
func (e *Editor) AlignMiddle() error {
	return e.align("middle", func(own, all geom.Rect) geom.Point {
		return geom.Pt(0, all.Center().Snap(gridPitch).Y-own.Center().Y)
	})
}

// align moves each selected part by what step says of its box and of the box
// round them all.
func (e *Editor) align(name string, step func(own, all geom.Rect) geom.Point) error {
	parts := e.selectedParts()
	boxes, all := make([]geom.Rect, len(parts)), geom.Empty()
	for i, part := range parts {
		boxes[i], _ = e.Scene().Box(part.ID)
		all = all.Union(boxes[i])
	}
	return e.Change("align "+name, func(tx *diagram.Tx) error {
		for i, part := range parts {
			part.At = part.At.Add(step(boxes[i], all))
			tx.SetPart(part)
		}
		return nil
	})
}

// DistributeHorizontally spaces the middles of the selected parts evenly
// between the leftmost and the rightmost one.
func (e *Editor) DistributeHorizontally() error {
	return e.distribute("horizontally", func(p *geom.Point) *float64 { return &p.X })
}

// DistributeVertically spaces the middles of the selected parts evenly between
// the topmost and the lowest one.
func (e *Editor) DistributeVertically() error {
	return e.distribute("vertically", func(p *geom.Point) *float64 { return &p.Y })
}

func (e *Editor) distribute(name string, axis func(*geom.Point) *float64) error {
	parts := e.selectedParts()
	if len(parts) < 3 {
		return nil
	}
	slices.SortStableFunc(parts, func(a, b diagram.Part) int { return cmp.Compare(*axis(&a.At), *axis(&b.At)) })
	last := len(parts) - 1
	first := *axis(&parts[0].At)
	pitch := (*axis(&parts[last].At) - first) / float64(last)
	return e.Change("distribute "+name, func(tx *diagram.Tx) error {
		for i, part := range parts[1:last] {
			*axis(&part.At) = math.Round(first + pitch*float64(i+1))
			tx.SetPart(part)
		}
		return nil
	})
}
