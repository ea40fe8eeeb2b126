package route

import (
	"math"

	"clampline/diagram/geom"
)

// Terminal is where a line may begin or end.
type Terminal struct {
	At   geom.Point // a point, or the middle of a bus bar
	Out  geom.Point // unit step along an axis in which a line leaves; zero for any of the four
	Stub float64    // how far a line runs straight at least, mm; 0 takes the usual

	// Bar is the number of the bus bar, from 1, equal for all that tap it; 0
	// for a point. A bar lies across Out and is tapped on both sides.
	Bar  int
	Span float64 // of a bar: how far from its middle taps may lie, mm
	Edge float64 // of a bar: half its thickness, mm
}

// Run is a feeder to be led from one terminal to another.
type Run struct{ From, To Terminal }

// usualStub is how far a line runs straight from a terminal that does not say.
const usualStub = 5

// axis returns the unit step along a bar toward positive offsets: to the right
// where lines leave downward.
func (t Terminal) axis() geom.Point { return geom.Pt(t.Out.Y, -t.Out.X) }

// side returns +1 where p lies on the side of the bar that Out points to, or
// level with it, and -1 on the other.
func (t Terminal) side(p geom.Point) float64 {
	if dot(p.Sub(t.At), t.Out) < 0 {
		return -1
	}
	return 1
}

// offset returns how far along the bar p lies from its middle.
func (t Terminal) offset(p geom.Point) float64 { return dot(p.Sub(t.At), t.axis()) }

// tap is a terminal settled to a point and a direction.
type tap struct {
	at, out geom.Point
	stub    float64
}

// tapAt settles a bar at an offset on a side.
func (t Terminal) tapAt(offset, side float64) tap {
	at := t.At.Add(t.axis().Mul(offset)).Add(t.Out.Mul(side * t.Edge))
	return tap{at, t.Out.Mul(side), t.stub()}
}

// align moves the tap the last hair along its bar until it stands straight
// before p, so that rounding makes no bend.
func (t *tap) align(p geom.Point) {
	if t.out.X == 0 && math.Abs(t.at.X-p.X) <= straight {
		t.at.X = p.X
	}
	if t.out.Y == 0 && math.Abs(t.at.Y-p.Y) <= straight {
		t.at.Y = p.Y
	}
}

// tap settles a terminal that is a point.
func (t Terminal) tap() tap { return tap{t.At, t.Out, t.stub()} }

func (t Terminal) stub() float64 {
	if t.Stub > 0 {
		return t.Stub
	}
	return usualStub
}

func dot(a, b geom.Point) float64 { return a.X*b.X + a.Y*b.Y }

func clamp(v, low, high float64) float64 { return math.Max(low, math.Min(high, v)) }
