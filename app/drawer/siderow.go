package drawer

import (
	"fmt"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/analysis/compare"
	"clampline/analysis/mark"
	"clampline/app/look"
	"clampline/diagram/draw"
	"clampline/diagram/unit"
)

// sideRow is a board or load in the comparison: its name, and what each plan leaves there.
type sideRow struct {
	widget.BaseWidget
	ground *canvas.Rectangle // behind the line with the cursor
	name   *widget.Label
	cells  []*sideCell
	object *fyne.Container
}

func newSideRow(plans int) *sideRow {
	r := &sideRow{ground: canvas.NewRectangle(color.Transparent), name: widget.NewLabel("")}
	r.name.Truncation = fyne.TextTruncateEllipsis
	r.ground.CornerRadius = theme.Size(theme.SizeNameSelectionRadius)
	columns := container.New(planColumns{}, r.name)
	for range plans {
		cell := newSideCell()
		r.cells = append(r.cells, cell)
		columns.Add(cell.object)
	}
	r.object = container.NewStack(r.ground, columns)
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer returns the renderer: the objects of the line.
func (r *sideRow) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.object) }

// show writes a board or load.
func (r *sideRow) show(row compare.Row, s CompareState) {
	name := s.Table.Document.NameOf(row.Part.ID)
	if row.Critical {
		name += ", critical"
	}
	setText(r.name, name)
	for i, cell := range r.cells[:min(len(r.cells), len(row.Cells))] {
		cell.show(row.Cells[i], s)
	}
}

// mark shows whether the cursor is on the line, and whether keys move it.
func (r *sideRow) mark(cursor, focused bool) { markGround(r.ground, cursor, focused) }

// sideCell is what one plan leaves: the letter of the verdict on its colour, and the
// figures.
type sideCell struct {
	badge  *canvas.Rectangle
	letter *canvas.Text
	figure *widget.Label
	object *fyne.Container
}

// badgeSide is that of the square of a verdict, px.
const badgeSide = 17

func newSideCell() *sideCell {
	c := &sideCell{badge: canvas.NewRectangle(color.Transparent), letter: canvas.NewText("", color.Transparent), figure: widget.NewLabel("")}
	c.badge.CornerRadius = 3
	c.badge.SetMinSize(fyne.NewSize(badgeSide, badgeSide))
	c.letter.TextStyle.Bold, c.letter.Alignment = true, fyne.TextAlignCenter
	c.letter.TextSize = theme.Size(theme.SizeNameCaptionText)
	c.figure.Truncation = fyne.TextTruncateEllipsis
	sign := container.NewCenter(container.NewStack(c.badge, c.letter))
	c.object = container.NewBorder(nil, nil, sign, nil, c.figure)
	return c
}

func (c *sideCell) show(cell compare.Cell, s CompareState) {
	text, letter, fill := "…", "", color.Color(color.Transparent)
	if cell.Solved {
		role, _ := mark.Style(cell.Level.Verdict)
		text, letter, fill = cellWords(cell, s.Convention), cell.Level.Verdict.Letter(), s.Palette[role]
	}
	setText(c.figure, text)
	if c.letter.Text != letter || c.badge.FillColor != fill {
		c.letter.Text, c.letter.Color, c.badge.FillColor = letter, s.Palette[draw.RoleOnVerdict], fill
		c.letter.Refresh()
		c.badge.Refresh()
	}
}

// cellWords is what a plan leaves in a few words: "900 V L-N · 60 %".
func cellWords(cell compare.Cell, c unit.Convention) string {
	l := cell.Level
	if !l.Known {
		return unit.Terms(string(l.Reason), c)
	}
	out := unit.Format(l.Volts, unit.Voltage, c) + " " + unit.ModeWord(l.Mode.String(), c)
	if percent, ok := l.Percent(); ok {
		out += fmt.Sprintf(" · %.0f %%", percent)
	} else {
		out += " · " + unit.Terms(string(l.Reason), c)
	}
	if b := cell.Band; b != nil {
		out += " · " + mark.BandVolts(b.Low, c) + " to " + mark.BandVolts(b.High, c)
	}
	return out
}

// planHead is the head of a column: a plan with its totals. A click shows the plan.
type planHead struct {
	widget.BaseWidget
	tapped func()
	object fyne.CanvasObject
}

func newPlanHead(c *Compare, plan compare.Plan) *planHead {
	h := &planHead{tapped: func() { c.hands.ShowPlan(plan.ID) }}
	name := smallText(c.state.Table.Document.NameOf(plan.ID), look.ColorHeading, true)
	if plan.ID == c.state.Plan {
		name = smallText("▸ "+c.state.Table.Document.NameOf(plan.ID), theme.ColorNamePrimary, true)
	}
	lines := container.New(tight{}, name)
	for _, line := range headLines(c.state.Table, plan) {
		lines.Add(smallText(line, look.ColorFaint, false))
	}
	h.object = lines
	h.ExtendBaseWidget(h)
	return h
}

// Tapped shows the plan.
func (h *planHead) Tapped(*fyne.PointEvent) { h.tapped() }

// CreateRenderer returns the renderer: its lines.
func (h *planHead) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(h.object) }

// headLines are the totals of a plan: its verdicts, those of critical equipment where there is
// any, the findings left, and what its work costs.
func headLines(t *compare.Table, plan compare.Plan) []string {
	cost := "nothing to buy or do"
	if len(plan.Cost.Bought)+len(plan.Cost.Altered) > 0 {
		cost = analysis.FigureIn(plan.Cost.Hours, "h") + " · " + costWords(plan.Cost)
	}
	if plan.Result == nil {
		return []string{"…", "", "", cost}
	}
	critical := totalsText(plan.Critical)
	if critical == "" {
		critical = "none"
	}
	return []string{totalsText(plan.All), critical, findingsText(plan), cost}
}

// costWords is what the work of a plan costs, and whether something is missing in it.
func costWords(c compare.Cost) string {
	out := c.Sum(c.Total)
	if !c.Whole() {
		return "from " + out
	}
	return out
}

// totalsText counts verdicts by their letters: "H 18 · X 2".
func totalsText(of compare.Totals) string {
	var words []string
	for _, v := range analysis.Verdicts() {
		if of[v] > 0 {
			words = append(words, fmt.Sprintf("%s %d", v.Letter(), of[v]))
		}
	}
	return strings.Join(words, " · ")
}

// findingsText counts the findings left, and those set aside.
func findingsText(plan compare.Plan) string {
	out := Counts(plan.Open).String()
	if out == "" {
		out = "no findings"
	}
	aside := 0
	for _, n := range plan.Aside {
		aside += n
	}
	if aside > 0 {
		out += fmt.Sprintf(" · %d set aside", aside)
	}
	return out
}

// newHeadNote says what stands in the lines beside it.
func newHeadNote(s CompareState) fyne.CanvasObject {
	lines := container.New(tight{})
	for _, text := range []string{"Plan", "boards and loads", "critical of them", "findings left", "labour and price"} {
		lines.Add(smallText(text, look.ColorFaint, false))
	}
	lines.Objects[0] = smallText("Plan", look.ColorHeading, true)
	if s.Table == nil {
		lines.Objects = nil
	}
	return lines
}

// smallText is one line that is cut off where its column ends.
func smallText(text string, name fyne.ThemeColorName, bold bool) fyne.CanvasObject {
	style := look.Style(name, look.SizeSmall, bold, true)
	out := widget.NewRichText(&widget.TextSegment{Text: text, Style: style})
	out.Truncation = fyne.TextTruncateEllipsis
	return out
}

// tight lays lines of text out one below the other, without the margin that each has.
type tight struct{}

// inset is the margin of a line of text that is taken off above and below, px.
func inset() float32 { return theme.Size(theme.SizeNameInnerPadding) - 1 }

// MinSize is that of all lines.
func (tight) MinSize(objects []fyne.CanvasObject) fyne.Size {
	out := fyne.NewSize(0, 4)
	for _, o := range objects {
		out.Height += o.MinSize().Height - 2*inset()
	}
	return out
}

// Layout places them.
func (tight) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := 2 - inset()
	for _, o := range objects {
		high := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, high))
		y += high - 2*inset()
	}
}

// planColumns lays out a name and a column for each plan, all plans alike wide.
type planColumns struct{}

const (
	nameColumn = 170 // px, at least
	planColumn = 170 // px, at least
	nameShare  = 0.2 // of the width
)

// MinSize is that in which every column can be read.
func (planColumns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	out := fyne.NewSize(nameColumn+planColumn*float32(max(len(objects)-1, 0)), 0)
	for _, o := range objects {
		out.Height = max(out.Height, o.MinSize().Height)
	}
	return out
}

// Layout places the columns.
func (planColumns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	if len(objects) == 0 {
		return
	}
	name := max(nameColumn, nameShare*size.Width)
	each := (size.Width - name) / float32(max(len(objects)-1, 1))
	for i, o := range objects {
		x, width := float32(0), name
		if i > 0 {
			x, width = name+float32(i-1)*each, each
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(width, size.Height))
	}
}
