package survey

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"clampline/diagram"
)

// cellKey is one value of one record.
type cellKey struct {
	record diagram.ID
	slot   int
}

// statement is what a cell says of a record.
type statement[R comparable] struct {
	row     int        // from 0
	board   diagram.ID // whose row it is
	text    string     // of the cell
	differs bool       // it is not what the drawing says already
	proposal[R]
}

// statements are what the rows say, by what they say it of. Several rows may
// speak of one record: those of the boards that a transformer feeds, and rows
// that somebody has doubled.
type statements[R comparable] map[cellKey][]statement[R]

// state keeps what a cell says of a record until every row has been read, and
// tells what cannot be read. A blank cell says nothing.
func state[R comparable](x *reading, said statements[R], columns []column[R], record R, id, board diagram.ID, n, slot int) {
	cell := x.cell(n, slot)
	if strings.TrimSpace(cell) == "" {
		return
	}
	p, differs, err := propose(columns, x.slots[slot].at, record, cell, x.habits)
	if err != nil {
		x.tell(n, slot, reason(err))
		return
	}
	key := cellKey{id, slot}
	said[key] = append(said[key], statement[R]{n, board, unescaped(oneLine(cell)), differs, p})
}

// disagree reports whether cells say different things of the same value, whether
// they are new or not: a table that is read again would else change it back.
func disagree[R comparable](cells []statement[R]) bool {
	return slices.ContainsFunc(cells, func(c statement[R]) bool { return c.bare != cells[0].bare })
}

// settle makes the changes that the cells ask for, where all that speak of the
// same value agree. The change is made by the caller, which may refuse it.
func settle[R comparable](x *reading, said statements[R], change func(cellKey, statement[R]) (Change, unread)) {
	for _, key := range sortedKeys(said) {
		cells := said[key]
		at := slices.IndexFunc(cells, func(c statement[R]) bool { return c.differs })
		switch {
		case disagree(cells):
			x.tell(cells[0].row, key.slot, conflict(x.calledBy(key), cells))
		case at >= 0:
			c, refused := change(key, cells[at])
			if refused != (unread{}) {
				x.tell(cells[at].row, key.slot, refused)
				continue
			}
			c.Board, c.Record, c.Name, c.From, c.To = cells[at].board, key.record, x.calledBy(key), cells[at].from, cells[at].to
			c.Note = strings.TrimSpace(cells[at].mark + " " + c.Note)
			x.change(cells[at].row, key.slot, c)
		}
	}
}

// sortedKeys returns the keys in the order of the rows.
func sortedKeys[R comparable](said statements[R]) []cellKey {
	return slices.SortedFunc(maps.Keys(said), func(a, b cellKey) int {
		return cmp.Or(cmp.Compare(said[a][0].row, said[b][0].row), cmp.Compare(a.slot, b.slot), diagram.CompareID(a.record, b.record))
	})
}

// calledBy returns what people call the record of a cell.
func (x *reading) calledBy(key cellKey) string {
	switch x.slots[key.slot].role {
	case ofFeed:
		return x.feedName(key.record)
	case ofProtector:
		record, _ := x.doc.Protector(key.record)
		return x.nameOf(key.record) + " on " + x.nameOf(record.Bus)
	}
	return x.nameOf(key.record)
}

// conflict says which rows say what.
func conflict[R comparable](name string, cells []statement[R]) unread {
	var views []string
	for i, c := range cells {
		if slices.ContainsFunc(cells[:i], func(before statement[R]) bool { return before.bare == c.bare }) {
			continue
		}
		var rows []int
		for _, other := range cells[i:] {
			if other.bare == c.bare {
				rows = append(rows, other.row+1)
			}
		}
		views = append(views, speakers(rows)+" "+oneLine(c.to))
	}
	return unread{fmt.Sprintf("the rows disagree about %s: %s", name, list(views)), "leave one of them; none was taken"}
}

// speakers returns rows as the subject of what they say.
func speakers(rows []int) string {
	if len(rows) == 1 {
		return "row " + numbers(rows) + " says"
	}
	return "rows " + numbers(rows) + " say"
}
