package analysis

import "testing"

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
