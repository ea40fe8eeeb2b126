package diagram

// Costs is how the firm that does the work prices it. Sums of money are in the
// currency of the sheet; a figure of 0 is not known, or there is none of it.
type Costs struct {
	Currency string  // as it stands beside a sum: "USD"
	Rate     float64 // of an hour of labour
	Travel   float64 // for getting there, once for all the work

	Shutdown      float64 // for each shutdown, besides its labour
	ShutdownHours float64 // labour for each shutdown, h
	Shutdowns     int     // how many there are; 0 takes one for each bus at which work is done

	Overhead float64 // per cent on all of that
	Tax      float64 // per cent on that and the overhead
}
