package survey

import (
	"cmp"
	"slices"
	"strings"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// pages draws the page of a board, and more where its protectors take them. Each has
// room for one that is not drawn.
func pages(s Sheet) []*canvas {
	first := newCanvas(s, "survey sheet")
	first.head(s)
	first.asked(slices.Concat(s.Lines, s.Feed))
	const photos, leastRemarks = 15.0, 14.0 // mm
	rest := first.attached(s, s.Protectors, 0, first.bottom-footHeight-photos-leastRemarks)
	first.photos()
	first.remarks(s)
	out, wiring := []*canvas{first}, s.wiring()
	for len(rest) > 0 || len(wiring) > 0 {
		next := newCanvas(s, "survey sheet, continued")
		next.head(s)
		top := next.y
		if len(rest) > 0 {
			rest = next.attached(s, rest, 1, next.bottom-footHeight)
		}
		if len(rest) == 0 {
			wiring = next.wired(wiring, next.y == top)
		}
		out = append(out, next)
	}
	for _, v := range out {
		v.foot()
	}
	return out
}

// titled is what is asked of one record under a title of its own.
type titled struct {
	title string
	lines []Line
}

// wiring returns what is asked of the supply, the feeders and the loads of a board.
func (s Sheet) wiring() (out []titled) {
	add := func(what, key string, records [][]Line) {
		for _, lines := range records {
			line := lineOf(lines, key)
			out = append(out, titled{what + ": " + oneLine(cmp.Or(line.Drawing, line.Value, "without a name")), lines})
		}
	}
	add("Supply", keySupply, s.Supplies)
	add("Feeder", keyFeeder, s.Feeders)
	add("Load", keyName, s.Loads)
	return out
}

// wired draws as many as have room on the page, one at least where it is empty, and
// returns the others.
func (v *canvas) wired(blocks []titled, empty bool) []titled {
	for len(blocks) > 0 {
		height := sectionGap + sectionSize + 1.2 + rowHeight*float64(len(v.rows(blocks[0].lines)))
		if !empty && v.y+height > v.bottom-footHeight {
			return blocks
		}
		v.section(blocks[0].title)
		v.fill(blocks[0].lines)
		blocks, empty = blocks[1:], false
	}
	return nil
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

// head says where the board is fed from, and how the page is to be read.
func (v *canvas) head(s Sheet) {
	v.y += 1.6
	kind := unit.SentenceCase(string(s.Kind))
	v.write(geom.Pt(v.left, v.y), v.width(), kind+" ("+string(s.Board)+"), fed from: "+s.Line(keyFedFrom).Drawing, page.Type{Size: 2.6})
	v.y += 3.6
	v.write(geom.Pt(v.left, v.y), v.width(),
		"What is printed in a box is on record. ▸ marks what the drawing says: look whether it is so, and write down what is different.", labelStyle)
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
		case line.group == head || line.inTable:
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
	box := v.frame(v.left, v.right, v.y+sectionGap, v.bottom-footHeight)
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
const footHeight = rowHeight

// foot draws who looked.
func (v *canvas) foot() {
	v.y = v.bottom - footHeight
	v.row(Line{Label: "Surveyed by"}, Line{Label: "Date"}, Line{Label: "Qualified person, if a cover was opened: name and signature"})
}
