package unit

import (
	"fmt"
	"strings"
)

// find returns the measure that name spells, the usual one for no name. A
// spelling that is right to the letter wins over one in another case.
func (q quantity) find(name string) (measure, error) {
	if name == "" {
		return q.usual(), nil
	}
	name = strings.TrimSuffix(name, ".")
	for _, same := range []func(measure, string) bool{measure.spelled, measure.sounded} {
		for _, m := range q.takes {
			if same(m, name) {
				return m, nil
			}
		}
	}
	return measure{}, q.unknown(name)
}

// spelled reports whether name is a spelling of m.
func (m measure) spelled(name string) bool {
	for _, n := range m.names {
		if n == name {
			return true
		}
	}
	return false
}

// sounded reports whether name is a spelling of m in any case, but for the m
// of milli and the M of mega.
func (m measure) sounded(name string) bool {
	for _, n := range m.names {
		if strings.EqualFold(n, name) && (!m.cased || n[0] == name[0]) {
			return true
		}
	}
	return false
}

// unknown says why name is no unit here and what would be.
func (q quantity) unknown(name string) error {
	for _, m := range q.takes {
		m.cased = false
		if m.sounded(name) {
			return fmt.Errorf("in %s small m is milli and capital M is mega; write %s", quoted(name), m.name())
		}
	}
	if q.usual().name() == "" {
		return fmt.Errorf("%s cannot follow: a %s has no unit; write the number alone", quoted(name), q.noun)
	}
	return fmt.Errorf("%s is no unit of %s; write %s", quoted(name), q.noun, q.choice())
}

// choice lists the units: "ft, in, m, cm, mm or km".
func (q quantity) choice() string {
	var names []string
	for _, m := range q.takes {
		names = append(names, m.name())
	}
	return List(names, "or")
}

// suggestion completes "write a number".
func (q quantity) suggestion() string {
	if q.usual().name() == "" {
		return ""
	}
	return " and " + q.choice()
}

// example returns a sum of two terms as a pattern.
func (q quantity) example() string {
	if q.usual().worth == hour.worth && q.usual().name() == hour.name() {
		return "1 h 30 min"
	}
	return "2 ft 2 in"
}
