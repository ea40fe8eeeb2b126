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

// A length in other units than those of the convention has them beside it.
func TestLengthsWithinAText(t *testing.T) {
	const nbsp = noBreakSpace
	for _, row := range []struct{ name, text, us, iec string }{
		{"metres", "beyond 10" + nbsp + "m the", "beyond 10" + nbsp + "m (33 ft) the", "beyond 10" + nbsp + "m the"},
		{"feet", "30" + nbsp + "ft.", "30" + nbsp + "ft.", "30" + nbsp + "ft (9.1 m)."},
		{"a lead", "26" + nbsp + "in long", "26" + nbsp + "in long", "26" + nbsp + "in (660 mm) long"},
		{"millimetres", "500" + nbsp + "mm", "500" + nbsp + "mm (20 in)", "500" + nbsp + "mm"},
		{"thousands", "1" + nbsp + "200" + nbsp + "m", "1" + nbsp + "200" + nbsp + "m (3" + nbsp + "900 ft)", "1" + nbsp + "200" + nbsp + "m"},
		{"with another beside it", "30" + nbsp + "m (100 ft)", "30" + nbsp + "m (100 ft)", "30" + nbsp + "m (100 ft)"},
		{"no length", "200" + nbsp + "m/µs and 6" + nbsp + "mm² and 5" + nbsp + "mΩ", "200" + nbsp + "m/µs and 6" + nbsp + "mm² and 5" + nbsp + "mΩ", "200" + nbsp + "m/µs and 6" + nbsp + "mm² and 5" + nbsp + "mΩ"},
		{"in a name", "Cable 30 m", "Cable 30 m", "Cable 30 m"},
	} {
		if got := Words(row.text, NorthAmerican); got != row.us {
			t.Errorf("%s: got %q in North America, want %q", row.name, got, row.us)
		}
		if got := Words(row.text, IEC); got != row.iec {
			t.Errorf("%s: got %q by IEC, want %q", row.name, got, row.iec)
		}
	}
}

func TestRoundLimit(t *testing.T) {
	for _, row := range []struct{ metres, feet float64 }{{10, 30}, {2000, 6500}, {0, 0}, {1, 3}} {
		if got := RoundLimit(row.metres, NorthAmerican) / 0.3048; got < row.feet-1e-9 || got > row.feet+1e-9 {
			t.Errorf("%g m: got %g ft, want %g", row.metres, got, row.feet)
		}
		if got := RoundLimit(row.metres, IEC); got != row.metres {
			t.Errorf("%g m: got %g m by IEC, want it as it is", row.metres, got)
		}
	}
}

func TestSentenceCase(t *testing.T) {
	for text, want := range map[string]string{"": "", "the leads": "The leads", "über": "Über", "Already": "Already"} {
		if got := SentenceCase(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// A line takes what fits to the letter; a longer word stands alone, and a no-break
// space does not break.
func TestWrapped(t *testing.T) {
	for _, row := range []struct {
		name, text string
		width      int
		want       string
	}{
		{"fits to the letter", "aaa bbb", 7, "aaa bbb"},
		{"a letter too long", "aaa bbb", 6, "aaa\nbbb"},
		{"filled again", "aa bb cc dd", 5, "aa bb\ncc dd"},
		{"a word that is longer", "a bbbbbb c", 3, "a\nbbbbbb\nc"},
		{"letters and not bytes", "äöü µΩ", 6, "äöü µΩ"},
		{"any white space", " a\n\tb  c ", 9, "a b c"},
		{"no-break space", "aaa 700\u00a0V", 7, "aaa\n700\u00a0V"},
		{"nothing", "  ", 5, ""},
	} {
		if got := Wrapped(row.text, row.width); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
