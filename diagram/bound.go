package diagram

import (
	"fmt"

	"clampline/diagram/unit"
)

// Range is what a number may be. What lies outside is no figure of a building, but
// a slip of the unit or a number gone wrong; what is merely seldom is told by
// Usual. The bounds keep every product and quotient of figures an ordinary number.
// They are wide common practice, no source.
type Range struct {
	Low, High float64
	Unit      string // its sign: "V"
	Name      string // its name: "volts"
	Zero      Zero
}

// Zero is what 0 is among the numbers of a range.
type Zero uint8

// What 0 may be.
const (
	ZeroUnstated Zero = iota // it stands for what is not stated, and lies apart from the range
	ZeroIsNone               // a value like any other, apart from the range: a length of nothing
	ZeroWithin               // one of the range
	ZeroWrong                // no value
)

// bounds are what the form says of it. Below its least a length is as good as 0.
func (r Range) bounds() Bounds {
	if r.Zero == ZeroIsNone {
		return Bounds{High: r.High}
	}
	return Bounds{Low: r.Low, High: r.High, OrZero: r.Zero == ZeroUnstated}
}

// Holds reports whether the number is allowed.
func (r Range) Holds(v float64) bool {
	return v >= r.Low && v <= r.High || v == 0 && r.Zero < ZeroWithin
}

// remedy names the range with its unit: it is one that nobody knows by heart.
func (r Range) remedy() string {
	switch {
	case r.Zero == ZeroWithin:
		return fmt.Sprintf("use a number from %g to %g", r.Low, r.High)
	case r.Zero == ZeroWrong:
		return "use a number from " + rangeText(r.Low, r.High, r.Unit)
	}
	return "use 0 or a number from " + rangeText(r.Low, r.High, r.Unit)
}

// rangeText writes a range as people do: a wave speed in metres a microsecond, too.
func rangeText(low, high float64, of string) string {
	if of != "m/s" {
		return fmt.Sprintf("%g to %g %s", low, high, of)
	}
	const micro = 1e6
	return fmt.Sprintf("%s to %s m/s (%g to %g m/µs)", unit.Format(low, unit.Count, unit.IEC), unit.Format(high, unit.Count, unit.IEC), low/micro, high/micro)
}

// needed is the range without its 0.
func (r Range) needed() Range {
	r.Zero = ZeroWrong
	return r
}

// inWords is the range in a unit of another name.
func (r Range) inWords(name string) Range {
	r.Name = name
	return r
}

// Ranges that several fields have.
var (
	voltages    = Range{Low: 1e-3, High: 1e6, Unit: "V", Name: "volts"} // a million volts: above every public grid but a few
	rmsVoltages = voltages.inWords("volts rms")
	currents    = Range{Low: 1e-6, High: 1e6, Unit: "A", Name: "amperes"} // of faults and surges: five times what fuses are rated for
	ratings     = Range{Low: 1e-3, High: 1e5, Unit: "A", Name: "amperes"} // of boards, breakers and switches
	powers      = Range{Low: 1e-3, High: 1e10, Unit: "VA", Name: "volt-amperes"}
	gridPowers  = Range{Low: 1e-3, High: 1e12, Unit: "VA", Name: "volt-amperes"} // of what feeds a building, which may stand for a grid
	perCents    = Range{Low: 0.01, High: 100, Unit: "per cent", Name: "per cent"}
	reactances  = Range{Low: 0.01, High: 1000, Unit: "per cent", Name: "per cent"}
	tolerances  = Range{Low: 0, High: 20, Unit: "per cent", Name: "per cent", Zero: ZeroWithin}
	surcharges  = Range{Low: 0, High: 1000, Unit: "per cent", Name: "per cent", Zero: ZeroWithin}
	ratios      = Range{Low: 1e-9, High: 1e6, Unit: "(a ratio)", Name: "a ratio"}
	multiples   = Range{Low: 1e-3, High: 1000, Unit: "times the crest", Name: "multiples of the crest of the nominal voltage"}
	frequencies = Range{Low: 0.01, High: 1e5, Unit: "Hz", Name: "hertz"}
	lengths     = Range{Low: 1e-6, High: 1e5, Unit: "m", Name: "metres", Zero: ZeroIsNone} // 100 km
	leadLengths = Range{Low: 1e-6, High: 1000, Unit: "m", Name: "metres", Zero: ZeroIsNone}
	areas       = Range{Low: 1e-9, High: 1, Unit: "square metres", Name: "square metres"}
	resistances = Range{Low: 1e-6, High: 1, Unit: "ohm per metre", Name: "ohms per metre"}
	inductives  = Range{Low: 1e-6, High: 0.1, Unit: "ohm per metre", Name: "ohms per metre"}
	constants   = Range{Low: 10, High: 1e6, Unit: "ft/ohm", Name: "feet per ohm"}
	impedances  = Range{Low: 1, High: 1e4, Unit: "ohm", Name: "ohms"}
	earthings   = Range{Low: 0.01, High: 1e5, Unit: "ohm", Name: "ohms"}
	velocities  = Range{Low: 1e7, High: 2.998e8, Unit: "m/s", Name: "metres per second"} // to light in vacuum, rounded up
	flashes     = Range{Low: 1e-3, High: 1000, Unit: "per square kilometre and year", Name: "flashes per square kilometre and year"}
	prices      = Range{Low: 1e-6, High: 1e12, Unit: "in the currency of the sheet", Name: "the currency of the sheet"}
	hours       = Range{Low: 1e-6, High: 1e6, Unit: "h", Name: "hours"}
	places      = Range{Low: -1e6, High: 1e6, Unit: "mm", Name: millimetres, Zero: ZeroWithin} // on the sheet, from its origin
	spans       = Range{Low: 0, High: 10_000, Unit: "mm", Name: millimetres, Zero: ZeroWithin}
	offsets     = Range{Low: -10_000, High: 10_000, Unit: "mm", Name: millimetres, Zero: ZeroWithin}
)

const millimetres = "millimetres on the sheet"
