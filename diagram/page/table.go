package page

import (
	"strconv"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Column is a column of a table.
type Column struct {
	Title  string
	Weight float64 // its share of the width; 0 for what its widest cell needs, an equal share at most
	Align  draw.Align
	Bold   bool
}

// Table is rows of cells that wrap within their columns, its titles again on each page.
// A row is not torn unless it is higher than a page. A row may have fewer cells than
// there are columns; what is beyond them is left out.
type Table struct {
	Columns []Column
	Rows    [][]string
	Total   []string // a last row that sums up; may be nil
	Empty   string   // what stands in place of rows where there are none
}

const (
	cellApart = 2.5 // between columns
	cellSpace = 1.2 // above and below the text of a row
)

func (b Table) lay(room geom.Point) []piece {
	if len(b.Columns) == 0 {
		return nil
	}
	if len(b.Rows) == 0 && b.Total == nil {
		return Paragraph{Text: b.Empty, Faint: true}.lay(room)
	}
	widths := b.widths(room.X)
	head := b.head(widths, room)
	out := []piece{head}
	below := room.Y - head.height
	for i, row := range b.Rows {
		parts := tornRow(b.cells(row, widths, bodyType), below, cellSpace)
		ruled(parts, room.X, draw.RoleGrid, 0.25)
		if i == len(b.Rows)-1 && b.Total != nil {
			parts[len(parts)-1].keep = true
		}
		out = append(out, parts...)
	}
	if b.Total != nil {
		parts := tornRow(b.cells(b.Total, widths, bodyType.bold()), below, cellSpace)
		rule(parts[0].picture, 0, room.X, 0, draw.RoleInk, 0.45)
		out = append(out, parts...)
	}
	again := head
	for i := range out[1:] {
		out[i+1].again = &again
	}
	return out
}

// head returns the titles of the columns; they stay with the first row.
func (b Table) head(widths []float64, room geom.Point) piece {
	var titles []string
	for _, c := range b.Columns {
		titles = append(titles, c.Title)
	}
	cells := b.cells(titles, widths, faintType)
	for i := range cells {
		cells[i].t.Bold = false
		cells[i].texts = most(cells[i].texts, 4, cells[i].width, faintType)
	}
	head := piece{picture: draw.NewPicture(), height: cellSpace}
	if parts := tornRow(cells, room.Y, 0.6); len(parts) > 0 {
		head = parts[0]
	}
	ruled([]piece{head}, room.X, draw.RoleFaint, 0.35)
	head.before, head.keep = 2, true
	return head
}

// ruled draws a line below a row.
func ruled(parts []piece, width float64, role draw.Role, pen float64) {
	last := parts[len(parts)-1]
	rule(last.picture, 0, width, last.height-pen/2, role, pen)
}

// widths shares the width out.
func (b Table) widths(whole float64) []float64 {
	left := whole - cellApart*float64(len(b.Columns)-1)
	equal, weights := left/float64(len(b.Columns)), 0.0
	out := make([]float64, len(b.Columns))
	for i, c := range b.Columns {
		if weights += max(0, c.Weight); c.Weight <= 0 {
			out[i] = min(b.need(i), equal)
			left -= out[i]
		}
	}
	for i, c := range b.Columns {
		switch {
		case c.Weight > 0:
			out[i] = left * c.Weight / weights
		case weights == 0: // what is over belongs to all
			out[i] += left / float64(len(b.Columns))
		}
	}
	return out
}

// need returns the width of the widest cell of a column.
func (b Table) need(column int) float64 {
	need := faintType.width(oneLine(b.Columns[column].Title))
	for _, row := range append(b.Rows[:len(b.Rows):len(b.Rows)], b.Total) {
		if column < len(row) {
			need = max(need, bodyType.bold().width(oneLine(row[column])))
		}
	}
	return need + 1e-6
}

// cells returns a row set in its columns. It has one cell at least.
func (b Table) cells(row []string, widths []float64, t Type) []cell {
	out := make([]cell, len(b.Columns))
	x := 0.0
	for i, c := range b.Columns {
		own := t.aligned(c.Align)
		own.Bold = t.Bold || c.Bold
		out[i] = cell{at: x, width: widths[i], t: own}
		if i < len(row) {
			out[i].texts = own.wrap(unit.VisibleLines(row[i]), widths[i])
		}
		x += widths[i] + cellApart
	}
	return out
}

// cell is a text beside others in a row.
type cell struct {
	texts     []string
	at, width float64
	t         Type
	drop      float64 // below the top of the row
}

// tornRow returns a row of cells with a space above and below its text: one piece,
// or several where it is higher than the height given. Without text there is one, a
// line high.
func tornRow(cells []cell, height, space float64) []piece {
	line, count := 0.0, 1
	for _, c := range cells {
		line, count = max(line, c.t.line()), max(count, len(c.texts))
	}
	room := max(1, int((height-2*space)/line))
	var out []piece
	for from := 0; from < count; from += room {
		to := min(count, from+room)
		p := piece{picture: draw.NewPicture(), height: float64(to-from)*line + 2*space}
		for _, c := range cells {
			own := c.texts[min(from, len(c.texts)):min(to, len(c.texts))]
			lines(p.picture, geom.Pt(c.at, space+c.drop), c.width, own, c.t)
		}
		out = append(out, p)
	}
	return out
}

func count(n int) string { return strconv.Itoa(n) }
