package pdf

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	imagedraw "image/draw"
	_ "image/jpeg" // a logo may be one
	"image/png"
	"math"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// painter draws items on the page that the file is at.
type painter struct {
	file    *fpdf.Fpdf
	palette draw.Palette
	alpha   uint8 // that is set
}

var _ draw.Imager = (*painter)(nil)

// Begin and End have no meaning on a page.
func (p *painter) Begin(string) {}

// End has no meaning on a page.
func (p *painter) End() {}

// paper fills the page with the colour of the paper, unless that is white as
// paper is.
func (p *painter) paper(size geom.Point) {
	white := p.palette[draw.RolePaper]
	if white.A == 0 || white.R&white.G&white.B == 255 {
		return
	}
	p.fill(draw.RolePaper)
	p.file.Rect(0, 0, size.X, size.Y, "F")
}

// Shape fills, then strokes.
func (p *painter) Shape(s draw.Shape) {
	if s.Fill != draw.RoleNone {
		p.fill(s.Fill)
		p.path(s.Path)
		p.file.DrawPath("f")
	}
	for _, strand := range s.Strands() {
		p.stroke(s.Pen.Role, strand)
	}
}

func (p *painter) stroke(role draw.Role, strand draw.Strand) {
	if strand.Path.IsEmpty() {
		return
	}
	c := p.palette[role]
	p.translucent(c.A)
	p.file.SetDrawColor(int(c.R), int(c.G), int(c.B))
	p.file.SetLineWidth(strand.Width)
	p.file.SetDashPattern(p.dashes(strand), 0)
	p.path(strand.Path)
	p.file.DrawPath("S")
}

// hair is the finest ink or gap, mm: below it the rounding of lengths could
// leave a pattern of nothing, which readers refuse.
const hair = 0.01

func (p *painter) dashes(strand draw.Strand) []float64 {
	if !(strand.Gap > 0) {
		return nil
	}
	return []float64{math.Max(strand.Ink, hair), math.Max(strand.Gap, hair)}
}

func (p *painter) path(path draw.Path) {
	path.Each(func(verb draw.Verb, points []geom.Point) {
		switch verb {
		case draw.Move:
			at := points[0]
			p.file.MoveTo(at.X, at.Y)
		case draw.To:
			at := points[0]
			p.file.LineTo(at.X, at.Y)
		case draw.Curve:
			c1, c2, at := points[0], points[1], points[2]
			p.file.CurveBezierCubicTo(c1.X, c1.Y, c2.X, c2.Y, at.X, at.Y)
		case draw.Close:
			p.file.ClosePath()
		}
	})
}

// Text writes a line of text.
func (p *painter) Text(t draw.Text) {
	words := plain(t.String)
	c := p.palette[t.Role]
	p.translucent(c.A)
	p.file.SetTextColor(int(c.R), int(c.G), int(c.B))
	style := ""
	if t.Bold {
		style = "B"
	}
	p.file.SetFont(family, style, p.file.UnitToPointConvert(t.Size))
	at := t.At
	p.file.Text(at.X-t.Align.Share()*draw.TextWidth(words, t.Size, t.Bold), at.Y, words)
}

// Image draws an image. The library is given it as a plain PNG of 8 bits, since it
// does not read every PNG; what is no image is left out.
func (p *painter) Image(i draw.Image) {
	decoded, _, err := image.Decode(strings.NewReader(i.Data))
	if err != nil {
		return
	}
	pixels := image.NewNRGBA(decoded.Bounds())
	imagedraw.Draw(pixels, pixels.Rect, decoded, pixels.Rect.Min, imagedraw.Src)
	var file bytes.Buffer
	if png.Encode(&file, pixels) != nil {
		return
	}
	name := fmt.Sprintf("%x", sha256.Sum256([]byte(i.Data)))
	how := fpdf.ImageOptions{ImageType: "PNG"}
	p.file.RegisterImageOptionsReader(name, how, &file)
	p.translucent(255)
	at := i.Box.Min
	p.file.ImageOptions(name, at.X, at.Y, i.Box.Width(), i.Box.Height(), false, how, 0, "")
}

func (p *painter) fill(role draw.Role) {
	c := p.palette[role]
	p.translucent(c.A)
	p.file.SetFillColor(int(c.R), int(c.G), int(c.B))
}

// translucent sets how much what is drawn next covers.
func (p *painter) translucent(alpha uint8) {
	if alpha != p.alpha {
		p.alpha = alpha
		p.file.SetAlpha(float64(alpha)/255, "Normal")
	}
}
