package details

import (
	"fmt"
	"slices"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// workingView shows how the voltage of the selected bus came about: a line for
// each mode, and the steps of the one that is picked.
type workingView struct {
	object *fyne.Container
	shown  explained
	bus    analysis.BusResult // with its workings
	chosen bool               // whether the person picked a mode; else the worst is shown
	mode   analysis.Mode      // that was picked
}

// explained tells what the view shows. The zero value stands for nothing.
type explained struct {
	bus        diagram.ID
	result     *analysis.Result
	convention unit.Convention
}

func newWorkingView() *workingView { return &workingView{object: container.NewVBox()} }

// forget makes the next show begin anew.
func (w *workingView) forget() { w.shown = explained{} }

// show explains the selected bus and reports whether there is one.
func (w *workingView) show(doc *diagram.Document, state State) bool {
	bus := BusOf(doc, state.Selected)
	if state.Result == nil || state.Surges || !judged(state.Result, bus) {
		w.forget()
		return false
	}
	now := explained{bus, state.Result, state.Convention}
	if now == w.shown {
		return true
	}
	found, ok := state.Explain(bus)
	if !ok || len(found.Levels) == 0 {
		w.forget()
		return false
	}
	w.chosen = w.chosen && bus == w.bus.ID
	w.shown, w.bus = now, found
	w.list(doc.NameOf(bus))
	return true
}

// BusOf returns the bus whose working the panel shows for a selection: the
// selected part, or the part that the selected protector is on, or nothing.
func BusOf(doc *diagram.Document, selected []diagram.ID) diagram.ID {
	if len(selected) != 1 {
		return ""
	}
	if p, ok := doc.Protector(selected[0]); ok {
		return p.Bus
	}
	return selected[0]
}

func judged(result *analysis.Result, bus diagram.ID) bool {
	_, ok := result.Buses[bus]
	return ok
}

// list writes the modes, then the steps of the picked one.
func (w *workingView) list(name string) {
	convention := w.shown.convention
	lines := []fyne.CanvasObject{subheading("Working"), look.NewFaintParagraph(fmt.Sprintf("%s, by the %s", name, w.shown.result.Basis))}
	for i, level := range w.bus.Levels {
		lines = append(lines, w.modeLine(name, i, level))
	}
	picked := w.bus.Levels[w.picked()]
	lines = append(lines, paragraphOf(picked.Why))
	for _, step := range picked.Working {
		lines = append(lines, stepView(step, convention))
	}
	w.object.Objects = lines
	w.object.Refresh()
}

// picked returns which of the levels is explained. The worst stands first, and
// another result may order them anew.
func (w *workingView) picked() int {
	at := slices.IndexFunc(w.bus.Levels, func(l analysis.Level) bool { return w.chosen && l.Mode == w.mode })
	return max(at, 0)
}

func (w *workingView) modeLine(name string, i int, level analysis.Level) fyne.CanvasObject {
	line := widget.NewButton(levelText(level, w.shown.convention), func() {
		w.chosen, w.mode = true, level.Mode
		w.list(name)
	})
	line.Alignment = widget.ButtonAlignLeading
	line.Importance = widget.LowImportance
	if i == w.picked() {
		line.Importance = widget.MediumImportance
	}
	return line
}

// levelText is one mode in a line: "L-G  1 240 V, 31 % of 4 000 V: Held".
func levelText(l analysis.Level, c unit.Convention) string {
	out := unit.ModeWord(l.Mode.String(), c) + "  "
	if l.Known {
		out += unit.Format(l.Volts, unit.Voltage, c)
	} else {
		out += "no figure"
	}
	if percent, ok := l.Percent(); ok {
		out += fmt.Sprintf(", %.0f %% of %s", percent, unit.Format(l.Withstand, unit.Voltage, c))
	}
	if !l.Judged {
		return out + " (not judged)"
	}
	return out + ": " + l.Verdict.String()
}

// sentenceCase begins a text with a capital letter.
func sentenceCase(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// stepView is one step: what it is, the sum, and the source in faint letters.
func stepView(step analysis.Step, c unit.Convention) fyne.CanvasObject {
	text := widget.NewRichText(
		&widget.TextSegment{Text: sentenceCase(step.Label), Style: style(look.ColorHeading, theme.SizeNameText, true, false)},
		&widget.TextSegment{Text: sum(step, c), Style: style(theme.ColorNameForeground, theme.SizeNameText, false, false)},
	)
	if step.Formula != "" {
		text.Segments = append(text.Segments, &widget.TextSegment{Text: step.Formula, Style: style(look.ColorFaint, look.SizeSmall, false, false)})
	}
	if step.Source != "" {
		text.Segments = append(text.Segments, &widget.TextSegment{Text: "Source: " + step.Source, Style: style(look.ColorFaint, look.SizeSmall, false, false)})
	}
	text.Wrapping = fyne.TextWrapWord
	return text
}

func sum(step analysis.Step, c unit.Convention) string {
	if step.Unit == "" {
		return step.Text
	}
	result := resultText(step, c)
	if step.Numbers == "" || step.Numbers == result {
		return result
	}
	return step.Numbers + " = " + result
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

// resultText writes the result of a step with its unit.
func resultText(step analysis.Step, c unit.Convention) string {
	switch step.Unit {
	case "V":
		return unit.Format(step.Result, unit.Voltage, c)
	case "m":
		return lengthText(step.Result, c)
	case "%":
		return unit.Format(step.Result, unit.Percent, c)
	}
	return unit.Format(step.Result, unit.Ratio, c) + " " + step.Unit
}

func style(color fyne.ThemeColorName, size fyne.ThemeSizeName, bold, inline bool) widget.RichTextStyle {
	return widget.RichTextStyle{ColorName: color, SizeName: size, TextStyle: fyne.TextStyle{Bold: bold}, Inline: inline}
}

func paragraphOf(s string) fyne.CanvasObject {
	label := widget.NewLabel(s)
	label.Wrapping = fyne.TextWrapWord
	return label
}
