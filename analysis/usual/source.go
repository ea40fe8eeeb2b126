package usual

import "math"

// Supplies and generators in a surge.
const (
	SurgeFaultCurrent = 10e3  // A (common practice, no source)
	SurgeGenerator    = 100e3 // VA (from memory)
	SurgeReactance    = 15.0  // per cent, subtransient (from memory)
	SurgeSourceXR     = 5.0   // common practice, no source
)

// Generators in a fault.
const (
	Subtransient       = 12.0 // per cent
	SubtransientSource = "low end of what generator sets have, common practice; IEEE 141 table 4A-1 has 16 % (from memory, check your edition)"
	GeneratorXR        = 1 / 0.15
	GeneratorXRSource  = "IEC 60909-0, fictitious resistance 0.15 X'' of generators up to 1 kV, from memory; check your edition"
	GeneratorSine      = 0.6  // sin φ at the usual rated power factor of 0.8
	ZeroShare          = 0.25 // X0 over X''
	ZeroShareSource    = "sets wound with two-thirds pitch, common practice; it lies between 0.1 and 0.7 (Grainger and Stevenson, Power System Analysis, table A.2, from memory, check your edition)"
)

// SourceXR returns the X/R that breakers are tested with at a fault current, which
// is what is usual where it flows.
func SourceXR(current float64, iec bool) (xr float64, source string) {
	if iec {
		return fromPowerFactor(inBand(current, band{1500, 0.95}, band{3000, 0.9}, band{4500, 0.8}, band{6000, 0.7}, band{10e3, 0.5}, band{20e3, 0.3},
			band{50e3, 0.25}, band{beyond, 0.2})), "test power factors of IEC 60947-2 table 11, from memory; check your edition"
	}
	return fromPowerFactor(inBand(current, band{10e3, 0.5}, band{20e3, 0.3}, band{beyond, 0.2})), "test power factors of UL 489, from memory; check your edition"
}

// fromPowerFactor returns the X/R of a power factor: tan φ.
func fromPowerFactor(cos float64) float64 { return math.Sqrt(1/(cos*cos) - 1) }
