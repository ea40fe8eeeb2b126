package analysis

import "math"

// Words that stand in the source of a finding or of a step.
const (
	CheckEdition   = "check your edition"                  // after a section that was not read in the text itself
	Recalled       = "(from memory; " + CheckEdition + ")" // after a clause that was recalled, not read
	CommonPractice = "common practice, no source"          // what the trade does without a publication
	FromSheet      = "from the sheet"                      // what a person typed in
)

// ProtectedLength is the source of the 10 m of wiring within which a protector
// covers equipment.
const ProtectedLength = "IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.9, as OVE-Fachinformation E09 (2022) gives it (" + CheckEdition + ")"

// ToMicrometre rounds a sum of lengths, m, lest 9.144 m be a hair less.
func ToMicrometre(metres float64) float64 { return math.Round(metres*1e6) / 1e6 }
