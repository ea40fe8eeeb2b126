package unit

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestFormatEntry(t *testing.T) {
	tests := []struct {
		name  string
		v     float64
		d     Dimension
		c     Convention
		shown string
	}{
		{"whole feet", 24.384, Length, NorthAmerican, "80 ft"},
		{"metres typed, feet shown", 35, Length, NorthAmerican, "114.83 ft"},
		{"feet typed, metres shown", 24.384, Length, IEC, "24.384 m"},
		{"inches", 0.6604, LeadLength, NorthAmerican, "26 in"},
		{"inches typed, mm shown", 0.3048, LeadLength, IEC, "304.8 mm"},
		{"gauge", AWGArea(6), Area, NorthAmerican, "6 AWG"},
		{"gauge typed, mm² shown", AWGArea(6), Area, IEC, "13.302 mm²"},
		{"metric size in the North American convention", 35e-6, Area, NorthAmerican, "35 mm²"},
		{"close to a gauge", 5.26e-6, Area, NorthAmerican, "10 AWG"},
		{"volts", 480, Voltage, NorthAmerican, "480 V"},
		{"250 kcmil", 250 * kcmil.worth, Area, NorthAmerican, "250 kcmil"},
		{"a metric size beyond the gauges", 120e-6, Area, NorthAmerican, "120 mm²"},
		{"a count of seven figures", 1234567, Count, IEC, "1234567"},
		{"an amount of money", 1234567.5, Money, IEC, "1234567.50"},
		{"a third of a volt", 400.0 / 3, Voltage, IEC, "133.33 V"},
	}
	for _, test := range tests {
		if got := FormatEntry(test.v, test.d, test.c); got != test.shown {
			t.Errorf("%s: got %q, want %q", test.name, got, test.shown)
		}
	}
}

// What an entry shows can be typed, and comes near the value: half of the last
// of five figures, or for a gauge the tolerance within which it is shown.
func TestFormatEntryParsesNearby(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 1))
	for range 4000 {
		d := Dimension(rng.IntN(int(Count)))
		c := Convention(rng.IntN(2))
		v := math.Pow(10, 6*rng.Float64()-3)
		if d == Money {
			continue // whole cents only
		}
		text := FormatEntry(v, d, c)
		got, err := Parse(text, d, c)
		if err != nil {
			t.Fatalf("%v %v %g: %q is refused: %v", d, c, v, text, err)
		}
		tolerance := 5e-5
		if d == Area {
			tolerance = shownTolerance + 5e-5
		}
		if math.Abs(got-v) > tolerance*v {
			t.Fatalf("%v %v: %q of %g parses as %g", d, c, text, v, got)
		}
	}
}

// A number typed over what a field shows is in the unit that the field shows.
func TestEntryShowsTheUnitOfANumberAlone(t *testing.T) {
	for d := range Count {
		for _, c := range []Convention{NorthAmerican, IEC} {
			if d == Area && c == NorthAmerican || d == Money {
				continue // the sizes of the trade; no unit
			}
			for _, v := range []float64{0.004, 0.08, 0.6, 45, 800, 22e3, 1.5e6, 3e7} {
				shown := FormatEntry(v, d, c)
				if _, unit, _ := strings.Cut(shown, " "); unit != UnitName(d, c) {
					t.Errorf("%v in %v: %g is shown as %q, and a number alone is in %q", d, c, v, shown, UnitName(d, c))
				}
			}
		}
	}
}

func TestNumbersAloneOfTheTrade(t *testing.T) {
	for _, row := range []struct {
		text string
		d    Dimension
		want float64
	}{
		{"22", LargeCurrent, 22e3}, {"45", Power, 45e3}, {"6", LargeVoltage, 6e3}, {"100", Current, 100}, {"480", Voltage, 480},
	} {
		if got, err := Parse(row.text, row.d, NorthAmerican); err != nil || got != row.want {
			t.Errorf("%s of %v: got %g, %v; want %g", row.text, row.d, got, err, row.want)
		}
	}
}

// What an error offers is taken.
func TestWantedNamesWhatIsTaken(t *testing.T) {
	for d := Length; d <= Count; d++ {
		for _, c := range []Convention{NorthAmerican, IEC} {
			such := Such(d, c)
			v, err := Parse(such, d, c)
			if err != nil || !(v > 0) {
				t.Errorf("%v in %v: %q reads as %g: %v", d, c, such, v, err)
			}
			q := quantityOf(d, c)
			if d != Area && d != Count && !strings.HasSuffix(Wanted(d, c), "number") && !strings.Contains(Wanted(d, c), "with "+q.usual().name()) {
				t.Errorf("%v in %v: %q does not begin with the unit of a number alone, %s", d, c, Wanted(d, c), q.usual().name())
			}
		}
	}
}
