package survey

import (
	"fmt"
	"slices"
	"strings"
)

// entry is what a row says in one of the tables.
type entry struct {
	form  int
	row   int      // of the file, from 0
	cells []string // by column of the table
	at    []int    // the columns of the file in which they stand
}

// entries returns what the rows say, table by table.
func (x *reading) entries() []entry {
	var out []entry
	for _, b := range x.blocks {
		at, form := x.headings(b)
		width := len(x.rows[b.head])
		for _, n := range b.rows {
			if cells := x.rows[n]; len(cells) > width && fullCells(cells[width:]) > 0 {
				x.problem(n+1, width, "", "the row has cells beyond the last heading, which were not read", homeless)
			}
			if form < formCount {
				out = append(out, x.entry(form, n, at[form]))
			} else {
				out = append(out, x.parted(n, at)...)
			}
		}
	}
	return out
}

// entry returns what a row says in a table whose columns stand at those of the file.
func (x *reading) entry(form, n int, at []int) entry {
	out := entry{form, n, make([]string, len(at)), at}
	for i, column := range at {
		if column >= 0 && column < len(x.rows[n]) {
			out.cells[i] = x.rows[n][column]
		}
	}
	return out
}

// headings finds where the columns of the tables stand, and which table has all that
// are there; formCount stands for rows that are of several. It tells of those that
// are not read.
func (x *reading) headings(b block) (at [formCount][]int, form int) {
	form = x.formOf(x.rows[b.head])
	for f := range at {
		at[f] = slices.Repeat([]int{-1}, len(x.forms[f].columns))
	}
	for i, heading := range x.rows[b.head] {
		places := x.of(heading)
		taken, asked := false, false
		for _, p := range places {
			switch asking := x.column(p).role == asks; {
			case form < formCount && p.form != form, asking && asked: // a heading asks one thing
			case at[p.form][p.column] >= 0:
				taken = true
			default:
				at[p.form][p.column], asked = i, asked || asking
			}
		}
		if taken || len(places) == 0 {
			x.tellHeading(b, i, heading, taken)
		}
	}
	return at, form
}

// formOf returns the first table that has all the headings.
func (x *reading) formOf(cells []string) int {
	for f := range x.forms {
		if !slices.ContainsFunc(cells, func(cell string) bool {
			places := x.of(cell)
			return len(places) > 0 && !slices.ContainsFunc(places, func(p place) bool { return p.form == f })
		}) {
			return f
		}
	}
	return formCount
}

// tellHeading tells of a column that is not read.
func (x *reading) tellHeading(b block, i int, heading string, twice bool) {
	count := 0
	for _, n := range b.rows {
		count += fullCells(x.rows[n][min(i, len(x.rows[n])):min(i+1, len(x.rows[n]))])
	}
	cells := map[int]string{0: "it is empty", 1: "1 cell was not read"}[count]
	if cells == "" {
		cells = fmt.Sprintf("%d cells were not read", count)
	}
	switch {
	case twice:
		x.problem(b.head+1, i, heading, "the heading stands twice, and the second column was not read", "join the two")
	case strings.TrimSpace(heading) != "":
		x.problem(b.head+1, i, heading, "the survey has no such column; "+cells, homeless)
	case count > 0:
		x.problem(b.head+1, i, "", fmt.Sprintf("column %d has no heading; %s", i+1, cells), homeless)
	}
}

// homeless is what to do with what stands in no column of the survey.
const homeless = "move what is in it to the column that it belongs to, or to the remarks"

// parted returns what a row says in each of the tables, where one row is of a board,
// of the transformer that feeds it and of a protector on it, as in tables written
// before. The name of the board tells people where they are in the row of a protector,
// and may be a new one in the others.
func (x *reading) parted(n int, at [formCount][]int) []entry {
	board, feed, on := x.entry(boards, n, at[boards]), x.entry(feeds, n, at[feeds]), x.entry(protectors, n, at[protectors])
	s, wrong := x.subjectOf(board, boards, keyID)
	switch {
	case wrong != (unread{}):
		return []entry{board}
	case x.id(on, keyID) != "":
		board.cells[x.place(boards, keyName)] = ""
	default:
		on.cells[x.place(protectors, keyOn)] = ""
	}
	out := []entry{board}
	if x.fill(feed, s) {
		out = append(out, feed)
	}
	for _, form := range []int{feeders, loads, supplies} {
		if e := x.entry(form, n, at[form]); x.firstAsked(e) >= 0 {
			out = append(out, e)
		}
	}
	return append(out, on)
}

// fill gives what a row says of the transformer that feeds its board the id of that,
// and reports whether it says anything.
func (x *reading) fill(e entry, board subject) bool {
	first := x.firstAsked(e)
	if first < 0 {
		return false
	}
	id := x.place(feeds, keyID)
	if strings.TrimSpace(e.cells[id]) != "" {
		return true
	}
	feed, ok := x.feeding(board.part)
	if !ok {
		x.tell(e, first, unread{"no transformer feeds " + x.nameOf(board.id()) + " on the drawing", "draw what feeds it, then enter it there"})
		return false
	}
	e.cells[id] = string(feed.ID)
	return true
}

// firstAsked returns the first column of the record in which something stands, or -1.
func (x *reading) firstAsked(e entry) int {
	for i, c := range x.forms[e.form].columns {
		if c.role == asks && strings.TrimSpace(e.cells[i]) != "" {
			return i
		}
	}
	return -1
}
