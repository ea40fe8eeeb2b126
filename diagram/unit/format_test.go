package unit

import (
	"math"
	"regexp"
	"strings"
	"testing"
)

// In what Format should write a low line stands for a no-break space.
var formatTests = []struct {
	name  string
	value float64
	d     Dimension
	us    string
	iec   string
}{
	{"feeder of 8 m", 8, Length, "26 ft", "8 m"},
	{"dock pedestal", 90, Length, "295 ft", "90 m"},
	{"long line", 1234.5, Length, "4_050 ft", "1_234 m"},
	{"short feeder", 2.25, Length, "7.4 ft", "2.25 m"},
	{"shorter than a foot", 0.0762, Length, "3 in", "76 mm"},
	{"just below a foot rounds to it", 0.304799, Length, "1 ft", "0.305 m"},
	{"no length", 0, Length, "0 ft", "0 m"},
	{"negative zero", math.Copysign(0, -1), Length, "0 ft", "0 m"},
	{"negative", -8, Length, "-26 ft", "-8 m"},
	{"lead of 26 in", 0.6604, LeadLength, "26 in", "660 mm"},
	{"lead of half a metre", 0.5, LeadLength, "19.7 in", "500 mm"},
	{"short lead", 0.0254, LeadLength, "1 in", "25 mm"},
	{"long lead", 3, LeadLength, "118 in", "3_000 mm"},
	{"4/0", 1.0722e-4, Area, "4/0 AWG", "107 mm²"},
	{"10 AWG", 5.26e-6, Area, "10 AWG", "5.26 mm²"},
	{"1/0", 53.5e-6, Area, "1/0 AWG", "53.5 mm²"},
	{"1.4 % over a gauge", 1.014 * AWGArea(2), Area, "2 AWG", "34.1 mm²"},
	{"1.6 % over a gauge", 1.016 * AWGArea(2), Area, "34.2 mm²", "34.2 mm²"},
	{"metric only", 95e-6, Area, "95 mm²", "95 mm²"},
	{"35 mm²", 35e-6, Area, "35 mm²", "35 mm²"},
	{"250 kcmil", 126.7e-6, Area, "250 kcmil", "127 mm²"},
	{"1000 kcmil", 506.7e-6, Area, "1_000 kcmil", "507 mm²"},
	{"no area", 0, Area, "0 mm²", "0 mm²"},
	{"negative area", -1e-6, Area, "-1 mm²", "-1 mm²"},
	{"huge area", 1, Area, "1_000_000 mm²", "1_000_000 mm²"},
	{"480 V", 480, Voltage, "480 V", "480 V"},
	{"thousands of volts", 1240, Voltage, "1_240 V", "1_240 V"},
	{"four figures", 1238.7, Voltage, "1_239 V", "1_239 V"},
	{"10 kV", 1e4, Voltage, "10 kV", "10 kV"},
	{"rounds up to kilovolts", 9999.6, Voltage, "10 kV", "10 kV"},
	{"stays in volts", 9999.4, Voltage, "9_999 V", "9_999 V"},
	{"12.47 kV", 12470, Voltage, "12.47 kV", "12.47 kV"},
	{"a few millivolts", 0.05, Voltage, "50 mV", "50 mV"},
	{"2 MV", 2e6, Voltage, "2 MV", "2 MV"},
	{"round kiloamperes", 22000, Current, "22 kA", "22 kA"},
	{"three figures", 2500, Current, "2.5 kA", "2.5 kA"},
	{"four figures stay in amperes", 6939, Current, "6_939 A", "6_939 A"},
	{"more than 10 kA", 22185, Current, "22.18 kA", "22.18 kA"},
	{"breaker", 30, Current, "30 A", "30 A"},
	{"residual current", 0.03, Current, "30 mA", "30 mA"},
	{"leakage", 2.5e-6, Current, "2.5 µA", "2.5 µA"},
	{"transformer", 112500, Power, "112.5 kVA", "112.5 kVA"},
	{"large transformer", 1.5e6, Power, "1_500 kVA", "1_500 kVA"},
	{"very large transformer", 25e6, Power, "25 MVA", "25 MVA"},
	{"bell transformer", 30, Power, "30 VA", "30 VA"},
	{"impedance", 5.75, Percent, "5.75 %", "5.75 %"},
	{"more than all", 112.5, Percent, "112 %", "112 %"},
	{"ratio", 2.30769, Ratio, "2.308", "2.308"},
	{"large ratio", 12345, Ratio, "12_340", "12_340"},
	{"60 Hz", 60, Frequency, "60 Hz", "60 Hz"},
	{"ring wave", 1e5, Frequency, "100 kHz", "100 kHz"},
	{"earth resistance", 25, Resistance, "25 Ω", "25 Ω"},
	{"feeder resistance", 0.062, Resistance, "62 mΩ", "62 mΩ"},
	{"cable", 0.193e-3, Lengthwise, "0.05883 Ω/1000 ft", "0.193 Ω/km"},
	{"10 kΩ", 1e4, Resistance, "10 kΩ", "10 kΩ"},
	{"winding capacitance", 2e-9, Capacitance, "2 nF", "2 nF"},
	{"10 µF", 1e-5, Capacitance, "10 µF", "10 µF"},
	{"lead inductance", 0.66e-6, Inductance, "0.66 µH", "0.66 µH"},
	{"leakage inductance", 45.9e-6, Inductance, "45.9 µH", "45.9 µH"},
	{"wave on a line", 2e8, Speed, "200 m/µs", "200 m/µs"},
	{"wind", 12, Speed, "12 m/s", "12 m/s"},
	{"tail", 50e-6, Time, "50 µs", "50 µs"},
	{"fast transient", 5e-9, Time, "5 ns", "5 ns"},
	{"cycle", 1.0 / 60, Time, "16.67 ms", "16.67 ms"},
	{"17.9 J", 17.9, Energy, "17.9 J", "17.9 J"},
	{"10 MJ", 1e7, Energy, "10 MJ", "10 MJ"},
	{"44.7 mC", 0.0447, Charge, "44.7 mC", "44.7 mC"},
	{"100 C", 100, Charge, "100 C", "100 C"},
	{"flashes", 1.5, FlashDensity, "1.5 per km² and year", "1.5 per km² and year"},
	{"quarter hour", 0.25, Hours, "15 min", "15 min"},
	{"hour and a half", 1.5, Hours, "1.5 h", "1.5 h"},
	{"half a minute", 30.0 / 3600, Hours, "30 s", "30 s"},
	{"whole money", 1250, Money, "1_250", "1_250"},
	{"money with cents", 12345.5, Money, "12_345.50", "12_345.50"},
	{"less than a cent", -0.001, Money, "0", "0"},
	{"money below nought", -1234.25, Money, "-1_234.25", "-1_234.25"},
	{"count", 1234567, Count, "1_234_567", "1_234_567"},
	{"count that is not whole", 2.6, Count, "3", "3"},
	{"unknown dimension", 2.5, Dimension(200), "2.5", "2.5"},
	{"not a number", math.NaN(), Voltage, "NaN", "NaN"},
	{"infinite", math.Inf(-1), Area, "-Inf", "-Inf"},
	{"very large", 1.5e30, Ratio, "1.5e30", "1.5e30"},
	{"very small", -1.5e-30, Ratio, "-1.5e-30", "-1.5e-30"},
}

func TestFormat(t *testing.T) {
	for _, test := range formatTests {
		t.Run(test.name, func(t *testing.T) {
			for c, want := range map[Convention]string{NorthAmerican: test.us, IEC: test.iec} {
				got := Format(test.value, test.d, c)
				if want := strings.ReplaceAll(want, "_", noBreakSpace); got != want {
					t.Errorf("Format(%g, %s, %s) = %q, want %q", test.value, test.d, c, got, want)
				}
			}
		})
	}
}

// A unit is that of the trade from its first value to the last before the next one
// (common practice, no source).
func TestFormatChangesItsUnit(t *testing.T) {
	for d, row := range map[Dimension]map[float64]string{
		Length:      {0.1: "0.1 m", 0.099: "99 mm"},
		Voltage:     {0.1: "0.1 V", 0.099: "99 mV", 9999: "9_999 V", 999.9e3: "999.9 kV", 1e6: "1 MV"},
		Current:     {1e-4: "0.1 mA", 99e-6: "99 µA", 0.1: "0.1 A", 0.099: "99 mA", 999: "999 A", 1000: "1 kA", 1001: "1_001 A", 9990: "9.99 kA", 9999: "9_999 A", 1e4: "10 kA"},
		Power:       {999: "999 VA", 1e3: "1 kVA", 9.99e6: "9_990 kVA", 1e7: "10 MVA"},
		Frequency:   {999: "999 Hz", 1e3: "1 kHz", 999e3: "999 kHz", 1e6: "1 MHz"},
		Resistance:  {99e-6: "99 µΩ", 1e-4: "0.1 mΩ", 0.099: "99 mΩ", 0.1: "0.1 Ω", 999: "999 Ω", 1e3: "1 kΩ", 999e3: "999 kΩ", 1e6: "1 MΩ"},
		Capacitance: {999e-12: "999 pF", 1e-9: "1 nF", 999e-9: "999 nF", 1e-6: "1 µF", 999e-6: "999 µF", 1e-3: "1 mF", 0.999: "999 mF", 1: "1 F"},
		Inductance:  {99e-9: "99 nH", 1e-7: "0.1 µH", 999e-6: "999 µH", 1e-3: "1 mH", 0.099: "99 mH", 0.1: "0.1 H"},
		Speed:       {999e3: "999_000 m/s", 1e6: "1 m/µs"},
		Time:        {999e-9: "999 ns", 1e-6: "1 µs", 999e-6: "999 µs", 1e-3: "1 ms", 0.999: "999 ms", 1: "1 s"},
		Energy:      {0.099: "99 mJ", 0.1: "0.1 J", 999: "999 J", 1e3: "1 kJ", 999e3: "999 kJ", 1e6: "1 MJ"},
		Charge:      {99e-6: "99 µC", 1e-4: "0.1 mC", 0.099: "99 mC", 0.1: "0.1 C", 999: "999 C", 1e3: "1 kC"},
		Hours:       {59.0 / 3600: "59 s", 1.0 / 60: "1 min", 59.0 / 60: "59 min", 1: "1 h"},
	} {
		for value, want := range row {
			if got := Format(value, d, IEC); got != strings.ReplaceAll(want, "_", noBreakSpace) {
				t.Errorf("%s of %g: got %q, want %q", d, value, got, want)
			}
		}
	}
}

var leadingNumber = regexp.MustCompile(`^[0-9.]+`)

// No quantity has more than four significant figures, but for an amount of money and
// a count.
func TestFormatHasFourFigures(t *testing.T) {
	for d := range Dimension(len(quantities)) {
		if d == Money || d == Count {
			continue
		}
		for exponent := -14; exponent < 14; exponent++ {
			for _, c := range []Convention{NorthAmerican, IEC} {
				text := Format(1.23456789*math.Pow(10, float64(exponent)), d, c)
				number := leadingNumber.FindString(strings.ReplaceAll(text, noBreakSpace, ""))
				if figures := strings.Trim(strings.ReplaceAll(number, ".", ""), "0"); figures == "" || len(figures) > 4 {
					t.Errorf("%s of 1.23456789e%d: got %s", d, exponent, text)
				}
			}
		}
	}
}

// What is shown can be typed in again, and then shows the same.
func TestFormatParses(t *testing.T) {
	for _, test := range formatTests {
		if int(test.d) >= len(quantities) || !finite(test.value) || check(test.value, Ratio) != nil {
			continue // Parse refuses these
		}
		for _, c := range []Convention{NorthAmerican, IEC} {
			text := Format(test.value, test.d, c)
			v, err := Parse(text, test.d, c)
			if err != nil {
				t.Errorf("%s: %v", test.name, err)
				continue
			}
			if got := Format(v, test.d, c); got != text {
				t.Errorf("%s: %q is shown as %q after parsing, want the same", test.name, text, got)
			}
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	for _, row := range []struct {
		name string
		v    float64
		d    Dimension
	}{{"voltage", 1238.7, Voltage}, {"feet", 90, Length}, {"gauge", 1.0722e-4, Area}} {
		b.Run(row.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Format(row.v, row.d, NorthAmerican)
			}
		})
	}
}
