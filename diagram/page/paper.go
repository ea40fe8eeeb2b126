package page

import (
	"fmt"
	"math"
	"strings"

	"clampline/diagram/draw/pdf"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Paper is a size of paper.
type Paper struct {
	Name string
	Size geom.Point // width and height, mm
}

// Papers returns the sizes to choose from, upright: A4 and A3 of ISO 216, Letter and
// Tabloid (A and B) and Arch D of ASME Y14.1; the sides are from memory.
func Papers() []Paper {
	return []Paper{
		{"A4", pdf.A4}, {"A3", geom.Pt(297, 420)}, {"Letter", pdf.Letter},
		{"Tabloid", geom.Pt(279.4, 431.8)}, {"Arch D", geom.Pt(609.6, 914.4)},
	}
}

// Usual returns the paper that people of the convention have in their printers.
func Usual(c unit.Convention) Paper {
	if c == unit.IEC {
		return Papers()[0]
	}
	return Papers()[2]
}

// PaperNamed returns the paper of the name, whose case and spaces do not count.
func PaperNamed(name string) (Paper, error) {
	plain := func(s string) string { return strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(s)) }
	var names []string
	for _, p := range Papers() {
		if plain(p.Name) == plain(name) {
			return p, nil
		}
		names = append(names, p.Name)
	}
	return Paper{}, fmt.Errorf("%.40q is no paper that is known; use one of %s", name, strings.Join(names, ", "))
}

// Landscape returns the paper with its longer side across.
func (p Paper) Landscape() Paper {
	p.Size = geom.Pt(max(p.Size.X, p.Size.Y), min(p.Size.X, p.Size.Y))
	return p
}

// Enlarged is how much larger head and foot are set than on A4, for paper that is
// looked at from further away: the root of the ratio of the sides. Paper without a
// name, made for what is on it, is as A4.
func (p Paper) Enlarged() float64 {
	if p.Name == "" {
		return 1
	}
	ratio := math.Sqrt(p.Size.X * p.Size.Y / (pdf.A4.X * pdf.A4.Y))
	return math.Max(1, math.Round(math.Sqrt(ratio)*10)/10)
}
