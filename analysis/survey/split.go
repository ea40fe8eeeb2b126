package survey

import (
	"errors"
	"slices"
	"strings"
)

// table is a text split into rows and cells.
type table struct {
	separator rune
	rows      [][]string
	head      int   // the row of the headings
	unclosed  []int // rows with a quotation mark that is not closed
}

// idHeading is what no table is without.
const idHeading = "Panel id"

// searched is how many rows are looked through for the headings: somebody may
// have put a title above them.
const searched = 30

// split splits the text at whichever separator finds most of the headings.
func split(text string) (table, error) {
	best, most := table{}, 0
	separators := []rune{',', ';', '\t'}
	if separator, rest, ok := declared(text); ok {
		separators, text = []rune{separator}, rest
	}
	headings := newIndex(slots())
	for _, separator := range separators {
		rows, unclosed := scan(text, separator)
		for head, cells := range rows[:min(len(rows), searched)] {
			if known := known(headings, cells); known > most {
				best, most = table{separator, rows, head, unclosed}, known
			}
		}
	}
	if most == 0 {
		return table{}, errors.New("the table has no column “" + idHeading + "”; write the table of the survey again, and leave its ids and headings in it")
	}
	return best, nil
}

// declared returns the separator that the first line of some spreadsheets names.
func declared(text string) (separator rune, rest string, ok bool) {
	line, rest, _ := strings.Cut(text, "\n")
	line = strings.Trim(strings.TrimSuffix(line, "\r"), `"`)
	name, found := strings.CutPrefix(strings.ToLower(line), "sep=")
	if !found || len(name) != 1 || strings.ContainsAny(name, "\"\r\n ") {
		return 0, text, false
	}
	return rune(name[0]), rest, true
}

// known counts the headings among the cells, or returns 0 where that of the id
// is not among them.
func known(headings index, cells []string) int {
	count, hasID, id := 0, false, headings.of(idHeading)
	for _, cell := range cells {
		if at := headings.of(cell); at >= 0 {
			count++
			hasID = hasID || at == id
		}
	}
	if !hasID {
		return 0
	}
	return count
}

// index finds the columns of the table by their headings, in either convention.
type index map[string]int

func newIndex(columns []slot) index {
	out := index{}
	for i, s := range columns {
		out[folded(s.heading.us)], out[folded(s.heading.iec)] = i, i
	}
	return out
}

// of returns the place of a heading among the columns, or -1.
func (x index) of(heading string) int {
	if at, ok := x[folded(unescaped(strings.TrimSpace(heading)))]; ok {
		return at
	}
	return -1
}

// filled counts the cells of a column that say something, below the headings.
func (t table) filled(column int) int {
	count := 0
	for _, cells := range t.rows[t.head+1:] {
		if column < len(cells) && strings.TrimSpace(cells[column]) != "" && !isNote(cells) {
			count++
		}
	}
	return count
}

func isBlank(cells []string) bool {
	return !slices.ContainsFunc(cells, func(s string) bool { return strings.TrimSpace(s) != "" })
}

// isNote reports whether a row is for people alone: its only cell begins with
// the mark of a comment.
func isNote(cells []string) bool {
	only := ""
	for _, cell := range cells {
		if cell = strings.TrimSpace(cell); cell == "" {
			continue
		}
		if only != "" {
			return false
		}
		only = cell
	}
	return strings.HasPrefix(only, comment)
}
