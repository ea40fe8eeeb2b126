package draw

import "image/color"

// Palette gives each role its colour; RoleNone has none.
//
// Both palettes here keep these rules, which their test states in numbers:
// text is legible on paper and on cards, the letter of a badge on each verdict;
// any two verdicts differ for readers of full and of deficient colour vision,
// and all five have lightnesses of their own on a grey print.
type Palette [RoleCount]color.NRGBA

// Light returns the palette for dark strokes on light paper, the one to print.
func Light() Palette {
	return Palette{
		RoleInk:        rgb(0x1d2b33),
		RoleFaint:      rgb(0x59656d),
		RolePaper:      rgb(0xfbfaf6),
		RoleGrid:       rgb(0xd6d4cb),
		RoleCard:       rgb(0xffffff),
		RoleHeld:       rgb(0x12ad76),
		RoleTight:      rgb(0xf3b310),
		RoleExceeded:   rgb(0xd46313),
		RoleUnreached:  rgb(0xcb6bad),
		RoleUnknown:    rgb(0xb1b3b7),
		RoleAccent:     rgb(0x1f6a87),
		RoleAccentSoft: rgb(0xd3e6ef),
		RoleOnVerdict:  rgb(0x10191e),
	}
}

// Dark returns the palette for light strokes on dark paper.
func Dark() Palette {
	return Palette{
		RoleInk:        rgb(0xe4eaed),
		RoleFaint:      rgb(0xa3b0b8),
		RolePaper:      rgb(0x161d21),
		RoleGrid:       rgb(0x35414a),
		RoleCard:       rgb(0x202a30),
		RoleHeld:       rgb(0x28b988),
		RoleTight:      rgb(0xf5bd35),
		RoleExceeded:   rgb(0xe55a1a),
		RoleUnreached:  rgb(0xc37aa9),
		RoleUnknown:    rgb(0xc6d2d5),
		RoleAccent:     rgb(0x6cbbdd),
		RoleAccentSoft: rgb(0x1f4354),
		RoleOnVerdict:  rgb(0x0c1317),
	}
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}
