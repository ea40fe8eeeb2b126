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
		{"after one digit and a point", "lets 1.5 kA", "5", false},
		{"a unit behind its number", "20 kA each", "kA", true},
		{"a frequency without a space", "of 60 Hz", "60hz", true},
		{"second of two", "120 and 20", "20", true},
		{"right behind one that it is part of", "2020 20", "20", true},
		{"within one that begins alike", "11 111", "111", true},
		{"first letter of the text", "7", "7", true},
		{"after a point that no digit stands before", "size .5", "5", true},
		{"a point at the end", "5.", "5", true},
		{"class with too many letters", "class iiii", "iiii", true},
		{"class by its number", "class 2", "2", true},
		{"class alone", "first class", "class", true},
		{"class in a longer word", "class iv", "class4", false},
		{"class with a letter behind", "class II+III", "class2+iii", true},
		{"type without a number", "type plate", "typeplate", false},
		{"two letters after a number", "20 of them", "20of", false},
		{"a size", "10 AWG", "10awg", true},
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

// A name may begin with its number.
func TestSearchAtTheBeginningOfAName(t *testing.T) {
	entries := []library.Entry{{Protector: diagram.Protector{ID: "a", Name: "20 of them"}}, {Protector: diagram.Protector{ID: "b", Name: ".5 of one"}}}
	for words, want := range map[string]string{"20": "a", "2": "", "5": "b", ".5": "b"} {
		if got := idsOf(library.Search(entries, words)); got != want {
			t.Errorf("%q: got %s, want %s", words, got, want)
		}
	}
}

func BenchmarkSearch(b *testing.B) {
	all := library.BuiltIn()
	for b.Loop() {
		library.Search(all, "type 2 208Y/120 20 kA")
	}
}

// "type" finds every kind of a type, and "class" every other one.
func TestSearchForTypesFindsThemAll(t *testing.T) {
	for word, isMeant := range map[string]func(diagram.Type) bool{
		"type":  func(t diagram.Type) bool { return !strings.HasPrefix(string(t), "class") },
		"class": func(t diagram.Type) bool { return strings.HasPrefix(string(t), "class") },
		"Type":  func(t diagram.Type) bool { return strings.HasPrefix(string(t), "type") },
	} {
		var want []library.Entry
		for _, e := range library.BuiltIn() {
			if isMeant(e.Protector.Type) {
				want = append(want, e)
			}
		}
		if got := library.Search(library.BuiltIn(), word); idsOf(got) != idsOf(want) || len(want) < 10 {
			t.Errorf("%s: got  %s\nwant %s", word, idsOf(got), idsOf(want))
		}
	}
}

// What is searched for may stand in any part of a record, in the words of either
// rating.
func TestSearchInEveryPart(t *testing.T) {
	split := diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	p := diagram.Protector{
		ID: "a", Name: "Heron", Note: "by the door", Type: diagram.Type2, System: split, Rating: diagram.VPR,
		In: 10e3, Imax: 45e3, Iimp: 7e3, SCCR: 65e3, External: true,
	}
	p.Breaker.Rated = 25
	p.Modes[diagram.LineNeutral] = diagram.ModeRating{Connected: true, Level: 600, MCOV: 155}
	p.Modes[diagram.NeutralEarth] = diagram.ModeRating{Connected: true, Level: 500, Switching: true}
	p.Modes[diagram.LineEarth] = diagram.ModeRating{Level: 888, MCOV: 333} // not connected
	up := p
	up.Rating = diagram.Up
	for _, row := range []struct {
		words    string
		vpr, iec bool
	}{
		{"heron", true, true}, {"door", true, true}, {"type 2", true, true}, {"240 V", true, true}, {"split", true, true}, {"60 Hz", true, true},
		{"UL 1449", true, false}, {"IEC 61643-11", false, true}, {"VPR 600 V", true, false}, {"Up 600 V", false, true}, {"0.6 kV", true, true},
		{"MCOV 155", true, false}, {"Uc 155 V", false, true}, {"spark gap", true, true}, {"varistor", true, true}, {"L-N varistor", true, true},
		{"In 10 kA", true, true}, {"Imax 45 kA", true, true}, {"Iimp 7000 A", true, true}, {"SCCR 65 kA", true, true}, {"breaker 25 A", true, true},
		{"external", true, true}, {"L-G", false, false}, {"888", false, false}, {"333", false, false}, {"120/240", true, true},
	} {
		for _, one := range []struct {
			p    diagram.Protector
			want bool
		}{{p, row.vpr}, {up, row.iec}} {
			if got := len(library.Search([]library.Entry{{Protector: one.p}}, row.words)) == 1; got != one.want {
				t.Errorf("%q in one rated by %s: got %v, want %v", row.words, one.p.Rating, got, one.want)
			}
		}
	}
	p.Modes[diagram.LineNeutral] = diagram.ModeRating{Connected: true, Level: 1, MCOV: 0.5}
	for _, words := range []string{"VPR 1 V", "0.001 kV", "MCOV 0.5 V"} { // of a toy
		if len(library.Search([]library.Entry{{Protector: p}}, words)) != 1 {
			t.Errorf("%q is not found", words)
		}
	}
	p.External, p.Breaker.Rated, p.Iimp = false, 0, 0
	for _, words := range []string{"external", "breaker", "Iimp"} {
		if len(library.Search([]library.Entry{{Protector: p}}, words)) != 0 {
			t.Errorf("%q is found where there is none", words)
		}
	}
}

// The connection as the trade of IEC countries writes it (IEC 60364-5-53 connection
// types 1 and 2): x+0 with an element from every conductor to earth, x+1 with the
// sum of the lines led through one from the neutral.
func TestSearchByConnection(t *testing.T) {
	on := func(modes ...diagram.Mode) diagram.Protector {
		p := diagram.Protector{ID: "a", Rating: diagram.Up, System: diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS}}
		for _, m := range modes {
			p.Modes[m].Connected = true
		}
		return p
	}
	one := on(diagram.LineNeutral, diagram.NeutralEarth)
	one.System = diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TT}
	vpr := on(diagram.LineEarth)
	vpr.Rating = diagram.VPR
	for _, row := range []struct {
		name string
		p    diagram.Protector
		want string
	}{
		{"three lines to earth", on(diagram.LineEarth), "3+0"},
		{"lines and neutral to earth", on(diagram.LineEarth, diagram.NeutralEarth), "4+0"},
		{"through the neutral", on(diagram.LineNeutral, diagram.NeutralEarth), "3+1"},
		{"one line through the neutral", one, "1+1"},
		{"every mode", on(diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth), ""},
		{"between lines too", on(diagram.LineEarth, diagram.LineLine), ""},
		{"not to earth at all", on(diagram.LineNeutral), ""},
		{"only the neutral", on(diagram.NeutralEarth), ""},
		{"rated by VPR", vpr, ""},
	} {
		got := ""
		for _, words := range []string{"1+0", "1+1", "2+0", "3+0", "4+0", "3+1", "4+1"} {
			if len(library.Search([]library.Entry{{Protector: row.p}}, words)) == 1 {
				got += words
			}
		}
		if got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
