package survey

import (
	"cmp"
	"slices"
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// pages draws the page of a board, and more where its protectors take them. Each has
// room for one that is not drawn.
func pages(s Sheet) []*canvas {
	first := newCanvas(s.Convention)
	first.head(s, "Survey sheet")
	first.asked(slices.Concat(s.Lines, s.Feed))
	const photos, leastRemarks = 15.0, 14.0 // mm
	rest := first.attached(s, s.Protectors, 0, first.bottom-first.footHeight()-photos-leastRemarks)
	first.photos()
	first.remarks(s)
	out := []*canvas{first}
	for len(rest) > 0 {
		next := newCanvas(s.Convention)
		next.head(s, "Survey sheet, continued")
		rest = next.attached(s, rest, 1, next.bottom-next.footHeight())
		out = append(out, next)
	}
	for _, v := range out {
		v.foot()
	}
	return out
}

// attached draws what is asked of protectors, of so many at least and of as many as have
// room down to a place on the page, and then of one that is not drawn yet. It returns
// the others.
func (v *canvas) attached(s Sheet, protectors [][]Line, least int, bottom float64) [][]Line {
	v.section("Protectors that are there")
	height := rowHeight*float64(len(v.rows(s.Free))) + blockGap
	room := min(len(protectors), max(least, int((bottom-v.y)/height)-1)) // beside the free one
	for _, lines := range append(slices.Clone(protectors[:room]), s.Free) {
		v.fill(lines)
		v.y += blockGap
	}
	return protectors[room:]
}

// head draws the title block: at the left what the page is about, at the right
// where it belongs.
func (v *canvas) head(s Sheet, title string) {
	const height, share = 21.0, 0.6
	middle := v.left + v.width()*share
	room := middle - v.left - 4
	at := geom.Pt(v.left, v.y+3)
	v.write(at, room, title, style{size: 3, role: draw.RoleFaint})
	v.write(at.Add(geom.Pt(0, 7)), room, s.Name, style{size: 5.6, bold: true})
	kind := unit.SentenceCase(string(s.Kind))
	v.write(at.Add(geom.Pt(0, 12)), room, kind+" ("+string(s.Board)+"), fed from:", style{size: 2.6, role: draw.RoleFaint})
	v.write(at.Add(geom.Pt(0, 15.8)), room, s.Line(keyFedFrom).Drawing, style{size: 2.6})

	box := geom.RectOf(geom.Pt(middle, v.y), geom.Pt(v.right, v.y+height-2))
	v.picture.Stroke(draw.Rectangle(box, 0), draw.Pen{Width: 0.35})
	at, width := box.Min.Add(geom.Pt(2, 4.4)), box.Width()-4
	v.write(at, width, s.Title, style{size: 3, bold: true})
	v.write(at.Add(geom.Pt(0, 4.2)), width, "Site: "+cmp.Or(s.Site, strings.Repeat("_", 26)), style{size: 2.6})
	v.write(at.Add(geom.Pt(0, 8.4)), width, "Plan: "+s.Plan, style{size: 2.6})
	v.number = at.Add(geom.Pt(0, 12.6))
	v.y += height
	v.write(geom.Pt(v.left, v.y+1.5), v.width(),
		"What is printed in a box is on record. ▸ marks what the drawing says: look whether it is so, and write down what is different.", labelStyle)
	v.y += 1.5
}

// asked draws a box for each thing that is asked, a section for each group of them.
func (v *canvas) asked(lines []Line) {
	of := map[string][]Line{head: nil}
	for _, line := range lines {
		of[line.group] = append(of[line.group], line)
	}
	for _, line := range lines {
		if group := of[line.group]; line.group != head && len(group) > 0 {
			v.section(titleOf(line.group))
			v.fill(group)
			of[line.group] = nil
		}
	}
}

// titleOf returns the title of a group of fields.
func titleOf(group string) string {
	title := map[string]string{
		"": "As a whole", "system": "Nameplate: what the board is made for", "board": "Board", "transformer": "Transformer that feeds it",
	}[group]
	return cmp.Or(title, unit.SentenceCase(group))
}

// fill draws the boxes of lines in rows.
func (v *canvas) fill(lines []Line) {
	for _, row := range v.rows(lines) {
		v.row(row...)
	}
}

// rows returns lines in rows: each in the first that has room for it.
func (v *canvas) rows(lines []Line) [][]Line {
	var rows [][]Line
	var room []float64
	for _, beside := range together(lines) {
		need := 0.0
		for _, line := range beside {
			need += v.need(line)
		}
		at := slices.IndexFunc(room, func(left float64) bool { return left >= need })
		if at < 0 {
			at, rows, room = len(rows), append(rows, nil), append(room, v.width())
		}
		rows[at], room[at] = append(rows[at], beside...), room[at]-need
	}
	return rows
}

// together returns the lines of the page, those of one mode of a protector as one.
func together(lines []Line) [][]Line {
	var out [][]Line
	for i, line := range lines {
		last := len(out) - 1
		switch {
		case line.group == head:
		case i > 0 && strings.HasPrefix(line.group, "modes.") && line.group == lines[i-1].group:
			out[last] = append(out[last], line)
		default:
			out = append(out, []Line{line})
		}
	}
	return out
}

// photos lists what is to be photographed.
func (v *canvas) photos() {
	v.section("Photos to take, with all covers on")
	for _, list := range [][]string{
		{"nameplate", "front and its surroundings", "circuit directory", "main breaker", "free positions"},
		{"places beside for a protector", "labels and warnings", "transformer nameplate", "protector and indicator", "meter or service"},
	} {
		v.squares(geom.Pt(v.left, v.y+3.2), v.right, Line{}, list)
		v.y += 4.4
	}
}

// remarks draws what is left of the page as a box to write in, ruled.
func (v *canvas) remarks(s Sheet) {
	const pitch = 6.5
	box := v.frame(v.left, v.right, v.y+sectionGap, v.bottom-v.footHeight())
	v.label(box, "Remarks and sketch")
	at, width := geom.Pt(box.Min.X+inset, box.Min.Y+7), box.Width()-2*inset
	written := symbol.Wrap(s.Line(keyNote).Value, valueSize, false, width)
	for ; at.Y+1.6 < box.Max.Y-2; at.Y += pitch {
		v.picture.Stroke(draw.Line(at.Add(geom.Pt(0, 1.6)), at.Add(geom.Pt(width, 1.6))), draw.Pen{Role: draw.RoleGrid, Width: 0.15})
		if len(written) > 1 && at.Y+1.6+pitch >= box.Max.Y-2 {
			written = []string{written[0] + " …"} // there is more of it
		}
		if len(written) > 0 {
			v.write(at, width, written[0], valueStyle)
			written = written[1:]
		}
	}
}

// footHeight is how much of the page the foot takes, mm.
func (v *canvas) footHeight() float64 {
	return rowHeight + 1.5 + float64(len(v.cautions()))*smallPitch + 0.5
}

// cautions returns the lines of the cautions.
func (v *canvas) cautions() []string {
	return symbol.Wrap(cautionText(v.convention), smallSize, false, v.width())
}

// foot draws who looked, and the cautions.
func (v *canvas) foot() {
	v.y = v.bottom - v.footHeight()
	v.row(Line{Label: "Surveyed by"}, Line{Label: "Date"}, Line{Label: "Qualified person, if a cover was opened: name and signature"})
	v.y += 1.5
	for _, line := range v.cautions() {
		v.y += smallPitch
		v.write(geom.Pt(v.left, v.y-0.6), v.width()+1, line, style{size: smallSize})
	}
}
