package draw

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"testing"
)

var palettes = map[string]Palette{"light": Light(), "dark": Dark()}

var verdicts = []Role{RoleHeld, RoleTight, RoleExceeded, RoleUnreached, RoleUnknown}

func TestPaletteDefinesEachRole(t *testing.T) {
	for name, palette := range palettes {
		for role := RoleInk; role < RoleNone; role++ {
			if palette[role].A != 255 {
				t.Errorf("%s: %s is %v, want an opaque colour", name, role, palette[role])
			}
		}
		if got := palette[RoleNone]; got.A != 0 {
			t.Errorf("%s: none is %v, want transparent", name, got)
		}
	}
}

// W3C, Web Content Accessibility Guidelines 2.1, success criterion 1.4.3: a
// contrast ratio of at least 4.5 for text.
func TestPaletteTextIsLegible(t *testing.T) {
	const least = 4.5
	for name, palette := range palettes {
		for _, back := range []Role{RolePaper, RoleCard, RoleAccentSoft} {
			for _, text := range []Role{RoleInk, RoleFaint, RoleAccent} {
				if got := contrast(palette[text], palette[back]); got < least {
					t.Errorf("%s: %s on %s has contrast %.2f, want %.1f", name, text, back, got, least)
				}
			}
		}
		for _, badge := range verdicts {
			if got := contrast(palette[RoleOnVerdict], palette[badge]); got < least {
				t.Errorf("%s: letter on %s has contrast %.2f, want %.1f", name, badge, got, least)
			}
		}
	}
}

// The rule for verdicts: any two are at least 15 apart in CIE L*a*b* (CIE 15,
// the plain Euclidean difference of 1976), six times what is just noticed, to
// full colour vision and to that without one kind of cone.
func TestPaletteVerdictsDiffer(t *testing.T) {
	const least = 15
	for name, palette := range palettes {
		for vision, matrix := range visions {
			for i, a := range verdicts {
				for _, b := range verdicts[i+1:] {
					if got := apart(seen(palette[a], matrix), seen(palette[b], matrix)); got < least {
						t.Errorf("%s, %s: %s and %s are %.1f apart, want %d", name, vision, a, b, got, least)
					}
				}
			}
		}
	}
}

// On a grey print the lightnesses L* differ by at least 3; there line pattern
// and letter carry the verdict, and the greys only must not coincide.
func TestPaletteVerdictsDifferInGrey(t *testing.T) {
	const least = 3
	for name, palette := range palettes {
		var lightness []float64
		for _, role := range verdicts {
			lightness = append(lightness, lab(linear(palette[role]))[0])
		}
		slices.Sort(lightness)
		for i := 1; i < len(lightness); i++ {
			if got := lightness[i] - lightness[i-1]; got < least {
				t.Errorf("%s: lightnesses %.1f and %.1f, want %d apart", name, lightness[i-1], lightness[i], least)
			}
		}
	}
}

// visions are what a reader without one kind of cone sees of linear sRGB: G.
// Machado, M. Oliveira, L. Fernandes, "A Physiologically-based Model for
// Simulation of Color Vision Deficiency", 2009, severity 1.0.
var visions = map[string][3][3]float64{
	"full colour vision": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":         {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia":       {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":         {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

func TestVisionsKeepGrey(t *testing.T) {
	for name, matrix := range visions {
		for i, row := range matrix {
			// The published figures are rounded to six places.
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 2e-6 {
				t.Errorf("%s row %d sums to %v, want 1", name, i, sum)
			}
		}
	}
}

// linear undoes the transfer function of IEC 61966-2-1.
func linear(c color.NRGBA) [3]float64 {
	var out [3]float64
	for i, v := range []uint8{c.R, c.G, c.B} {
		if s := float64(v) / 255; s <= 0.04045 {
			out[i] = s / 12.92
		} else {
			out[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return out
}

func luminance(v [3]float64) float64 { return 0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2] }

func contrast(a, b color.NRGBA) float64 {
	v, w := luminance(linear(a)), luminance(linear(b))
	return (math.Max(v, w) + 0.05) / (math.Min(v, w) + 0.05)
}

func seen(c color.NRGBA, matrix [3][3]float64) [3]float64 {
	v, out := linear(c), [3]float64{}
	for i, row := range matrix {
		out[i] = math.Max(0, math.Min(1, row[0]*v[0]+row[1]*v[1]+row[2]*v[2]))
	}
	return out
}

// lab returns L*, a*, b* under D65.
func lab(v [3]float64) [3]float64 {
	root := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return t*24389/27/116 + 16.0/116
	}
	x := root((0.4124*v[0] + 0.3576*v[1] + 0.1805*v[2]) / 0.9505)
	y := root(luminance(v))
	z := root((0.0193*v[0] + 0.1192*v[1] + 0.9505*v[2]) / 1.0890)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func apart(a, b [3]float64) float64 {
	p, q := lab(a), lab(b)
	return math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])
}

func TestContrast(t *testing.T) {
	// The ends of the scale, from the definition in WCAG 2.1.
	white, black := color.NRGBA{R: 255, G: 255, B: 255, A: 255}, color.NRGBA{A: 255}
	if got := fmt.Sprintf("%.1f", contrast(white, black)); got != "21.0" {
		t.Errorf("contrast of white and black: got %s, want 21.0", got)
	}
}
