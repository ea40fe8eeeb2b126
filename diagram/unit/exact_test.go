package unit

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestFormatExact(t *testing.T) {
	tests := []struct {
		name  string
		value float64
		d     Dimension
		us    string
		iec   string
	}{
		{"lead in inches", 0.6604, LeadLength, "26 in", "660.4 mm"},
		{"lead in half inches", 26.5 * 0.0254, LeadLength, "26.5 in", "673.1 mm"},
		{"lead in millimetres", 0.5, LeadLength, "500 mm", "500 mm"},
		{"third of an inch", 0.0254 / 3, LeadLength, "0.3333333333333 in", "8.466666666667 mm"},
		{"feeder in metres", 8, Length, "8 m", "8 m"},
		{"feeder in feet", 26 * 0.3048, Length, "26 ft", "7.9248 m"},
		{"feet and inches", 0.6604, Length, "2 ft 2 in", "0.6604 m"},
		{"feet and half inches", -26.5 * 0.0254, Length, "-2 ft 2.5 in", "-0.6731 m"},
		{"gauge", AWGArea(-3), Area, "4/0 AWG", "4/0 AWG"},
		{"almost a gauge", AWGArea(-3) * (1 + 0.9e-6), Area, "4/0 AWG", "4/0 AWG"},
		{"near a gauge", 1.0722e-4, Area, "107.22 mm²", "107.22 mm²"},
		{"kcmil", 250 * kcmil.worth, Area, "250 kcmil", "250 kcmil"},
		{"metric", 35e-6, Area, "35 mm²", "35 mm²"},
		{"no area", 0, Area, "0 mm²", "0 mm²"},
		{"volts", 1240, Voltage, "1240 V", "1240 V"},
		{"kilovolts", 12470, Voltage, "12.47 kV", "12.47 kV"},
		{"kiloamperes", 22185, Current, "22.185 kA", "22.185 kA"},
		{"kilovolt-amperes", 112500, Power, "112.5 kVA", "112.5 kVA"},
		{"sum of tenths", 0.1 + 0.2, Ratio, "0.3", "0.3"},
		{"third of an hour", 1.0 / 3, Hours, "20 min", "20 min"},
		{"quarter of an hour", 0.25, Hours, "15 min", "15 min"},
		{"money", 1250.5, Money, "1250.50", "1250.50"},
		{"money in mills", 0.125, Money, "0.125", "0.125"},
		{"largest count", largestCount, Count, "9.007199254740992e15", "9.007199254740992e15"},
		{"nothing", 0, Current, "0 A", "0 A"},
		{"not a number", math.NaN(), Current, "NaN", "NaN"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			for c, want := range map[Convention]string{NorthAmerican: test.us, IEC: test.iec} {
				if got := FormatExact(test.value, test.d, c); got != want {
					t.Errorf("FormatExact(%g, %s, %s) = %q, want %q", test.value, test.d, c, got, want)
				}
			}
		})
	}
}

// roundTrip checks that v is read back from what FormatExact writes, within
// what the package comment promises.
func roundTrip(t *testing.T, v float64, d Dimension, c Convention) {
	t.Helper()
	text := FormatExact(v, d, c)
	got, err := Parse(text, d, c)
	if err != nil {
		t.Fatalf("%g as %s in %s: %v", v, d, c, err)
	}
	tolerance := 1e-12
	if strings.HasSuffix(text, "AWG") {
		tolerance = 1e-6
	}
	if math.Abs(got-v) > tolerance*math.Abs(v) {
		t.Errorf("%g as %s in %s: %q is read as %g, off by %g of it", v, d, c, text, got, got/v-1)
	}
}

func TestRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(60617, 315))
	for d := range Dimension(len(quantities)) {
		for range 5000 {
			for _, v := range randomValues(random, d) {
				roundTrip(t, v, d, NorthAmerican)
				roundTrip(t, v, d, IEC)
			}
		}
	}
}

// randomValues returns values of any size and values that are round in some
// unit of the dimension, as people type them.
func randomValues(random *rand.Rand, d Dimension) []float64 {
	if d == Count {
		return []float64{float64(random.Int64N(largestCount)), float64(random.IntN(2000) - 1000)}
	}
	takes := quantityOf(d, NorthAmerican).takes
	m := takes[random.IntN(len(takes))]
	values := []float64{
		math.Pow(10, 58*random.Float64()-29) * sign(random), // nearly all that Parse takes
		math.Pow(10, 14*random.Float64()-12) * sign(random),
		float64(random.IntN(20000)-10000) / 8 * m.worth,
		float64(random.IntN(20000)-10000) / 100 * m.worth,
	}
	if d == Area {
		gauge := AWGArea(random.IntN(40) - 3)
		values = append(values, gauge, gauge*(1+4e-6*(random.Float64()-0.5)))
	}
	return values
}

func sign(random *rand.Rand) float64 { return float64(2*random.IntN(2) - 1) }

func TestNoPanicOnAnyNumber(t *testing.T) {
	values := []float64{math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, math.Inf(1), math.NaN()}
	for _, v := range values {
		for d := range Dimension(len(quantities) + 1) {
			for c := range Convention(3) {
				if Format(v, d, c) == "" || FormatExact(v, d, c) == "" {
					t.Errorf("%g as %s in %s is written as nothing", v, d, c)
				}
			}
		}
	}
}
