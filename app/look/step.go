package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram/unit"
)

// Step returns one step of a working: what it is, the sum, and in faint letters
// the formula and the source.
func Step(step analysis.Step, c unit.Convention) fyne.CanvasObject {
	segment := func(text string, style widget.RichTextStyle) widget.RichTextSegment {
		return &widget.TextSegment{Text: text, Style: style}
	}
	small := Style(ColorFaint, SizeSmall, false, false)
	text := widget.NewRichText(
		segment(unit.SentenceCase(unit.Words(step.Label, c)), Style(ColorHeading, theme.SizeNameText, true, false)),
		segment(Sum(step, c), Style(theme.ColorNameForeground, theme.SizeNameText, false, false)),
	)
	if step.Formula != "" {
		text.Segments = append(text.Segments, segment(unit.Terms(step.Formula, c), small))
	}
	if step.Source != "" {
		text.Segments = append(text.Segments, segment("Source: "+unit.Terms(step.Source, c), small))
	}
	text.Wrapping = fyne.TextWrapWord
	return text
}

// Sum writes the figures of a step with their outcome, or the outcome in words of
// the convention.
func Sum(step analysis.Step, c unit.Convention) string {
	if step.Unit == "" {
		return unit.Words(step.Text, c)
	}
	result := outcome(step, c)
	if step.Numbers == "" || step.Numbers == result {
		return result
	}
	return unit.Terms(step.Numbers, c) + " = " + result
}

// outcome writes the result of a step with its unit.
func outcome(step analysis.Step, c unit.Convention) string {
	switch step.Unit {
	case "V":
		return unit.Format(step.Result, unit.Voltage, c)
	case "A":
		return unit.Format(step.Result, unit.Current, c)
	case "m":
		return lengthText(step.Result, c)
	case "%":
		return unit.Format(step.Result, unit.Percent, c)
	}
	return unit.Format(step.Result, unit.Ratio, c) + " " + step.Unit
}

// lengthText writes a length; the sums are in metres, so that they stand beside
// feet.
func lengthText(metres float64, c unit.Convention) string {
	out := unit.Format(metres, unit.Length, c)
	if c == unit.NorthAmerican {
		out += " = " + unit.Format(metres, unit.Length, unit.IEC)
	}
	return out
}

// Style returns the style of a piece of text; one that is inline does not end
// its line.
func Style(color fyne.ThemeColorName, size fyne.ThemeSizeName, bold, inline bool) widget.RichTextStyle {
	return widget.RichTextStyle{ColorName: color, SizeName: size, TextStyle: fyne.TextStyle{Bold: bold}, Inline: inline}
}
