package survey

import (
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

// drawn returns the protector on the drawing that a row without an id is about:
// of those without a row the one with its name, or, where the row gives no name,
// the one that is most like what it says.
func (x *reading) drawn(f found) (protector, bool) {
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
		if apart, fits := x.apart(f.row, p); fits && (least < 0 || apart < least) {
			best, least = p, apart
		}
	}
	return best, least >= 0
}

// apart counts the values that only one of a row and a record states, and reports
// whether none speaks against the other.
func (x *reading) apart(n int, record protector) (count int, fits bool) {
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
				count++
			}
		case differs && states:
			return 0, false
		case differs:
			count++
		}
	}
	return count, true
}
