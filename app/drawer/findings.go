package drawer

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram"
)

// Findings is the list of what is wrong or doubtful. Use NewFindings.
type Findings struct {
	object   *fyne.Container
	empty    *widget.Label
	list     *widget.List
	findings []analysis.Finding
}

// NewFindings returns an empty list. goTo is called with the records of the
// finding that is clicked.
func NewFindings(goTo func(records []diagram.ID)) *Findings {
	f := &Findings{empty: widget.NewLabel("No findings.")}
	f.list = widget.NewList(
		func() int { return len(f.findings) },
		newFindingRow,
		func(i widget.ListItemID, o fyne.CanvasObject) { showFinding(o, f.findings[i]) },
	)
	f.list.OnSelected = func(i widget.ListItemID) {
		if i < len(f.findings) {
			goTo(f.findings[i].Records)
		}
		f.list.UnselectAll()
	}
	f.object = container.NewStack(f.list, container.NewCenter(f.empty))
	return f
}

// Object returns what to place in the window.
func (f *Findings) Object() fyne.CanvasObject { return f.object }

// Show lists the findings.
func (f *Findings) Show(findings []analysis.Finding) {
	f.findings = findings
	if len(findings) == 0 {
		f.empty.Show()
	} else {
		f.empty.Hide()
	}
	f.list.Refresh()
}

// newFindingRow makes a row of two lines: what, then why and the remedy.
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
	write(lines.Objects[1].(*widget.Label), detail(finding))
	row.Objects[1].(*widget.Icon).SetResource(icon(finding.Severity))
}

// write writes a line where it is another one: most findings stay from one
// result to the next, and to shorten a line to its room is dear.
func write(line *widget.Label, text string) {
	if line.Text != text {
		line.SetText(text)
	}
}

func detail(f analysis.Finding) string {
	out := f.Why
	if f.Remedy != "" {
		out += "  Mend: " + f.Remedy
	}
	if f.Source != "" {
		out += fmt.Sprintf("  (%s)", f.Source)
	}
	return out
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
