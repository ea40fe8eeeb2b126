package extract

import (
	"math"

	"clampline/analysis/conductor"
)

const lightSpeed = 2.998e8 // m/s

// radiusOf returns the radius of a round conductor, m.
func radiusOf(area float64) float64 { return math.Sqrt(area / math.Pi) }

// looseInductance returns the inductance of each of several like conductors
// that lie loose in a conduit, against the bundle's own middle, H/m. It is
// that of NFPA 70 chapter 9 table 9, column of nonmetallic conduits, at 60 Hz less
// the part inside the conductor, which a surge does not see (0.05 µH/m). Beyond the
// sizes of the table it stays.
func looseInductance(area float64) float64 {
	const inside = 0.05e-6
	ohms := conductor.LookUp(area, func(row *conductor.Row) float64 { return row.X[0] }, 0) / conductor.ThousandFeet
	return ohms/(2*math.Pi*60) - inside
}
