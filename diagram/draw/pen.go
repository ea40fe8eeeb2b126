package draw

import (
	"math"
	"strconv"

	"clampline/diagram/geom"
)

// Dash is the pattern of a line. Verdicts differ by it, so that they are told
// apart without colour.
type Dash uint8

// The patterns.
const (
	Solid    Dash = iota
	Dashed        // short dashes
	Dotted        // square dots
	Double        // two thin parallel lines
	Hatched       // cross ticks on a thin spine
	LongDash      // long dashes
	dashCount
)

var dashNames = [dashCount]string{"solid", "dashed", "dotted", "double", "hatched", "long-dash"}

// String returns the name of the pattern in the text form of a picture.
func (d Dash) String() string {
	if d < dashCount {
		return dashNames[d]
	}
	return "dash" + strconv.Itoa(int(d))
}

// Pattern returns the lengths of ink and gap that alternate along a line of the
// given width, all in millimetres; both are zero where the line has no gaps.
// For Hatched it is the pattern of the ticks.
func (d Dash) Pattern(width float64) (ink, gap float64) {
	switch d {
	case Dashed:
		return 1.2 + 1.5*width, 0.6 + 0.35*width
	case LongDash:
		return 4 + 2*width, 1 + 0.5*width
	case Dotted:
		dot := math.Max(width, leastDot)
		return dot, 1.3 * dot
	case Hatched:
		return math.Max(leastTick, 0.35*width), hatchGap
	}
	return 0, 0
}

// Shortest details in millimetres: below these a pattern closes up at the
// scale of a printed sheet.
const (
	leastDot   = 0.35
	leastTick  = 0.45 // length of a tick along the line
	hatchGap   = 0.9  // from tick to tick
	leastCross = 1.6  // length of a tick across the line
	leastApart = 0.55 // half the distance between the lines of a double line
	leastThin  = 0.4  // width of each of them, unless the pen itself is finer
)

// Pen says how a path is stroked. Ends are cut square at the path's end,
// corners are round. A width of zero or less, or RoleNone, draws nothing.
type Pen struct {
	Role  Role
	Width float64 // millimetres
	Dash  Dash
}

// Draws reports whether the pen leaves any ink.
func (p Pen) Draws() bool { return p.Role != RoleNone && p.Width > 0 }

// Reach returns how far the pen's ink lies from its path at most, in
// millimetres.
func (p Pen) Reach() float64 {
	if !p.Draws() {
		return 0
	}
	switch p.Dash {
	case Double:
		apart, thin := p.double()
		return apart + thin/2
	case Hatched:
		return math.Max(p.Width, leastCross) / 2
	}
	return p.Width / 2
}

// double returns half the distance between the two lines of a double line and
// the width of each, in millimetres.
func (p Pen) double() (apart, thin float64) {
	return math.Max(0.32*p.Width, leastApart), math.Max(0.36*p.Width, math.Min(p.Width, leastThin))
}

// Strand is one plain line of a stroke: a path, its width, and the lengths of
// ink and gap that alternate along it, both zero where it has no gaps, all in
// millimetres.
type Strand struct {
	Path     Path
	Width    float64
	Ink, Gap float64
	Straight bool // whether the path has nothing but lines along the axes
}

// Strands returns the plain lines the pen draws along the path. All painters
// draw these and nothing else, so a pattern looks the same everywhere.
func (p Pen) Strands(path Path) []Strand {
	return p.appendStrands(nil, path)
}

func (p Pen) appendStrands(strands []Strand, path Path) []Strand {
	if !p.Draws() {
		return strands
	}
	ink, gap := p.Dash.Pattern(p.Width)
	straight := path.straight()
	switch p.Dash {
	case Double:
		apart, thin := p.double()
		left, right := offset(path, -apart), offset(path, apart)
		return append(strands, Strand{left, thin, 0, 0, straight}, Strand{right, thin, 0, 0, straight})
	case Hatched:
		return append(strands,
			Strand{path, p.spine(), 0, 0, straight},
			Strand{path, math.Max(p.Width, leastCross), ink, gap, straight})
	}
	return append(strands, Strand{path, p.Width, ink, gap, straight})
}

// spine returns the width of the line that carries the ticks, in millimetres.
func (p Pen) spine() float64 { return math.Min(p.Width, math.Max(0.3, 0.25*p.Width)) }

// flatness is how far a flattened curve may lie from the curve, in millimetres:
// a tenth of the finest line.
const flatness = 0.02

// offset returns the path moved sideways by d, to the right of its direction
// as seen on the sheet where d is positive, with mitred corners.
func offset(path Path, d float64) Path {
	var out Path
	for _, line := range path.Flatten(flatness) {
		moved := offsetLine(line, d)
		if last := len(moved) - 1; last > 1 && line[0] == line[len(line)-1] {
			out.Append(Polygon(moved[:last]...))
		} else {
			out.Append(Line(moved...))
		}
	}
	return out
}

func offsetLine(line geom.Polyline, d float64) geom.Polyline {
	line = distinct(line)
	last := len(line) - 1
	if last < 1 {
		return nil
	}
	closed := line[0] == line[last]
	out := make(geom.Polyline, len(line))
	for i := range line {
		before, after := max(i-1, 0), i
		if i == last {
			after = last - 1
		}
		if closed && (i == 0 || i == last) {
			before, after = last-1, 0
		}
		out[i] = line[i].Add(miter(normal(line, before), normal(line, after)).Mul(d))
	}
	return out
}

// normal returns the unit step to the right of piece i.
func normal(line geom.Polyline, i int) geom.Point {
	step := line[i+1].Sub(line[i])
	return geom.Pt(-step.Y, step.X).Mul(1 / step.Length())
}

// miter returns the step from a corner to where the sides, moved by one along
// their normals, meet. Where the line turns back on itself the corner is cut.
func miter(a, b geom.Point) geom.Point {
	turn := 1 + a.X*b.X + a.Y*b.Y
	if turn < 0.5 {
		return a
	}
	return a.Add(b).Mul(1 / turn)
}

// distinct returns the line without points that repeat the one before.
func distinct(line geom.Polyline) geom.Polyline {
	out := make(geom.Polyline, 0, len(line))
	for i, p := range line {
		if i == 0 || p.Distance(line[i-1]) > 1e-9 {
			out = append(out, p)
		}
	}
	return out
}
