package survey

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// cellKey is one value of one record.
type cellKey struct {
	record       diagram.ID
	form, column int
}

// statement is what a cell says of a record.
type statement struct {
	entry
	of      subject
	text    string // of the cell
	differs bool   // it is not what the drawing says already
	proposal
}

// state keeps what a cell says of a record until every row has been read: several
// rows may speak of one record. It tells what cannot be read. A blank cell says
// nothing.
func (x *reading) state(e entry, column int, of subject) {
	cell := e.cells[column]
	if strings.TrimSpace(cell) == "" {
		return
	}
	p, differs, err := propose(x.forms[e.form].columns, column, of, cell, x.habits)
	if err != nil {
		x.tell(e, column, reason(err))
		return
	}
	key := cellKey{of.id(), e.form, column}
	x.said[key] = append(x.said[key], statement{e, of, unescaped(oneLine(cell)), differs, p})
}

// disagree reports whether cells say different things of the same value, whether
// they are new or not: a table that is read again would else change it back.
func disagree(cells []statement) bool {
	return slices.ContainsFunc(cells, func(c statement) bool { return c.bare != cells[0].bare })
}

// settle makes the changes that the cells ask for, where all that speak of the same
// value agree.
func (x *reading) settle() {
	for _, key := range sortedKeys(x.said) {
		cells := x.said[key]
		at := slices.IndexFunc(cells, func(c statement) bool { return c.differs })
		switch {
		case disagree(cells):
			x.tell(cells[0].entry, key.column, conflict(x.calledBy(cells[0]), cells))
		case at >= 0:
			if plate, ok := x.plateOf(key.record); ok && contradicts(x.forms[key.form].columns[key.column].key, plate, cells[at].next.part.System) {
				x.tell(cells[at].entry, key.column, unread{fmt.Sprintf("%s says something else than the nameplate voltage, %s", quoted(cells[at].text), plate), "correct whichever of the two is wrong"})
				continue
			}
			x.change(key, cells[at])
		case x.saysNothing(key, cells[0]):
			x.tell(cells[0].entry, key.column, unread{quoted(cells[0].text) + " is what the sheet has no figure apart from “not known” for, so it is not kept", "say it in the remarks where it matters"})
		}
	}
}

// saysNothing reports whether a cell says that a number is none, where the record has
// none already: that somebody has looked is lost.
func (x *reading) saysNothing(key cellKey, said statement) bool {
	c := x.forms[key.form].columns[key.column]
	return c.isNumber() && !isDash(said.text) && c.read(&said.of, x.convention) == ""
}

// change notes the change that a cell asks for, unless the document does not take it.
func (x *reading) change(key cellKey, said statement) {
	note := ""
	if said.mark != "" {
		note = "Unusual: " + said.mark + "."
	}
	if key.form == feeds {
		note += " It feeds " + x.feeds(&said.of) + "."
	}
	if set := said.set; x.stands != nil && key.form == protectors && isLeadLength(x.forms[key.form].columns[key.column]) {
		said.set = func(s *subject) { set(s); s.protector.Installed.Measured = true }
	}
	err := x.propose(said.entry, key.column, Change{
		Record: key.record, Name: x.calledBy(said), Field: x.forms[key.form].columns[key.column].name(x.convention),
		From: said.from, To: said.to, Note: strings.TrimSpace(note), alter: alter(key.record, said.set),
	})
	if err != nil {
		x.tell(said.entry, key.column, x.refusal(said.entry, key.column, err))
	}
}

func isLeadLength(c column) bool {
	names := c.Names()
	return names[0] == "leads" && names[len(names)-1] == "length"
}

// sortedKeys returns the keys in the order of the rows.
func sortedKeys(said map[cellKey][]statement) []cellKey {
	return slices.SortedFunc(maps.Keys(said), func(a, b cellKey) int {
		return cmp.Or(cmp.Compare(said[a][0].row, said[b][0].row), cmp.Compare(a.form, b.form), cmp.Compare(a.column, b.column), diagram.CompareID(a.record, b.record))
	})
}

// plateOf returns the system that the nameplate voltage of a board tells, where
// the table has one as nameplates write it.
func (x *reading) plateOf(board diagram.ID) (diagram.System, bool) {
	cells := x.said[cellKey{board, boards, x.place(boards, keyVoltage)}]
	if len(cells) == 0 || disagree(cells) {
		return diagram.System{}, false
	}
	return nameplate(cells[0].text)
}

// contradicts reports whether a system speaks against that of the nameplate.
func contradicts(key string, plate, cell diagram.System) bool {
	return key == keyWiring && plate.Wiring != cell.Wiring || key == keyNeutral && plate.Neutral != cell.Neutral
}

// calledBy returns what people call the record of a cell.
func (x *reading) calledBy(said statement) string {
	switch said.form {
	case feeds:
		return x.feedName(&said.of)
	case protectors:
		return x.nameOf(said.of.id()) + " on " + x.nameOf(said.of.protector.Bus)
	}
	return x.nameOf(said.of.id())
}

// conflict says which row says what, of those that say the same the first.
func conflict(name string, cells []statement) unread {
	var views []string
	for i, c := range cells {
		if !slices.ContainsFunc(cells[:i], func(before statement) bool { return before.bare == c.bare }) {
			views = append(views, fmt.Sprintf("row %d says %s", c.row+1, oneLine(c.to)))
		}
	}
	return unread{"the rows disagree about " + name + ": " + unit.Names(views), "leave one of them; none was taken"}
}
