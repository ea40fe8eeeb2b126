package fault

import (
	"fmt"

	"clampline/diagram"
)

// constants are the C of the point-to-point method for one size, in ft/Ω: one
// over the impedance of a foot of three single conductors for 600 V at 25 °C,
// with less reactance than table 9 has. The one for 500 kcmil copper in steel was
// read in a plan review's handout and that for 2 AWG agrees with its example; the
// others are from memory, and a test holds all against table 9.
type constants struct {
	copperSteel, copperOther, aluminiumSteel, aluminiumOther float64
}

const constantSource = "point-to-point method; constants of handbooks, from memory; check your edition"

// constantOf returns the constant for a feeder, and of what conduit it is.
func constantOf(f *diagram.Feeder) (c float64, conduit string) {
	steel := f.Raceway == diagram.SteelConduit
	conduit = "nonmagnetic conduit"
	if steel {
		conduit = "steel conduit"
	}
	of := func(row *cableRow) float64 { return row.copperOther }
	switch aluminium := f.Material == diagram.Aluminium; {
	case aluminium && steel:
		of = func(row *cableRow) float64 { return row.constants.aluminiumSteel }
	case aluminium:
		of = func(row *cableRow) float64 { return row.aluminiumOther }
	case steel:
		of = func(row *cableRow) float64 { return row.constants.copperSteel }
	}
	return lookUp(areaOf(f), of, growth(f, 1)), conduit
}

// growth returns how a figure goes beyond the table: with the cross-section
// below it; above it not at all, since the reactance decides there.
func growth(f *diagram.Feeder, below float64) float64 {
	if f.Area > cableRows[len(cableRows)-1].area {
		return 0
	}
	return below
}

// namedConstant returns the constant with what it is for, in words.
func namedConstant(f *diagram.Feeder) string {
	c, conduit := constantOf(f)
	return fmt.Sprintf("C %.0f in %s", c, conduit)
}
