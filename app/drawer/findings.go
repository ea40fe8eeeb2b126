package drawer

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
)

// Findings is the list of what is wrong or doubtful, and beside it the whole of
// the one that was clicked. Use NewFindings.
type Findings struct {
	object   *fyne.Container
	empty    *widget.Label
	list     *widget.List
	whole    *widget.RichText
	split    *container.Split
	findings []analysis.Finding
	picked   analysis.Finding
}

// NewFindings returns an empty list. goTo is called with the records of the
// finding that is clicked.
func NewFindings(goTo func(records []diagram.ID)) *Findings {
	f := &Findings{empty: widget.NewLabel("No findings."), whole: widget.NewRichText()}
	f.whole.Wrapping = fyne.TextWrapWord
	f.list = widget.NewList(
		func() int { return len(f.findings) },
		newFindingRow,
		func(i widget.ListItemID, o fyne.CanvasObject) { showFinding(o, f.findings[i]) },
	)
	f.list.OnSelected = func(i widget.ListItemID) {
		f.list.UnselectAll()
		if i < len(f.findings) {
			f.pick(f.findings[i])
			goTo(f.picked.Records)
		}
	}
	f.split = container.NewHSplit(f.list, container.NewVScroll(f.whole))
	f.split.SetOffset(0.5)
	f.object = container.NewStack(f.split, container.NewCenter(f.empty))
	f.Show(nil)
	return f
}

// Object returns what to place in the window.
func (f *Findings) Object() fyne.CanvasObject { return f.object }

// Show lists the findings. What was picked stays picked while it is there.
func (f *Findings) Show(findings []analysis.Finding) {
	f.findings = findings
	if len(findings) == 0 {
		f.split.Hide()
		f.empty.Show()
		f.picked = analysis.Finding{}
		return
	}
	f.empty.Hide()
	f.split.Show()
	at := slices.IndexFunc(findings, func(other analysis.Finding) bool {
		return f.picked.What != "" && other.Subject == f.picked.Subject && slices.Equal(other.Records, f.picked.Records)
	})
	f.pick(findings[max(at, 0)])
	f.list.Refresh()
}

// ShowFirst shows the whole of the first finding, whatever was picked before.
func (f *Findings) ShowFirst() {
	if len(f.findings) > 0 {
		f.pick(f.findings[0])
		f.list.ScrollToTop()
	}
}

// pick shows the whole of a finding.
func (f *Findings) pick(finding analysis.Finding) {
	f.picked = finding
	segments := whole(finding)
	if !slices.Equal(texts(segments), texts(f.whole.Segments)) {
		f.whole.Segments = segments
		f.whole.Refresh()
	}
}

func texts(segments []widget.RichTextSegment) []string {
	out := make([]string, len(segments))
	for i, s := range segments {
		out[i] = s.Textual()
	}
	return out
}

// whole writes all that a finding says, a line for each thing.
func whole(f analysis.Finding) []widget.RichTextSegment {
	out := []widget.RichTextSegment{&widget.TextSegment{Text: f.What, Style: widget.RichTextStyle{TextStyle: fyne.TextStyle{Bold: true}}}}
	for _, line := range []struct{ label, text string }{
		{"Why", f.Why}, {"Mend", f.Remedy}, {"Rule", f.Source},
	} {
		if line.text != "" {
			out = append(out, &widget.TextSegment{Text: line.label + ": " + line.text})
		}
	}
	return out
}

// newFindingRow makes a row of two lines: what, then why.
func newFindingRow() fyne.CanvasObject {
	what := widget.NewLabel("")
	what.TextStyle.Bold = true
	what.Truncation = fyne.TextTruncateEllipsis
	why := widget.NewLabel("")
	why.Truncation = fyne.TextTruncateEllipsis
	return container.NewBorder(nil, nil, widget.NewIcon(theme.InfoIcon()), nil, container.NewVBox(what, why))
}

func showFinding(o fyne.CanvasObject, finding analysis.Finding) {
	row := o.(*fyne.Container)
	lines := row.Objects[0].(*fyne.Container)
	write(lines.Objects[0].(*widget.Label), finding.What)
	write(lines.Objects[1].(*widget.Label), finding.Why)
	row.Objects[1].(*widget.Icon).SetResource(icon(finding.Severity))
}

// write writes a line where it is another one: most findings stay from one
// result to the next, and to shorten a line to its room is dear.
func write(line *widget.Label, text string) {
	if line.Text != text {
		line.SetText(text)
	}
}

func icon(s analysis.Severity) fyne.Resource {
	switch s {
	case analysis.Error:
		return theme.NewErrorThemedResource(theme.ErrorIcon())
	case analysis.Warning:
		return theme.NewWarningThemedResource(theme.WarningIcon())
	}
	return theme.InfoIcon()
}
