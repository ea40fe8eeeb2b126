package svg

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Document says how a picture is written. The zero value but for its palette
// is a drawing without title or margin.
type Document struct {
	Palette     draw.Palette
	Margin      float64 // round the picture, in millimetres
	Title       string  // read out and shown as a tooltip by viewers
	Description string
}

// Write writes the picture as an SVG document.
func (d Document) Write(w io.Writer, picture *draw.Picture) error {
	bounds := picture.Bounds()
	if bounds.IsEmpty() {
		bounds = geom.Rect{}
	}
	bounds = bounds.Grow(d.Margin)
	out := &painter{out: bufio.NewWriter(w), palette: d.Palette, used: map[string]bool{}}
	d.head(out, bounds)
	draw.Paint(picture, out)
	out.depth = 0
	out.line("</svg>")
	return out.out.Flush()
}

// head writes what comes before the picture's first item: size, words, paper.
func (d Document) head(out *painter, bounds geom.Rect) {
	width, height := number(bounds.Width()), number(bounds.Height())
	out.line(`<?xml version="1.0" encoding="UTF-8"?>`)
	out.line(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="%s %s %s %s"`+
		` font-family="DejaVu Sans, sans-serif" fill="none" stroke-linejoin="round">`,
		width, height, number(bounds.Min.X), number(bounds.Min.Y), width, height)
	out.depth = 1
	if d.Title != "" {
		out.line("<title>%s</title>", escape(d.Title))
	}
	if d.Description != "" {
		out.line("<desc>%s</desc>", escape(d.Description))
	}
	if paper := d.Palette[draw.RolePaper]; paper.A > 0 {
		out.line(`<rect%s%s/>`, box(bounds), out.colour("fill", draw.RolePaper))
	}
}

// box returns the attributes that place an upright rectangle.
func box(r geom.Rect) string {
	return fmt.Sprintf(` x="%s" y="%s" width="%s" height="%s"`,
		number(r.Min.X), number(r.Min.Y), number(r.Width()), number(r.Height()))
}

// escape returns s as character data or attribute value, with what XML does
// not allow, or what would turn the order of letters round, shown.
func escape(s string) string {
	var out strings.Builder
	// A strings.Builder never refuses a write, which is the only error here.
	_ = xml.EscapeText(&out, []byte(unit.Visible(s)))
	return out.String()
}
