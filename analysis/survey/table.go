package survey

import (
	"bytes"
	"errors"
	"io"
	"strings"

	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// WriteCSV writes the sheets as three tables below each other, so that one file is
// sent, filled in and read: the boards, the transformers that feed them, and the
// protectors with a free row for each board. Each has its title above it, and below
// them stands how to fill them in, with the cautions. It is UTF-8 with its mark,
// with commas and CRLF (RFC 4180), which spreadsheets open as it is.
func WriteCSV(w io.Writer, sheets []Sheet) error {
	c := unit.NorthAmerican
	if len(sheets) > 0 {
		c = sheets[0].Convention
	}
	out := &csvText{}
	out.text(notesAbove(sheets)...)
	rows := rowsOf(sheets)
	for i, f := range forms() {
		out.text("", f.title.in(c))
		out.err = errors.Join(out.err, table.CSV(&out.Buffer, f.written(c), rows[i]))
	}
	out.text("")
	out.text(notesBelow(c)...)
	if out.err != nil {
		return out.err
	}
	_, err := io.WriteString(w, "\ufeff"+strings.ReplaceAll(out.String(), "\n", "\r\n"))
	return err
}

// csvText is a table in the making.
type csvText struct {
	bytes.Buffer
	err error
}

// text writes rows of one cell each.
func (t *csvText) text(rows ...string) {
	for _, row := range rows {
		t.err = errors.Join(t.err, table.CSV(&t.Buffer, []table.Column[string]{{Name: row}}, nil))
	}
}

// written returns the columns of a table as they are written.
func (f form) written(convention unit.Convention) []table.Column[[]Line] {
	var out []table.Column[[]Line]
	for i, c := range f.columns {
		if c.role != onPaper {
			out = append(out, table.Column[[]Line]{Name: c.heading.in(convention), Value: func(lines []Line) any { return lines[i].cell() }})
		}
	}
	return out
}

// rowsOf returns the rows of the tables. A transformer has one, whatever boards it
// feeds.
func rowsOf(sheets []Sheet) (rows [formCount][][]Line) {
	met := map[diagram.ID]bool{"": true}
	for _, s := range sheets {
		rows[boards] = append(rows[boards], s.Lines)
		if !met[s.Feed.ID] {
			rows[feeds] = append(rows[feeds], s.Feed.Lines)
		}
		met[s.Feed.ID] = true
		for _, p := range s.Protectors {
			rows[protectors] = append(rows[protectors], p.Lines)
		}
		rows[protectors] = append(rows[protectors], s.Free.Lines)
	}
	return rows
}

// comment begins a row that is for people alone.
const comment = "#"

// What the row that names the survey says.
const (
	surveyOf = "Survey of "
	inPlan   = ", plan "
)

func notesAbove(sheets []Sheet) []string {
	out := []string{comment + " How to fill in the three tables stands below them, and what keeps people safe."}
	if len(sheets) == 0 {
		return out
	}
	s := sheets[0]
	about := comment + " " + surveyOf + s.Title
	if s.Site != "" {
		about += ", " + s.Site
	}
	return append([]string{about + inPlan + s.Plan}, out...)
}

func notesBelow(c unit.Convention) []string {
	board := words{"panel", "board"}.in(c)
	out := []string{
		"A blank cell leaves what the drawing says as it is. A lone - clears it. Write the unit into the cell, as 225 A or 18 in. Yes or no where a heading asks. Leave the ids alone.",
		"A protector that is on site and not in the table: fill in the free row of its " + board + ", with its name or what its nameplate says. For one more copy the row; the protector id stays blank, or say " + newProtector + ".",
		"What the printed sheet asks and no column does: write where a fault current is from, and what an indicator shows, into the remarks.",
	}
	out = append(out, Cautions(c)...)
	for i := range out {
		out[i] = comment + " " + out[i]
	}
	return out
}
