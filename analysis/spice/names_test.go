package spice

import (
	"strings"
	"testing"
	"unicode/utf8"

	"clampline/analysis/circuit"

	"github.com/google/go-cmp/cmp"
)

func TestSlug(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"words", "Main switchboard", "main_switchboard"},
		{"marks", "  (Sea-water) pump #2!", "sea_water_pump_2"},
		{"nothing left", "水泵 €", ""},
		{"part of another alphabet", "Zähler 3", "z_hler_3"},
		{"long", strings.Repeat("ab ", 20), "ab_ab_ab_ab_ab_ab_ab_a_ab_ab_ab"},
		{"line ends", "a\n.end\r\nb", "a_end_b"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := slug(test.in); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

func TestDistinct(t *testing.T) {
	got := distinct("bus", []string{"A 2", "a", "A!", "a", "", "*", "bus 5"})
	want := []string{"a_2", "a", "a_3", "a_4", "bus_5", "bus_6", "bus_5_2"}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("names (-got +want):\n%s", diff)
	}
}

// hostileNames are made to break a deck.
var hostileNames = []string{
	"", "*", "*# quit", "a\n.end", "b\r\n.control\nquit\n.endc", "+ more", ".include x", "quote \" ' `", "back\\\\", "$&x ${y} {1/0}",
	"Pumpe für Öl", "水泵", "bad \xff\xfe utf-8", "nul \x00 esc \x1b[2J", "; comment", "! history", "\u2028 line separator", "v(1)", "time", "0", "gnd",
	strings.Repeat("very long ", 2000), "Same Name", "same-name", "SAME NAME",
}

// broken tells in what a deck with hostile names differs from one with plain
// ones of the same network, or nothing.
func broken(hostile, plain string) string {
	a, b := statements(hostile), statements(plain)
	if len(a) != len(b) {
		return "the number of lines"
	}
	taken := map[string]bool{}
	for i := range a {
		name := strings.ToLower(strings.Fields(a[i])[0])
		isElement := strings.Contains(elements, name[:1]) && strings.ContainsAny(name, "0123456789")
		switch {
		case a[i][0] != b[i][0]:
			return "the kind of line " + a[i]
		case strings.Trim(a[i], printable) != "":
			return "the characters of line " + a[i]
		case strings.Count(a[i], " ") != strings.Count(b[i], " "):
			return "the fields of line " + a[i]
		case isElement && taken[name]:
			return "a name that is there twice: " + name
		}
		taken[name] = true
	}
	return ""
}

// elements are the letters with which the names of elements begin.
const elements = "tlrcbvefk"

// printable are the characters that lines other than comments are made of.
const printable = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_ .,:+-*/=<>(){}[]@"

// statements returns the lines that are no comments.
func statements(deck string) []string {
	var out []string
	for _, line := range strings.Split(deck, "\n") {
		if line != "" && !strings.HasPrefix(line, "* ") {
			out = append(out, line)
		}
	}
	return out
}

func FuzzDeckNames(f *testing.F) {
	for i, name := range hostileNames {
		f.Add(name, hostileNames[(i+1)%len(hostileNames)], hostileNames[(i+5)%len(hostileNames)])
	}
	f.Fuzz(func(t *testing.T, a, b, c string) {
		o := sampleOptions()
		plain := deckOf(t, sample(), o)
		o.Title, o.Notes = a, []string{b, c}
		n := sample(a, b, c)
		deck := deckOf(t, n, o)
		if what := broken(deck, plain); what != "" {
			t.Errorf("names change %s", what)
		}
		if !utf8.ValidString(deck) || strings.ContainsAny(deck, "\r\x00\\") {
			t.Error("the deck holds characters that a simulator may not take")
		}
		checkMeasures(t, n)
	})
}

// checkMeasures wants each measure once, under a name of its own.
func checkMeasures(t *testing.T, n *circuit.Network) {
	t.Helper()
	taken := map[string]bool{}
	for _, m := range Measures(n) {
		if taken[m.Name] {
			t.Errorf("measure %s is there twice", m.Name)
		}
		taken[m.Name] = true
	}
}
