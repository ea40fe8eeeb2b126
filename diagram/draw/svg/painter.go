package svg

import (
	"bufio"
	"encoding/base64"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// painter writes items as elements.
type painter struct {
	out     *bufio.Writer
	palette draw.Palette
	used    map[string]bool // ids written so far: a document has each once
	depth   int
}

var _ draw.Imager = (*painter)(nil)

func (p *painter) line(format string, values ...any) {
	p.out.WriteString(strings.Repeat("  ", p.depth))
	fmt.Fprintf(p.out, format, values...)
	p.out.WriteByte('\n')
}

// name is what may stand as an element's id and in a link to it.
var name = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_.-]*$`)

// Begin opens a group. Its id is given as data-id in any case, and as id where
// it can be one and is not taken.
func (p *painter) Begin(id string) {
	attribute := ""
	if name.MatchString(id) && !p.used[id] {
		p.used[id] = true
		attribute = fmt.Sprintf(` id="%s"`, id)
	}
	p.line(`<g%s data-id="%s">`, attribute, escape(id))
	p.depth++
}

// End closes a group.
func (p *painter) End() {
	p.depth--
	p.line("</g>")
}

// Shape writes a fill and the lines of a stroke, in one element where it can.
func (p *painter) Shape(s draw.Shape) {
	strands := s.Strands()
	fill := ""
	if s.Fill != draw.RoleNone {
		fill = p.colour("fill", s.Fill)
	}
	if len(strands) == 1 {
		p.element(s.Path, fill+p.stroke(s.Pen.Role, strands[0]))
		return
	}
	if fill != "" {
		p.element(s.Path, fill)
	}
	for _, strand := range strands {
		p.element(strand.Path, p.stroke(s.Pen.Role, strand))
	}
}

func (p *painter) element(path draw.Path, attributes string) {
	if r, ok := path.AsRectangle(); ok {
		p.line("<rect%s%s/>", box(r), attributes)
		return
	}
	p.line(`<path d="%s"%s/>`, data(path), attributes)
}

func (p *painter) stroke(role draw.Role, s draw.Strand) string {
	out := p.colour("stroke", role) + fmt.Sprintf(` stroke-width="%s"`, number(s.Width))
	if s.Gap > 0 {
		out += fmt.Sprintf(` stroke-dasharray="%s %s"`, number(s.Ink), number(s.Gap))
	}
	return out
}

// Text writes a line of text.
func (p *painter) Text(t draw.Text) {
	attributes := p.colour("fill", t.Role)
	if t.Bold {
		attributes += ` font-weight="bold"`
	}
	switch t.Align {
	case draw.Center:
		attributes += ` text-anchor="middle"`
	case draw.Right:
		attributes += ` text-anchor="end"`
	}
	if strings.TrimSpace(t.String) != t.String || strings.Contains(t.String, "  ") {
		attributes += ` xml:space="preserve"`
	}
	p.line(`<text x="%s" y="%s" font-size="%s"%s>%s</text>`,
		number(t.At.X), number(t.At.Y), number(t.Size), attributes, escape(t.String))
}

// Image writes an image with its pixels in the document.
func (p *painter) Image(i draw.Image) {
	kind := "jpeg"
	if strings.HasPrefix(i.Data, "\x89PNG") {
		kind = "png"
	}
	p.line(`<image%s preserveAspectRatio="none" href="data:image/%s;base64,%s"/>`,
		box(i.Box), kind, base64.StdEncoding.EncodeToString([]byte(i.Data)))
}

// colour returns the attributes that paint with a role.
func (p *painter) colour(attribute string, role draw.Role) string {
	c := p.palette[role]
	out := fmt.Sprintf(` %s="#%02x%02x%02x"`, attribute, c.R, c.G, c.B)
	if c.A < 255 {
		out += fmt.Sprintf(` %s-opacity="%s"`, attribute, number(float64(c.A)/255))
	}
	return out
}

// data returns the path as path data.
func data(path draw.Path) string {
	var out strings.Builder
	path.Each(func(verb draw.Verb, points []geom.Point) {
		out.WriteByte("MLCZ"[verb])
		for i, at := range points {
			if i > 0 {
				out.WriteByte(' ')
			}
			out.WriteString(number(at.X) + " " + number(at.Y))
		}
	})
	return out.String()
}

// number writes v to a thousandth, without trailing zeros or a negative zero.
func number(v float64) string {
	rounded := math.Round(v*1000) / 1000
	if rounded == 0 {
		rounded = 0
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
