package analysis

import (
	"cmp"
	"slices"
	"strings"

	"clampline/diagram"
)

// Finding is something wrong or doubtful, with the way to mend it.
type Finding struct {
	Rule     string // that found it, such as "leads.long": it lasts over editions, versions and languages
	Detail   string // which of several findings of the rule about the same records it is: a mode, a section; mostly empty
	Facts    any    // what the rule found, of a type of its own; nil where there is no more than the records
	Severity Severity
	Subject  string       // one or two words by which findings are grouped: "supply", "voltage", "cover"
	Records  []diagram.ID // the parts, feeders and protectors concerned, the main one first
	What     string       // one sentence that names them
	Says     string       // What without the protector on its bus with which it begins: "has an In of 3 kA"; empty where it begins otherwise
	Why      string
	Remedy   string
	Source   string // standard with edition and clause, or "common practice, no source"; empty for a plain fact of the drawing
	Working  Working
	Critical bool // it concerns equipment whose loss matters more: it stands before others of its severity and subject
	Mend     Mend // the change that takes it away, where the remedy is mechanical
}

// Key is by what a finding is known again after edits, in other words and other
// editions: its rule, what it is about, and which of several it is.
type Key struct {
	Rule   string
	Record diagram.ID // the main one
	Detail string
}

// Key returns the key of the finding.
func (f Finding) Key() Key {
	out := Key{Rule: f.Rule, Detail: f.Detail}
	if len(f.Records) > 0 {
		out.Record = f.Records[0]
	}
	return out
}

// String writes a key in a line: "leads.long protector-3 L-N".
func (k Key) String() string {
	return strings.TrimRight(k.Rule+" "+string(k.Record)+" "+k.Detail, " ")
}

// The subjects of findings, by what they are about.
const (
	SubjectSupply      = "supply"
	SubjectLoop        = "loop" // ways that meet
	SubjectFeeder      = "feeder"
	SubjectTransformer = "transformer"
	SubjectProtector   = "protector"          // what it takes in a solved surge
	SubjectSystem      = "system"             // what a part carries is not known or contradicts itself
	SubjectVoltage     = "voltage"            // rated for another voltage
	SubjectPhases      = "phases"             // lines or neutral that are missing
	SubjectEarthing    = "earthing"           // not made for the earthing
	SubjectContinuous  = "continuous voltage" // MCOV or Uc, temporary overvoltage
	SubjectPlace       = "type and place"
	SubjectFault       = "fault current" // SCCR against what can flow
	SubjectDischarge   = "discharge current"
	SubjectBreaker     = "breaker"
	SubjectLeads       = "leads"
	SubjectRequired    = "required" // a code asks for a protector
	SubjectRisk        = "risk"     // the need for protection by calculation
	SubjectNameplate   = "nameplate"
	SubjectCover       = "cover"      // repeats a verdict
	SubjectSurge       = "surge case" // that is not solved
)

// Subjects returns every subject that findings have, in the order in which they
// are listed: first what says that nothing can be judged, then what burns or
// bursts, then what protects nothing, then what is asked for.
func Subjects() []string {
	return []string{
		SubjectSurge, SubjectSupply, SubjectLoop, SubjectSystem, SubjectFeeder, SubjectTransformer,
		SubjectVoltage, SubjectEarthing, SubjectContinuous, SubjectFault, SubjectPhases, SubjectPlace, SubjectDischarge, SubjectProtector,
		SubjectBreaker, SubjectRequired, SubjectRisk, SubjectCover, SubjectLeads, SubjectNameplate,
	}
}

// SortFindings orders findings by severity, the worst first, then by subject,
// what concerns critical equipment first, and by the records concerned, so that
// equal documents list alike.
func SortFindings(findings []Finding) {
	rank := map[string]int{} // what is no subject stands first: it is new
	for i, subject := range Subjects() {
		rank[subject] = i + 1
	}
	slices.SortStableFunc(findings, func(a, b Finding) int {
		return cmp.Or(
			-cmp.Compare(a.Severity, b.Severity),
			cmp.Compare(rank[a.Subject], rank[b.Subject]),
			strings.Compare(a.Subject, b.Subject),
			before(a.Critical, b.Critical),
			slices.CompareFunc(a.Records, b.Records, diagram.CompareID),
			strings.Compare(a.What, b.What),
		)
	})
}

// before orders what is true before what is not.
func before(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}
