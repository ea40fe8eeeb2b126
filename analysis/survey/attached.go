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
// the upper and on the lower line.
type attachedColumn struct {
	heading, below string
	share          float64
	upper, lower   string // keys
}

func attachedColumns(c unit.Convention) []attachedColumn {
	out := []attachedColumn{
		{"Protector", "name", 0.15, "protector", ""},
		{"Type", "or class", 0.085, "type", ""},
	}
	for _, mode := range diagram.Modes() {
		out = append(out, attachedColumn{unit.ModeWord(mode.String(), c), "VPR / MCOV", 0.075, "level " + mode.String(), "mcov " + mode.String()})
	}
	if c == unit.IEC {
		for i := range out[2:] {
			out[2+i].below = "Up / Uc"
		}
	}
	earth := words{"ground", "earth"}.in(c)
	return append(out,
		attachedColumn{"Breaker", "SCCR", 0.085, "breaker", "sccr"},
		attachedColumn{"Phase", "lead", 0.085, "phase lead", ""},
		attachedColumn{"Neutral", "lead", 0.085, "neutral lead", ""},
		attachedColumn{sentenceCase(earth), "lead", 0.085, "earth lead", ""},
		attachedColumn{"Indicator", "shows", 0.11, "", ""},
	)
}

func sentenceCase(s string) string { return string(s[0]-'a'+'A') + s[1:] }

// attached draws the table of protectors with so many rows.
func (v *canvas) attached(protectors []Attached, rows int) {
	columns := attachedColumns(v.convention)
	cells := make([]cell, len(columns))
	for i, column := range columns {
		cells[i] = cell{column.share, func(box geom.Rect) {
			v.label(box, column.heading)
			v.write(geom.Pt(box.Min.X+inset, box.Max.Y-1.2), box.Width()-2*inset, column.below, labelStyle)
		}}
	}
	v.row(7, cells...)
	for row := range rows {
		var p Attached
		if row < len(protectors) {
			p = protectors[row]
		}
		for i, column := range columns {
			cells[i] = cell{column.share, func(box geom.Rect) { v.attachedCell(box, column, p) }}
		}
		v.row(attachedHeight, cells...)
	}
}

func (v *canvas) attachedCell(box geom.Rect, column attachedColumn, p Attached) {
	at, width := geom.Pt(box.Min.X+inset, box.Min.Y+4), box.Width()-2*inset
	if column.upper == "" {
		for i, word := range []string{"in order", "fault"} {
			v.squares(at.Add(geom.Pt(0, 3.8*float64(i))), box.Max.X-inset, Line{}, []string{word})
		}
		return
	}
	s := style{size: 2.7}
	v.write(at, width, lineOf(p.Lines, column.upper).Value, s)
	if column.lower != "" {
		v.write(at.Add(geom.Pt(0, 3.8)), width, lineOf(p.Lines, column.lower).Value, s)
	}
}
