package extract

import "math"

const lightSpeed = 2.998e8 // m/s

// radiusOf returns the radius of a round conductor, m.
func radiusOf(area float64) float64 { return math.Sqrt(area / math.Pi) }
