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
	if on := x.id(n, keyProtector); on != "" {
		x.protectorRow(n, board, on)
		return
	}
	x.boardRow(n, board)
}

// board returns the board that a row is about, or what is wrong with it.
func (x *reading) board(n int) (part, unread) {
	id := x.id(n, keyBoard)
	board, ok := x.doc.Part(id)
	rows := x.standsIn[x.key(n)]
	switch {
	case id == "":
		return part{}, unread{"the row has no id of a panel", "copy the id from the table that was written, or enter the row by hand"}
	case len(rows) > 1:
		return part{}, unread{fmt.Sprintf("%s stands in rows %s, and none of them was read", quoted(string(id)), numbers(rows)), "keep one of them"}
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

// boardRow reads the row of a board.
func (x *reading) boardRow(n int, board part) {
	columns := boardColumns()
	stated, isPlate := nameplate(oneLine(x.cell(n, x.place(keyVoltage))))
	x.compareTold(n, board)
	for i, s := range x.slots {
		cell := x.cell(n, i)
		switch s.role {
		case ofBoard:
			p, differs, err := propose(columns, s.at, board, cell, x.habits)
			switch {
			case err != nil:
				x.tell(n, i, reason(err))
			case differs && isPlate && contradicts(s.key, stated, p.next.System):
				x.tell(n, i, unread{fmt.Sprintf("%s says something else than the nameplate voltage of the row, %s", quoted(cell), stated), "correct whichever of the two is wrong"})
			case differs:
				x.change(n, i, Change{Board: board.ID, Record: board.ID, Name: x.nameOf(board.ID), From: p.from, To: p.to, alter: alterPart(board.ID, p.set)})
			}
		case ofFeed:
			x.feedCell(n, i, board, cell)
		case ofProtector:
			if strings.TrimSpace(cell) != "" {
				x.tell(n, i, unread{quoted(cell) + " stands in the row of a panel", "write it in the row of a protector; one that is not drawn yet has to be drawn first"})
			}
		}
	}
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
	columns := protectorColumns()
	for i, s := range x.slots {
		cell := x.cell(n, i)
		if s.role != ofProtector {
			x.outOfPlace(n, i, board, cell)
			continue
		}
		p, differs, err := propose(columns, s.at, record, cell, x.habits)
		switch {
		case err != nil:
			x.tell(n, i, reason(err))
		case differs:
			name := x.nameOf(id) + " on " + x.nameOf(board.ID)
			x.change(n, i, Change{Board: board.ID, Record: id, Name: name, From: p.from, To: p.to, alter: alterProtector(id, p.set)})
		}
	}
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
