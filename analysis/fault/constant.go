package fault

import (
	"cmp"
	"fmt"
	"math"
	"math/cmplx"

	"clampline/analysis/conductor"
	"clampline/diagram"
)

const (
	constantSource     = "point-to-point method; constants of handbooks, from memory; check your edition"
	readConstantSource = "point-to-point method; constant printed in a plan review's example, scribd.com/document/325386963"
	typedSource        = "typed in at the feeder"
)

// constant returns the C of the point-to-point method of a feeder, ft/Ω: the one
// typed in; else one over the impedance of a foot of what is typed in of its
// conductors, or by the practice of IEC of what they are; else that of handbooks.
func (r rules) constant(f *diagram.Feeder, frequency float64) float64 {
	switch {
	case f.Constant > 0:
		return f.Constant
	case stated(f), r.iec:
		return 1 / (cmplx.Abs(r.conductor(f, frequency)) * conductor.Foot)
	}
	return tabled(f)
}

// constantText names a constant in the working, and its source.
func (r rules) constantText(f *diagram.Feeder, c float64) (text, source string) {
	made, source := fmt.Sprintf("of %s %s, %s", sizeName(f.Area), cmp.Or(f.Material, diagram.Copper), magnetic(f.Raceway)), constantSource
	switch {
	case f.Constant > 0:
		made, source = "typed in", "point-to-point method; C "+typedSource
	case stated(f):
		made, source = "from R and X, "+typedIn(f)+" typed in", "point-to-point method; "+r.sourceOfStated(f)
	case r.iec:
		made, source = "from ρ / A and x′", "point-to-point method; "+metricSource
	case c == constantRead:
		source = readConstantSource
	}
	return fmt.Sprintf("C %.0f %s", c, made), source
}

// tabled returns the constant of handbooks for a feeder. Below the table it goes with
// the cross-section; above it stays, since the reactance decides there.
func tabled(f *diagram.Feeder) float64 {
	metal, _, steel := columnsOf(f)
	power := 1.0
	if f.Area > conductor.Table[len(conductor.Table)-1].Area {
		power = 0
	}
	return conductor.LookUp(areaOf(f), func(row *conductor.Row) float64 { return row.C[metal][steel] }, power)
}

// constantRead is the constant of 500 kcmil copper in steel: that which was read.
const constantRead = 22185

// magnetic says in what conduit the constant is for a raceway.
func magnetic(w diagram.Raceway) string {
	const other = "nonmagnetic conduit"
	if w == diagram.AluminiumConduit || w == diagram.NonmetallicConduit {
		return other
	}
	return taken(w, other, diagram.SteelConduit)
}

// sizeName names a cross-section as the rows of the table between which it lies.
func sizeName(area float64) string {
	const same = 0.005 // sizes are stated to three digits
	before := ""
	for i := range conductor.Table {
		switch row := &conductor.Table[i]; {
		case math.Abs(area/row.Area-1) < same:
			return row.Size
		case area < row.Area && before == "":
			return "less than " + row.Size
		case area < row.Area:
			return "between " + before + " and " + row.Size
		default:
			before = row.Size
		}
	}
	return "more than " + before
}
