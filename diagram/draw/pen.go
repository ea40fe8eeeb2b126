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

// Pattern returns the lengths of ink and gap in turn, in millimetres, for a
// line of the given width, or nil where the line has no gaps. For Hatched it
// is the pattern of the ticks. The slice is the caller's.
func (d Dash) Pattern(width float64) []float64 {
	switch d {
	case Dashed:
		return []float64{1.2 + 1.5*width, 0.6 + 0.35*width}
	case LongDash:
		return []float64{4 + 2*width, 1 + 0.5*width}
	case Dotted:
		dot := math.Max(width, leastDot)
		return []float64{dot, dot}
	case Hatched:
		tick := hatchTick(width)
		return []float64{tick, 1.5 * tick}
	}
	return nil
}

// Shortest details in millimetres: below these a pattern closes up at the
// scale of a printed sheet.
const (
	leastDot   = 0.35
	leastTick  = 0.35 // length of a tick along the line
	leastCross = 1.4  // length of a tick across the line
	leastApart = 0.45 // half the distance between the lines of a double line
)

func hatchTick(width float64) float64 { return math.Max(leastTick, 0.3*width) }

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
	return math.Max(0.35*p.Width, leastApart), math.Max(0.3*p.Width, math.Min(p.Width, 0.25))
}

// Strand is one plain line of a stroke: a path, its width in millimetres, and
// ink and gap along it in turn, in millimetres (nil: no gaps).
type Strand struct {
	Path    Path
	Width   float64
	Pattern []float64
}

// Strands returns the plain lines the pen draws along the path. All painters
// draw these and nothing else, so a pattern looks the same everywhere.
func (p Pen) Strands(path Path) []Strand {
	if !p.Draws() {
		return nil
	}
	switch p.Dash {
	case Double:
		apart, thin := p.double()
		return []Strand{{Path: offset(path, apart), Width: thin}, {Path: offset(path, -apart), Width: thin}}
	case Hatched:
		ticks := Strand{path, math.Max(p.Width, leastCross), p.Dash.Pattern(p.Width)}
		return []Strand{{Path: path, Width: p.spine()}, ticks}
	}
	return []Strand{{path, p.Width, p.Dash.Pattern(p.Width)}}
}

// spine returns the width of the line that carries the ticks, in millimetres.
func (p Pen) spine() float64 { return math.Min(p.Width, math.Max(0.25, 0.2*p.Width)) }

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
	closed := last > 1 && line[0] == line[last]
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
