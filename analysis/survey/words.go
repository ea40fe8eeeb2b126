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

	string(diagram.Type1):    {"type i", "ul type 1"},
	string(diagram.Type2):    {"type ii", "ul type 2"},
	string(diagram.Type3):    {"type iii", "ul type 3"},
	string(diagram.ClassI):   {"class 1"},
	string(diagram.ClassII):  {"class 2"},
	string(diagram.ClassIII): {"class 3"},

	string(diagram.Flush):   {"recessed", "flush mounted", "in the wall", "in wall", "embedded"},
	string(diagram.Surface): {"surface mounted", "on the wall", "on wall", "wall mounted"},

	string(diagram.Copper):    {"cu"},
	string(diagram.Aluminium): {"al", "alu", "aluminum"},

	string(diagram.SteelConduit):       {"emt", "rmc", "imc", "grc", "metal conduit", "steel pipe"},
	string(diagram.AluminiumConduit):   {"aluminum conduit"},
	string(diagram.NonmetallicConduit): {"pvc", "pvc conduit", "ent", "plastic conduit", "non-metallic conduit"},
	string(diagram.SheathedCable):      {"nm", "nm-b", "nym", "nyy"},
	string(diagram.ArmouredCable):      {"mc", "mc cable", "ac cable", "swa", "armored cable", "armoured"},
	string(diagram.Tray):               {"cable tray", "cable ladder"},
	string(diagram.Busway):             {"bus duct", "busduct", "busbar trunking"},
	string(diagram.Overhead):           {"aerial", "open wire"},

	string(diagram.TightLay): {"tight", "bundled", "touching"},
	string(diagram.LooseLay): {"spread", "spaced"},
	string(diagram.Separate): {"separate", "spread"},
	string(diagram.Bundled):  {"tied", "taped", "together"},

	string(diagram.InOrder):     {"ok", "o.k.", "green", "good", "normal", "lit", "on"},
	string(diagram.Fault):       {"red", "failed", "bad", "defective", "replace"},
	string(diagram.Dark):        {"off", "unlit", "no light", "out"},
	string(diagram.NoIndicator): {"none", "no indicator", "no lamp"},

	string(diagram.ToNeutral):     {"line to neutral", "1-phase"},
	string(diagram.BetweenLines):  {"line to line"},
	string(diagram.ThreeWire):     {"3-phase", "3-phase 3-wire", "three-phase without neutral"},
	string(diagram.ThreeWireStar): {"3-phase with neutral", "3-phase 4-wire", "3-phase + n"},
}

// numbered are the types and classes by number: what a number alone means is that of
// the convention, since UL 1449 numbers types and IEC 61643-11 classes.
var numbered = map[unit.Convention][]diagram.Type{
	unit.NorthAmerican: {diagram.Type1, diagram.Type2, diagram.Type3},
	unit.IEC:           {diagram.ClassI, diagram.ClassII, diagram.ClassIII},
}

// byNumber returns the ways to write a type or class by its number alone.
func byNumber(value string, c unit.Convention) []string {
	at := slices.Index(numbered[c], diagram.Type(value))
	if at < 0 {
		return nil
	}
	number := string(rune('1' + at))
	return []string{number, "t" + number, strings.Repeat("i", at+1)}
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
		ways := slices.Concat([]string{o.value, o.words.us, o.words.iec}, o.also, byNumber(o.value, c))
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
