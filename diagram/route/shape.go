package route

import (
	"math"

	"clampline/diagram/geom"
)

// leg is a line to be shaped on the turned sheet: it leaves p downward and
// comes to q, which it would leave toward out.
type leg struct {
	p, q, out    geom.Point
	stubP, stubQ float64
	lane         lane
}

// shapes is how many shapes of a line are tried.
const shapes = 7

// around is how far a line that turns back passes beside its terminals, in mm.
const around = 15

// least is the shortest way down that still counts as facing, in mm.
const least = 2

// shape returns the line's i-th choice, the first being the one to take where
// nothing is in the way.
func (l leg) shape(i int) bent {
	switch {
	case l.out.Y < 0 && l.q.Y-l.p.Y >= least:
		return l.facing(i)
	case l.out.Y < 0:
		return l.turningBack(i)
	case l.out.Y > 0:
		return l.sameWay(i)
	}
	return l.sideways(i)
}

// facing goes down, across and down again.
func (l leg) facing(i int) bent {
	p, q := l.p, l.q
	low, high := p.Y+l.stubP, q.Y-l.stubQ
	if low > high {
		low = p.Y + (q.Y-p.Y)*l.stubP/(l.stubP+l.stubQ)
		high = low
	}
	share := [shapes]float64{0, 0.5, 1, 0, 0.25, 0.75, 0.9}[i]
	level := low + share*(high-low)
	if i == 0 {
		level = l.lane.level(p.Y, low, high)
	}
	return bend(p, geom.Pt(p.X, level), geom.Pt(q.X, level), q)
}

// turningBack goes down, aside, up past q, and down into it.
func (l leg) turningBack(i int) bent {
	left, right := math.Min(l.p.X, l.q.X), math.Max(l.p.X, l.q.X)
	between := (left + right) / 2
	if right-left < 2*around {
		between = right + around
	}
	column := [shapes]float64{
		between, right + around, left - around, right + 2*around, left - 2*around, right + 4*around, left - 4*around,
	}[i]
	return l.aside(column, l.q.Y-l.stubQ)
}

// aside goes down, across to a column, along it to a level, and from there to q.
func (l leg) aside(column, level float64) bent {
	low := l.p.Y + l.stubP
	return bend(l.p, geom.Pt(l.p.X, low), geom.Pt(column, low), geom.Pt(column, level), geom.Pt(l.q.X, level), l.q)
}

// sameWay goes down below both, across, and up into q.
func (l leg) sameWay(i int) bent {
	if math.Abs(l.p.X-l.q.X) < least {
		side := [shapes]float64{1, -1, 2, -2, 4, -4, 1}[i]
		return l.aside(l.p.X+side*around, l.q.Y+l.stubQ)
	}
	level := math.Max(l.p.Y+l.stubP, l.q.Y+l.stubQ) + float64(i)*around
	return bend(l.p, geom.Pt(l.p.X, level), geom.Pt(l.q.X, level), l.q)
}

// sideways goes down and across into q where q opens toward the line, and
// else round to its open side.
func (l leg) sideways(i int) bent {
	open := l.out.X
	if (l.p.X-l.q.X)*open >= least && l.q.Y-l.p.Y >= least && i == 0 {
		return bend(l.p, geom.Pt(l.p.X, l.q.Y), l.q)
	}
	column := l.q.X + open*(l.stubQ+float64(i/2)*around)
	level := l.p.Y + l.stubP
	if i%2 == 1 {
		level = math.Max(level, l.q.Y+around)
	}
	return bend(l.p, geom.Pt(l.p.X, level), geom.Pt(column, level), geom.Pt(column, l.q.Y), l.q)
}
