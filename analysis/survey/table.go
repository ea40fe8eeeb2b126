package survey

import (
	"encoding/csv"
	"io"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// role is what a column of the table is for.
type role int

const (
	ids         role = iota // which record a row is about
	told                    // for the person: what the drawing says, not read again
	ofBoard                 // of the panel's record
	ofFeed                  // of the transformer that feeds it
	ofProtector             // of the record of a protector on it
)

// slot is one column of the table.
type slot struct {
	role    role
	key     string
	heading words
	at      int                                   // its place among the columns of a record
	bound   func(float64, unit.Convention) string // of the column
}

// field returns what the column holds, in words: its heading without the unit,
// and of the names that they are names.
func (s slot) field(c unit.Convention) string {
	if s.key == keyName || s.key == keyProtectorName {
		return "Name"
	}
	field, _, _ := strings.Cut(s.heading.in(c), " (")
	return field
}

// Keys of the columns that are not of a record's own.
const (
	keyBoard     = "board id"
	keyProtector = "protector id"
	keyFeed      = "feed id"
	keyFedFrom   = "fed from"
	keyArrives   = "arrives"
	keyReckoned  = "reckoned"
	keyFeedName  = "feed"
)

// slots returns the columns of the table in their order.
func slots() []slot {
	out := []slot{
		{role: ids, key: keyBoard, heading: words{idHeading, "Board id"}},
		{role: ids, key: keyProtector, heading: both("Protector id")},
	}
	for i, c := range boardColumns() {
		out = append(out, slot{ofBoard, c.key, c.heading, i, c.bound})
		switch c.key {
		case keyName:
			out = append(out, slot{role: told, key: keyFedFrom, heading: both("Fed from")})
		case "frequency":
			out = append(out, slot{role: told, key: keyArrives, heading: both("System by the drawing")})
		case keyFault:
			out = append(out, slot{role: told, key: keyReckoned, heading: both("Fault current by the drawing")},
				slot{role: ids, key: keyFeed, heading: both("Transformer id")}, slot{role: told, key: keyFeedName, heading: both("Transformer")})
			for j, c := range feedColumns() {
				out = append(out, slot{ofFeed, c.key, c.heading, j, c.bound})
			}
		}
	}
	for i, c := range protectorColumns() {
		out = append(out, slot{ofProtector, c.key, c.heading, i, c.bound})
	}
	return out
}

// WriteCSV writes the sheets as a table: a row for each board, one for each
// protector on it, and below them what the table is and the cautions, which are
// passed over when it is read. What is known of a transformer stands in the first
// row of a board that it feeds, so that one cell alone has to be altered. It is UTF-8 with its mark, with commas and CRLF
// (RFC 4180), which spreadsheets open as it is.
func WriteCSV(w io.Writer, sheets []Sheet) error {
	c := unit.NorthAmerican
	if len(sheets) > 0 {
		c = sheets[0].Convention
	}
	if _, err := io.WriteString(w, "\ufeff"); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	columns := slots()
	headings := make([]string, len(columns))
	for i, s := range columns {
		headings[i] = s.heading.in(c)
	}
	rows := [][]string{headings}
	said := map[diagram.ID]bool{}
	for _, sheet := range sheets {
		if said[sheet.Feed.ID] {
			sheet.Feed.Lines = nil
		}
		said[sheet.Feed.ID] = true
		rows = append(rows, sheet.rows(columns)...)
	}
	for _, note := range notes(sheets, c) {
		rows = append(rows, []string{comment + " " + note})
	}
	if err := out.WriteAll(rows); err != nil {
		return err
	}
	return out.Error()
}

// comment begins a row that is for people alone.
const comment = "#"

// What the row that names the survey says.
const (
	surveyOf = "Survey of "
	inPlan   = ", plan "
)

func notes(sheets []Sheet, c unit.Convention) []string {
	var out []string
	if len(sheets) > 0 {
		s := sheets[0]
		about := surveyOf + s.Title
		if s.Site != "" {
			about += ", " + s.Site
		}
		out = append(out, about+inPlan+s.Plan)
	}
	board := words{"panel", "board"}.in(c)
	out = append(out,
		"A blank cell leaves what the drawing says as it is. A lone - clears it. Write the unit into the cell, as 225 A or 18 in. Yes or no where a heading asks. Leave the ids alone.",
		"A protector that is on site and not in the table: add a row with the id of its "+board+", leave the protector id blank or write "+newProtector+", and fill in its name or what its nameplate says.",
		"What the printed sheet asks and no column does: write where a fault current is from into the remarks, and what an indicator shows into the protector remarks.")
	return append(out, Cautions(c)...)
}

// rows returns the rows of a board and of the protectors on it.
func (s Sheet) rows(columns []slot) [][]string {
	out := [][]string{s.row(columns, Attached{})}
	for _, p := range s.Protectors {
		out = append(out, s.row(columns, p))
	}
	return out
}

// row returns the row of one protector, or of the board where there is none. The
// name of the board stands in every one, so that people see where they are.
func (s Sheet) row(columns []slot, p Attached) []string {
	out := make([]string, len(columns))
	for i, column := range columns {
		switch own := p.ID == ""; {
		case column.role == ofProtector && !own:
			out[i] = p.Lines[column.at].Value
		case column.role == ofBoard && (own || column.key == keyName):
			out[i] = s.Lines[column.at].Value
		case column.role == ofFeed && own && s.Feed.Lines != nil:
			out[i] = s.Feed.Lines[column.at].Value
		case column.role == ids:
			out[i] = s.id(column.key, p)
		case column.role == told && own:
			out[i] = s.told(column.key)
		}
		out[i] = escaped(strings.TrimSpace(out[i]))
	}
	return out
}

func (s Sheet) id(key string, p Attached) string {
	switch {
	case key == keyBoard:
		return string(s.Board)
	case key == keyProtector:
		return string(p.ID)
	case p.ID == "":
		return string(s.Feed.ID)
	}
	return ""
}

func (s Sheet) told(key string) string {
	switch key {
	case keyFedFrom:
		return s.FedFrom
	case keyArrives:
		return s.Arrives
	case keyReckoned:
		return s.Reckoned
	case keyFeedName:
		return oneLine(s.Feed.Name)
	}
	return ""
}
