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

	zero bool // 0 is a value like any other, and does not stand for what is not known
}

// bounds are what the form says of it. Below its least a length is as good as 0.
func (b bound) bounds() Bounds {
	if b.zero {
		return Bounds{High: b.high}
	}
	return Bounds{Low: b.low, High: b.high, OrZero: true}
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
	voltages    = bound{low: 1e-3, high: 1e6, unit: "V"} // a million volts: above every public grid but a few
	currents    = bound{low: 1e-6, high: 1e6, unit: "A"} // of faults and surges: five times what fuses are rated for
	ratings     = bound{low: 1e-3, high: 1e5, unit: "A"} // of boards, breakers and switches
	powers      = bound{low: 1e-3, high: 1e10, unit: "VA"}
	gridPowers  = bound{low: 1e-3, high: 1e12, unit: "VA"} // of what feeds a building, which may stand for a grid
	perCents    = bound{low: 0.01, high: 100, unit: "per cent"}
	reactances  = bound{low: 0.01, high: 1000, unit: "per cent"}
	ratios      = bound{low: 1e-9, high: 1e6, unit: "(a ratio)"}
	multiples   = bound{low: 1e-3, high: 1000, unit: "times the crest"}
	frequencies = bound{low: 0.01, high: 1e5, unit: "Hz"}
	lengths     = bound{low: 1e-6, high: 1e5, unit: "m", zero: true} // 100 km
	leadLengths = bound{low: 1e-6, high: 1000, unit: "m", zero: true}
	areas       = bound{low: 1e-9, high: 1, unit: "square metres"}
	velocities  = bound{low: 1e7, high: 2.998e8, unit: "m/s"} // to light in vacuum, rounded up
	flashes     = bound{low: 1e-3, high: 1000, unit: "per square kilometre and year"}
	prices      = bound{low: 1e-6, high: 1e12, unit: "in the currency of the sheet"}
	hours       = bound{low: 1e-6, high: 1e6, unit: "h"}
)
