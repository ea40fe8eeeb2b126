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

func wirings() []option {
	return []option{
		{string(diagram.Single), both("single phase"), []string{"single", "1 phase", "1-phase"}},
		{string(diagram.Split), both("split phase"), []string{"split"}},
		{string(diagram.TwoOfWye), words{"two lines of a wye", "two lines of a star"}, []string{"two of wye", "two of star", "1 phase wye", "1-phase wye"}},
		{string(diagram.Wye), words{"three-phase wye", "three-phase star"}, []string{"wye", "star", "y", "3 phase wye", "3-phase wye", "3 phase star", "3-phase star"}},
		{string(diagram.Delta), both("three-phase delta"), []string{"delta", "3 phase delta", "3-phase delta"}},
		{string(diagram.HighLeg), both("high-leg delta"), []string{"high leg", "high-leg", "high leg delta"}},
	}
}

func earthings() []option {
	out := []option{
		{string(diagram.Solid), words{"solidly grounded", "solidly earthed"}, []string{"solid", "grounded", "earthed"}},
		{string(diagram.Impedance), words{"high-resistance grounded", "earthed through an impedance"}, []string{"impedance", "hrg", "resistance grounded"}},
		{string(diagram.Corner), words{"corner grounded", "one line earthed"}, []string{"corner"}},
		{string(diagram.Unearthed), words{"ungrounded", "unearthed"}, nil},
	}
	for _, code := range []diagram.Earthing{diagram.TNS, diagram.TNC, diagram.TNCS, diagram.TT, diagram.IT} {
		out = append(out, option{string(code), both(string(code)), []string{strings.ReplaceAll(string(code), "-", "")}})
	}
	return out
}

func mountings() []option { return plainOptions(diagram.Surface, diagram.Flush) }

func types() []option { return plainOptions(diagram.Types()...) }

func ratings() []option { return plainOptions(diagram.VPR, diagram.Up) }

func plainOptions[T ~string](values ...T) []option {
	var out []option
	for _, v := range values {
		out = append(out, option{value: string(v), words: both(string(v))})
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
