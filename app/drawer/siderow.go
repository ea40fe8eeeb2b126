package drawer

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis/compare"
	"clampline/analysis/mark"
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
