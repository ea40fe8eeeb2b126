package draw

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"clampline/diagram/geom"
)

// Align says which part of a line of text stands at its point.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Center
	Right
)

// String returns the alignment's name in the text form of a picture.
func (a Align) String() string {
	switch a {
	case Center:
		return "center"
	case Right:
		return "right"
	}
	return "left"
}

// Share returns how much of the width lies left of the point: 0, a half or 1.
func (a Align) Share() float64 {
	switch a {
	case Center:
		return 0.5
	case Right:
		return 1
	}
	return 0
}

// Text is one line of text. It is always upright: a turned symbol keeps its
// letters level.
type Text struct {
	At     geom.Point // on the baseline
	Size   float64    // of the em, in millimetres
	Role   Role
	Bold   bool
	Align  Align
	String string
}

// Bounds returns the rectangle from ascent to descent over the width of the
// text.
func (t Text) Bounds() geom.Rect {
	width := TextWidth(t.String, t.Size, t.Bold)
	left := t.At.X - t.Align.Share()*width
	return geom.Rect{
		Min: geom.Pt(left, t.At.Y-Ascent(t.Size)),
		Max: geom.Pt(left+width, t.At.Y+Descent(t.Size)),
	}
}

// printable returns s with what cannot stand in one line of text, or in XML,
// taken out: line ends and tabs become spaces, other control characters and
// noncharacters go, and broken UTF-8 becomes the replacement character.
func printable(s string) string {
	plain := true
	for _, r := range s {
		if r < ' ' || r >= 0x7f && !textRune(r) || r == utf8.RuneError {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\r' || r == '\t':
			return ' '
		case textRune(r):
			return r
		}
		return -1
	}, strings.ToValidUTF8(s, "\ufffd"))
}

// textRune reports whether r is a character and not a control of some kind.
func textRune(r rune) bool {
	noncharacter := r&0xfffe == 0xfffe || r >= 0xfdd0 && r <= 0xfdef
	return !unicode.IsControl(r) && !noncharacter && !directional(r)
}

// directional reports whether r steers the order of text, with which a name
// could be made to read as another.
func directional(r rune) bool {
	return r == 0x200e || r == 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}
