package survey

import (
	"slices"
	"strings"

	"clampline/diagram"
)

// register knows which protectors have a row in the table, so that a row without
// an id is not taken for one of them, and a table that is read again does not add
// what it has added before.
type register struct {
	rows  map[diagram.ID]int // of protectors on the drawing, from 0
	names map[string]int     // rows by board and name
}

func newRegister() register { return register{map[diagram.ID]int{}, map[string]int{}} }

func nameOn(board diagram.ID, name string) string {
	return string(board) + "\n" + strings.ToLower(name)
}

// enter notes that a row is about a protector; a new one has no id yet.
func (r register) enter(board, id diagram.ID, name string, row int) {
	if id != "" {
		r.rows[id] = row
	}
	if name != "" {
		r.names[nameOn(board, name)] = row
	}
}

// named returns the row of the protector with the name on a board.
func (r register) named(board diagram.ID, name string) (int, bool) {
	row, ok := r.names[nameOn(board, name)]
	return row, ok && name != ""
}

// enrol enters the protectors whose rows give their ids, under the names that the
// rows give them.
func (x *reading) enrol() {
	for n := x.head + 1; n < len(x.rows); n++ {
		record, ok := x.doc.Protector(x.protectorOf(n))
		if !ok || isNote(x.rows[n]) {
			continue
		}
		name := unescaped(oneLine(x.cell(n, x.place(keyProtectorName))))
		switch {
		case name == "":
			name = record.Name
		case isDash(name):
			name = ""
		}
		x.taken.enter(record.Bus, record.ID, name, n)
	}
}

// pair finds for rows without id and name the protectors that have all that the row
// says, so that as many rows as can be have one each: whichever way rows of few
// words might be about several, a table that was taken is about what it added.
func (x *reading) pair(rows []found) {
	paired := map[diagram.ID]int{} // rows, by their place in the list
	var seek func(row int, tried map[diagram.ID]bool) bool
	seek = func(row int, tried map[diagram.ID]bool) bool {
		for _, id := range x.saidWholly(rows[row]) {
			if tried[id] {
				continue
			}
			tried[id] = true
			other, taken := paired[id]
			if !taken || seek(other, tried) {
				paired[id] = row
				return true
			}
		}
		return false
	}
	for row := range rows {
		seek(row, map[diagram.ID]bool{})
	}
	for id, row := range paired {
		rows[row].about = id
		x.taken.enter(rows[row].board.ID, id, "", rows[row].row)
	}
}

// saidWholly returns the protectors without a row that have all that a row says, the
// one most like it first.
func (x *reading) saidWholly(f found) []diagram.ID {
	var out []diagram.ID
	more := map[diagram.ID]int{}
	for p := range x.doc.ProtectorsOf(x.plan) {
		if _, has := x.taken.rows[p.ID]; has || p.Bus != f.board.ID {
			continue
		}
		if added, silent, fits := x.apart(f.row, p); fits && added == 0 {
			out, more[p.ID] = append(out, p.ID), silent
		}
	}
	slices.SortStableFunc(out, func(a, b diagram.ID) int { return more[a] - more[b] })
	return out
}

// drawn returns the protector on the drawing that a row without an id is about: the
// one that it was paired with, or of those without a row the one with its name, or,
// where the row gives no name, the one that is most like what it says.
func (x *reading) drawn(f found) (protector, bool) {
	if f.about != "" {
		return x.doc.Protector(f.about)
	}
	best, least := protector{}, -1
	for p := range x.doc.ProtectorsOf(x.plan) {
		if _, has := x.taken.rows[p.ID]; has || p.Bus != f.board.ID {
			continue
		}
		if f.record.Name != "" {
			if strings.EqualFold(oneLine(p.Name), f.record.Name) {
				return p, true
			}
			continue
		}
		if added, silent, fits := x.apart(f.row, p); fits && (least < 0 || added+silent < least) {
			best, least = p, added+silent
		}
	}
	return best, least >= 0
}

// apart counts the values that only a row states, and those that only a record does,
// and reports whether none speaks against the other.
func (x *reading) apart(n int, record protector) (added, silent int, fits bool) {
	columns := protectorColumns()
	for _, slot := range x.ofProtector() {
		c, cell := columns[x.slots[slot].at], strings.TrimSpace(x.cell(n, slot))
		if c.key == keyProtectorName {
			continue
		}
		states := c.read(record, x.convention) != ""
		_, differs, err := propose(columns, x.slots[slot].at, record, cell, x.habits)
		switch {
		case err != nil || cell == "":
			if states {
				silent++
			}
		case differs && states:
			return 0, 0, false
		case differs:
			added++
		}
	}
	return added, silent, true
}
