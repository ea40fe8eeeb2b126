package spice

import (
	"fmt"
	"strings"
	"unicode"

	"clampline/analysis/circuit"
)

const (
	slugLength = 32  // long enough to know a bus by, short enough to read in a formula
	slugEnd    = 9   // of it, where a longer name is cut in the middle: its end tells the conductors
	textLength = 160 // of a name in a comment
)

// slug returns what can be kept of a name in the deck: lower case letters and
// digits of ASCII, with single underscores between words.
func slug(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			b.WriteRune(r)
		} else if b.Len() > 0 && !strings.HasSuffix(b.String(), "_") {
			b.WriteByte('_')
		}
	}
	out := strings.Trim(b.String(), "_")
	if cut := len(out) - slugEnd; len(out) > slugLength {
		out = strings.Trim(out[:slugLength-slugEnd-1], "_") + "_" + strings.Trim(out[cut:], "_")
	}
	return out
}

// join puts the slug of a name behind a key that is unique by itself.
func join(key, name string) string {
	if s := slug(name); s != "" {
		return key + "_" + s
	}
	return key
}

// distinct returns a slug for each name, none twice. A name of which nothing is
// left is called by kind and number.
func distinct(kind string, names []string) []string {
	out := make([]string, len(names))
	taken := make(map[string]bool, len(names))
	for i, name := range names {
		first := slug(name)
		if first == "" {
			first = fmt.Sprintf("%s_%d", kind, i+1)
		}
		s := first
		for k := 2; taken[s]; k++ {
			s = fmt.Sprintf("%s_%d", first, k)
		}
		taken[s] = true
		out[i] = s
	}
	return out
}

// text makes a name fit for a comment: one line of printable characters. The
// simulator joins lines at a backslash.
func text(name string) string {
	var b strings.Builder
	length := 0
	for _, r := range strings.ToValidUTF8(name, "?") {
		if length++; length > textLength {
			b.WriteString("...")
			break
		}
		switch {
		case r == '\\':
			b.WriteByte('/')
		case unicode.IsPrint(r):
			b.WriteRune(r)
		default:
			b.WriteByte(' ')
		}
	}
	return strings.TrimSpace(b.String())
}

// nodeNames returns the name of each node in the deck.
func nodeNames(n *circuit.Network) []string {
	out := make([]string, max(1, len(n.Names)))
	for i := range n.Names {
		out[i] = join(fmt.Sprintf("n%d", i), n.Names[i])
	}
	out[circuit.Earth] = "0"
	return out
}
