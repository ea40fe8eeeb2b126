package file

import (
	"fmt"
	"io"
)

const (
	maxSize   = 32 << 20    // bytes of a file; a sheet of ten thousand parts takes about five million
	maxValues = maxSize / 8 // a member that Write makes takes at least eight bytes
	maxNames  = 10_000      // members of one object; the format itself has up to about fifty
	maxDepth  = 64          // objects and lists within each other; the format itself needs six
)

const remedyForeign = "the program wrote no such file; open another one"

// guard passes a file through and stops at the first byte that makes it too
// long or too deeply nested, so that such a file costs neither memory nor
// stack.
type guard struct {
	from     io.Reader
	size     int
	depth    int
	inText   bool
	escaped  bool
	position struct{ line, column int } // of the last byte, from 0
}

// Read implements io.Reader.
func (g *guard) Read(p []byte) (int, error) {
	n, err := g.from.Read(p[:min(len(p), maxSize+1-g.size)])
	if g.size += n; g.size > maxSize {
		return 0, tooLong()
	}
	for _, c := range p[:n] {
		if g.pass(c); g.depth > maxDepth {
			return 0, g.tooDeep()
		}
	}
	return n, err
}

// pass follows one byte: brackets count outside of texts only.
func (g *guard) pass(c byte) {
	switch {
	case c == '\n':
		g.position.line++
		g.position.column = 0
		return
	case c&0xC0 != 0x80: // not the continuation of a character
		g.position.column++
	}
	switch {
	case g.escaped:
		g.escaped = false
	case g.inText && c == '\\':
		g.escaped = true
	case c == '"':
		g.inText = !g.inText
	case g.inText:
	case c == '{' || c == '[':
		g.depth++
	case c == '}' || c == ']':
		g.depth--
	}
}

func tooLong() *Error {
	return refused(fmt.Sprintf("the file is larger than %d MiB", maxSize>>20), remedyForeign)
}

func (g *guard) tooDeep() *Error {
	return refused(fmt.Sprintf("objects and lists are nested more than %d deep", maxDepth), remedyForeign).at(g.position.line+1, g.position.column)
}
