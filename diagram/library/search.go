package library

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"clampline/diagram"
)

// Search returns the entries in which all the words occur, in their order:
// those of the name and note, of the system, and the ratings as people write
// them, such as "700", "20 kA", "1.5 kV" or "3+1". Capitals do not matter, and
// a word may be part of a longer one, but not a number of a longer number.
func Search(all []Entry, words string) []Entry {
	wanted := strings.Fields(plain(words))
	var out []Entry
	for _, e := range all {
		text := plain(describe(e.Protector))
		if !slices.ContainsFunc(wanted, func(word string) bool { return !occurs(text, word) }) {
			out = append(out, e)
		}
	}
	return out
}

// plain returns the text in lower case, with what belongs together in one word:
// "20 kA" becomes 20ka, "type 2" type2 and "class II" class2.
func plain(text string) string {
	var out strings.Builder
	before := ""
	for _, word := range strings.Fields(strings.ToLower(text)) {
		joined, ok := joins(before, word)
		if !ok && before != "" {
			out.WriteByte(' ')
		}
		out.WriteString(joined)
		before = word
	}
	return out.String()
}

// joins returns the word as it is written after the one before it, and whether
// the two belong together.
func joins(before, word string) (string, bool) {
	head, rest := letters(word)
	switch {
	case strings.HasSuffix(before, "class") && len(head) <= 3 && head == "iii"[:len(head)] && head != "":
		return strconv.Itoa(len(head)) + rest, true
	case strings.HasSuffix(before, "type"):
		return word, isDigit(word[0])
	case before != "" && isDigit(before[len(before)-1]):
		return word, slices.Contains([]string{"v", "kv", "a", "ka", "hz", "awg", "in", "ft", "mm", "m"}, head)
	}
	return word, false
}

// letters divides the word after the letters of ASCII that it begins with.
func letters(word string) (head, rest string) {
	end := strings.IndexFunc(word, func(r rune) bool { return r < 'a' || r > 'z' })
	if end < 0 {
		end = len(word)
	}
	return word[:end], word[end:]
}

// occurs reports whether the word is in the text where no digit continues it.
func occurs(text, word string) bool {
	for from := 0; ; {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return false
		}
		start := from + at
		if end := start + len(word); !continues(text, start, word) && !continued(text, end, word) {
			return true
		}
		from = start + 1
	}
}

// continues reports whether the word begins within a number.
func continues(text string, start int, word string) bool {
	if !isDigit(word[0]) || start == 0 {
		return false
	}
	before := text[start-1]
	return isDigit(before) || before == '.' && start > 1 && isDigit(text[start-2])
}

// continued reports whether the word ends within a number.
func continued(text string, end int, word string) bool {
	if !isDigit(word[len(word)-1]) || end == len(text) {
		return false
	}
	return isDigit(text[end]) || text[end] == '.' && end+1 < len(text) && isDigit(text[end+1])
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// describe returns all that Search looks at.
func describe(p diagram.Protector) string {
	parts := []string{p.Name, p.Note, string(p.Type), systemText(p.System), connection(p), standard(p)}
	for _, mode := range diagram.Modes() {
		if r := p.Modes[mode]; r.Connected {
			parts = append(parts, modeText(p, mode, r))
		}
	}
	for _, rating := range []struct {
		name  string
		value float64
	}{{"In", p.In}, {"Imax", p.Imax}, {"Iimp", p.Iimp}, {"SCCR", p.SCCR}, {"breaker", p.Breaker.Rated}} {
		if rating.value > 0 {
			parts = append(parts, rating.name+" "+amperes(rating.value))
		}
	}
	if p.External {
		parts = append(parts, "external enclosure")
	}
	return strings.Join(parts, " ; ") // so that no part runs into the next
}

func standard(p diagram.Protector) string {
	if p.Rating == diagram.Up {
		return "IEC 61643-11"
	}
	return "UL 1449"
}

// systemText names the system as on a tag, by its words and, where it is one of
// those to pick from, as in that list.
func systemText(s diagram.System) string {
	out := fmt.Sprintf("%s %g V %s %s %g Hz", s, s.Voltage, s.Wiring, s.Earthing, s.Frequency)
	for _, preset := range diagram.Presets() {
		if preset.System == s {
			out += " ; " + preset.Name
		}
	}
	return out
}

// connection returns how many elements lie from lines and from neutral, as the
// trade of IEC countries writes it: 4+0 with all of them to earth, 3+1 with one
// of them from neutral to earth. It is empty for any other protector.
func connection(p diagram.Protector) string {
	lines := p.System.Lines()
	has := func(m diagram.Mode) bool { return p.Modes[m].Connected }
	switch {
	case lines == 0 || p.Rating != diagram.Up || has(diagram.LineLine):
		return ""
	case has(diagram.LineEarth) && !has(diagram.LineNeutral):
		if has(diagram.NeutralEarth) {
			lines++
		}
		return fmt.Sprintf("%d+0", lines)
	case has(diagram.LineNeutral) && has(diagram.NeutralEarth) && !has(diagram.LineEarth):
		return fmt.Sprintf("%d+1", lines)
	}
	return ""
}

func modeText(p diagram.Protector, mode diagram.Mode, r diagram.ModeRating) string {
	level, highest := "VPR", "MCOV"
	if p.Rating == diagram.Up {
		level, highest = "Up", "Uc"
	}
	out := mode.String()
	if r.Level > 0 {
		out += fmt.Sprintf(" %s %g V %g kV", level, r.Level, r.Level/1000)
	}
	if r.MCOV > 0 {
		out += fmt.Sprintf(" %s %g V", highest, r.MCOV)
	}
	if r.Switching {
		out += " spark gap"
	} else {
		out += " varistor"
	}
	return out
}

func amperes(v float64) string { return fmt.Sprintf("%g A %g kA", v, v/1000) }
