package fault

import (
	"math"
	"slices"

	"clampline/diagram"
)

// rules is by what a sheet's currents are added up.
type rules struct {
	iec       bool
	point     bool    // magnitudes alone
	tolerance float64 // per cent that a transformer may have less than its nameplate says
}

// rulesOf returns those of a sheet with the parts given.
func rulesOf(doc *diagram.Document, parts []device) rules {
	codes := doc.Info().Codes
	return rules{
		iec:       codes.Practice == diagram.IECPractice || codes.Practice == "" && usesIEC(parts),
		point:     codes.Fault == diagram.PointToPoint,
		tolerance: min(max(codes.Tolerance, 0), 50),
	}
}

// usesIEC reports what diagram.Document.UsesIEC does.
func usesIEC(parts []device) bool {
	return slices.ContainsFunc(parts, func(p device) bool { return p.Kind.IsSource() && p.System.Earthing.IsIEC() })
}

// Factors on the nominal voltage by the practice of IEC.
const (
	voltageFactor = 1.10 // c of IEC 60909-0:2016 table 1 for systems with a tolerance of +10 %, as IEC 60038 has it (from memory)
	noLoadFactor  = 1.05 // of the windings of a transformer over the system they feed: m of UTE C 15-500
)

const (
	voltageFactorSource = "IEC 60909-0:2016 table 1, from memory; check your edition"
	noLoadSource        = "windings rated 1.05 times the nominal voltage at no load: UTE C 15-500"
)

// driving returns the voltage behind a fault where the nominal one is volts.
func (r rules) driving(volts float64) float64 {
	if r.iec {
		return voltageFactor * volts
	}
	return volts
}

// noLoad returns the rated voltage of the winding that feeds a system.
func (r rules) noLoad(volts float64) float64 {
	if r.iec {
		return noLoadFactor * volts
	}
	return volts
}

// impedance returns what has the magnitude in Ω and the ratio of reactance to
// resistance; by point to point, the magnitude alone.
func (r rules) impedance(ohms, xr float64) complex128 {
	if r.point {
		return complex(ohms, 0)
	}
	resistance := ohms / math.Hypot(1, xr)
	return complex(resistance, resistance*xr)
}

// within returns what a transformer has at the low end of its tolerance.
func (r rules) within(percent float64) float64 { return percent * (1 - r.tolerance/100) }

// frequency returns that of a system, Hz, or the usual one of the practice.
func (r rules) frequency(s diagram.System) float64 {
	switch {
	case s.Frequency >= 1 && s.Frequency <= 1000:
		return s.Frequency
	case r.iec:
		return 50
	}
	return 60
}

// known reports whether a system says enough to compute with.
func known(s diagram.System) bool { return s.Known() && s.Voltage >= 1 }
