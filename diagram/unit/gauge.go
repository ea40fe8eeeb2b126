package unit

import (
	"math"
	"slices"
	"strconv"
)

// The gauges that ASTM B258 names, as its formula numbers them: 1/0 is 0 and
// 4/0 is -3.
const (
	smallestGauge = 36
	largestGauge  = -3
)

const (
	shownTolerance = 0.015 // how near an area must be to a size to be shown as it
	exactTolerance = 1e-6  // and to be that size in an entry field
)

// The sizes of the trade: gauges and kcmil of building wire and metric sizes in
// mm². The package comment names the sources.
var (
	pickedGauges = [...]int{14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3}
	kcmilSizes   = [...]float64{250, 300, 350, 400, 500, 600, 700, 750, 800, 900, 1000, 1250, 1500, 1750, 2000}
	metricSizes  = [...]float64{
		1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300, 400, 500, 630,
	}
)

// largestPicked is the largest kcmil size that pickers offer.
const largestPicked = 1000

// AWGDiameter returns the diameter in metres of solid round wire of gauge n,
// from 36 to -3, where 0 is 1/0 and -3 is 4/0: 0.127 mm times 92 to the power
// (36 - n)/39, after ASTM B258.
func AWGDiameter(n int) float64 {
	return 0.127e-3 * math.Pow(92, float64(smallestGauge-n)/39)
}

// AWGArea returns the cross-section in m² of solid round wire of gauge n, from
// 36 to -3.
func AWGArea(n int) float64 { return circle(AWGDiameter(n)) }

// circle returns the area of a circle of that diameter.
func circle(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }

// sizeName returns the gauge or kcmil size that area is within tolerance of.
func sizeName(area, tolerance float64) (string, bool) {
	if name, ok := gaugeName(area, tolerance); ok {
		return name, true
	}
	for _, k := range kcmilSizes {
		if near(area, k*kcmil.worth, tolerance) {
			return kcmil.of(grouped(decimal(k))), true
		}
	}
	return "", false
}

// gaugeName returns the gauge that area is within tolerance of: "4/0 AWG".
func gaugeName(area, tolerance float64) (string, bool) {
	if area < AWGArea(smallestGauge+1) || area > AWGArea(largestGauge-1) {
		return "", false
	}
	diameter := math.Sqrt(area * 4 / math.Pi)
	n := smallestGauge - int(math.Round(39*math.Log(diameter/AWGDiameter(smallestGauge))/math.Log(92)))
	if n > smallestGauge || n < largestGauge || !near(area, AWGArea(n), tolerance) {
		return "", false
	}
	if n <= 0 {
		return strconv.Itoa(1-n) + "/0 AWG", true
	}
	return strconv.Itoa(n) + " AWG", true
}

func near(x, size, tolerance float64) bool { return math.Abs(x-size) <= tolerance*size }

// kcmilSize reports whether k is a kcmil size of the trade.
func kcmilSize(k float64) bool { return slices.Contains(kcmilSizes[:], k) }
