package analysis

import "strings"

// Step is one line of a working: a figure, how it was made and where it comes
// from.
type Step struct {
	Label   string  // what the figure is, in words
	Formula string  // the formula in symbols; empty where the figure is read off
	Numbers string  // the formula with the numbers put in, each with its unit
	Result  float64 // in Unit; not a number is never stored
	Unit    string  // of Result: "V", "m", "%", "V/µs"; empty for a step of words only
	Text    string  // the outcome in words, for a step without a figure
	Source  string  // standard or publication with table or clause; "common practice, no source"; "from the sheet"
}

// Working is how a number came about, in order.
type Working []Step

// Add takes down a step. What computes a figure takes a *Working, nil where no
// working is wanted, and asks for it before it makes a text.
func (w *Working) Add(s Step) { *w = append(*w, s) }

// Severity is how much a finding matters.
type Severity uint8

// The severities, from least to most.
const (
	Remark Severity = iota // good to know
	Warning
	Error
)

// String returns the severity in one word, as in the option of the terminal
// program: note, warning or error.
func (s Severity) String() string {
	switch s {
	case Warning:
		return "warning"
	case Error:
		return "error"
	}
	return "note"
}

// SeverityOf returns the severity of the word, in upper or lower case; that of a
// remark, and false, for any other.
func SeverityOf(word string) (Severity, bool) {
	for s := Remark; s <= Error; s++ {
		if strings.EqualFold(word, s.String()) {
			return s, true
		}
	}
	return Remark, false
}
