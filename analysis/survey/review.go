package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"clampline/diagram"
)

// Change is one value that a table changes, or a protector that it adds.
type Change struct {
	Row    int        // of the table, as a spreadsheet counts
	Record diagram.ID // what is changed; nothing for a protector that is added
	Name   string     // what people call that record
	Field  string     // in words; nothing for one that is added
	From   string     // as text; words for a value that was not there
	To     string     // likewise, or all that is known of one that is added
	Note   string     // what else it means, or nothing

	column int // of the table, to keep the order
	alter  func(*diagram.Tx) error
}

// String returns the change in one line.
func (c Change) String() string {
	if c.Record == "" {
		return "new protector " + c.Name + ": " + c.To
	}
	return fmt.Sprintf("%s, %s: %s → %s", c.Name, lowerFirst(c.Field), c.From, c.To)
}

// Problem is something that could not be read.
type Problem struct {
	Row    int    // of the table, as a spreadsheet counts
	Column string // its heading, or nothing where it is about the whole row
	What   string // what is wrong; or what to write: "must be a number with A or kA, such as 225 A"
	Remedy string // how to mend it; or what stands there instead

	column int
}

// String returns one line that says what, where and how to mend it.
func (p Problem) String() string {
	where := fmt.Sprintf("row %d", p.Row)
	if p.Column != "" {
		where += ", " + p.Column
	}
	if !strings.HasPrefix(p.What, "must ") { // else the heading is its subject
		where += ":"
	}
	return where + " " + p.What + "; " + p.Remedy
}

// Review is what a table that came back says, before any of it is taken.
type Review struct {
	Changes  []Change  // in the order of the table
	Problems []Problem // likewise
	Notes    []string  // about the table as a whole
	Rows     int       // rows of boards, transformers and protectors that were read
	Foreign  string    // the building that the file is of, where that is another one
}

// Apply makes the changes. It fails, and the transaction with it, where a record
// is no longer there.
func (r Review) Apply(tx *diagram.Tx) error {
	for _, change := range r.Changes {
		if err := change.alter(tx); err != nil {
			return err
		}
	}
	return nil
}

func (r *Review) sort() {
	slices.SortStableFunc(r.Changes, func(a, b Change) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.column, b.column)) })
	slices.SortStableFunc(r.Problems, func(a, b Problem) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.column, b.column)) })
}

// alter returns what changes one record.
func alter(id diagram.ID, set func(*subject)) func(*diagram.Tx) error {
	return func(tx *diagram.Tx) error {
		if p, ok := tx.Part(id); ok {
			record := about(p)
			set(&record)
			tx.SetPart(record.drawn())
			return nil
		}
		if f, ok := tx.Feeder(id); ok {
			record := subject{feeder: f}
			set(&record)
			tx.SetFeeder(record.feeder)
			return nil
		}
		p, ok := tx.Protector(id)
		if !ok {
			return gone(id)
		}
		record := subject{protector: p}
		set(&record)
		tx.SetProtector(record.protector)
		return nil
	}
}

func gone(id diagram.ID) error {
	return fmt.Errorf("%s is no longer on the drawing; read the table again", id)
}
