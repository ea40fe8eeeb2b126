package diagram

import "clampline/diagram/unit"

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

var costsFields = []Field[Costs]{
	textField("currency", func(c *Costs) *string { return &c.Currency }, "currency", "What stands beside a sum of money, such as a sign or three letters; nothing is converted"),
	measured(numberField("rate", prices, NoFigure, func(c *Costs) *float64 { return &c.Rate }, "hour of labour", "What an hour of labour costs", notKnown), unit.Money),
	measured(numberField("travel", prices, NoFigure, func(c *Costs) *float64 { return &c.Travel }, "travel", "Allowance for getting there, once for all the work of a plan", "none"), unit.Money),
	measured(numberField("shutdown", prices, NoFigure, func(c *Costs) *float64 { return &c.Shutdown }, "each shutdown", "Allowance for each shutdown, besides its labour", "none"), unit.Money),
	numberField("shutdownHours", hours, UsualHours, func(c *Costs) *float64 { return &c.ShutdownHours }, "labour of a shutdown", "Working time that each shutdown takes besides", "none"),
	countField("shutdowns", 0, maxCount, func(c *Costs) *int { return &c.Shutdowns }, "shutdowns", "How many shutdowns the work of a plan takes", "one for each board or load worked at"),
	measured(numberField("overhead", surcharges, NoFigure, func(c *Costs) *float64 { return &c.Overhead }, "overhead", "On protectors, labour, travel and shutdowns", "none"), unit.Percent),
	measured(numberField("tax", surcharges, NoFigure, func(c *Costs) *float64 { return &c.Tax }, "tax", "On all of that with the overhead", "none"), unit.Percent),
}
