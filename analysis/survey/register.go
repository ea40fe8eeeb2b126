package survey

import (
	"slices"
	"strings"

	"clampline/diagram"
)

// register knows which protectors have a row, so that a row without an id is not
// taken for one of them, and a table that is read again does not add what it has
// added before.
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
func (x *reading) enrol(entries []entry) {
	for _, e := range entries {
		if e.form != protectors {
			continue
		}
		record, ok := x.doc.Protector(x.id(e, keyID))
		if !ok {
			continue
		}
		name := unescaped(oneLine(e.cells[x.place(protectors, keyName)]))
		switch {
		case name == "":
			name = record.Name
		case isDash(name):
			name = ""
		}
		x.taken.enter(record.Bus, record.ID, name, e.row)
	}
}

// pair finds for rows without id and name the protectors that have all that the row
// says, so that as many rows as can be have one each: whichever way rows of few
// words might be about several, a table that was taken is about what it added.
func (x *reading) pair(rows []found) {
	paired := map[diagram.ID]int{} // rows, by their place in the list
	var seek func(row int, tried map[diagram.ID]bool) bool
	seek = func(row int, tried map[diagram.ID]bool) bool {
		for _, p := range x.alike(rows[row], true) {
			if tried[p.ID] {
				continue
			}
			tried[p.ID] = true
			other, taken := paired[p.ID]
			if !taken || seek(other, tried) {
				paired[p.ID] = row
				return true
			}
		}
		return false
	}
	for row := range rows {
		seek(row, map[diagram.ID]bool{})
	}
	for id, row := range paired {
		rows[row].paired = id
		x.taken.enter(rows[row].board.ID, id, "", rows[row].row)
	}
}

// drawn returns the protector on the drawing that a row without an id is about: the
// one that it was paired with, or of those without a row the one with its name, or,
// where the row gives no name, the one that is most like what it says.
func (x *reading) drawn(f found) (protector, bool) {
	if f.paired != "" {
		return x.doc.Protector(f.paired)
	}
	alike := x.alike(f, false)
	if len(alike) == 0 {
		return protector{}, false
	}
	return alike[0], true
}

// alike returns the protectors without a row that a row may be about, the one most
// like it first: those with its name, or where it gives none those that it does not
// speak against. Wholly asks for those that have all that it says.
func (x *reading) alike(f found, wholly bool) []protector {
	var out []protector
	apart := map[diagram.ID]int{}
	for p := range x.doc.ProtectorsOf(x.plan) {
		if _, has := x.taken.rows[p.ID]; has || p.Bus != f.board.ID {
			continue
		}
		added, silent, fits := 0, 0, strings.EqualFold(oneLine(p.Name), f.record.protector.Name)
		if f.record.protector.Name == "" {
			added, silent, fits = x.apart(f.entry, subject{protector: p})
		}
		if fits && (added == 0 || !wholly) {
			out, apart[p.ID] = append(out, p), added+silent
		}
	}
	slices.SortStableFunc(out, func(a, b protector) int { return apart[a.ID] - apart[b.ID] })
	return out
}

// apart counts the values that only a row states, and those that only a record does,
// and reports whether none speaks against the other.
func (x *reading) apart(e entry, record subject) (added, silent int, fits bool) {
	columns := x.forms[protectors].columns
	for i, c := range columns {
		if c.role != asks || c.key == keyName {
			continue
		}
		cell := strings.TrimSpace(e.cells[i])
		states := c.read(&record, x.convention) != ""
		_, differs, err := propose(columns, i, record, cell, x.habits)
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
