package drawer

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram/unit"
)

// whole shows all of one finding: what it says, its working, and what mends it.
type whole struct {
	*page
	text      *widget.RichText
	working   *fyne.Container
	mend      *look.Button
	all       *look.Button
	duplicate *look.Button     // the plan, before that is altered
	aside     *look.Button     // sets it aside, or counts it again
	steps     analysis.Working // that the working shows
	in        unit.Convention  // of the steps
}

// newWhole returns an empty view. What it is given is called where its buttons are
// pressed.
func newWhole(mend, all, duplicate, aside func()) *whole {
	w := &whole{text: widget.NewRichText(), working: container.NewVBox()}
	w.mend, w.all = look.NewButton("", mend), look.NewButton("", all)
	w.duplicate = look.NewButton("Duplicate plan first", duplicate)
	w.aside = look.NewButton("", aside)
	w.text.Wrapping = fyne.TextWrapWord
	w.mend.Importance = widget.HighImportance
	w.page = newPage(w.text, w.working, w.mend, w.all, w.aside)
	w.noteBeside(w.duplicate)
	w.empty()
	return w
}

// empty shows nothing.
func (w *whole) empty() {
	w.write(nil)
	w.list(nil, w.in)
	w.offer("", 0, false)
	w.record("")
	setButton(w.aside, false, false, "")
	w.arrange()
}

// show shows a finding. There are so many that the same change mends, itself
// included; while a newer result is due nothing can be mended.
func (w *whole) show(f analysis.Finding, alike int, s State) {
	a, isAside := s.asideOf(f)
	segments := segmentsOf(f, s.Convention)
	if isAside { // above what it says, for that is why it was opened
		segments = slices.Insert(segments, aboveWhy, widget.RichTextSegment(&widget.TextSegment{Text: "Set aside: " + analysis.Said(a.By), Style: look.Style(theme.ColorNameForeground, theme.SizeNameText, true, false)}))
	}
	w.write(segments)
	w.list(f.Working, s.Convention)
	w.offer(mendLabel(f, isAside, s.Convention), alike, s.Due)
	note := ""
	if plan, recorded := Recorded(f, s.Document, s.Plan); recorded && !isAside {
		shown, _ := s.Document.Plan(s.Plan)
		note = recordNote(plan, shown.Locked)
	}
	w.record(note)
	setButton(w.aside, f.Rule != "", s.Due, map[bool]string{false: "Set aside…", true: "Count it again"}[isAside])
	w.arrange()
}

// mendLabel is what mends a finding, or empty where that is not offered: what is set
// aside has to count again first.
func mendLabel(f analysis.Finding, isAside bool, c unit.Convention) string {
	switch label := unit.Words(f.Mend.Label, c); {
	case isAside:
		return ""
	case f.Mend.Choices != nil:
		return label + choosing
	default:
		return label
	}
}

// record says what a change means of which a plan keeps the record, where there is
// such a note, and offers to duplicate the plan.
func (w *whole) record(note string) {
	w.tell(note)
	setVisible(w.duplicate, note != "")
}

func (w *whole) write(segments []widget.RichTextSegment) {
	if !slices.Equal(textsOf(segments), textsOf(w.text.Segments)) {
		w.text.Segments = segments
		w.text.Refresh()
	}
}

func textsOf(segments []widget.RichTextSegment) []string {
	out := make([]string, len(segments))
	for i, s := range segments {
		out[i] = s.Textual()
	}
	return out
}

// aboveWhy is how many segments stand above the reason of a finding.
const aboveWhy = 2

// segmentsOf writes all that a finding says but for its working, a line for
// each thing.
func segmentsOf(f analysis.Finding, c unit.Convention) []widget.RichTextSegment {
	out := []widget.RichTextSegment{
		&widget.TextSegment{Text: unit.Words(f.What, c), Style: look.Style(look.ColorHeading, theme.SizeNameSubHeadingText, true, false)},
		&widget.TextSegment{Text: aboutOf(f, c), Style: look.Style(look.ColorFaint, theme.SizeNameText, false, false)},
	}
	for _, line := range []struct{ label, text string }{
		{"Why", unit.Words(f.Why, c)}, {"Mend", unit.Words(f.Remedy, c)}, {"Rule", unit.Terms(f.Source, c)},
	} {
		if line.text != "" {
			out = append(out,
				&widget.TextSegment{Text: line.label + ": ", Style: look.Style(theme.ColorNameForeground, theme.SizeNameText, true, true)},
				&widget.TextSegment{Text: line.text, Style: look.Style(theme.ColorNameForeground, theme.SizeNameText, false, false)})
		}
	}
	return out
}

// aboutOf is how grave a finding is and what it is about, in a line.
func aboutOf(f analysis.Finding, c unit.Convention) string {
	out := unit.SentenceCase(f.Severity.String()) + " · " + unit.Terms(f.Subject, c)
	if f.Critical {
		out += " · concerns critical equipment"
	}
	return out
}

// list lists the steps of a working.
func (w *whole) list(steps analysis.Working, c unit.Convention) {
	if c == w.in && slices.Equal(steps, w.steps) {
		return
	}
	w.steps, w.in = steps, c
	var lines []fyne.CanvasObject
	if len(steps) > 0 {
		lines = append(lines, widget.NewRichText(&widget.TextSegment{Text: "Working", Style: look.Style(look.ColorHeading, theme.SizeNameSubHeadingText, true, false)}))
	}
	for _, step := range steps {
		lines = append(lines, look.Step(step, c))
	}
	w.working.Objects = lines
	w.working.Refresh()
}

// offer sets the buttons up: for the change with the label, none where it is
// empty, and for so many findings that it mends.
func (w *whole) offer(label string, alike int, due bool) {
	setButton(w.mend, label != "", due, "Mend it: "+cut(label))
	setButton(w.all, label != "" && alike > 1, due, fmt.Sprintf("Mend all %d like this", alike))
}

func setButton(b *look.Button, there, due bool, text string) {
	if there && b.Text != text {
		b.SetText(text)
	}
	if due != b.Disabled() {
		if due {
			b.Disable()
		} else {
			b.Enable()
		}
	}
	if there != b.Visible() {
		if there {
			b.Show()
		} else {
			b.Hide()
		}
	}
}

// labelRunes is how long the label of a change may be on a button, which has to
// have room in a narrow drawer.
const labelRunes = 46

// cut shortens a label that is too long.
func cut(label string) string {
	runes := []rune(label)
	if len(runes) <= labelRunes {
		return label
	}
	return string(runes[:labelRunes-1]) + "…"
}
