package survey

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// The most that a file may have: a building of ten thousand panels takes less.
const (
	largestTable = 16 << 20 // bytes
	longestTable = 100_000  // line ends
)

// ReadCSV reads the tables that WriteCSV wrote and people filled in, and says what
// they would change. One of them alone will do, as will the one wide table of
// earlier versions. Numbers without a unit are in those of the convention, but for
// the columns whose heading names one. The file may have been through a spreadsheet:
// separated by commas, semicolons or tabs, with its columns in another order, in
// UTF-8, UTF-16 or Windows-1252. Protectors that are not drawn yet go into the plan.
// The topology is that of the document. An error says that there is no such table at
// all.
func ReadCSV(r io.Reader, doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, convention unit.Convention) (Review, error) {
	return readCSV(r, doc, plan, nil, topology, convention)
}

// ReadRecord is ReadCSV of what was built: the ids may be those of the plan that was
// carried out, and stand for those of its record, into which all goes. A lead whose
// length is another one counts as measured.
func ReadRecord(r io.Reader, doc *diagram.Document, record diagram.Plan, topology *analysis.Topology, convention unit.Convention) (Review, error) {
	return readCSV(r, doc, record.ID, diagram.Counterparts(doc, record.Of, record.ID), topology, convention)
}

func readCSV(r io.Reader, doc *diagram.Document, plan diagram.ID, stands map[diagram.ID]diagram.ID, topology *analysis.Topology, convention unit.Convention) (Review, error) {
	content, err := io.ReadAll(io.LimitReader(r, largestTable+1))
	if err != nil {
		return Review{}, err
	}
	if len(content) > largestTable {
		return Review{}, fmt.Errorf("the table has more than %d MB; take out what is not of the survey", largestTable>>20)
	}
	text, note := decoded(content)
	if strings.Count(text, "\n")+strings.Count(text, "\r") > 2*longestTable {
		return Review{}, fmt.Errorf("the table has more than %d rows; take out what is not of the survey", longestTable)
	}
	headings := newIndex()
	f, err := split(text, headings)
	if err != nil {
		return Review{}, err
	}
	x := &reading{
		building: newBuilding(doc, topology, nil, convention), habits: habits{convention, f.separator}, cells: f, index: headings,
		plan: plan, stands: stands, trial: doc.Snapshot(), met: map[diagram.ID]bool{}, said: map[cellKey][]statement{}, taken: newRegister(), counted: map[int]bool{},
	}
	if note != "" {
		x.review.Notes = append(x.review.Notes, note)
	}
	x.read()
	return x.review, nil
}

// reading is a file in the making of its review.
type reading struct {
	*building
	cells
	index
	habits   habits
	plan     diagram.ID
	stands   map[diagram.ID]diagram.ID // of a record: its protectors by those of the plan that was carried out
	trial    *diagram.Document         // takes each change as it is found, and says what may not stand
	said     map[cellKey][]statement
	taken    register
	nameless []found             // new protectors without a name
	met      map[diagram.ID]bool // records of which a row was read
	counted  map[int]bool        // rows that were read
	review   Review
}

func (x *reading) read() {
	for _, n := range x.unclosed {
		x.problem(n+1, -1, "", "a quotation mark before a cell is not closed", "look whether the row was read as it is meant, and take the mark out or close it")
	}
	if n := len(x.stray); n > 0 {
		x.problem(x.stray[0]+1, -1, "", unit.CountOf(n, "row stands above the first headings and was not read|rows from here on stand above the first headings and were not read"),
			"put the headings above them back: "+strings.Join(x.forms[boards].row(func(i int) string { return x.forms[boards].columns[i].heading.in(x.convention) })[:3], ", ")+" and so on")
	}
	entries := x.entries()
	x.enrol(entries)
	for _, e := range entries {
		x.readEntry(e)
	}
	x.pair(x.nameless)
	for _, f := range x.nameless {
		x.take(f)
	}
	x.settle()
	x.noteBuilding()
	x.notePlan()
	x.review.Rows = len(x.counted)
	x.review.sort()
}

// readEntry reads what a row says in one table.
func (x *reading) readEntry(e entry) {
	if e.form == protectors && x.id(e, keyID) == "" {
		x.unnumbered(e)
		return
	}
	s, wrong := x.subjectOf(e, e.form, keyID)
	if wrong == (unread{}) && e.form == protectors {
		wrong = x.misplaced(e, s)
	}
	if wrong != (unread{}) {
		x.tell(e, x.place(e.form, keyID), wrong)
		return
	}
	x.counted[e.row] = true
	x.compareTold(e, s)
	for i, c := range x.forms[e.form].columns {
		again := x.met[s.id()] && e.form == boards && c.key == keyName // which tells people where they are
		if c.role == asks && !(again && says(c, &s, unescaped(oneLine(e.cells[i])))) {
			x.state(e, i, s)
		}
	}
	x.met[s.id()] = true
}

// subjectOf returns the record of a table whose id stands in a column of a row, or
// what is wrong with it: the row may be older than the drawing.
func (x *reading) subjectOf(e entry, form int, key string) (subject, unread) {
	id, noun := x.id(e, key), x.forms[form].record
	p, ok := x.doc.Part(id)
	if form == protectors {
		var s subject
		s.protector, ok = x.doc.Protector(id)
		switch {
		case ok && x.stands != nil && s.protector.Plan != x.plan:
			return s, unread{x.nameOf(id) + " is of the plan " + quoted(x.nameOf(s.protector.Plan)) + ", and the record has nothing that stands for it", "leave the id empty where it was built as a new one"}
		case ok:
			return s, unread{}
		}
	}
	if form == feeders {
		var s subject
		s.feeder, ok = x.doc.Feeder(id)
		if ok {
			return s, unread{}
		}
	}
	switch {
	case id == "":
		return subject{}, unread{"the row has no id of a " + noun, "copy the id from the table that was written, or enter the row by hand"}
	case !ok:
		return subject{}, unread{"the drawing has no " + noun + " with the id " + quoted(string(id)), "it was taken away or its id was altered; enter the row by hand"}
	case !isOf(form, p):
		return subject{}, unread{fmt.Sprintf("%s is a %s and no %s", quoted(string(id)), p.Kind, noun), "correct the id"}
	}
	return about(p), unread{}
}

// isOf reports whether a part may have a row in a table of parts.
func isOf(form int, p part) bool {
	switch form {
	case boards:
		return p.Kind.IsBoard()
	case loads:
		return p.Kind == diagram.Load
	case supplies:
		return p.Kind == diagram.Supply
	}
	return isFeed(p)
}

// misplaced says where a protector is on another board than its row has it.
func (x *reading) misplaced(e entry, s subject) unread {
	board := x.id(e, keyBoard)
	if board == "" || board == s.protector.Bus {
		return unread{}
	}
	return unread{fmt.Sprintf("%s is on %s and not on %s", x.nameOf(s.id()), x.nameOf(s.protector.Bus), x.nameOf(board)), "correct the ids, or move it on the drawing"}
}

// compareTold tells where somebody has corrected what the drawing says: that has to
// be done on the drawing. What is reckoned may have changed since.
func (x *reading) compareTold(e entry, s subject) {
	for i, c := range x.forms[e.form].columns {
		cell := unescaped(oneLine(e.cells[i]))
		if c.role != telling || c.key == keyReckoned || cell == "" {
			continue
		}
		if says := oneLine(c.tell(x.building, &s)); cell != says {
			x.tell(e, i, unread{quoted(cell) + " is not read; the drawing says " + quoted(says), "correct the drawing where it is wrong"})
		}
	}
}

// place returns the place of a key among the columns of a table.
func (x *reading) place(form int, key string) int {
	return slices.IndexFunc(x.forms[form].columns, func(c column) bool { return c.key == key })
}

// id returns an id in a row, nothing where it says that there is a new record.
func (x *reading) id(e entry, key string) diagram.ID {
	id := diagram.ID(unescaped(oneLine(e.cells[x.place(e.form, key)])))
	if _, drawn := x.doc.Protector(id); !drawn && e.form == protectors && folded(string(id)) == newProtector {
		return ""
	}
	if built, ok := x.stands[id]; ok {
		return built
	}
	return id
}

// tell notes a problem with what stands in a column of a table.
func (x *reading) tell(e entry, column int, u unread) {
	x.problem(e.row+1, e.at[column], x.forms[e.form].columns[column].heading.in(x.convention), u.what, u.remedy)
}

func (x *reading) problem(row, column int, heading, what, remedy string) {
	heading = oneLine(heading)
	if letters := []rune(heading); len(letters) > longestQuote {
		heading = string(letters[:longestQuote]) + "…"
	}
	x.review.Problems = append(x.review.Problems, Problem{row, heading, what, remedy, column})
}

// propose notes a change that a row asks for, or says why the document does not
// take it.
func (x *reading) propose(e entry, column int, c Change) error {
	_, err := x.trial.Edit(c.alter)
	if err == nil {
		c.Row, c.column = e.row+1, e.at[column]
		x.review.Changes = append(x.review.Changes, c)
	}
	return err
}
