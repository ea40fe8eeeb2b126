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

// constant is a C of the point-to-point method, ft/Ω, with what it is for and
// where it comes from.
type constant struct {
	value        float64
	made, source string
}

// text names it in the working.
func (c constant) text() string { return fmt.Sprintf("C %.0f %s", c.value, c.made) }

// constant returns that of a feeder: the one typed in; else one over the
// impedance of a foot of what is typed in of its conductors, or by the practice
// of IEC of what they are; else that of handbooks. Where it is not to be told it has its
// value alone.
func (r rules) constant(f *diagram.Feeder, frequency float64, tell bool) constant {
	switch {
	case f.Constant > 0:
		return constant{f.Constant, "typed in", "point-to-point method; C " + typedSource}
	case stated(f):
		return constant{r.inverse(f, frequency), "from R and X, " + typedIn(f), "point-to-point method; " + r.sourceOfStated(f)}
	case r.iec:
		return constant{r.inverse(f, frequency), "from ρ / A and x′", "point-to-point method; " + metricSource}
	}
	out := constant{value: tabled(f)}
	if tell {
		out.tell(f)
	}
	return out
}

func (r rules) inverse(f *diagram.Feeder, frequency float64) float64 {
	return 1 / (cmplx.Abs(r.conductor(f, frequency)) * conductor.Foot)
}

// tabled returns the constant of handbooks for a feeder.
func tabled(f *diagram.Feeder) float64 {
	of := func(row *conductor.Row) float64 { return row.C.CopperOther }
	switch aluminium, steel := f.Material == diagram.Aluminium, f.Raceway == diagram.SteelConduit; {
	case aluminium && steel:
		of = func(row *conductor.Row) float64 { return row.C.AluminiumSteel }
	case aluminium:
		of = func(row *conductor.Row) float64 { return row.C.AluminiumOther }
	case steel:
		of = func(row *conductor.Row) float64 { return row.C.CopperSteel }
	}
	return conductor.LookUp(areaOf(f), of, growth(f, 1))
}

// tell says what a constant of handbooks is for and where it comes from.
func (c *constant) tell(f *diagram.Feeder) {
	c.made = fmt.Sprintf("of %s %s, %s", sizeName(f.Area), cmp.Or(f.Material, diagram.Copper), magnetic(f.Raceway))
	c.source = constantSource
	if c.value == constantRead {
		c.source = readConstantSource
	}
}

// constantRead is the constant of 500 kcmil copper in steel: that which was read.
const constantRead = 22185

// magnetic says in what conduit the constant is for a raceway.
func magnetic(w diagram.Raceway) string {
	switch w {
	case diagram.SteelConduit:
		return string(w)
	case diagram.AluminiumConduit, diagram.NonmetallicConduit:
		return "nonmagnetic conduit"
	case "":
		return "raceway not known, taken as nonmagnetic conduit"
	}
	return string(w) + ", taken as nonmagnetic conduit"
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

// growth returns how a figure goes beyond the table: with the cross-section
// below it; above it not at all, since the reactance decides there.
func growth(f *diagram.Feeder, below float64) float64 {
	if f.Area > conductor.Table[len(conductor.Table)-1].Area {
		return 0
	}
	return below
}
