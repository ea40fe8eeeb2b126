package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255}
}

func clear(hex uint32, alpha uint8) color.NRGBA {
	out := rgb(hex)
	out.A = alpha
	return out
}

// tone is a colour in light and in dark.
type tone struct{ light, dark color.NRGBA }

// colors are those that the program has of its own; the others are the toolkit's.
var colors = map[fyne.ThemeColorName]tone{
	theme.ColorNameBackground:          {rgb(0xf0efea), rgb(0x20272b)},
	ColorBand:                          {rgb(0xf0efea), rgb(0x20272b)},
	ColorCard:                          {rgb(0xffffff), rgb(0x2a3338)},
	theme.ColorNameInputBackground:     {rgb(0xffffff), rgb(0x2a3338)},
	theme.ColorNameMenuBackground:      {rgb(0xffffff), rgb(0x2a3338)},
	theme.ColorNameOverlayBackground:   {rgb(0xffffff), rgb(0x2a3338)},
	ColorHair:                          {rgb(0xd5d3ca), rgb(0x435057)},
	theme.ColorNameSeparator:           {rgb(0xd5d3ca), rgb(0x435057)},
	theme.ColorNameInputBorder:         {rgb(0x828a8f), rgb(0x7f8a90)}, // of an empty check box too: 3 to 1 against the band
	theme.ColorNameForeground:          {rgb(0x1f2a30), rgb(0xe8ecee)},
	ColorHeading:                       {rgb(0x1f2a30), rgb(0xe8ecee)},
	ColorFaint:                         {rgb(0x5f6970), rgb(0xa9b4ba)},
	theme.ColorNamePlaceHolder:         {rgb(0x5f6970), rgb(0xa9b4ba)},
	theme.ColorNameDisabled:            {rgb(0x8b9297), rgb(0x7f8a90)},
	theme.ColorNameButton:              {rgb(0xffffff), rgb(0x343f45)},
	theme.ColorNameDisabledButton:      {rgb(0xe6e4dd), rgb(0x2a3338)},
	theme.ColorNamePrimary:             {rgb(0x1f6f8b), rgb(0x5cb8d6)},
	theme.ColorNameHyperlink:           {rgb(0x1f6f8b), rgb(0x5cb8d6)},
	theme.ColorNameForegroundOnPrimary: {rgb(0xffffff), rgb(0x10181c)},
	theme.ColorNameFocus:               {clear(0x1f6f8b, 0x70), clear(0x5cb8d6, 0x70)},
	theme.ColorNameSelection:           {clear(0x1f6f8b, 0x38), clear(0x5cb8d6, 0x48)},
	theme.ColorNameHover:               {clear(0x1f6f8b, 0x1c), clear(0x5cb8d6, 0x22)},
	theme.ColorNamePressed:             {clear(0x1f6f8b, 0x40), clear(0x5cb8d6, 0x44)},
	theme.ColorNameError:               {rgb(0xb3400a), rgb(0xff8a5c)},
	theme.ColorNameWarning:             {rgb(0x8a5a00), rgb(0xf2b134)},
	theme.ColorNameSuccess:             {rgb(0x00765a), rgb(0x4fd1ac)},
}
