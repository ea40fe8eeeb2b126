package rule

import (
	"clampline/analysis"
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
	return unit.Format(metres, unit.Length, s.convention())
}

// leadText writes the length of a lead: "26 in", "660 mm".
func (s *sheet) leadText(metres float64) string {
	return unit.Format(metres, unit.LeadLength, s.convention())
}

// areaText writes a cross-section: "14 AWG", "2.5 mm²".
func (s *sheet) areaText(squareMetres float64) string {
	return unit.Format(squareMetres, unit.Area, s.convention())
}

// kiloamperes writes a surge or fault current: "22 kA".
func kiloamperes(amperes float64) string { return unit.Format(amperes, unit.Current, unit.IEC) }

// amperes writes the rating of a breaker: "30 A".
func amperes(a float64) string { return analysis.FigureIn(a, "A") }
