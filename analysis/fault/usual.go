package fault

import "math"

// band is a usual value up to a limit.
type band struct{ upTo, value float64 }

// inBand returns the value of the first band whose limit is not below at; the
// last one goes on.
func inBand(bands []band, at float64) float64 {
	for _, b := range bands {
		if at <= b.upTo {
			return b.value
		}
	}
	return bands[len(bands)-1].value
}

// fromPowerFactor returns the ratio of reactance to resistance, X/R = tan φ.
func fromPowerFactor(cos float64) float64 { return math.Sqrt(1/(cos*cos) - 1) }

const (
	sourceXRSource    = "test power factors of UL 489, from memory; check your edition"
	sourceXRSourceIEC = "test power factors of IEC 60947-2 table 11, from memory; check your edition"
)

// usualSourceXR returns the ratio of reactance to resistance that breakers are
// tested with at a fault current, which is what is usual where it flows. A is
// the current's unit.
func (r rules) usualSourceXR(current float64) (xr float64, source string) {
	if r.iec {
		return fromPowerFactor(inBand([]band{
			{1500, 0.95}, {3000, 0.9}, {4500, 0.8}, {6000, 0.7}, {10e3, 0.5}, {20e3, 0.3}, {50e3, 0.25}, {math.MaxFloat64, 0.2},
		}, current)), sourceXRSourceIEC
	}
	return fromPowerFactor(inBand([]band{{10e3, 0.5}, {20e3, 0.3}, {math.MaxFloat64, 0.2}}, current)), sourceXRSource
}

const (
	dryImpedanceSource     = "low end of what dry transformers of that size have; common practice, no source"
	utilityImpedanceSource = "low end of a utility's published list, scribd.com/document/277587072"
	metricImpedanceSource  = "IEC 60076-5 table 1, from memory; check your edition"
	ratioSource            = "usual for transformers of that size; common practice, no source"
)

// usualImpedance returns the low end of the per cent impedance that
// transformers of the power in VA have, so that no current is found too small.
func (r rules) usualImpedance(power float64, single, utility bool) (percent float64, source string) {
	switch {
	case r.iec:
		return inBand([]band{{630e3, 4}, {1250e3, 5}, {2500e3, 6}, {math.MaxFloat64, 7}}, power), metricImpedanceSource
	case utility && single:
		return inBand([]band{{100e3, 1.5}, {167e3, 1.8}, {math.MaxFloat64, 3}}, power), utilityImpedanceSource
	case utility:
		return inBand([]band{{300e3, 1.6}, {500e3, 1.8}, {math.MaxFloat64, 5.75}}, power), utilityImpedanceSource
	case single:
		return inBand([]band{{15e3, 3}, {25e3, 3.5}, {math.MaxFloat64, 5}}, power), dryImpedanceSource
	}
	return inBand([]band{{15e3, 3}, {30e3, 3.5}, {75e3, 4}, {150e3, 4.5}, {math.MaxFloat64, 5}}, power), dryImpedanceSource
}

// usualTransformerXR returns the usual ratio of reactance to resistance.
func usualTransformerXR(power float64, single, utility bool) float64 {
	switch {
	case utility:
		return inBand([]band{{50e3, 1.5}, {167e3, 2}, {300e3, 3}, {500e3, 4}, {1000e3, 5.5}, {math.MaxFloat64, 7}}, power)
	case single:
		return inBand([]band{{15e3, 1}, {25e3, 0.8}, {math.MaxFloat64, 0.6}}, power)
	}
	return inBand([]band{{15e3, 0.8}, {30e3, 1.2}, {75e3, 1.5}, {150e3, 2}, {300e3, 3}, {500e3, 4}, {math.MaxFloat64, 6}}, power)
}

// What stands for what a sheet does not say of a generator.
const (
	usualSubtransient       = 12.0 // per cent
	usualSubtransientSource = "low end of what generator sets have, common practice; IEEE 141 table 4A-1 has 16 % (from memory, check your edition)"
	usualGeneratorXR        = 1 / 0.15
	generatorXRSource       = "IEC 60909-0, fictitious resistance 0.15 X'' of generators up to 1 kV, from memory; check your edition"
	zeroShare               = 0.25 // X0 over X''
	zeroShareSource         = "sets wound with two-thirds pitch, common practice; it lies between 0.1 and 0.7 (Grainger and Stevenson, Power System Analysis, table A.2, from memory, check your edition)"
	generatorSine           = 0.6 // sin φ at the usual rated power factor of 0.8
)

// What stands for the machine behind a motor load.
const (
	largeMotor        = 50e3  // VA: 50 hp
	largeSubtransient = 0.167 // X'' on its power
	smallSubtransient = 0.25
	motorXR           = 6.0
	motorSource       = "IEEE 141, induction motors up to 600 V: X'' 0.167 from 50 hp, 0.25 below; from memory; check your edition"
	motorInrush       = 5.0 // starting over rated current
	motorXRMetric     = 1 / 0.42
	motorSourceIEC    = "IEC 60909-0, groups of low-voltage motors with their cables: 5 times rated current, R/X 0.42; from memory; check your edition"
)
