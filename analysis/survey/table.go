package survey

import (
	"cmp"
	"encoding/csv"
	"io"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// WriteCSV writes the sheets as tables below each other, so that one file is sent,
// filled in and read: the boards, the transformers that feed them, the feeders, the
// loads, the supplies, and the protectors with a free row for each board. Each has its
// title above it and a row with the words and units that it takes below its headings;
// below them all stands how to fill them in, with the cautions. It is UTF-8 with its mark,
// with commas and CRLF (RFC 4180), which spreadsheets open as it is.
func WriteCSV(w io.Writer, sheets []Sheet) error {
	c := unit.NorthAmerican
	if len(sheets) > 0 {
		c = sheets[0].Convention
	}
	return writeTables(w, c, notesAbove(sheets), recordsOf(sheets), boards, feeds, feeders, loads, supplies, protectors)
}

// WriteRecordCSV writes the table of the protectors alone, for what was built.
func WriteRecordCSV(w io.Writer, sheets []Sheet) error {
	c := unit.NorthAmerican
	if len(sheets) > 0 {
		c = sheets[0].Convention
	}
	return writeTables(w, c, notesAbove(sheets), recordsOf(sheets), protectors)
}

func writeTables(w io.Writer, c unit.Convention, rows [][]string, records [formCount][][]Line, which ...int) error {
	forms := forms()
	for _, i := range which {
		f := forms[i]
		rows = append(rows, nil, []string{f.title.in(c)}, f.row(func(i int) string { return f.columns[i].heading.in(c) }), f.row(func(i int) string { return f.guide(i, c) }))
		for _, lines := range records[i] {
			rows = append(rows, f.row(func(i int) string { return lines[i].cell() }))
		}
	}
	rows = append(append(rows, nil), notesBelow(c)...)
	if _, err := io.WriteString(w, "\ufeff"); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return out.WriteAll(rows)
}

// guide is what the row below the headings says of a column: the words that it takes,
// or in which unit a number is that has none.
func (f form) guide(i int, convention unit.Convention) string {
	c := f.columns[i]
	switch options := (Line{column: c}).choices(convention); {
	case i == 0:
		return guideMark
	case c.role != asks:
		return ""
	case len(options) > 0:
		return strings.Join(options, " / ")
	case c.Sort == diagram.SortDate:
		return "a day, such as 2026-11-29"
	}
	return cmp.Or(c.unit, c.hint.in(convention))
}

// guideMark begins the row that says what may stand below; nobody fills that in.
const guideMark = comment + " words and units"

// row returns the cells of a row, by the columns that a table has.
func (f form) row(cell func(column int) string) []string {
	var out []string
	for i, c := range f.columns {
		if c.role != onPaper {
			out = append(out, cell(i))
		}
	}
	return out
}

// recordsOf returns what stands in the rows of the tables. A transformer, a feeder and a
// supply have one, whatever boards they feed.
func recordsOf(sheets []Sheet) (out [formCount][][]Line) {
	met := [formCount]map[string]bool{}
	once := func(form int, records ...[]Line) {
		if met[form] == nil {
			met[form] = map[string]bool{"": true}
		}
		for _, record := range records {
			if id := lineOf(record, keyID).Value; !met[form][id] {
				met[form][id] = true
				out[form] = append(out[form], record)
			}
		}
	}
	for _, s := range sheets {
		out[boards] = append(out[boards], s.Lines)
		once(feeds, s.Feed)
		once(feeders, s.Feeders...)
		once(loads, s.Loads...)
		once(supplies, s.Supplies...)
		out[protectors] = append(append(out[protectors], s.Protectors...), s.Free)
	}
	return out
}

// comment begins a row that is for people alone.
const comment = "#"

// What the row that names the survey says.
const (
	surveyOf = "Survey of "
	inPlan   = ", plan "
)

func notesAbove(sheets []Sheet) [][]string {
	const how = "How to fill in the tables stands below them, and what keeps people safe."
	if len(sheets) == 0 {
		return commented(how)
	}
	s, site := sheets[0], ""
	if s.Site != "" {
		site = ", " + s.Site
	}
	return commented(surveyOf+s.Title+site+inPlan+s.Plan, how)
}

func notesBelow(c unit.Convention) [][]string {
	board := words{"panel", "board"}.in(c)
	return commented(append([]string{
		"A blank cell leaves what the drawing says as it is. A lone - clears it. Write the unit into the cell, as 225 A or 18 in. Yes or no where a heading asks. Leave the ids alone.",
		"A protector that is on site and not in the table: fill in the free row of its " + board + ", with its name or what its nameplate says. For one more copy the row; the protector id stays blank, or say " + newProtector + ".",
		"What the printed sheet asks and no column does: write where a fault current is from into the remarks.",
	}, Cautions(c)...)...)
}

func commented(notes ...string) [][]string {
	out := make([][]string, len(notes))
	for i, note := range notes {
		out[i] = []string{comment + " " + note}
	}
	return out
}
