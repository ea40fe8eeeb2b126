package unit

import "strings"

// Must says what a person is to type in a field, and what was typed instead. It
// is the message of a form and of a cell of a table alike, and begins with what
// to do.
type Must struct {
	Field  string // as its label has it
	Wanted string // what follows "must be": "a number with ft, in or m"
	Such   string // an example that is right for the field, or nothing
	Typed  string // or nothing
	None   bool   // there may be none of it, which is to be said by a 0
}

// Error returns the message: `Length must be a number with ft, in or m, such as
// 45 ft; “long” is not`.
func (m Must) Error() string {
	out := m.Field + " " + m.Demand()
	if m.Typed != "" {
		out += "; " + m.Instead()
	}
	if m.None {
		out += "; type 0 if there is none"
	}
	return out
}

// Demand is the message without the field and what was typed: "must be a number
// with ft, in or m, such as 45 ft".
func (m Must) Demand() string {
	out := "must be " + m.Wanted
	if m.Such != "" {
		out += ", such as " + m.Such
	}
	return out
}

// Instead says that what was typed is none of that.
func (m Must) Instead() string {
	const most = 40 // letters, of what may be pasted by mistake
	typed := []rune(strings.Join(strings.Fields(m.Typed), " "))
	if len(typed) > most {
		typed = append(typed[:most:most], '…')
	}
	return "“" + string(typed) + "” is not"
}
