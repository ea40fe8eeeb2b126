package survey

import (
	"slices"
	"strings"
	"unicode"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// words is a phrase in the two conventions.
type words struct{ us, iec string }

// both is a phrase that both conventions share.
func both(s string) words { return words{s, s} }

func (w words) in(c unit.Convention) string {
	if c == unit.IEC {
		return w.iec
	}
	return w.us
}

// option is one of the words that a choice takes.
type option struct {
	value string // as the record has it
	words words
	also  []string // other ways to write it
}

// also lists how people write a word otherwise.
var also = map[string][]string{
	string(diagram.Single):    {"1 phase", "1-phase"},
	string(diagram.TwoOfWye):  {"two of star", "1 phase wye", "1-phase wye"},
	string(diagram.Wye):       {"star", "y", "3 phase wye", "3-phase wye", "3 phase star", "3-phase star"},
	string(diagram.Delta):     {"3 phase delta", "3-phase delta"},
	string(diagram.HighLeg):   {"high-leg", "high leg delta"},
	string(diagram.Solid):     {"grounded", "earthed"},
	string(diagram.Impedance): {"hrg", "resistance grounded"},
}

// optionsOf returns the words of a field. What a nameplate rates stands there as a
// symbol.
func optionsOf(f *field) []option {
	if f.Sort == diagram.SortFlag {
		return []option{{"yes", both("yes"), nil}, {"no", both("no"), nil}}
	}
	var out []option
	for _, word := range f.Words {
		says := words{f.Spoken(word, unit.NorthAmerican), f.Spoken(word, unit.IEC)}
		if f.Key == keyRated {
			says = both(word)
		}
		out = append(out, option{word, says, also[word]})
	}
	return out
}

// wordOf returns how the convention writes a value; one that is not in the list
// stands for itself.
func wordOf(options []option, value string, c unit.Convention) string {
	for _, o := range options {
		if o.value == value {
			return o.words.in(c)
		}
	}
	return value
}

// choose returns the value that a text names.
func choose(options []option, text string, c unit.Convention) (string, error) {
	want := folded(text)
	var listed []string
	for _, o := range options {
		ways := append([]string{o.value, o.words.us, o.words.iec}, o.also...)
		if slices.ContainsFunc(ways, func(way string) bool { return folded(way) == want }) {
			return o.value, nil
		}
		listed = append(listed, o.words.in(c))
	}
	return "", unit.Must{Wanted: "one of: " + strings.Join(listed, "; "), Typed: text}
}

// folded returns a text without what people write one way or another: case,
// spaces, hyphens of any kind, and what stands in brackets.
func folded(text string) string {
	if at := strings.IndexAny(text, "([（"); at > 0 {
		text = text[:at]
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) || unicode.IsControl(r) || r == '\ufeff' || r == '_' || r == '.' || r == '%' {
			return -1
		}
		return unicode.ToLower(r)
	}, text)
}
