package rule

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// convention returns the units that go with the rules that count.
func (s *sheet) convention() unit.Convention {
	if s.iec {
		return unit.IEC
	}
	return unit.NorthAmerican
}

// lengthText writes the length of a run of wiring: "30 ft", "9.14 m".
func (s *sheet) lengthText(metres float64) string {
	return analysis.LengthIn(metres, s.convention())
}

// leadText writes the length of a lead: "26 in", "660 mm".
func (s *sheet) leadText(metres float64) string {
	return strings.ReplaceAll(unit.Format(metres, unit.LeadLength, s.convention()), " ", "\u00a0")
}

// areaText writes a cross-section: "14 AWG", "2.5 mm²".
func (s *sheet) areaText(squareMetres float64) string {
	return unit.Format(squareMetres, unit.Area, s.convention())
}

// systemWords names a system in a sentence: "an unearthed 480 V delta", and one
// whose earthing holds the neutral, or is of IEC, as its tag does.
func systemWords(s diagram.System) string {
	earthed := ""
	switch s.Earthing {
	case diagram.Unearthed:
		earthed = "an unearthed "
	case diagram.Impedance:
		earthed = "an impedance-earthed "
	case diagram.Corner:
		earthed = "a corner-earthed "
	default:
		return s.String()
	}
	switch s.Wiring {
	case diagram.Delta:
		return earthed + volts(s.Voltage) + " delta"
	case diagram.Wye:
		return earthed + volts(s.Voltage) + " wye"
	case diagram.HighLeg:
		return earthed + volts(s.Voltage) + " high-leg delta"
	}
	return earthed + volts(s.Voltage) + " system"
}

// kiloamperes writes a surge or fault current: "22 kA".
func kiloamperes(amperes float64) string { return unit.Format(amperes, unit.Current, unit.IEC) }

// amperes writes the rating of a breaker: "30 A".
func amperes(a float64) string { return analysis.FigureIn(a, "A") }
