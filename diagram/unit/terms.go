package unit

import (
	"strings"
	"unicode"
)

// term is a phrase in lower case, word by word, and what the other convention says
// for it.
type term struct {
	from []string
	to   string
}

// dictionary is the terms of a convention by their first word, of those with the
// same one the longest first.
type dictionary map[string][]term

// newDictionary takes pairs: what is said, and what to say for it. A phrase that
// stays as it is stands for itself.
func newDictionary(pairs [][2]string) dictionary {
	out := dictionary{}
	for _, pair := range pairs {
		words := strings.Split(pair[0], " ")
		out[words[0]] = append(out[words[0]], term{words, pair[1]})
	}
	return out
}

func dictionaryOf(c Convention) dictionary {
	if c == IEC {
		return toIEC
	}
	return toNorthAmerican
}

var toNorthAmerican = newDictionary([][2]string{
	{"protective conductors", "equipment grounding conductors"},
	{"protective conductor", "equipment grounding conductor"},
	{"protective earth", "equipment ground"},
	{"earth electrodes", "grounding electrodes"},
	{"earth electrode", "grounding electrode"},
	{"star point", "wye point"},
	{"per cent", "percent"},
	{"earth", "ground"},
	{"earthed", "grounded"},
	{"earthing", "grounding"},
	{"unearthed", "ungrounded"},
	{"aluminium", "aluminum"},
	{"metre", "meter"},
	{"metres", "meters"},
})

var toIEC = newDictionary([][2]string{
	{"equipment grounding conductors", "protective conductors"},
	{"equipment grounding conductor", "protective conductor"},
	{"equipment ground", "protective earth"},
	{"grounding electrodes", "earth electrodes"},
	{"grounding electrode", "earth electrode"},
	{"ground floor", "ground floor"}, // in the name of a part
	{"ground level", "ground level"},
	{"wye point", "star point"},
	{"ground", "earth"},
	{"grounded", "earthed"},
	{"grounding", "earthing"},
	{"ungrounded", "unearthed"},
	{"percent", "per cent"},
	{"aluminum", "aluminium"},
})

// Terms returns a text of the analysis in the words of the convention: earth is
// ground in North America and ground is earth by IEC, the article before it with
// it, and the names of protection modes and of pairs of conductors are as ModeWord
// has them. Only whole words in lower case are changed, so that a part named "Earth
// Sciences" keeps its name; call it before a text gets a capital letter.
func Terms(text string, c Convention) string {
	pieces, known := split(text), dictionaryOf(c)
	for i := 0; i < len(pieces); i += 2 {
		n, to := known.say(pieces[i:], c)
		if to == pieces[i] {
			continue
		}
		pieces[i] = to
		clear(pieces[i+1 : i+n])
		if unicode.IsLower(rune(to[0])) { // not a pair of conductors
			putArticle(pieces, i)
		}
	}
	return strings.Join(pieces, "")
}

// split parts a text into words and what stands between them, by turns; it begins
// and ends with a word, which may be empty.
func split(text string) []string {
	var out []string
	for rest := text; ; {
		end := strings.IndexFunc(rest, func(r rune) bool { return !inWord(r) })
		if end < 0 {
			return append(out, rest)
		}
		next := end + strings.IndexFunc(rest[end:]+"x", inWord)
		out = append(out, rest[:end], rest[end:min(next, len(rest))])
		rest = rest[min(next, len(rest)):]
	}
}

// say returns what the convention says for the first of the pieces, and how many
// of them it stands for.
func (d dictionary) say(pieces []string, c Convention) (n int, to string) {
	for _, t := range d[pieces[0]] {
		if n := begins(pieces, t.from); n > 0 {
			if t.to == strings.Join(t.from, " ") {
				return 1, pieces[0]
			}
			return n, t.to
		}
	}
	return 1, pairWord(d.compound(pieces[0]), c)
}

// begins returns how many pieces make up the phrase that they begin with, or 0.
func begins(pieces []string, words []string) int {
	n := 2*len(words) - 1
	if n > len(pieces) {
		return 0
	}
	for i, word := range words {
		if pieces[2*i] != word || i > 0 && !isSpace(pieces[2*i-1]) {
			return 0
		}
	}
	return n
}

func isSpace(text string) bool { return text == " " || text == noBreakSpace }

// compound changes the words of which hyphens make one, "line-to-earth". With
// capitals or digits it is a name and stays.
func (d dictionary) compound(word string) string {
	if !strings.Contains(word, "-") || strings.ContainsFunc(word, func(r rune) bool { return r != '-' && !unicode.IsLower(r) }) {
		return word
	}
	parts := strings.Split(word, "-")
	for i, part := range parts {
		for _, t := range d[part] {
			if len(t.from) == 1 {
				parts[i] = t.to
			}
		}
	}
	return strings.Join(parts, "-")
}

// putArticle puts the article before a changed word right.
func putArticle(pieces []string, at int) {
	if at < 2 || !isSpace(pieces[at-1]) {
		return
	}
	vowel := strings.ContainsRune("aeiou", rune(pieces[at][0]))
	switch before := pieces[at-2]; {
	case vowel && (before == "a" || before == "A"):
		pieces[at-2] = before + "n"
	case !vowel && (before == "an" || before == "An"):
		pieces[at-2] = before[:1]
	}
}

// inWord reports whether the rune belongs to a word; a hyphen joins.
func inWord(r rune) bool { return r == '-' || r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }

// pairWord is ModeWord for a pair of one conductor and earth, too.
func pairWord(word string, c Convention) string {
	switch word {
	case "A-G", "B-G", "C-G":
		if c == IEC {
			return word[:1] + "-PE"
		}
	}
	return ModeWord(word, c)
}
