package diagram

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is what is wrong with a record: why it may not stand in a document, or why
// nothing can be computed of it.
type Problem struct {
	ID     ID
	Field  string // the field's name in the file, or empty for the record as a whole
	Place  string // where, as people name it; empty where ID and Field say it
	What   string
	Remedy string
	Bounds Bounds // of a number that lies outside; the zero value for any other problem
}

// Bounds are within which a number of a document lies, in the unit of its field.
type Bounds struct {
	Low, High float64
	Above     bool // it lies above Low
	OrZero    bool // 0 is right, too, and stands for what is not stated
}

// Words says what the number must be, each bound written by the caller: "1 Ω to
// 10 kΩ, or left empty".
func (b Bounds) Words(write func(float64) string) string {
	out := write(b.Low) + " to " + write(b.High)
	if b.Above {
		out = "above " + write(b.Low) + " and at most " + write(b.High)
	}
	if b.OrZero {
		out += ", or left empty"
	}
	return out
}

// Error returns one line that says what, where and how to mend it.
func (p Problem) Error() string {
	place := cmp.Or(p.Place, string(p.ID))
	if p.Field != "" {
		place += ", " + p.Field
	}
	return strings.Trim(fmt.Sprintf("%s: %s; %s", place, p.What, p.Remedy), ":; ")
}

// InvalidError says why a change was not taken.
type InvalidError struct{ Problems []Problem }

// Error names the first problem, and how many more there are.
func (e *InvalidError) Error() string {
	if len(e.Problems) == 1 {
		return e.Problems[0].Error()
	}
	return fmt.Sprintf("%s (and %d more)", e.Problems[0], len(e.Problems)-1)
}

// Unwrap returns the problems one by one; errors.As finds the first as a Problem.
func (e *InvalidError) Unwrap() []error {
	out := make([]error, len(e.Problems))
	for i, p := range e.Problems {
		out[i] = p
	}
	return out
}

// Check returns every problem of the document, or nothing. Documents that
// were changed only through Edit have none.
func (d *Document) Check() []Problem {
	c := checker{doc: d}
	for _, p := range d.Plans() {
		c.plan(&p)
	}
	for p := range d.Parts() {
		c.part(&p)
	}
	for f := range d.Feeders() {
		c.feeder(&f)
	}
	for p := range d.Protectors() {
		c.protector(&p)
	}
	for _, s := range d.Surges() {
		c.surge(&s)
	}
	for a := range d.Asides() {
		c.aside(&a)
	}
	c.info(*d.info)
	c.hasPlan()
	return c.problems
}

// check looks at what changed, and at what refers to what was removed.
func (d *Document) check(change Change) error {
	c := checker{doc: d}
	c.changed(change)
	c.orphans(change)
	c.locks(change)
	if len(c.problems) > 0 {
		return &InvalidError{c.problems}
	}
	return nil
}

type checker struct {
	doc      *Document
	problems []Problem
}

func (c *checker) report(id ID, field, what, remedy string) {
	c.add(Problem{ID: id, Field: field, What: what, Remedy: remedy})
}

func (c *checker) add(problem Problem) {
	if !slices.Contains(c.problems, problem) {
		c.problems = append(c.problems, problem)
	}
}

func (c *checker) changed(change Change) {
	if change.Info != nil {
		c.info(*change.Info.To)
	}
	each(change.Plans, c.plan)
	each(change.Parts, c.part)
	each(change.Feeders, c.feeder)
	each(change.Protectors, c.protector)
	each(change.Surges, c.surge)
	each(change.Asides, c.aside)
	if len(change.Plans) > 0 {
		c.hasPlan()
	}
}

func each[R any](updates []Update[R], look func(*R)) {
	for _, u := range updates {
		if u.To != nil {
			look(u.To)
		}
	}
}

// orphans looks for records that refer to something removed or made into
// another kind of part.
func (c *checker) orphans(change Change) {
	if !loses(change.Parts) && !loses(change.Plans) {
		return
	}
	for f := range c.doc.Feeders() {
		c.ends(f)
	}
	for p := range c.doc.Protectors() {
		c.place(p)
	}
	for a := range c.doc.Asides() {
		c.aside(&a)
	}
	for _, s := range c.doc.Surges() {
		c.arrival(s)
	}
}

func loses[R any](updates []Update[R]) bool {
	return slices.ContainsFunc(updates, func(u Update[R]) bool {
		if u.From == nil {
			return false
		}
		before, isPart := any(*u.From).(Part)
		return u.To == nil || isPart && any(*u.To).(Part).Kind != before.Kind
	})
}

func (c *checker) hasPlan() {
	if len(c.doc.plans.byID) == 0 {
		c.report("", "plans", "there is no plan", "keep at least one")
	}
}

// identity checks the id of a record, and that no record of another sort has
// it.
func (c *checker) identity(id ID) {
	if !id.Valid() {
		c.report(id, "id", fmt.Sprintf("%.80q is no id", string(id)),
			fmt.Sprintf("use up to %d letters, digits, '-', '_' and '.'", maxIDLength))
	}
	holders := 0
	for _, has := range []bool{
		c.doc.parts.byID[id] != nil, c.doc.feeders.byID[id] != nil,
		c.doc.protectors.byID[id] != nil, c.doc.plans.byID[id] != nil, c.doc.surges.byID[id] != nil, c.doc.asides.byID[id] != nil,
	} {
		if has {
			holders++
		}
	}
	if holders > 1 {
		c.report(id, "id", "two records bear this id", "rename one of them")
	}
}
