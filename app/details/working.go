package details

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
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
	bus    diagram.ID
	mode   int // index into the levels of the picked mode; the worst stands first
}

func newWorkingView() *workingView { return &workingView{object: container.NewVBox()} }

// show explains the selected bus and reports whether there is one.
func (w *workingView) show(doc *diagram.Document, state State) bool {
	w.object.RemoveAll()
	defer w.object.Refresh()
	bus, ok := busOf(doc, state)
	if !ok {
		return false
	}
	if bus.ID != w.bus || w.mode >= len(bus.Levels) {
		w.bus, w.mode = bus.ID, 0
	}
	w.object.Add(subheading("Working"))
	w.object.Add(faint(fmt.Sprintf("%s, by the %s", doc.NameOf(bus.ID), state.Result.Basis)))
	for i, level := range bus.Levels {
		w.object.Add(w.modeLine(doc, state, i, level))
	}
	picked := bus.Levels[w.mode]
	w.object.Add(paragraphOf(picked.Why))
	for _, step := range picked.Working {
		w.object.Add(stepView(step, state.Convention))
	}
	return true
}

// busOf returns the result to explain: of the selected bus, or of the bus that
// the selected protector is on.
func busOf(doc *diagram.Document, state State) (analysis.BusResult, bool) {
	if state.Result == nil || len(state.Selected) != 1 {
		return analysis.BusResult{}, false
	}
	id := state.Selected[0]
	if p, ok := doc.Protector(id); ok {
		id = p.Bus
	}
	if _, judged := state.Result.Buses[id]; !judged {
		return analysis.BusResult{}, false
	}
	bus, ok := state.Explain(id)
	return bus, ok && len(bus.Levels) > 0
}

func (w *workingView) modeLine(doc *diagram.Document, state State, i int, level analysis.Level) fyne.CanvasObject {
	line := widget.NewButton(levelText(level, state.Convention), func() {
		w.mode = i
		w.show(doc, state)
	})
	line.Alignment = widget.ButtonAlignLeading
	line.Importance = widget.LowImportance
	if i == w.mode {
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

// stepView is one step: what it is, the sum, and the source in faint letters.
func stepView(step analysis.Step, c unit.Convention) fyne.CanvasObject {
	text := widget.NewRichText(
		&widget.TextSegment{Text: step.Label, Style: style(look.ColorHeading, theme.SizeNameText, true, false)},
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

// resultText writes the result of a step with its unit.
func resultText(step analysis.Step, c unit.Convention) string {
	switch step.Unit {
	case "V":
		return unit.Format(step.Result, unit.Voltage, c)
	case "m":
		return unit.Format(step.Result, unit.Length, c)
	case "%":
		return unit.Format(step.Result, unit.Percent, c)
	}
	return unit.Format(step.Result, unit.Ratio, c) + " " + step.Unit
}

func style(color fyne.ThemeColorName, size fyne.ThemeSizeName, bold, inline bool) widget.RichTextStyle {
	return widget.RichTextStyle{ColorName: color, SizeName: size, TextStyle: fyne.TextStyle{Bold: bold}, Inline: inline}
}

func faint(s string) fyne.CanvasObject {
	out := canvas.NewText(s, theme.Color(look.ColorFaint))
	out.TextSize = theme.Size(theme.SizeNameText)
	return out
}

func paragraphOf(s string) fyne.CanvasObject {
	label := widget.NewLabel(s)
	label.Wrapping = fyne.TextWrapWord
	return label
}
