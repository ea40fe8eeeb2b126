package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

func gray(v uint8) color.NRGBA { return color.NRGBA{v, v, v, 255} }

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255}
}

func clear(hex uint32, alpha uint8) color.NRGBA {
	out := rgb(hex)
	out.A = alpha
	return out
}

func lightColors(name fyne.ThemeColorName) (color.NRGBA, bool) {
	switch name {
	case theme.ColorNameBackground, ColorBand:
		return rgb(0xf0efea), true
	case ColorCard, theme.ColorNameInputBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return rgb(0xffffff), true
	case ColorHair, theme.ColorNameSeparator:
		return rgb(0xd5d3ca), true
	case theme.ColorNameInputBorder: // of an empty check box too: 3 to 1 against the band
		return rgb(0x828a8f), true
	case theme.ColorNameForeground, ColorHeading:
		return rgb(0x1f2a30), true
	case ColorFaint, theme.ColorNamePlaceHolder:
		return rgb(0x5f6970), true
	case theme.ColorNameDisabled:
		return rgb(0x8b9297), true
	case theme.ColorNameButton:
		return rgb(0xffffff), true
	case theme.ColorNameDisabledButton:
		return rgb(0xe6e4dd), true
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return rgb(0x1f6f8b), true
	case theme.ColorNameForegroundOnPrimary:
		return gray(255), true
	case theme.ColorNameFocus:
		return clear(0x1f6f8b, 0x70), true
	case theme.ColorNameSelection:
		return clear(0x1f6f8b, 0x38), true
	case theme.ColorNameHover:
		return clear(0x1f6f8b, 0x1c), true
	case theme.ColorNamePressed:
		return clear(0x1f6f8b, 0x40), true
	case theme.ColorNameError:
		return rgb(0xb3400a), true
	case theme.ColorNameWarning:
		return rgb(0x8a5a00), true
	case theme.ColorNameSuccess:
		return rgb(0x00765a), true
	}
	return color.NRGBA{}, false
}

func darkColors(name fyne.ThemeColorName) (color.NRGBA, bool) {
	switch name {
	case theme.ColorNameBackground, ColorBand:
		return rgb(0x20272b), true
	case ColorCard, theme.ColorNameInputBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return rgb(0x2a3338), true
	case ColorHair, theme.ColorNameSeparator:
		return rgb(0x435057), true
	case theme.ColorNameInputBorder:
		return rgb(0x7f8a90), true
	case theme.ColorNameForeground, ColorHeading:
		return rgb(0xe8ecee), true
	case ColorFaint, theme.ColorNamePlaceHolder:
		return rgb(0xa9b4ba), true
	case theme.ColorNameDisabled:
		return rgb(0x7f8a90), true
	case theme.ColorNameButton:
		return rgb(0x343f45), true
	case theme.ColorNameDisabledButton:
		return rgb(0x2a3338), true
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return rgb(0x5cb8d6), true
	case theme.ColorNameForegroundOnPrimary:
		return rgb(0x10181c), true
	case theme.ColorNameFocus:
		return clear(0x5cb8d6, 0x70), true
	case theme.ColorNameSelection:
		return clear(0x5cb8d6, 0x48), true
	case theme.ColorNameHover:
		return clear(0x5cb8d6, 0x22), true
	case theme.ColorNamePressed:
		return clear(0x5cb8d6, 0x44), true
	case theme.ColorNameError:
		return rgb(0xff8a5c), true
	case theme.ColorNameWarning:
		return rgb(0xf2b134), true
	case theme.ColorNameSuccess:
		return rgb(0x4fd1ac), true
	}
	return color.NRGBA{}, false
}
