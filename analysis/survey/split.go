package survey

import (
	"errors"
	"slices"
	"strings"
)

// cells is a text split into rows and cells.
type cells struct {
	separator rune
	rows      [][]string
	unclosed  []int // rows with a quotation mark that is not closed
	blocks    []block
	stray     []int // rows that say something above the first headings
}

// block is a row of headings, and the rows below it that say something.
type block struct {
	head int
	rows []int
}

// idHeading is what no survey is without.
const idHeading = "Panel id"

// searched is how many rows are looked through for the first headings: somebody may
// have put a title above them.
const searched = 30

// split splits the text at whichever separator finds most of the first headings.
func split(text string, headings index) (cells, error) {
	best, most := cells{}, 0
	separators := []rune{',', ';', '\t'}
	if separator, rest, ok := declared(text); ok {
		separators, text = []rune{separator}, rest
	}
	for _, separator := range separators {
		rows, unclosed := scan(text, separator)
		blocks := headings.below(rows)
		if len(blocks) == 0 {
			continue
		}
		if known := headings.known(rows[blocks[0].head]); known > most {
			best, most = cells{separator, rows, unclosed, blocks, stray(rows[:blocks[0].head])}, known
		}
	}
	if most == 0 {
		return cells{}, errors.New("the table has no column “" + idHeading + "”; write the table of the survey again, and leave its ids and headings in it")
	}
	return best, nil
}

// stray returns the rows of several cells among those above the first headings: a
// title has one.
func stray(rows [][]string) (out []int) {
	for n, row := range rows {
		if fullCells(row) > 1 && !isNote(row) {
			out = append(out, n)
		}
	}
	return out
}

// below returns the tables that stand below each other. A row of one cell before
// headings is their title.
func (x index) below(rows [][]string) []block {
	var out []block
	for n, row := range rows {
		known, last := x.known(row), len(out)-1
		switch {
		case known > 1 && last >= 0:
			if below := out[last].rows; len(below) > 0 && fullCells(rows[below[len(below)-1]]) == 1 {
				out[last].rows = below[:len(below)-1]
			}
			out = append(out, block{head: n})
		case last < 0 && n == searched:
			return nil
		case last < 0 && known > 0:
			out = append(out, block{head: n})
		case last >= 0 && fullCells(row) > 0 && !isNote(row):
			out[last].rows = append(out[last].rows, n)
		}
	}
	return out
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

// place is a column of one of the tables.
type place struct{ form, column int }

// index finds the columns of the tables by their headings, in either convention.
type index struct {
	forms  [formCount]form
	places map[string][]place
}

func newIndex() index {
	out := index{forms(), map[string][]place{}}
	for f, form := range out.forms {
		for i, c := range form.columns {
			for _, heading := range slices.Compact([]string{folded(c.heading.us), folded(c.heading.iec), folded(c.was)}) {
				if heading != "" && c.role != onPaper {
					out.places[heading] = append(out.places[heading], place{f, i})
				}
			}
		}
	}
	return out
}

// of returns the columns that have a heading.
func (x index) of(heading string) []place {
	return x.places[folded(unescaped(strings.TrimSpace(heading)))]
}

// known counts the headings among the cells, or returns 0 where that of an id is not
// among them.
func (x index) known(cells []string) int {
	count, hasID := 0, false
	for _, cell := range cells {
		if at := x.of(cell); len(at) > 0 {
			count++
			hasID = hasID || x.column(at[0]).role == naming
		}
	}
	if !hasID {
		return 0
	}
	return count
}

func (x index) column(at place) column { return x.forms[at.form].columns[at.column] }

// fullCells counts the cells that say something.
func fullCells(cells []string) int {
	count := 0
	for _, cell := range cells {
		if strings.TrimSpace(cell) != "" {
			count++
		}
	}
	return count
}

// isNote reports whether a row is for people alone: its only cell begins with the
// mark of a comment, or it says what may stand below.
func isNote(cells []string) bool {
	return fullCells(cells) == 1 && strings.HasPrefix(strings.TrimSpace(strings.Join(cells, "")), comment) ||
		slices.ContainsFunc(cells, func(cell string) bool { return strings.TrimSpace(cell) == guideMark })
}
