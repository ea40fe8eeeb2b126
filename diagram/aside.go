package diagram

// Aside is a finding that a person has set aside in one plan: it is known again by
// its rule, the record that it is about and which of several it is.
type Aside struct {
	ID       ID
	Plan     ID
	Rule     string // that finds it
	About    ID     // the part, feeder or protector that it is about; empty for none
	Detail   string // which of several findings of the rule about the record
	Severity string // how grave it was: one that is graver since counts again
	Reason   string // why it does not count here
	By       string // who says so
	Day      string // on which day, as people write it
	Extra    string // as Part.Extra
}
