package draw

import (
	"fmt"
	"strings"
	"testing"

	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// The colours of both palettes, as one picks them. They are decisions, within what
// the tests of the palette ask for: a change is to be meant.
func TestPaletteText(t *testing.T) {
	var out strings.Builder
	light, dark := Light(), Dark()
	for role := RoleInk; role < RoleNone; role++ {
		a, b := light[role], dark[role]
		fmt.Fprintf(&out, "%-11s light #%02x%02x%02x dark #%02x%02x%02x\n", role, a.R, a.G, a.B, b.R, b.G, b.B)
	}
	drawtest.Text(t, "palette.txt", out.String())
}

// What each pen draws along a line to the right, in mm: how far it reaches, and
// its strands. The finest widths show the shortest details, the widest the shares
// of the width.
func TestPenText(t *testing.T) {
	var out strings.Builder
	for _, width := range []float64{0.2, 0.8, 2.4, 6} {
		for dash := Solid; dash < dashCount; dash++ {
			pen := Pen{Width: width, Dash: dash}
			fmt.Fprintf(&out, "%s %g reaches %.4g\n", dash, width, pen.Reach())
			for _, s := range pen.Strands(Line(geom.Pt(0, 0), geom.Pt(100, 0))) {
				fmt.Fprintf(&out, "  width %.4g ink %.4g gap %.4g along %s\n", s.Width, s.Ink, s.Gap, s.Path)
			}
		}
	}
	drawtest.Text(t, "pens.txt", out.String())
}
