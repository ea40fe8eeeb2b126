package unit

import "testing"

func TestModesWithinATextInTheWordsOfTheConvention(t *testing.T) {
	for _, row := range []struct{ name, text, iec string }{
		{"alone", "L-G", "L-PE"},
		{"in a sentence", "SPD-1 has nothing L-G and nothing N-G", "SPD-1 has nothing L-PE and nothing N-PE"},
		{"before a stop", "no protector holds L-G.", "no protector holds L-PE."},
		{"in brackets and lists", "(L-G), L-N/N-G; L-L", "(L-PE), L-N/N-PE; L-L"},
		{"after a no-break space", "700\u00a0V\u00a0L-G", "700\u00a0V\u00a0L-PE"},
		{"twice in a row", "L-G L-G", "L-PE L-PE"},
		{"letters before", "SPD-L-G", "SPD-L-G"},
		{"letters after", "L-Ground", "L-Ground"},
		{"a digit after", "L-G2", "L-G2"},
		{"a hyphen after", "L-G-4 board", "L-G-4 board"},
		{"a letter beyond ASCII before", "ÖL-G", "ÖL-G"},
		{"one conductor", "between B-G and A-N", "between B-PE and A-N"},
		{"lower case", "l-g", "l-g"},
		{"no mode", "Größe -G", "Größe -G"},
		{"nothing", "", ""},
	} {
		if got := Words(row.text, IEC); got != row.iec {
			t.Errorf("%s: got %q, want %q", row.name, got, row.iec)
		}
		if got := Words(row.text, NorthAmerican); got != row.text {
			t.Errorf("%s: got %q in North America, want it as it is", row.name, got)
		}
	}
}
