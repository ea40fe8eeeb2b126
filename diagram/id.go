package diagram

import (
	"cmp"
	"strconv"
	"strings"
)

// ID names a record within one document: letters, digits, '-', '_' and '.',
// such as "panel-3".
type ID string

// maxIDLength bounds an id, so that a message can quote it whole.
const maxIDLength = 64

// Valid reports whether the id may be used in a document.
func (id ID) Valid() bool {
	if id == "" || len(id) > maxIDLength {
		return false
	}
	for _, r := range id {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		digit := r >= '0' && r <= '9'
		if !letter && !digit && r != '-' && r != '_' && r != '.' {
			return false
		}
	}
	return true
}

// split returns what stands before the digits at the end, and their value;
// an id without a usable number gives -1.
func (id ID) split() (string, int) {
	end := len(id)
	for end > 0 && id[end-1] >= '0' && id[end-1] <= '9' {
		end--
	}
	number, err := strconv.Atoi(string(id[end:]))
	if err != nil {
		return string(id), -1
	}
	return string(id[:end]), number
}

// CompareID orders ids by stem, then by number, so that panel-2 stands before
// panel-10; ids that differ only in leading zeros are ordered as text.
func CompareID(a, b ID) int {
	stemA, numberA := a.split()
	stemB, numberB := b.split()
	return cmp.Or(strings.Compare(stemA, stemB), cmp.Compare(numberA, numberB), strings.Compare(string(a), string(b)))
}
