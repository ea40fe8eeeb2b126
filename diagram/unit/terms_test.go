package unit

import "testing"

func TestTerms(t *testing.T) {
	for _, row := range []struct{ name, text, us, iec string }{
		{"the four words", "earth, earthed, earthing and unearthed", "ground, grounded, grounding and ungrounded", "earth, earthed, earthing and unearthed"},
		{"and back", "ground, grounded, grounding and ungrounded", "ground, grounded, grounding and ungrounded", "earth, earthed, earthing and unearthed"},
		{"an article", "set an earth bar beside it", "set a ground bar beside it", "set an earth bar beside it"},
		{"an article and back", "a ground bar", "a ground bar", "an earth bar"},
		{"at the beginning", "An earthing that is not known", "A grounding that is not known", "An earthing that is not known"},
		{"a grounded line", "A grounded line", "A grounded line", "An earthed line"},
		{"an article that stays", "an ungrounded system", "an ungrounded system", "an unearthed system"},
		{"an article before another word", "a solid earth and an old one", "a solid ground and an old one", "a solid earth and an old one"},
		{"a phrase", "over the protective conductors", "over the equipment grounding conductors", "over the protective conductors"},
		{"a phrase and back", "an equipment grounding conductor", "an equipment grounding conductor", "a protective conductor"},
		{"a phrase with its article", "a protective earth", "an equipment ground", "a protective earth"},
		{"an electrode", "the earth electrode", "the grounding electrode", "the earth electrode"},
		{"hyphens", "line-to-earth, corner-grounded", "line-to-ground, corner-grounded", "line-to-earth, corner-earthed"},
		{"spelling", "12 AWG of aluminium", "12 AWG of aluminum", "12 AWG of aluminium"},
		{"a name with a capital", "Earth Sciences on Ground Floor Panel", "Earth Sciences on Ground Floor Panel", "Earth Sciences on Ground Floor Panel"},
		{"a name in lower case", "SPD-1 on Board ground floor", "SPD-1 on Board ground floor", "SPD-1 on Board ground floor"},
		{"a name with a hyphen", "SPD-earth", "SPD-earth", "SPD-earth"},
		{"within a word", "unearthly underground background", "unearthly underground background", "unearthly underground background"},
		{"a mode and its article", "an L-G rating", "an L-G rating", "an L-PE rating"},
		{"before a stop", "on earth.", "on ground.", "on earth."},
		{"over a line", "protective\nconductor", "protective\nconductor", "protective\nconductor"},
		{"nothing", "", "", ""},
	} {
		if got := Terms(row.text, NorthAmerican); got != row.us {
			t.Errorf("%s: got %q in North America, want %q", row.name, got, row.us)
		}
		if got := Terms(row.text, IEC); got != row.iec {
			t.Errorf("%s: got %q by IEC, want %q", row.name, got, row.iec)
		}
	}
}

// A text that is in the words of a convention stays as it is in that.
func TestTermsTwiceAreTermsOnce(t *testing.T) {
	for _, c := range []Convention{NorthAmerican, IEC} {
		for _, pairs := range []dictionary{toNorthAmerican, toIEC} {
			for _, all := range pairs {
				for _, term := range all {
					once := Terms("a "+term.to, c)
					if got := Terms(once, c); got != once {
						t.Errorf("%s: %q becomes %q", c, once, got)
					}
				}
			}
		}
	}
}
