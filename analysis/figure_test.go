package analysis

import "testing"

// Below a thousand a figure has three decimals, as many as matter beside a volt or a
// metre; a tiny one, which they would make 0, has three digits.
func TestFigureDecimals(t *testing.T) {
	for v, want := range map[float64]string{
		12.3456: "12.346", 1.0005: "1.001", 0.5: "0.5", 0.12345: "0.123", 0.0016: "0.002", 0.001: "0.001", -0.0016: "-0.002",
		0.00099: "0.00099", 0.00012345: "0.000123", 2.5e-7: "2.5e-07",
	} {
		if got := Figure(v); got != want {
			t.Errorf("%g: got %q, want %q", v, got, want)
		}
	}
}

// Thousands stand apart, three digits at a time, however long the number is.
func TestFigureSetsThousandsApart(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 7: "7", 999: "999", 1234: "1\u00a0234", -1234: "-1\u00a0234", 12000: "12\u00a0000", 123000: "123\u00a0000", 1234000: "1\u00a0234\u00a0000", -12340000: "-12\u00a0340\u00a0000",
	} {
		if got := Figure(v); got != want {
			t.Errorf("%g: got %q, want %q", v, got, want)
		}
	}
}
