package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"clampline/assets"
	"clampline/diagram/draw"
)

// Names of the window's own colours, beside those of the toolkit.
const (
	ColorBand    fyne.ThemeColorName = "clamplineBand"    // behind bars, strips and the status line
	ColorCard    fyne.ThemeColorName = "clamplineCard"    // behind forms and lists
	ColorFaint   fyne.ThemeColorName = "clamplineFaint"   // second-rank text
	ColorHeading fyne.ThemeColorName = "clamplineHeading" // headings and names
	ColorHair    fyne.ThemeColorName = "clamplineHair"    // hairlines between regions
)

// Names of the window's own sizes.
const (
	SizeHeading fyne.ThemeSizeName = "clamplineHeading"
	SizeSmall   fyne.ThemeSizeName = "clamplineSmall"
)

// Theme is the theme of the window. The zero value is light.
type Theme struct {
	Dark bool
}

var _ fyne.Theme = Theme{}

// Palette returns the colours of the sheet that go with the theme.
func (t Theme) Palette() draw.Palette {
	if t.Dark {
		return draw.Dark()
	}
	return draw.Light()
}

// Color returns the colour with the name. The variant that the system asks
// for does not count: the setting decides.
func (t Theme) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	own, ok := colors[name]
	switch {
	case ok && t.Dark:
		return own.dark
	case ok:
		return own.light
	case t.Dark:
		return theme.DefaultTheme().Color(name, theme.VariantDark)
	}
	return theme.DefaultTheme().Color(name, theme.VariantLight)
}

// Font returns the font that the sheet is lettered with, so that window and
// drawing agree.
func (t Theme) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace || style.Symbol || style.Italic:
		return theme.DefaultTheme().Font(style)
	case style.Bold:
		return fyne.NewStaticResource("DejaVuSans-Bold.ttf", assets.FontBold())
	}
	return fyne.NewStaticResource("DejaVuSans.ttf", assets.FontRegular())
}

// Icon returns the toolkit's icon.
func (t Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	return theme.DefaultTheme().Icon(name)
}

// Size returns a length in the toolkit's units; they are smaller than the
// toolkit's own, as a tool with much to show needs.
func (t Theme) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return 12
	case theme.SizeNameSubHeadingText:
		return 14
	case theme.SizeNameHeadingText, SizeHeading:
		return 16
	case theme.SizeNameCaptionText, SizeSmall:
		return 10.5
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 5
	case theme.SizeNameInlineIcon:
		return 16
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 4
	}
	return theme.DefaultTheme().Size(name)
}
