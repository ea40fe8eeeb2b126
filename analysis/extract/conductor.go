package extract

import "math"

const lightSpeed = 2.998e8 // m/s

// radiusOf returns the radius of a round conductor, m.
func radiusOf(area float64) float64 { return math.Sqrt(area / math.Pi) }

// reactance is one row of a table of cable reactances.
type reactance struct {
	area float64 // m2
	ohms float64 // at 60 Hz, to neutral, per 1000 ft
}

// reactances is NEC (NFPA 70:2020) chapter 9 table 9, three single conductors
// in a nonmetallic conduit, column X of PVC and aluminium conduits. Areas are
// those of ASTM B258 and of the kcmil names.
func reactances() []reactance {
	return []reactance{
		{2.08e-6, 0.058}, {3.31e-6, 0.054}, {5.26e-6, 0.050}, {8.37e-6, 0.052}, {13.3e-6, 0.051}, {21.15e-6, 0.048},
		{33.6e-6, 0.045}, {53.5e-6, 0.044}, {67.4e-6, 0.043}, {85.0e-6, 0.042}, {107.2e-6, 0.041}, {126.7e-6, 0.041},
		{177e-6, 0.040}, {253e-6, 0.039}, {380e-6, 0.038}, {507e-6, 0.037},
	}
}

// looseInductance returns the inductance of each of several like conductors
// that lie loose in a conduit, against the bundle's own middle, H/m. It is
// that of the table at 60 Hz less the part inside the conductor, which a surge
// does not see (0.05 µH/m). Between rows it goes with the logarithm of the
// area; beyond the ends it stays.
func looseInductance(area float64) float64 {
	const perFoot, inside = 304.8 * 2 * math.Pi * 60, 0.05e-6
	rows := reactances()
	ohms := rows[0].ohms
	for i, row := range rows {
		if area <= row.area {
			if i > 0 {
				before := rows[i-1]
				share := math.Log(area/before.area) / math.Log(row.area/before.area)
				ohms = before.ohms + share*(row.ohms-before.ohms)
			}
			break
		}
		ohms = row.ohms
	}
	return ohms/perFoot - inside
}
