package file

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"clampline/diagram"
)

// Error is one reason why a file cannot be read. The field of its problem is the
// place within the JSON, such as "feeders[2].length", or empty for the file as a
// whole; its ID is empty where the record at that place has no valid one.
type Error struct {
	diagram.Problem
	Line   int // from 1, or 0 where not known
	Column int // characters from 1, or 0 where not known
}

// Unwrap returns the problem without its place in the text.
func (e *Error) Unwrap() error { return e.Problem }

// Error returns one line that says where, what, and how to mend it.
func (e *Error) Error() string {
	var place []string
	if e.Line > 0 {
		place = append(place, fmt.Sprintf("line %d, column %d", e.Line, e.Column))
	}
	switch {
	case e.Field != "" && e.ID != "":
		place = append(place, fmt.Sprintf("%s (%s)", e.Field, e.ID))
	case e.Field != "":
		place = append(place, e.Field)
	}
	message := e.What
	if len(place) > 0 {
		message = strings.Join(place, ", ") + ": " + message
	}
	if e.Remedy != "" {
		message += "; " + e.Remedy
	}
	return message
}

// refused is an error about the file as a whole.
func refused(what, remedy string) *Error {
	return &Error{Problem: diagram.Problem{What: what, Remedy: remedy}}
}

// at returns the error with its place in the text.
func (e *Error) at(line, column int) *Error {
	e.Line, e.Column = line, column
	return e
}

// Errors is why a file is refused: at least one reason and at most about
// twenty, from the top of the file down. errors.As finds the first one as an
// *Error.
type Errors []*Error

// Error returns a line for each reason.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, one := range e {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the reasons one by one.
func (e Errors) Unwrap() []error {
	out := make([]error, len(e))
	for i, one := range e {
		out[i] = one
	}
	return out
}

// maxErrors bounds how many problems of one file are listed: nobody mends
// more at a time.
const maxErrors = 20

// problems collects what is wrong with the members of one file.
type problems struct {
	list []trailed
	more int
}

// trailed is a problem with the names and positions that lead from the top object
// to its place.
type trailed struct {
	trail []string
	diagram.Problem
}

func (p *problems) add(trail []string, id diagram.ID, what, remedy string) {
	if len(p.list) == maxErrors {
		p.more++
		return
	}
	p.list = append(p.list, trailed{slices.Clone(trail), diagram.Problem{ID: id, Field: pathOf(trail), What: what, Remedy: remedy}})
}

// errors returns what was collected with its lines and columns, found in the
// text, or without them where the text is nil.
func (p *problems) errors(text []byte) error {
	if len(p.list) == 0 {
		return nil
	}
	out := make(Errors, 0, len(p.list)+1)
	for _, one := range p.list {
		e := &Error{Problem: one.Problem}
		if text != nil {
			e.at(position(text, locate(text, one.trail)))
		}
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	if p.more > 0 {
		out = append(out, refused(fmt.Sprintf("there are %d more problems", p.more), "mend these first"))
	}
	return out
}

// pathOf writes a trail as people write it: parts[3].board.rating.
func pathOf(trail []string) string {
	var out strings.Builder
	for i, step := range trail {
		switch {
		case step != "" && isDigit(step[0]):
			out.WriteString("[" + step + "]")
		case i > 0:
			out.WriteString("." + step)
		default:
			out.WriteString(step)
		}
	}
	return out.String()
}
