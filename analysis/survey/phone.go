package survey

import (
	"cmp"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"html/template"
	"io"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

//go:embed phone.html
var phoneHTML string

var phoneTemplate = template.Must(template.New("phone").Parse(phoneHTML))

// Phone says what a page for the phone is made of.
type Phone struct {
	Sheets []Sheet
	File   string             // name of the file that the sheets are of
	Work   bool               // what to build and what was built, in place of the survey
	Longer map[diagram.ID]int // by protector: by how many steps of LeadStep all its leads may be longer; nil where nobody asked
}

// LeadStep is the step in which a page tells how long leads may be, m.
func LeadStep(c unit.Convention) float64 {
	if c == unit.IEC {
		return 0.01
	}
	return 0.0254
}

// phonePage is what the script of the page gets. A row has a cell for each column.
type phonePage struct {
	Key, Kind, Title, Site, Plan, File, Language string
	Board, Plural                                string
	Cautions                                     []string
	First                                        []string // what comes before the work
	Tables                                       []phoneTable
	Boards                                       []phoneBoard
}

type phoneTable struct {
	Title   string
	Columns []phoneColumn
}

type phoneColumn struct {
	Heading string
	Kind    string   // id, told, text, lines, number, count, word, date, photos, measured
	Unit    string   // or what to write
	Words   []string // of a choice
}

type phoneBoard struct {
	Name, ID, From string
	Rows           []phoneRow
}

type phoneRow struct {
	Table int
	Key   string // the same for the same record, on whichever board it is shown
	Title string
	More  []string // what the crew is told
	Cells []string // what is on record, or the id
	Hints []string `json:",omitempty"` // what the drawing says, by column
}

// WritePhone writes a page that needs nothing else: it asks what the sheets ask or what
// the work on a board is, keeps what is typed in the browser, and saves the tables that
// ReadCSV and ReadRecord read.
func WritePhone(w io.Writer, p Phone) error {
	return phoneTemplate.Execute(w, p.page())
}

func (p Phone) page() phonePage {
	c, out := unit.NorthAmerican, phonePage{Kind: "survey", File: p.File, Language: "en", Board: "Panel", Plural: "panels"}
	if p.Work {
		out.Kind = "work"
	}
	if len(p.Sheets) > 0 {
		s := p.Sheets[0]
		c, out.Title, out.Site, out.Plan = s.Convention, s.Title, s.Site, s.Plan
	}
	if c == unit.IEC {
		out.Language, out.Board, out.Plural = "en-GB", "Board", "boards"
	}
	out.Cautions = Cautions(c)
	out.Key = p.key()
	m := phoneMaker{p, c, forms()}
	for i := range m.forms {
		out.Tables = append(out.Tables, m.table(i))
	}
	for _, s := range p.Sheets {
		if board := m.board(s); !p.Work || len(board.Rows) > 0 {
			out.Boards = append(out.Boards, board)
		}
	}
	if p.Work {
		out.First = workFirst(c)
	}
	return out
}

// key is under what the browser keeps what is typed: another file, plan or revision has
// another one.
func (p Phone) key() string {
	parts := []string{p.File, map[bool]string{true: "work"}[p.Work]}
	if len(p.Sheets) > 0 {
		s := p.Sheets[0]
		parts = append(parts, s.Title, s.Plan, s.info.Issue.Revision)
	}
	sum := sha256.Sum256([]byte(strings.Join(parts, "\n")))
	return "clampline-" + hex.EncodeToString(sum[:8])
}

type phoneMaker struct {
	Phone
	convention unit.Convention
	forms      [formCount]form
}

// table tells the page of the columns of a table.
func (m phoneMaker) table(i int) phoneTable {
	out := phoneTable{Title: m.forms[i].title.in(m.convention)}
	for _, c := range m.forms[i].columns {
		column := phoneColumn{Heading: c.heading.in(m.convention), Kind: m.kind(i, c)}
		if column.Kind == "word" {
			column.Words = (Line{column: c}).choices(m.convention)
		} else if column.Kind != "id" && column.Kind != "told" && column.Kind != "" {
			column.Unit = cmp.Or(c.unit, c.hint.in(m.convention))
		}
		out.Columns = append(out.Columns, column)
	}
	return out
}

// kind says how the page asks for a column; empty for one that it leaves out.
func (m phoneMaker) kind(table int, c column) string {
	switch {
	case c.role == naming:
		return "id"
	case c.role == telling:
		return "told"
	case c.role == onPaper || m.Work && (table != protectors || !isBuilt(c)):
		return ""
	case c.key == "installed.measured" && m.Work:
		return "measured"
	case strings.HasSuffix(c.key, "photos"):
		return "photos"
	case c.key == keyNote:
		return "lines"
	case len(c.options) > 0:
		return "word"
	}
	return map[diagram.Sort]string{diagram.SortNumber: "number", diagram.SortCount: "count", diagram.SortDate: "date"}[c.Sort] + map[bool]string{true: "text"}[c.Sort == diagram.SortText]
}

// isBuilt reports whether the crew is asked for a column of a protector.
func isBuilt(c column) bool {
	return isLeadLength(c) || c.Names()[0] == "installed" && c.key != "installed.checked" || c.key == keyNote || c.key == "leads.run"
}

// board returns what the page asks of a board.
func (m phoneMaker) board(s Sheet) phoneBoard {
	out := phoneBoard{Name: s.Name, ID: string(s.Board), From: s.Line(keyFedFrom).Drawing}
	add := func(table int, title string, lines []Line, key string, more []string) {
		out.Rows = append(out.Rows, m.row(table, title, lines, key, more))
	}
	titled := func(table int, what, name string, records [][]Line) {
		for _, lines := range records {
			line := lineOf(lines, name)
			add(table, what+": "+oneLine(cmp.Or(line.Value, line.Drawing, "without a name")), lines, lineOf(lines, keyID).Value, m.orders(lines, table))
		}
	}
	if !m.Work {
		add(boards, unit.SentenceCase(string(s.Kind)), s.Lines, string(s.Board), nil)
		if id := lineOf(s.Feed, keyID).Value; id != "" {
			add(feeds, "Transformer that feeds it", s.Feed, id, nil)
		}
		titled(supplies, "Supply", keySupply, s.Supplies)
		titled(feeders, "Feeder", keyFeeder, s.Feeders)
		titled(loads, "Load", keyName, s.Loads)
	}
	titled(protectors, "Protector", keyName, s.Protectors)
	if !m.Work {
		add(protectors, "A protector that is not listed", s.Free, "new "+string(s.Board), nil)
	}
	return out
}

// row returns what is known of a record. What the crew is to build is told and not
// filled in: what is typed there is what was built.
func (m phoneMaker) row(table int, title string, lines []Line, key string, more []string) phoneRow {
	out := phoneRow{Table: table, Key: key, Title: title, More: more, Cells: make([]string, len(lines))}
	for i, line := range lines {
		switch {
		case line.role == naming, line.role == asks && !(m.Work && (isLeadLength(line.column) || line.key == "installed.measured")):
			out.Cells[i] = strings.TrimSpace(line.Value)
		case line.role == telling:
			out.Cells[i] = strings.TrimSpace(line.Drawing)
		}
		if line.role == asks && line.Value == "" && line.Drawing != "" {
			if out.Hints == nil {
				out.Hints = make([]string, len(lines))
			}
			out.Hints[i] = line.Drawing
		}
	}
	return out
}
