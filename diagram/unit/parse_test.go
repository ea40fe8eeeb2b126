package unit

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	tests := []struct {
		text string
		d    Dimension
		us   float64
		iec  float64
	}{
		{"26 in", LeadLength, 0.6604, 0.6604},
		{`26"`, LeadLength, 0.6604, 0.6604},
		{"26''", LeadLength, 0.6604, 0.6604},
		{"26 in.", LeadLength, 0.6604, 0.6604},
		{"2 ft 2 in", LeadLength, 0.6604, 0.6604},
		{"0.6 km", Length, 600, 600},
		{"2ft2in", Length, 0.6604, 0.6604},
		{"2 ft. 2 in.", Length, 0.6604, 0.6604},
		{"2 FT, 2 IN", Length, 0.6604, 0.6604},
		{`2' 2"`, Length, 0.6604, 0.6604},
		{`2'-2"`, Length, 0.6604, 0.6604},
		{"2′2″", Length, 0.6604, 0.6604},
		{"2’ 2”", Length, 0.6604, 0.6604},
		{"2' 2", Length, 0.6604, 0.6604},
		{"2' 2''", Length, 0.6604, 0.6604},
		{"12'6", Length, 3.81, 3.81},
		{"12 ft 6", Length, 3.81, 3.81},
		{"12 ft 6 in", Length, 3.81, 3.81},
		{"12'6 1/2", Length, 3.8227, 3.8227},
		{"2 ft 26 in", Length, 1.27, 1.27},
		{"2.5 ft 6 in", Length, 0.9144, 0.9144},
		{`2' 2 1/2"`, LeadLength, 0.6731, 0.6731},
		{`2'-2-1/2"`, LeadLength, 0.6731, 0.6731},
		{`-2' 2 1/2"`, LeadLength, -0.6731, -0.6731},
		{"2 ft.5 in", Length, 0.6223, 0.6223},
		{"5/8 in", LeadLength, 0.015875, 0.015875},
		{"1/2", LeadLength, 0.0127, 0.0005},
		{"6½", LeadLength, 0.1651, 0.0065},
		{"2 ⅜ in", LeadLength, 0.060325, 0.060325},
		{`1' 2¾"`, LeadLength, 0.37465, 0.37465},
		{"¼", LeadLength, 0.00635, 0.00025},
		{"8 m", Length, 8, 8},
		{"8 M", Length, 8, 8},
		{"660mm", LeadLength, 0.66, 0.66},
		{"660 MM", LeadLength, 0.66, 0.66},
		{"0.66 m", LeadLength, 0.66, 0.66},
		{"1 m 20 cm", Length, 1.2, 1.2},
		{"8", Length, 2.4384, 8},
		{"8", LeadLength, 0.2032, 0.008},
		{"2,5 m", Length, 2.5, 2.5},
		{"0,250 m", Length, 0.25, 0.25},
		{".5 m", Length, 0.5, 0.5},
		{"5. m", Length, 5, 5},
		{" \t8\u00a0m\n", Length, 8, 8},

		{"10", Area, AWGArea(10), 10e-6},
		{"4/0", Area, AWGArea(-3), AWGArea(-3)},
		{"4/0 AWG", Area, AWGArea(-3), AWGArea(-3)},
		{"0000", Area, AWGArea(-3), 0},
		{"0", Area, AWGArea(0), 0},
		{"00 awg", Area, AWGArea(-1), AWGArea(-1)},
		{"#4", Area, AWGArea(4), AWGArea(4)},
		{"# 4", Area, AWGArea(4), AWGArea(4)},
		{"#2/0", Area, AWGArea(-1), AWGArea(-1)},
		{"2 AWG", Area, AWGArea(2), AWGArea(2)},
		{"AWG 2", Area, AWGArea(2), AWGArea(2)},
		{"2awg", Area, AWGArea(2), AWGArea(2)},
		{"250 kcmil", Area, 250 * kcmil.worth, 250 * kcmil.worth},
		{"250", Area, 250 * kcmil.worth, 250e-6},
		{"1e1", Area, AWGArea(10), 10e-6},
		{"1,000", Area, 1000 * kcmil.worth, 1000e-6},
		{"500 MCM", Area, 500 * kcmil.worth, 500 * kcmil.worth},
		{"35 mm2", Area, 35e-6, 35e-6},
		{"35 mm²", Area, 35e-6, 35e-6},
		{"35mm^2", Area, 35e-6, 35e-6},
		{"35 sq mm", Area, 35e-6, 35e-6},
		{"35 sq. mm", Area, 35e-6, 35e-6},
		{"35 MM2", Area, 35e-6, 35e-6},
		{"2,5 mm²", Area, 2.5e-6, 2.5e-6},

		{"480", Voltage, 480, 480},
		{"1.2 kV", Voltage, 1200, 1200},
		{"1.2 KV", Voltage, 1200, 1200},
		{"1200V", Voltage, 1200, 1200},
		{"1,200 V", Voltage, 1200, 1200},
		{"1 200 V", Voltage, 1200, 1200},
		{"1\u202f200 V", Voltage, 1200, 1200},
		{"1,234,567.5 V", Voltage, 1234567.5, 1234567.5},
		{"1.234.567,5 V", Voltage, 1234567.5, 1234567.5},
		{"1.234.567 V", Voltage, 1234567, 1234567},
		{"1 234 567,125 V", Voltage, 1234567.125, 1234567.125},
		{"1.200 V", Voltage, 1.2, 1.2},
		{"1,20 V", Voltage, 1.2, 1.2},
		{"1e3", Voltage, 1000, 1000},
		{"1.5E-3 V", Voltage, 0.0015, 0.0015},
		{"1e+3kV", Voltage, 1e6, 1e6},
		{"-5 V", Voltage, -5, -5},
		{"−5 V", Voltage, -5, -5},
		{"+ 5 V", Voltage, 5, 5},
		{"-0", Voltage, 0, 0},
		{"1 mV", Voltage, 0.001, 0.001},
		{"1 mv", Voltage, 0.001, 0.001},
		{"1 MV", Voltage, 1e6, 1e6},
		{"1 Mv", Voltage, 1e6, 1e6},
		{"5 volts", Voltage, 5, 5},
		{"22 kA", Current, 22000, 22000},
		{"22ka", Current, 22000, 22000},
		{"20 uA", Current, 20e-6, 20e-6},
		{"112.5 kVA", Power, 112500, 112500},
		{"1.5 MVA", Power, 1.5e6, 1.5e6},
		{"5.75 %", Percent, 5.75, 5.75},
		{"5.75%", Percent, 5.75, 5.75},
		{"5 per cent", Percent, 5, 5},
		{"1/4", Ratio, 0.25, 0.25},
		{"60 Hz", Frequency, 60, 60},
		{"100 khz", Frequency, 1e5, 1e5},
		{"25 ohm", Resistance, 25, 25},
		{"25 OHMS", Resistance, 25, 25},
		{"25 \u03a9", Resistance, 25, 25},
		{"25 \u2126", Resistance, 25, 25},
		{"3 mohm", Resistance, 0.003, 0.003},
		{"3 Mohm", Resistance, 3e6, 3e6},
		{"10 uF", Capacitance, 10e-6, 10e-6},
		{"10 \u00b5F", Capacitance, 10e-6, 10e-6},
		{"10 \u03bcF", Capacitance, 10e-6, 10e-6},
		{"2nf", Capacitance, 2e-9, 2e-9},
		{"0.66 uH", Inductance, 0.66e-6, 0.66e-6},
		{"200 m/us", Speed, 2e8, 2e8},
		{"200 m/µs", Speed, 2e8, 2e8},
		{"200", Speed, 2e8, 2e8},
		{"12 m/s", Speed, 12, 12},
		{"1.5 min", Time, 90, 90},
		{"50 µs", Time, 50e-6, 50e-6},
		{"10 MJ", Energy, 1e7, 1e7},
		{"10 mJ", Energy, 0.01, 0.01},
		{"12.5 As", Charge, 12.5, 12.5},
		{"12.5 A s", Charge, 12.5, 12.5},
		{"0.7", FlashDensity, 0.7, 0.7},
		{"0.7 per km2 and year", FlashDensity, 0.7, 0.7},
		{"4 /km²/yr", FlashDensity, 4, 4},
		{"4/km²/yr", FlashDensity, 4, 4},
		{"2.589988110336 per mi² and year", FlashDensity, 1, 1},
		{"15 min", Hours, 0.25, 0.25},
		{"1 h 30 min", Hours, 1.5, 1.5},
		{"2", Hours, 2, 2},
		{"0.0541", Lengthwise, 0.0541 / 304.8, 0.0541e-3},
		{"0.193 ohm/km", Lengthwise, 0.193e-3, 0.193e-3},
		{"0.08 mΩ/m", Lengthwise, 0.08e-3, 0.08e-3},
		{"0.048 ohm per kft", Lengthwise, 0.048 / 304.8, 0.048 / 304.8},
		{"1,250.50", Money, 1250.5, 1250.5},
		{"12", Count, 12, 12},
		{"1 200", Count, 1200, 1200},
	}
	for _, test := range tests {
		t.Run(test.text+" as "+test.d.String(), func(t *testing.T) {
			for c, want := range map[Convention]float64{NorthAmerican: test.us, IEC: test.iec} {
				got, err := Parse(test.text, test.d, c)
				// A factor and a sum may each cost the last bit.
				if err != nil || !within(got, want, 4e-16) {
					t.Errorf("Parse(%q, %s, %s) = %g, %v, want %g", test.text, test.d, c, got, err, want)
				}
			}
		})
	}
}

func TestParseErrors(t *testing.T) {
	tests := []struct {
		text string
		d    Dimension
		c    Convention
		want string
	}{
		{"26 xx", Length, NorthAmerican, `"26 xx": "xx" is no unit of length; write ft, in, m, cm, mm or km`},
		{"26 xx", LeadLength, IEC, `"26 xx": "xx" is no unit of length; write mm, cm, m, in or ft`},
		{"35 kg", Voltage, IEC, `"35 kg": "kg" is no unit of voltage; write V, kV, mV or MV`},
		{"35 kg", Area, IEC, `"35 kg": "kg" is no unit of area; write AWG, kcmil or mm²`},
		{"5 kW", Power, IEC, `"5 kW": "kW" is no unit of apparent power; write kVA, VA or MVA`},
		{"5 V", Percent, IEC, `"5 V": "V" is no unit of percentage; write %`},
		{"", Length, NorthAmerican, `"": the length is missing; write a number and ft, in, m, cm, mm or km`},
		{"  ", Ratio, NorthAmerican, `"  ": the ratio is missing; write a number`},
		{"", Area, NorthAmerican, `"": the size is missing; write one, like 2 AWG, 250 kcmil or 35 mm²`},
		{"-", Voltage, IEC, `"-": there is no number; write one, like 12.5`},
		{"NaN", Voltage, IEC, `"NaN": "NaN" does not begin with a number; write one, like 12.5`},
		{"-Inf", Voltage, IEC, `"-Inf": "Inf" does not begin with a number; write one, like 12.5`},
		{"0x10 V", Voltage, IEC, `"0x10 V": "x10V" is no unit of voltage; write V, kV, mV or MV`},
		{"1e999 V", Voltage, IEC, `"1e999 V": the number is too large; write one below 1e30`},
		{"1e25 MV", Voltage, IEC, `"1e25 MV": the number is too large; write one below 1e30`},
		{"1e-40", Voltage, IEC, `"1e-40": the number is too small; write 0 or one above 1e-30`},
		{"1 mva", Power, IEC, `"1 mva": in "mva" small m is milli and capital M is mega; write MVA`},
		{"1 MΩ/m", Lengthwise, IEC, `"1 MΩ/m": in "MΩ/m" small m is milli and capital M is mega; write mΩ/m`},
		{"1 MF", Capacitance, IEC, `"1 MF": in "MF" small m is milli and capital M is mega; write mF`},
		{"12,00,5 V", Voltage, IEC, `"12,00,5 V": "12,00,5" is no number; write it like 1200, 1 200, 1,200 or 12.5`},
		{"1.2.3", Voltage, IEC, `"1.2.3": "1.2.3" is no number; write it like 1200, 1 200, 1,200 or 12.5`},
		{"5, V", Voltage, IEC, `"5, V": "5," is no number; write it like 1200, 1 200, 1,200 or 12.5`},
		{".", Voltage, IEC, `".": "." is no number; write it like 1200, 1 200, 1,200 or 12.5`},
		{"1/0", Voltage, IEC, `"1/0": this is no fraction; write one number, or a fraction like 1/2 or 2 1/2`},
		{"225/3", Current, NorthAmerican, `"225/3": this is no fraction; write one number, or a fraction like 1/2 or 2 1/2`},
		{"120/240", Voltage, NorthAmerican, `"120/240": this is no fraction; write one number, or a fraction like 1/2 or 2 1/2`},
		{"12 14 m", Length, IEC, `"12 14 m": a number has no unit; write one after each, like 2 ft 2 in`},
		{"2 in 2 ft", Length, IEC, `"2 in 2 ft": ft cannot follow in; write the larger unit first, like 2 ft 2 in`},
		{"32.808 ft40", Length, NorthAmerican, `"32.808 ft40": ` + errBareInches.Error()},
		{"32.808 ft4", Length, NorthAmerican, `"32.808 ft4": ` + errBareInches.Error()},
		{"10 ft 40", Length, NorthAmerican, `"10 ft 40": ` + errBareInches.Error()},
		{"10'12", LeadLength, IEC, `"10'12": ` + errBareInches.Error()},
		{"1/2 ft 6", Length, IEC, `"1/2 ft 6": ` + errBareInches.Error()},
		{"2 m 5", Length, IEC, `"2 m 5": a number has no unit; write one after each, like 2 ft 2 in`},
		{"1 h 30", Hours, IEC, `"1 h 30": a number has no unit; write one after each, like 1 h 30 min`},
		{"2 ft -", Length, IEC, `"2 ft -": there is no number; write one, like 12.5`},
		{"5²", Voltage, IEC, `"5²": "^2" is no unit of voltage; write V, kV, mV or MV`},
		{"40 AWG", Area, IEC, `"40 AWG": ` + errGauge.Error()},
		{"#2.5", Area, NorthAmerican, `"#2.5": ` + errGauge.Error()},
		{"5/0", Area, NorthAmerican, `"5/0": ` + errGauge.Error()},
		{"1 0 AWG", Area, NorthAmerican, `"1 0 AWG": ` + errGauge.Error()},
		{"95", Area, NorthAmerican, `"95": a number alone is a gauge or a kcmil size, and "95" is neither; write AWG, kcmil or mm² after it`},
		{"-3", Area, NorthAmerican, `"-3": a number alone is a gauge or a kcmil size, and "-3" is neither; write AWG, kcmil or mm² after it`},
		{"5 V", Ratio, IEC, `"5 V": "V" cannot follow: a ratio has no unit; write the number alone`},
		{"$5", Money, IEC, `"$5": "$5" does not begin with a number; write one, like 12.5`},
		{"2.5", Count, IEC, `"2.5": a count is a whole number; write it without a fraction`},
		{"5", Dimension(200), IEC, `"5": there is no dimension 200`},
		{"5 " + strings.Repeat("ab", 30), Voltage, IEC, `"5 ` + strings.Repeat("ab", 19) + `…": "` +
			strings.Repeat("ab", 20) + `…" is no unit of voltage; write V, kV, mV or MV`},
		{"1" + strings.Repeat(" 000", 64), Voltage, IEC, `"1` + strings.Repeat(" 000", 9) + ` 00…": ` + errTooLong.Error()},
		{"1" + strings.Repeat(" 000", 63), Voltage, IEC, `"1` + strings.Repeat(" 000", 9) + ` 00…": ` + errTooLarge.Error()},
		{"1 200,300.5", Voltage, IEC, `"1 200,300.5": "1 200,300.5" is no number; write it like 1200, 1 200, 1,200 or 12.5`},
		{"1/m", Voltage, IEC, `"1/m": "/m" is no unit of voltage; write V, kV, mV or MV`},
		{"5e V", Voltage, IEC, `"5e V": "eV" is no unit of voltage; write V, kV, mV or MV`},
	}
	for _, test := range tests {
		name := fmt.Sprintf("%.30s as %s", test.text, test.d)
		t.Run(name, func(t *testing.T) {
			v, err := Parse(test.text, test.d, test.c)
			if err == nil {
				t.Fatalf("got %g, want an error", v)
			}
			if got := err.Error(); got != test.want || v != 0 {
				t.Errorf("got  %g, %s\nwant 0, %s", v, got, test.want)
			}
		})
	}
}

func TestParseRefusesAnUnknownDimension(t *testing.T) {
	for _, d := range []Dimension{Count + 1, 200, 255} {
		if v, err := Parse("1", d, IEC); err == nil || v != 0 {
			t.Errorf("dimension %d: got %g, %v", uint8(d), v, err)
		}
	}
}

func TestCountIsExactOrRefused(t *testing.T) {
	if got, err := Parse("9007199254740992", Count, IEC); err != nil || got != largestCount {
		t.Errorf("got %g, %v, want %d", got, err, int64(largestCount))
	}
	if got, err := Parse("9007199254740994", Count, IEC); err == nil {
		t.Errorf("got %g, want an error beyond 2^53", got)
	}
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"26 in", `2' 2 1/2"`, "2'-2-1/2\"", "8", "660mm", "4/0 AWG", "#4", "250 kcmil", "35 sq mm", "1,200.5 V",
		"1.200,5 kV", "1 200 V", "1e3", "-1e-29", "9e29 mv", "22ka", "µ", "1/0", "1 h 30 min", "\xff5 m", "2 ft.5 in",
	} {
		for d := range uint8(len(quantities)) {
			f.Add(text, d, d%2 == 0)
		}
	}
	f.Fuzz(func(t *testing.T, text string, dimension uint8, metric bool) {
		d, c := Dimension(dimension), NorthAmerican
		if metric {
			c = IEC
		}
		v, err := Parse(text, d, c)
		if err != nil {
			return
		}
		if math.IsNaN(v) || math.Abs(v) > largest || v == 0 && math.Signbit(v) {
			t.Fatalf("Parse(%q, %s, %s) = %g, want a number to be used", text, d, c, v)
		}
		// At the very edge of the range rounding may lead out of it.
		if size := math.Abs(v); size == 0 || size > smallest*1.001 && size < largest*0.999 {
			roundTrip(t, v, d, c)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, row := range []struct {
		text string
		d    Dimension
	}{{"1 240 V", Voltage}, {`2' 2 1/2"`, Length}, {"4/0 AWG", Area}, {"26 xx", Length}} {
		b.Run(row.text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = Parse(row.text, row.d, NorthAmerican)
			}
		})
	}
}
