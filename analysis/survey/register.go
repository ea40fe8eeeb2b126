package survey

import (
	"iter"
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

// pair finds for rows without id and name the protectors that they are about: those
// that they do not speak against, first those that have all that the row says, and of
// these the most alike, so that a table that was taken is about what it added.
func (x *reading) pair(rows []found) {
	type match struct {
		row, apart int
		id         diagram.ID
	}
	var matches []match
	for i, f := range rows {
		for p := range x.without(f.board.ID) {
			if added, silent, fits := x.apart(f.entry, subject{protector: p}); fits {
				matches = append(matches, match{i, added*len(f.cells)*2 + silent, p.ID})
			}
		}
	}
	slices.SortStableFunc(matches, func(a, b match) int { return a.apart - b.apart })
	for _, m := range matches {
		if _, has := x.taken.rows[m.id]; !has && rows[m.row].paired == "" {
			rows[m.row].paired = m.id
			x.taken.enter(rows[m.row].board.ID, m.id, "", rows[m.row].row)
		}
	}
}

// without returns the protectors on a board that have no row.
func (x *reading) without(board diagram.ID) iter.Seq[protector] {
	return func(yield func(protector) bool) {
		for p := range x.doc.ProtectorsOf(x.plan) {
			if _, has := x.taken.rows[p.ID]; !has && p.Bus == board && !yield(p) {
				return
			}
		}
	}
}

// drawn returns the protector on the drawing that a row without an id is about: the
// one that it was paired with, or of those without a row the one with its name.
func (x *reading) drawn(f found) (protector, bool) {
	if f.paired != "" {
		return x.doc.Protector(f.paired)
	}
	for p := range x.without(f.board.ID) {
		if name := f.record.protector.Name; name != "" && strings.EqualFold(oneLine(p.Name), name) {
			return p, true
		}
	}
	return protector{}, false
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
			return added, silent, false
		case differs:
			added++
		}
	}
	return added, silent, true
}
