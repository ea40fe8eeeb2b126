package edit

import (
	"math"

	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/scene"
	"clampline/diagram/symbol"
)

// leastHalf is half the least length of a bus bar, in mm.
const leastHalf = 5

// resizing pulls one end of a bus bar. The other end stays where it is, and so
// do the protectors on the bar.
type resizing struct {
	quiet
	part       diagram.Part // at the mark
	side       float64      // -1 or +1: the end that is pulled
	along      geom.Point   // unit step along the bar
	half       float64      // half its length, mm
	protectors []diagram.Protector
}

func resize(e *Editor, part diagram.Part, side int) tool {
	t := resizing{
		part: part, side: float64(side),
		along: geom.Turn(part.Turn).Apply(geom.Pt(1, 0)),
		half:  symbol.Span(part) / 2,
	}
	for protector := range e.doc.Protectors() {
		if protector.Bus == part.ID {
			t.protectors = append(t.protectors, protector)
		}
	}
	e.begin()
	return t
}

func (t resizing) handle(e *Editor, ev Event) tool {
	switch ev.Kind {
	case Drag:
		if err := e.alter(t.to(ev)); err != nil {
			e.setNotice(err.Error())
		}
	case Release:
		e.commit("resize "+e.describe([]diagram.ID{t.part.ID}), "")
		return selecting{}
	case Cancel:
		e.revert()
		return selecting{}
	}
	return t
}

// to returns the change that brings the end to the pointer. The middle stays
// on the grid, so that what taps the bar there lines up.
func (t resizing) to(ev Event) func(*diagram.Tx) error {
	middle := dot(t.part.At, t.along)
	fixed := middle - t.side*t.half
	wanted := (fixed + dot(ev.At, t.along)) / 2
	if !ev.Modifiers.Has(Alt) {
		wanted = math.Round(wanted/gridPitch) * gridPitch
	}
	half := math.Max(leastHalf, t.side*(wanted-fixed))
	return t.set(half, fixed+t.side*half-middle)
}

// set returns the change to half the length, with the middle moved along the
// bar.
func (t resizing) set(half, moved float64) func(*diagram.Tx) error {
	return func(tx *diagram.Tx) error {
		part := t.part
		part.Span = 2 * half
		part.At = part.At.Add(t.along.Mul(moved))
		tx.SetPart(part)
		for _, protector := range t.protectors {
			protector.Offset = clamp(protector.Offset-moved, half)
			tx.SetProtector(protector)
		}
		return nil
	}
}

func (t resizing) show(e *Editor, o *scene.Overlay) {
	if part, ok := e.doc.Part(t.part.ID); ok {
		o.Handles = barEnds(part)
	}
}

func (t resizing) status(*Editor) string { return "Pull the end to its place; Alt suspends snapping" }

func (t resizing) cursor(*Editor) Cursor {
	if t.part.Turn%2 == 1 {
		return ResizeV
	}
	return ResizeH
}

// barEnds returns where the ends of a bus bar lie, or nothing for other parts.
func barEnds(part diagram.Part) []geom.Point {
	if !part.Kind.IsBoard() {
		return nil
	}
	reach := geom.Turn(part.Turn).Apply(geom.Pt(symbol.Span(part)/2, 0))
	return []geom.Point{part.At.Sub(reach), part.At.Add(reach)}
}

func dot(p, q geom.Point) float64 { return p.X*q.X + p.Y*q.Y }

// clamp returns v brought to between -reach and reach.
func clamp(v, reach float64) float64 { return math.Max(-reach, math.Min(reach, v)) }
