package draw

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"clampline/diagram/geom"
)

// String returns the picture as text, one line to an item and its groups by
// indent, with lengths to a hundredth of a millimetre: the form that golden
// files hold. A stamp is one line, without what its picture draws.
func (p *Picture) String() string {
	var out printer
	Paint(p, &out)
	return out.text.String()
}

// printer is the painter that writes the text form.
type printer struct {
	text  strings.Builder
	depth int
}

var (
	_ Placer = (*printer)(nil)
	_ Imager = (*printer)(nil)
)

func (w *printer) line(format string, values ...any) {
	w.text.WriteString(strings.Repeat("  ", w.depth))
	fmt.Fprintf(&w.text, format, values...)
	w.text.WriteByte('\n')
}

// Begin writes the group's id and indents what follows.
func (w *printer) Begin(id string) {
	w.line("group %q", id)
	w.depth++
}

// End ends the indent.
func (w *printer) End() { w.depth-- }

// Shape writes a fill, a stroke or both.
func (w *printer) Shape(s Shape) {
	var words []string
	if s.Fill != RoleNone {
		words = append(words, "fill "+s.Fill.String())
	}
	if s.Pen.Draws() {
		words = append(words, fmt.Sprintf("stroke %s %s %s", s.Pen.Role, number(s.Pen.Width), s.Pen.Dash))
	}
	w.line("%s: %s", strings.Join(words, " "), s.Path)
}

// Text writes a line of text with how it is set.
func (w *printer) Text(t Text) {
	weight := "regular"
	if t.Bold {
		weight = "bold"
	}
	w.line("text %s %s %s %s %s: %q", t.Role, number(t.Size), weight, t.Align, place(t.At), t.String)
}

// Place writes a stamp by its key.
func (w *printer) Place(s Stamp) {
	w.line("place %s %s turn %d %s", s.Key, place(s.At), s.Turn, s.Role)
}

// Image writes where an image lies and how many bytes it has.
func (w *printer) Image(i Image) {
	w.line("image %s %s: %d bytes", place(i.Box.Min), place(i.Box.Max), len(i.Data))
}

// String returns the path in the letters of SVG path data, with lengths to a
// hundredth of a millimetre.
func (p Path) String() string {
	var words []string
	p.Each(func(verb Verb, points []geom.Point) {
		words = append(words, string("MLCZ"[verb]))
		for _, at := range points {
			words = append(words, place(at))
		}
	})
	return strings.Join(words, " ")
}

func place(p geom.Point) string { return number(p.X) + "," + number(p.Y) }

// number writes v to a hundredth without trailing zeros or a negative zero.
func number(v float64) string {
	rounded := math.Round(v*100) / 100
	if rounded == 0 {
		rounded = 0
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
