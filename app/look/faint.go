package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Faint is second-rank text that can still be read well, unlike the toolkit's
// labels of low importance, which are in the colour of what is disabled. Use
// NewFaint.
type Faint struct {
	widget.RichText
	text *widget.TextSegment
}

// NewFaint returns a line of second-rank text.
func NewFaint(text string) *Faint {
	f := &Faint{text: &widget.TextSegment{
		Text:  text,
		Style: widget.RichTextStyle{ColorName: ColorFaint, SizeName: theme.SizeNameText, Inline: true},
	}}
	f.Segments = []widget.RichTextSegment{f.text}
	f.Scroll = fyne.ScrollNone
	f.ExtendBaseWidget(f)
	return f
}

// NewFaintParagraph returns second-rank text that is broken into lines.
func NewFaintParagraph(text string) *Faint {
	f := NewFaint(text)
	f.Wrapping = fyne.TextWrapWord
	return f
}

// Text returns what is written.
func (f *Faint) Text() string { return f.text.Text }

// SetText writes something else.
func (f *Faint) SetText(text string) {
	if text != f.text.Text {
		f.text.Text = text
		f.Refresh()
	}
}
