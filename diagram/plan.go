package diagram

// Plan is one set of protectors on the same building.
type Plan struct {
	ID      ID
	Name    string
	Purpose string // what it is for, in a few words
	Date    string // of its state, such as 2026-11-29; empty not stated
	Author  string // who made it
	Note    string
	Order   int    // plans are listed by it, then by id
	Locked  bool   // its protectors stay as they are
	Of      ID     // the plan that was carried out, where this one records what was built of it; that may be gone
	Extra   string // as Part.Extra
}

// Info is what the sheet as a whole says of itself.
type Info struct {
	Title  string
	Site   string
	Author string
	Note   string
	Issue  Issue
	Codes  Codes
	Costs  Costs

	Recheck int    // months from one look at a protector to the next; 0 takes UsualRecheck
	Extra   string // as Part.Extra
}
