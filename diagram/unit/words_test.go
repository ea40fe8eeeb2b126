package unit

import "testing"

func TestWords(t *testing.T) {
	tests := []struct{ name, got, want string }{
		{"ground", EarthWord(NorthAmerican), "ground"},
		{"earth", EarthWord(IEC), "earth"},
		{"line to ground", ModeWord("L-G", NorthAmerican), "L-G"},
		{"line to earth", ModeWord("L-G", IEC), "L-PE"},
		{"neutral to ground", ModeWord("N-G", NorthAmerican), "N-G"},
		{"neutral to earth", ModeWord("N-G", IEC), "N-PE"},
		{"line to neutral", ModeWord("L-N", IEC), "L-N"},
		{"line to line", ModeWord("L-L", IEC), "L-L"},
		{"unknown mode", ModeWord("", IEC), ""},
		{"us", NorthAmerican.String(), "us"},
		{"iec", IEC.String(), "iec"},
		{"length", Length.String(), "length"},
	}
	for _, test := range tests {
		if test.got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, test.got, test.want)
		}
	}
}

func TestParseConvention(t *testing.T) {
	for text, want := range map[string]Convention{"us": NorthAmerican, "US": NorthAmerican, "iec": IEC, "IEC": IEC} {
		if got, err := ParseConvention(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "metric", "us "} {
		if got, err := ParseConvention(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

func TestUnitName(t *testing.T) {
	tests := []struct {
		d       Dimension
		us, iec string
	}{
		{Length, "ft", "m"},
		{LeadLength, "in", "mm"},
		{Area, "AWG", "mm²"},
		{Voltage, "V", "V"},
		{Current, "A", "A"},
		{LargeVoltage, "kV", "kV"},
		{LargeCurrent, "kA", "kA"},
		{Power, "kVA", "kVA"},
		{Percent, "%", "%"},
		{Ratio, "", ""},
		{Frequency, "Hz", "Hz"},
		{Resistance, "Ω", "Ω"},
		{Lengthwise, "Ω/1000 ft", "Ω/km"},
		{Capacitance, "F", "F"},
		{Inductance, "H", "H"},
		{Speed, "m/µs", "m/µs"},
		{Time, "s", "s"},
		{Energy, "J", "J"},
		{Charge, "C", "C"},
		{FlashDensity, "per km² and year", "per km² and year"},
		{Hours, "h", "h"},
		{Money, "", ""},
		{Count, "", ""},
	}
	for _, test := range tests {
		if got := UnitName(test.d, NorthAmerican); got != test.us {
			t.Errorf("%s in us: got %q, want %q", test.d, got, test.us)
		}
		if got := UnitName(test.d, IEC); got != test.iec {
			t.Errorf("%s in iec: got %q, want %q", test.d, got, test.iec)
		}
	}
}

// A number alone and the same number with the usual unit are one quantity.
func TestUnitNameIsThatOfANumberAlone(t *testing.T) {
	for d := range Dimension(len(quantities)) {
		for _, c := range []Convention{NorthAmerican, IEC} {
			bare, err := Parse("8", d, c)
			if err != nil {
				t.Fatal(err)
			}
			named, err := Parse("8 "+UnitName(d, c), d, c)
			if err != nil || named != bare {
				t.Errorf("%s in %s: got %g, %v with its unit, want %g", d, c, named, err, bare)
			}
		}
	}
}

func TestNames(t *testing.T) {
	for _, row := range []struct {
		names []string
		want  string
	}{
		{nil, ""}, {[]string{"A"}, "A"}, {[]string{"A", "B"}, "A and B"}, {[]string{"A", "B", "C"}, "A, B and C"},
		{[]string{"A", "B", "C", "D", "E", "F"}, "A, B, C, D, E and F"}, {[]string{"A", "B", "C", "D", "E", "F", "G"}, "A, B, C, D, E and 2 more"},
		{[]string{"A", "B", "C", "D", "E", "F", "G", "H", "I"}, "A, B, C, D, E and 4 more"},
	} {
		if got := Names(row.names); got != row.want {
			t.Errorf("%d names: got %q, want %q", len(row.names), got, row.want)
		}
	}
	if got := List([]string{"5", "10", "20"}, "or"); got != "5, 10 or 20" {
		t.Errorf("a choice: got %q", got)
	}
}

func TestCountOf(t *testing.T) {
	for _, row := range []struct {
		n          int
		noun, want string
	}{{0, "part", "0 parts"}, {1, "part", "1 part"}, {3, "part", "3 parts"}, {1, "bus|buses", "1 bus"}, {2, "bus|buses", "2 buses"}} {
		if got := CountOf(row.n, row.noun); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}
