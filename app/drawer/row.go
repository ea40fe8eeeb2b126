package drawer

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/app/look"
	"clampline/diagram/unit"
)

// row is one line of the list: an icon, what is found, and faint at the right
// its subject; or the heading of a group.
type row struct {
	widget.BaseWidget
	ground *canvas.Rectangle // behind the line with the cursor
	icon   *widget.Icon
	what   *widget.Label
	about  *look.Faint
	object *fyne.Container
}

// cursorEdge is the width of the edge of the line with the cursor, while keys
// go to the list, px.
const cursorEdge = 1

func newRow() *row {
	r := &row{ground: canvas.NewRectangle(color.Transparent), icon: widget.NewIcon(nil), what: widget.NewLabel(""), about: look.NewFaint("")}
	r.what.Truncation = fyne.TextTruncateEllipsis
	r.ground.CornerRadius = theme.Size(theme.SizeNameSelectionRadius)
	sign := container.New(layout.NewCustomPaddedLayout(0, 0, 6, 0), r.icon)
	r.object = container.NewStack(r.ground, container.NewBorder(nil, nil, sign, r.about, r.what))
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer returns the renderer: the objects of the line.
func (r *row) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.object) }

// showFinding writes a finding.
func (r *row) showFinding(finding analysis.Finding, icon fyne.Resource, about string, c unit.Convention) {
	r.write(unit.Words(finding.What, c), false)
	r.about.SetText(about)
	r.icon.SetResource(icon)
}

// showHeading writes the heading of a group.
func (r *row) showHeading(l line, folded bool, c unit.Convention) {
	r.write(unit.SentenceCase(headingOf(l.group, c)), true)
	r.about.SetText(fmt.Sprint(l.count))
	if folded {
		r.icon.SetResource(theme.MenuExpandIcon())
	} else {
		r.icon.SetResource(theme.MenuDropDownIcon())
	}
}

// write writes a text where it is another one: most findings stay from one
// result to the next, and to shorten a line to its room is dear.
func (r *row) write(text string, bold bool) {
	if r.what.Text == text && r.what.TextStyle.Bold == bold {
		return
	}
	r.what.Text, r.what.TextStyle.Bold = text, bold
	r.what.Refresh()
}

// mark shows whether the cursor is on the line, and whether keys move it.
func (r *row) mark(cursor, focused bool) { markGround(r.ground, cursor, focused) }

// iconsOf returns the sign of each severity.
func iconsOf() [severities]fyne.Resource {
	return [severities]fyne.Resource{
		analysis.Remark:  theme.InfoIcon(),
		analysis.Warning: theme.NewWarningThemedResource(theme.WarningIcon()),
		analysis.Error:   theme.NewErrorThemedResource(theme.ErrorIcon()),
	}
}
