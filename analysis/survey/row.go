package survey

import (
	"fmt"
	"strings"

	"clampline/diagram"
)

// row reads one row.
func (x *reading) row(n int) {
	cells := x.rows[n]
	if isBlank(cells) || isNote(cells) {
		return
	}
	if width := len(x.rows[x.head]); len(cells) > width && !isBlank(cells[width:]) {
		x.problem(n+1, width, "", "the row has cells beyond the last heading, which were not read", homeless)
	}
	board, wrong := x.board(n)
	if wrong != (unread{}) {
		x.tell(n, x.place(keyBoard), wrong)
		return
	}
	x.review.Rows++
	if on := x.protectorOf(n); on != "" {
		x.protectorRow(n, board, on)
		return
	}
	x.boardRow(n, board)
	x.unnumbered(n, board)
}

// protectorOf returns the id of the protector that a row is about, or nothing
// where it gives none or says that there is a new one.
func (x *reading) protectorOf(n int) diagram.ID {
	id := x.id(n, keyProtector)
	if _, drawn := x.doc.Protector(id); !drawn && folded(string(id)) == newProtector {
		return ""
	}
	return id
}

// board returns the board that a row is about, or what is wrong with it.
func (x *reading) board(n int) (part, unread) {
	id := x.id(n, keyBoard)
	board, ok := x.doc.Part(id)
	switch {
	case id == "":
		return part{}, unread{"the row has no id of a panel", "copy the id from the table that was written, or enter the row by hand"}
	case !ok:
		return part{}, unread{"the drawing has no panel with the id " + quoted(string(id)), "it was taken away or its id was altered; enter the row by hand"}
	case !board.Kind.IsBoard():
		return part{}, unread{fmt.Sprintf("%s is a %s and no panel", quoted(string(id)), board.Kind), "correct the id"}
	}
	return board, unread{}
}

// numbers lists rows: "3, 5 and 9".
func numbers(rows []int) string {
	const most = 6
	var out []string
	for i, n := range rows {
		if i == most {
			out = append(out, fmt.Sprintf("%d more", len(rows)-most))
			break
		}
		out = append(out, fmt.Sprint(n))
	}
	return list(out)
}

// list joins words as a sentence does.
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// boardRow reads what a row says of its board. In the second row of a board its
// name tells people where they are, as in that of a protector.
func (x *reading) boardRow(n int, board part) {
	x.compareTold(n, board)
	doubled := x.met[board.ID]
	x.met[board.ID] = true
	for i, s := range x.slots {
		switch {
		case s.role == ofFeed:
			x.feedCell(n, i, board)
		case s.role != ofBoard:
		case s.key == keyName && doubled && says(boardColumns()[s.at], board, unescaped(oneLine(x.cell(n, i)))):
		default:
			state(x, x.parts, boardColumns(), board, board.ID, board.ID, n, i)
		}
	}
}

// partChange returns the change of a board or of the transformer that feeds it.
func (x *reading) partChange(key cellKey, said statement[part]) (Change, unread) {
	out := Change{alter: alterPart(key.record, said.set)}
	s := x.slots[key.slot]
	if s.role == ofFeed {
		out.Note = x.feedNote(key.record, said.board)
		return out, unread{}
	}
	if stated, ok := x.plateOf(key.record); ok && contradicts(s.key, stated, said.next.System) {
		return out, unread{fmt.Sprintf("%s says something else than the nameplate voltage, %s", quoted(said.text), stated), "correct whichever of the two is wrong"}
	}
	return out, unread{}
}

// plateOf returns the system that the nameplate voltage of a board tells, where
// the table has one as nameplates write it.
func (x *reading) plateOf(board diagram.ID) (diagram.System, bool) {
	cells := x.parts[cellKey{board, x.place(keyVoltage)}]
	if len(cells) == 0 || disagree(cells) {
		return diagram.System{}, false
	}
	return nameplate(cells[0].text)
}

func (x *reading) nameOf(id diagram.ID) string { return oneLine(x.doc.NameOf(id)) }

// contradicts reports whether a system speaks against that of the nameplate in
// the same row.
func contradicts(key string, stated, cell diagram.System) bool {
	return key == keyWiring && stated.Wiring != cell.Wiring || key == keyNeutral && stated.Neutral != cell.Neutral
}

// compareTold tells where somebody has corrected what the drawing says: that has
// to be done on the drawing.
func (x *reading) compareTold(n int, board part) {
	now := newSheet(x.doc, x.topology, nil, board, x.convention)
	for i, s := range x.slots {
		cell := unescaped(oneLine(x.cell(n, i)))
		if s.role != told || s.key == keyReckoned || cell == "" || cell == now.told(s.key) {
			continue
		}
		x.tell(n, i, unread{fmt.Sprintf("%s is not read; the drawing says %s", quoted(cell), quoted(now.told(s.key))), "correct the drawing where it is wrong"})
	}
}

// protectorRow reads the row of a protector.
func (x *reading) protectorRow(n int, board part, id diagram.ID) {
	record, ok := x.doc.Protector(id)
	switch {
	case !ok:
		x.tell(n, x.place(keyProtector), unread{"the drawing has no protector with the id " + quoted(string(id)), "it was taken away or its id was altered; enter the row by hand"})
		return
	case record.Bus != board.ID:
		x.tell(n, x.place(keyProtector), unread{fmt.Sprintf("%s is on %s and not on %s", x.nameOf(id), x.nameOf(record.Bus), x.nameOf(board.ID)), "correct the ids, or move it on the drawing"})
		return
	}
	for i, s := range x.slots {
		if s.role == ofProtector {
			state(x, x.protectors, protectorColumns(), record, id, board.ID, n, i)
		} else {
			x.outOfPlace(n, i, board, x.cell(n, i))
		}
	}
}

func protectorChange(key cellKey, said statement[protector]) (Change, unread) {
	return Change{alter: alterProtector(key.record, said.set)}, unread{}
}

// outOfPlace tells what stands in the row of a protector and belongs to that of
// its board.
func (x *reading) outOfPlace(n, slot int, board part, cell string) {
	s := x.slots[slot]
	if s.role == ids && s.key != keyFeed || strings.TrimSpace(cell) == "" {
		return
	}
	if s.role == ofBoard && says(boardColumns()[s.at], board, unescaped(strings.TrimSpace(cell))) {
		return
	}
	x.tell(n, slot, unread{quoted(cell) + " stands in the row of a protector", "write it in the row of the panel itself"})
}
