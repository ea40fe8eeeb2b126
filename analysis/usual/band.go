package usual

import "math"

// band is a usual value up to a limit.
type band struct{ upTo, value float64 }

// beyond is the limit of the last band, which goes on.
const beyond = math.MaxFloat64

// inBand returns the value of the first band whose limit is not below at.
func inBand(at float64, bands ...band) float64 {
	i := 0
	for i < len(bands)-1 && at > bands[i].upTo {
		i++
	}
	return bands[i].value
}
