package diagram

import (
	"slices"
	"time"
)

// Indicator is what the lamp or flag of a protector shows. The empty value is that
// nobody has looked.
type Indicator string

// The states of an indicator.
const (
	InOrder     Indicator = "in order"
	Fault       Indicator = "fault"
	Dark        Indicator = "dark"
	NoIndicator Indicator = "has none"
)

// Indicators returns every state, in the order of a list to pick from.
func Indicators() []Indicator { return []Indicator{InOrder, Fault, Dark, NoIndicator} }

// Installed is what is known of a protector that hangs in its place. Its leads are
// those of the protector.
type Installed struct {
	Date      string // the day on which it was installed, such as 2026-11-29; empty not known
	By        string // who installed it
	Measured  bool   // its leads were measured there
	Indicator Indicator
	Checked   string // the day of the last look after that; empty none
	Photos    string // names of files, with commas between
}

// UsualRecheck is how many months lie between two looks at a protector where the
// sheet does not say: common practice, no source.
const UsualRecheck = 12

// Seen returns the day of the last look at a protector, its installation among them;
// empty where none is known.
func (i Installed) Seen() string { return max(i.Date, i.Checked) }

// Recheck returns the day of the next look so many months after the last one, 0 for
// the usual number; empty where no look is known.
func (i Installed) Recheck(months int) string {
	seen, err := time.Parse(time.DateOnly, i.Seen())
	if err != nil {
		return ""
	}
	if months == 0 {
		months = UsualRecheck
	}
	next := seen.AddDate(0, months, 0)
	if next.Day() != seen.Day() { // the month is shorter
		next = next.AddDate(0, 0, -next.Day())
	}
	return next.Format(time.DateOnly)
}

// RecordOf returns the plan that records what was built of another one, where there
// is one.
func (d *Document) RecordOf(plan ID) (Plan, bool) {
	plans := d.Plans()
	at := slices.IndexFunc(plans, func(p Plan) bool { return p.Of == plan })
	if at < 0 || plan == "" {
		return Plan{}, false
	}
	return plans[at], true
}

// BeginRecord adds the plan that records what was built of another one, with copies
// of its protectors whose leads are not measured yet, and returns its id.
func (tx *Tx) BeginRecord(plan ID) ID {
	id := tx.CopyPlan(Plan{Name: "As built", Of: plan}, plan)
	for _, p := range slices.Collect(tx.doc.ProtectorsOf(id)) {
		p.Installed.Measured = false
		tx.SetProtector(p)
	}
	return id
}

// installedFields are of one protector in one place: each is Placed.
var installedFields = []Field[Installed]{
	placed(dateField("date", func(i *Installed) *string { return &i.Date }, "installed on", "The day on which it was installed", "not installed or not known")),
	placed(textField("by", func(i *Installed) *string { return &i.By }, "installed by", "Who installed it", notKnown)),
	placed(flagField("measured", func(i *Installed) *bool { return &i.Measured }, "leads measured as built", "The lengths of its leads were measured where it hangs; else they are planned or estimated")),
	placed(wordField("indicator", Indicators(), func(i *Installed) *Indicator { return &i.Indicator }, "indicator shows", "What its lamp or flag showed at the last look: a sign, not a proof", "not looked at")),
	placed(dateField("checked", func(i *Installed) *string { return &i.Checked }, "last checked on", "The day of the last look at it after its installation", "not since")),
	placed(textField("photos", func(i *Installed) *string { return &i.Photos }, "photos", "Names of the files, with commas between", "none")),
}
