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

// largestTable is the most that a table may have, bytes: a building of ten
// thousand panels takes less.
const largestTable = 16 << 20

// ReadCSV reads a table that WriteCSV wrote and people filled in, and says what
// it would change. Numbers without a unit are in those of the convention, but
// for the columns whose heading names one. The table may have been through a
// spreadsheet: separated by commas, semicolons or tabs, with its columns in
// another order, in UTF-8, UTF-16 or Windows-1252. Protectors that are not drawn
// yet go into the plan. The topology is that of the document. An error says that
// there is no such table at all.
func ReadCSV(r io.Reader, doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, convention unit.Convention) (Review, error) {
	file, err := io.ReadAll(io.LimitReader(r, largestTable+1))
	if err != nil {
		return Review{}, err
	}
	if len(file) > largestTable {
		return Review{}, fmt.Errorf("the table has more than %d MB; take out what is not of the survey", largestTable>>20)
	}
	text, note := decoded(file)
	t, err := split(text)
	if err != nil {
		return Review{}, err
	}
	x := newReading(doc, plan, topology, habits{convention, t.separator}, t)
	if note != "" {
		x.review.Notes = append(x.review.Notes, note)
	}
	x.read()
	return x.review, nil
}

// reading is one table in the making of its review.
type reading struct {
	habits
	table
	doc        *diagram.Document
	plan       diagram.ID
	topology   *analysis.Topology
	trial      *diagram.Document // takes each change as it is found, and says what may not stand
	slots      []slot
	column     map[int]int         // of the table, by the place among the slots
	met        map[diagram.ID]bool // boards of which a row was read
	parts      statements[part]    // of boards and transformers
	protectors statements[protector]
	taken      register
	nameless   []found // new protectors without a name
	review     Review
}

func newReading(doc *diagram.Document, plan diagram.ID, topology *analysis.Topology, h habits, t table) *reading {
	return &reading{
		habits: h, table: t, doc: doc, plan: plan, topology: topology, trial: doc.Snapshot(), slots: slots(),
		column: map[int]int{}, met: map[diagram.ID]bool{}, parts: statements[part]{}, protectors: statements[protector]{}, taken: newRegister(),
	}
}

func (x *reading) read() {
	x.headings()
	for _, n := range x.unclosed {
		x.problem(n+1, -1, "", "a quotation mark before a cell is not closed", "look whether the row was read as it is meant, and take the mark out or close it")
	}
	x.enrol()
	for n := x.head + 1; n < len(x.rows); n++ {
		x.row(n)
	}
	for _, f := range x.nameless {
		x.take(f)
	}
	settle(x, x.parts, x.partChange)
	settle(x, x.protectors, protectorChange)
	x.notePlan()
	x.review.sort()
}

// headings finds which column is which, and tells of those that are not read.
func (x *reading) headings() {
	headings := newIndex(x.slots)
	for i, heading := range x.rows[x.head] {
		at := headings.of(heading)
		_, taken := x.column[at]
		filled := x.filled(i)
		switch {
		case at >= 0 && !taken:
			x.column[at] = i
		case at >= 0:
			x.problem(x.head+1, i, heading, "the heading stands twice, and the second column was not read", "join the two")
		case strings.TrimSpace(heading) != "":
			x.problem(x.head+1, i, heading, "the survey has no such column; "+notRead(filled), homeless)
		case filled > 0:
			x.problem(x.head+1, i, "", fmt.Sprintf("column %d has no heading; %s", i+1, notRead(filled)), homeless)
		}
	}
}

// homeless is what to do with what stands in no column of the survey.
const homeless = "move what is in it to the column that it belongs to, or to the remarks"

func notRead(cells int) string {
	switch cells {
	case 0:
		return "it is empty"
	case 1:
		return "1 cell was not read"
	}
	return fmt.Sprintf("%d cells were not read", cells)
}

// place returns the place of a key among the slots.
func (x *reading) place(key string) int {
	return slices.IndexFunc(x.slots, func(s slot) bool { return s.key == key })
}

// cell returns what stands in the column of a slot in a row, or nothing.
func (x *reading) cell(n, slot int) string {
	if i, ok := x.column[slot]; ok && i < len(x.rows[n]) {
		return x.rows[n][i]
	}
	return ""
}

// id returns an id in a row.
func (x *reading) id(n int, key string) diagram.ID {
	return diagram.ID(unescaped(oneLine(x.cell(n, x.place(key)))))
}

// tell notes a problem with what stands in the column of a slot in a row.
func (x *reading) tell(n, slot int, u unread) {
	x.problem(n+1, x.column[slot], x.slots[slot].heading.in(x.convention), u.what, u.remedy)
}

func (x *reading) problem(row, column int, heading, what, remedy string) {
	heading = oneLine(heading)
	if letters := []rune(heading); len(letters) > longestQuote {
		heading = string(letters[:longestQuote]) + "…"
	}
	x.review.Problems = append(x.review.Problems, Problem{row, heading, what, remedy, column})
}

// change notes a change of the value in a slot, unless the document does not take
// it.
func (x *reading) change(n, slot int, c Change) {
	c.Field = x.slots[slot].field(x.convention)
	c.column = x.column[slot]
	if err := x.propose(n, c); err != nil {
		x.tell(n, slot, x.refusal(n, slot, err))
	}
}

// propose notes a change that a row asks for, or says why the document does not
// take it.
func (x *reading) propose(n int, c Change) error {
	_, err := x.trial.Edit(c.alter)
	if err == nil {
		c.Row = n + 1
		x.review.Changes = append(x.review.Changes, c)
	}
	return err
}
