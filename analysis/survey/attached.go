package survey

import (
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

const (
	onForm         = 4  // protectors on the page of a board
	onContinuation = 20 // and on each page after it
	attachedHeight = 9.0
	headingHeight  = 7.0
)

// continued returns how many more pages the protectors of a board take.
func continued(s Sheet) int {
	return (max(0, len(s.Protectors)-onForm) + onContinuation - 1) / onContinuation
}

// continuation draws a page of protectors that the page of the board has no room
// for.
func continuation(s Sheet, part, n, of int) *draw.Picture {
	v := newCanvas(s.Convention)
	v.head(s, "Survey sheet, continued", n, of)
	v.section("Protectors that are there")
	from := onForm + part*onContinuation
	rest := s.Protectors[from:min(len(s.Protectors), from+onContinuation)]
	v.attached(rest, len(rest)+1)
	v.foot()
	return v.picture
}

// attachedColumn is one column of the table of protectors: what stands in it on
// the upper and on the lower line. The upper line may be divided.
type attachedColumn struct {
	heading, below string
	share          float64
	upper, lower   string // keys
	divided        []attachedColumn
}

func attachedColumns(c unit.Convention) []attachedColumn {
	out := []attachedColumn{
		{heading: "Protector", below: "rated by VPR or Up", share: 0.15, upper: keyProtectorName, lower: keyRated},
		{heading: "Type or class", below: "In (kA)", share: 0.085, upper: keyType, lower: keyIn},
	}
	levels := words{"VPR / MCOV", "Up / Uc"}.in(c)
	for _, mode := range diagram.Modes() {
		out = append(out, attachedColumn{heading: unit.ModeWord(mode.String(), c), below: levels, share: 0.075, upper: keyLevel(mode), lower: keyMCOV(mode)})
	}
	earth := words{"Ground", "Earth"}.in(c)
	return append(out,
		attachedColumn{heading: "Breaker", below: "SCCR (kA)", share: 0.085, upper: "breaker", lower: "sccr"},
		attachedColumn{below: "remarks", share: 0.255, lower: "protector note", divided: []attachedColumn{
			{heading: "Phase lead", upper: "phase lead"}, {heading: "Neutral lead", upper: "neutral lead"}, {heading: earth + " lead", upper: "earth lead"},
		}},
		attachedColumn{heading: "Indicator", below: "shows", share: 0.11},
	)
}

// attached draws the table of protectors with so many rows.
func (v *canvas) attached(protectors []Attached, rows int) {
	columns := attachedColumns(v.convention)
	v.attachedRow(headingHeight, columns, func(box geom.Rect, column attachedColumn) {
		v.label(box, column.heading)
		v.write(geom.Pt(box.Min.X+inset, box.Max.Y-1.2), box.Width()-2*inset, column.below, labelStyle)
	})
	for row := range rows {
		var p Attached
		if row < len(protectors) {
			p = protectors[row]
		}
		v.attachedRow(attachedHeight, columns, func(box geom.Rect, column attachedColumn) { v.attachedCell(box, column, p) })
	}
}

// attachedRow draws the boxes of a row, and has the words of each column written
// into its box.
func (v *canvas) attachedRow(height float64, columns []attachedColumn, write func(geom.Rect, attachedColumn)) {
	cells := make([]cell, len(columns))
	for i, column := range columns {
		cells[i] = cell{column.share, func(box geom.Rect) {
			write(box, column)
			v.divide(box, column.divided, write)
		}}
	}
	v.row(height, cells...)
}

// divide draws columns beside each other on the upper line of a box.
func (v *canvas) divide(box geom.Rect, columns []attachedColumn, write func(geom.Rect, attachedColumn)) {
	const share = 0.55 // of the height
	x, half := box.Min.X, box.Min.Y+share*box.Height()
	for i, column := range columns {
		next := box.Min.X + box.Width()*float64(i+1)/float64(len(columns))
		upper := geom.RectOf(geom.Pt(x, box.Min.Y), geom.Pt(next, half))
		v.picture.Stroke(draw.Rectangle(upper, 0), draw.Pen{Width: frameWidth})
		write(geom.RectOf(upper.Min, geom.Pt(next, box.Max.Y)), column)
		x = next
	}
}

func (v *canvas) attachedCell(box geom.Rect, column attachedColumn, p Attached) {
	const step = 4.2
	at, width := geom.Pt(box.Min.X+inset, box.Min.Y+3.4), box.Width()-2*inset
	s := style{size: 2.7}
	switch {
	case column.upper != "":
		v.write(at, width, lineOf(p.Lines, column.upper).Value, s)
	case len(column.divided) == 0: // nothing that is on record
		for i, word := range []string{"in order", "fault"} {
			v.squares(at.Add(geom.Pt(0, step*float64(i))), box.Max.X-inset, Line{}, []string{word})
		}
	}
	if column.lower != "" {
		v.write(at.Add(geom.Pt(0, step)), width, oneLine(lineOf(p.Lines, column.lower).Value), s)
	}
}
