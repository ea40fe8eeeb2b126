package library_test

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/library"
)

func idsOf(entries []library.Entry) string {
	var ids []string
	for _, e := range entries {
		ids = append(ids, string(e.Protector.ID))
	}
	return strings.Join(ids, " ")
}

func TestSearch(t *testing.T) {
	tests := []struct{ name, words, want string }{
		{"system", "208y/120", "type-1-208Y-120 type-2-208Y-120 type-3-208Y-120"},
		{"type and system, in any order", "208Y/120 TYPE 2", "type-2-208Y-120"},
		{"class", "class I", "class-I-TN-C-3-0 class-I-TN-S-4-0 class-I-TT-3-1 class-I-II-TN-S-4-0"},
		{"class by a longer number", "class iii", "class-III-230-outlet"},
		{"both classes", "class I class II", "class-I-II-TN-S-4-0"},
		{"connection", "3+1", "class-I-TT-3-1 class-II-TN-S-3-1 class-II-TT-3-1"},
		{"connection of one line", "1+1 TT", "class-II-230-TT-1-1"},
		{"wiring", "high leg", "type-2-240-120-high-leg"},
		{"wiring with a hyphen", "high-leg", "type-2-240-120-high-leg"},
		{"earthing", "ungrounded", "type-2-240-delta type-2-480-delta"},
		{"earthing in the name", "corner", "type-2-480-corner"},
		{"earthing as on a tag", "hrg", "type-2-480-HRG"},
		{"level in kilovolts", "up 2.5 kV", "class-II-690-400-TN-S-4-0"},
		{"level in volts", "VPR 1500 V", "type-2-600Y-347"},
		{"level without its unit", "2500 IEC", "class-II-690-400-TN-S-4-0"},
		{"current", "12.5 kA", "class-I-TT-3-1 class-I-II-TN-S-4-0"},
		{"current without a space", "iimp 25kA", "class-I-TN-C-3-0 class-I-TN-S-4-0"},
		{"current in amperes", "sccr 22000 a", "type-2-120-240-compact"},
		{"continuous voltage", "Uc 460", "class-II-IT-3-0"},
		{"standard", "UL 1449 cord", "type-3-120-cord"},
		{"part of a word", "recept", "type-3-120-receptacle"},
		{"gap", "spark gap class II TN-S", "class-II-TN-S-3-1"},
		{"nothing that there is", "thyristor", ""},
		{"a number within another", "69", ""},
		{"one word of two", "480Y/277 thyristor", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := idsOf(library.Search(library.BuiltIn(), test.words)); got != test.want {
				t.Errorf("got  %s\nwant %s", got, test.want)
			}
		})
	}
}

func TestSearchWithoutWordsGivesAll(t *testing.T) {
	all := library.BuiltIn()
	for _, words := range []string{"", "  \t"} {
		if got := library.Search(all, words); idsOf(got) != idsOf(all) {
			t.Errorf("%q: got %d of %d, or another order", words, len(got), len(all))
		}
	}
}

// Numbers are found where they stand alone, whatever stands beside them.
func TestSearchTakesNumbersWhole(t *testing.T) {
	entry := func(note string) []library.Entry {
		return []library.Entry{{Protector: diagram.Protector{ID: "a", Note: note}}}
	}
	tests := []struct {
		name, note, words string
		want              bool
	}{
		{"alone", "rated 20 today", "20", true},
		{"at the end of a sentence", "It has 700.", "700", true},
		{"with a unit", "20 kA each", "20", true},
		{"in a longer number", "200 kA each", "20", false},
		{"at the end of a longer number", "120 V", "20", false},
		{"before a decimal point", "12.5 kA", "12", false},
		{"after a decimal point", "12.5 kA", "5", false},
		{"second of two", "120 and 20", "20", true},
		{"across a no-break space", "1500\u00A0V", "1500 V", true},
		{"across words", "20 or kA", "20 kA", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := len(library.Search(entry(test.note), test.words)) == 1; got != test.want {
				t.Errorf("%q in %q: got %t, want %t", test.words, test.note, got, test.want)
			}
		})
	}
}

func BenchmarkSearch(b *testing.B) {
	all := library.BuiltIn()
	for b.Loop() {
		library.Search(all, "type 2 208Y/120 20 kA")
	}
}
