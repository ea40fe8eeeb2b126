package diagram

import (
	"math"
	"strings"

	"clampline/diagram/unit"
)

// Usual is what a figure that people type most often is: a value outside may be
// right, but more often a unit or a digit is wrong. Both the form and the
// findings say so.
type Usual struct {
	Noun        string // of the figure, in a sentence: "fault current"
	Dimension   unit.Dimension
	Least, Most float64 // in the unit of the dimension
	Source      string

	Such, IECSuch string // an example to type, where that of the dimension does not fit; the second where it differs for IEC

	Zero bool // 0 is a value, and an unusual one; else it is not known or none
}

// Outside reports whether a value is unusual.
func (u Usual) Outside(v float64) bool {
	if v == 0 {
		return u.Zero
	}
	const room = 1e-9 // of what was converted from another unit
	return math.IsNaN(v) || v < u.Least*(1-room) || v > u.Most*(1+room)
}

// Example returns what somebody may type for the figure.
func (u Usual) Example(c unit.Convention) string {
	switch {
	case c == unit.IEC && u.IECSuch != "":
		return u.IECSuch
	case u.Such != "":
		return u.Such
	}
	return unit.Such(u.Dimension, c)
}

// Mark returns a few words for an unusual value, "under 500 A", and nothing for
// a usual one.
func (u Usual) Mark(v float64, c unit.Convention) string {
	switch {
	case !u.Outside(v):
		return ""
	case v == 0:
		return u.text(0, c)
	case v < u.Least:
		return "under " + u.text(u.Least, c)
	}
	return "over " + u.text(u.Most, c)
}

// Range says what is usual: "500 A to 200 kA".
func (u Usual) Range(c unit.Convention) string {
	if u.Least == 0 || u.Zero {
		return "up to " + u.text(u.Most, c)
	}
	return u.text(u.Least, c) + " to " + u.text(u.Most, c)
}

// text writes a limit; one of length is round in the units of the convention.
func (u Usual) text(v float64, c unit.Convention) string {
	if u.Dimension == unit.Length {
		return strings.ReplaceAll(unit.Format(unit.RoundLimit(v, c), u.Dimension, c), " ", "\u00a0")
	}
	return unit.Format(v, u.Dimension, c)
}

// The figures of which a usual range is known, after what is none of them.
const (
	NoFigure Figure = iota
	UsualFault
	UsualEarthFault
	UsualPower
	UsualLoadPower
	UsualImpedance
	UsualSubtransient
	UsualXR
	UsualSystemVoltage
	UsualFrequency
	UsualBusRating
	UsualMainBreaker
	UsualSwitch
	UsualLoadVoltage
	UsualWithstand
	UsualFeederLength
	UsualConductor
	UsualResistance
	UsualReactance
	UsualConstant
	UsualSurgeImpedance
	UsualLeadLength
	UsualLeadSize
	UsualLevel
	UsualMCOV
	UsualIn
	UsualImax
	UsualIimp
	UsualSCCR
	UsualBreaker
	UsualHours
	UsualSurgeVoltage
	UsualSurgeCurrent
	UsualFlashes
	UsualUpstreamLine
	UsualMultiple
	UsualWaveSpeed
	figureCount
)

// Figure is one that people type.
type Figure uint8

const commonPractice = "common practice, no source"

// usual holds the ranges, in SI units. They are wide: what lies outside is seldom
// met in the distribution of a building up to 35 kV.
var usual = [figureCount]Usual{
	UsualFault: {Noun: "fault current", Dimension: unit.LargeCurrent, Least: 500, Most: 200e3,
		Source: "200 kA is the highest that low-voltage fuses and breakers are rated for; " + commonPractice},
	UsualEarthFault: {Noun: "line-to-earth fault current", Dimension: unit.LargeCurrent, Least: 1, Most: 200e3, Such: "10 kA", // 1 A with a high resistance
		Source: commonPractice},
	UsualPower:         {Noun: "rated power", Dimension: unit.Power, Least: 1e3, Most: 10e6, Source: commonPractice},
	UsualLoadPower:     {Noun: "power", Dimension: unit.Power, Least: 10, Most: 5e6, Such: "5 kVA", Source: commonPractice},
	UsualImpedance:     {Noun: "impedance", Dimension: unit.Percent, Least: 1, Most: 15, Source: commonPractice},
	UsualSubtransient:  {Noun: "subtransient reactance", Dimension: unit.Percent, Least: 5, Most: 40, Such: "12 %", Source: commonPractice},
	UsualXR:            {Noun: "X / R", Dimension: unit.Ratio, Least: 0.1, Most: 100, Source: commonPractice},
	UsualSystemVoltage: {Noun: "voltage", Dimension: unit.Voltage, Least: 100, Most: 35e3, Source: commonPractice},
	UsualFrequency:     {Noun: "frequency", Dimension: unit.Frequency, Least: 16, Most: 400, Source: "railways to aircraft; " + commonPractice},
	UsualBusRating:     {Noun: "bus rating", Dimension: unit.Current, Least: 15, Most: 6300, Such: "225 A", Source: commonPractice},
	UsualMainBreaker:   {Noun: "main breaker", Dimension: unit.Current, Least: 10, Most: 6300, Source: commonPractice},
	UsualSwitch:        {Noun: "rated current", Dimension: unit.Current, Least: 2, Most: 6300, Source: commonPractice},
	UsualLoadVoltage:   {Noun: "rated voltage", Dimension: unit.Voltage, Least: 12, Most: 15e3, Source: commonPractice},
	UsualWithstand: {Noun: "withstand", Dimension: unit.Voltage, Least: 300, Most: 20e3, Such: "2500 V",
		Source: "rated impulse voltages of IEC 60664-1 begin at 330 V, from memory; " + commonPractice},
	UsualFeederLength: {Noun: "length", Dimension: unit.Length, Most: 2e3, Zero: true, Source: commonPractice},
	UsualConductor: {Noun: "conductor", Dimension: unit.Area, Least: 1.5e-6, Most: 1020e-6,
		Source: "1.5 mm² is the least of IEC 60364-5-52 for power, 2000 kcmil the largest of NFPA 70 chapter 9 table 8, both from memory"},
	UsualResistance: {Noun: "resistance", Dimension: unit.Lengthwise, Least: 1.5e-5, Most: 0.02,
		Source: "from conductors of 2000 kcmil to 1 mm² (NFPA 70 chapter 9 table 8 and IEC 60228, from memory); " + commonPractice},
	UsualReactance: {Noun: "reactance", Dimension: unit.Lengthwise, Least: 4e-5, Most: 5e-4, Such: "0.04 Ω/1000 ft", IECSuch: "0.08 Ω/km", Source: commonPractice},
	UsualConstant: {Noun: "constant C", Dimension: unit.Ratio, Least: 200, Most: 200e3, Such: "12 000",
		Source: "handbooks list some 400 for 14 AWG to 200 000 for large busway, from memory; " + commonPractice},
	UsualSurgeImpedance: {Noun: "surge impedance", Dimension: unit.Resistance, Least: 5, Most: 600, Such: "50 Ω", Source: commonPractice},
	UsualLeadLength:     {Noun: "lead", Dimension: unit.Length, Most: 10, Such: "18 in", IECSuch: "450 mm", Source: commonPractice},
	UsualLeadSize:       {Noun: "lead size", Dimension: unit.Area, Least: 1e-6, Most: 120e-6, Such: "10 AWG", IECSuch: "6 mm²", Source: commonPractice},
	UsualLevel: {Noun: "level", Dimension: unit.LargeVoltage, Least: 100, Most: 6e3, Such: "1200 V", IECSuch: "1500 V",
		Source: "6 kV is the highest VPR of UL 1449 and the withstand of category IV at 230/400 V (IEC 60664-1), from memory"},
	UsualMCOV:         {Noun: "continuous voltage", Dimension: unit.Voltage, Least: 20, Most: 1500, Such: "320 V", IECSuch: "275 V", Source: commonPractice},
	UsualIn:           {Noun: "In", Dimension: unit.LargeCurrent, Least: 50, Most: 100e3, Such: "20 kA", Source: "preferred values of IEC 61643-11 begin at 0.05 kA, from memory; " + commonPractice},
	UsualImax:         {Noun: "Imax", Dimension: unit.LargeCurrent, Least: 500, Most: 500e3, Such: "50 kA", Source: commonPractice},
	UsualIimp:         {Noun: "Iimp", Dimension: unit.LargeCurrent, Least: 500, Most: 100e3, Such: "12.5 kA", Source: commonPractice},
	UsualSCCR:         {Noun: "SCCR", Dimension: unit.LargeCurrent, Least: 1e3, Most: 200e3, Such: "200 kA", Source: commonPractice},
	UsualBreaker:      {Noun: "breaker", Dimension: unit.Current, Least: 6, Most: 630, Such: "30 A", Source: commonPractice},
	UsualHours:        {Noun: "labour", Dimension: unit.Hours, Least: 0.1, Most: 80, Source: commonPractice},
	UsualSurgeVoltage: {Noun: "open-circuit voltage", Dimension: unit.LargeVoltage, Least: 100, Most: 100e3, Source: commonPractice},
	UsualSurgeCurrent: {Noun: "short-circuit current", Dimension: unit.LargeCurrent, Least: 1, Most: 200e3, Such: "3 kA", Source: commonPractice},
	UsualFlashes: {Noun: "lightning flashes", Dimension: unit.FlashDensity, Least: 0.05, Most: 60,
		Source: commonPractice},
	UsualUpstreamLine: {Noun: "line upstream", Dimension: unit.Length, Most: 20e3,
		Source: "IEC 60364-4-44 clause 443 counts 1 km at the most, from memory; check your edition; " + commonPractice},
	UsualMultiple:  {Noun: "withstand in multiples of the nominal crest", Dimension: unit.Ratio, Least: 1.2, Most: 30, Source: commonPractice},
	UsualWaveSpeed: {Noun: "wave speed", Dimension: unit.Speed, Least: 1e8, Most: 2.998e8, Source: "a third of the speed of light to all of it; " + commonPractice},
}

// Usual returns what is usual of the figure.
func (f Figure) Usual() Usual { return usual[f] }
