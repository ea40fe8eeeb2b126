package diagram

import (
	"fmt"

	"clampline/diagram/unit"
)

// bound is what a figure may be, 0 apart. What lies outside is no figure of a
// building, but a slip of the unit or a number gone wrong; what is merely seldom
// is told by Usual. The bounds keep every product and quotient of figures an
// ordinary number. They are wide common practice, no source.
type bound struct {
	low, high float64
	unit      string
}

func (b bound) holds(v float64) bool { return v >= b.low && v <= b.high }

// remedy names the bound with its unit: it is a range that nobody knows by heart.
func (b bound) remedy() string {
	return "a number from " + rangeText(b.low, b.high, b.unit)
}

// rangeText writes a range as people do: a wave speed in metres a microsecond, too.
func rangeText(low, high float64, of string) string {
	if of != "m/s" {
		return fmt.Sprintf("%g to %g %s", low, high, of)
	}
	const micro = 1e6
	return fmt.Sprintf("%s to %s m/s (%g to %g m/µs)", unit.Format(low, unit.Count, unit.IEC), unit.Format(high, unit.Count, unit.IEC), low/micro, high/micro)
}

var (
	voltages    = bound{1e-3, 1e6, "V"} // a million volts: above every public grid but a few
	currents    = bound{1e-6, 1e6, "A"} // of faults and surges: five times what fuses are rated for
	ratings     = bound{1e-3, 1e5, "A"} // of boards, breakers and switches
	powers      = bound{1e-3, 1e10, "VA"}
	gridPowers  = bound{1e-3, 1e12, "VA"} // of what feeds a building, which may stand for a grid
	perCents    = bound{0.01, 100, "per cent"}
	reactances  = bound{0.01, 1000, "per cent"}
	ratios      = bound{1e-9, 1e6, "(a ratio)"}
	multiples   = bound{1e-3, 1000, "times the crest"}
	frequencies = bound{0.01, 1e5, "Hz"}
	lengths     = bound{1e-6, 1e5, "m"} // 100 km
	leadLengths = bound{1e-6, 1000, "m"}
	areas       = bound{1e-9, 1, "square metres"}
	velocities  = bound{1e7, 2.998e8, "m/s"} // to light in vacuum, rounded up
	flashes     = bound{1e-3, 1000, "per square kilometre and year"}
	prices      = bound{1e-6, 1e12, "in the currency of the sheet"}
	hours       = bound{1e-6, 1e6, "h"}
)
