package diagram

// Plan is one set of protectors on the same building.
type Plan struct {
	ID    ID
	Name  string
	Note  string
	Order int    // plans are listed by it, then by id
	Extra string // as Part.Extra
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
	Extra  string // as Part.Extra
}
