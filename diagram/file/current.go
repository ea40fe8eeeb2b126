package file

import (
	"clampline/diagram"
	"clampline/diagram/geom"
)

// Current is the version of the format that Write makes and that the
// functions below describe.
const Current = 1

const schemaAddress = "https://clampline.example/schema/v1.json"

// fields is told the members of a record one by one, under the names of the
// file and with their units; it reads them from a file or writes them into
// one. So there is one description of the format for both ways.
type fields interface {
	// record holds what visit names; the names that it does not name are
	// kept in extra.
	record(id *diagram.ID, extra *string, visit func())
	// group holds what visit names in an object of its own.
	group(name string, visit func())
	text(name string, v *string)
	flag(name string, v *bool)
	count(name string, v *int)
	number(name, unit string, v *float64)
	// point is a place on the sheet: both its members are always written.
	point(name string, v *geom.Point)
	// mode is present where the mode is connected.
	mode(name string, v *diagram.ModeRating)
}

// Units as a message and the schema name them.
const (
	metres        = "metres"
	flashesPerKM2 = "flashes per square kilometre and year"
	squareMetres  = "square metres"
	millimetres   = "millimetres on the sheet"
	volts         = "volts"
	ohms          = "ohms"
	ohmsPerMetre  = "ohms per metre"
	feetPerOhm    = "feet per ohm"
	metresPerSec  = "metres per second"
	voltsRMS      = "volts rms"
	amperes       = "amperes"
	voltAmperes   = "volt-amperes"
	hertz         = "hertz"
	hours         = "hours"
	perCent       = "per cent"
	ratio         = "a ratio"
	ownCurrency   = "the currency of the sheet"
	crestMultiple = "multiples of the crest of the nominal voltage"
)

// word is a text from a list; diagram checks that it is in it.
func word[T ~string](f fields, name string, v *T) {
	text := string(*v)
	f.text(name, &text)
	*v = T(text)
}

func infoFields(f fields, v *diagram.Info) {
	f.group("info", func() {
		f.text("title", &v.Title)
		f.text("site", &v.Site)
		f.text("author", &v.Author)
		f.text("note", &v.Note)
		f.group("codes", func() { codesFields(f, &v.Codes) })
	})
}

func codesFields(f fields, v *diagram.Codes) {
	word(f, "practice", &v.Practice)
	word(f, "nec", &v.NEC)
	word(f, "uc", &v.Uc)
	word(f, "risk", &v.Risk)
	word(f, "fault", &v.Fault)
	f.number("tolerance", perCent, &v.Tolerance)
}

func planFields(f fields, v *diagram.Plan) {
	f.record(&v.ID, &v.Extra, func() {
		f.text("name", &v.Name)
		f.text("note", &v.Note)
		f.count("order", &v.Order)
	})
}

func partFields(f fields, v *diagram.Part) {
	f.record(&v.ID, &v.Extra, func() {
		word(f, "kind", &v.Kind)
		f.text("name", &v.Name)
		f.text("note", &v.Note)
		f.point("at", &v.At)
		f.count("turn", &v.Turn)
		f.number("span", millimetres, &v.Span)
		systemFields(f, "system", &v.System)
		f.group("source", func() { sourceFields(f, &v.Source) })
		f.group("transfer", func() { transferFields(f, &v.Transfer) })
		f.group("transformer", func() { transformerFields(f, &v.Transformer) })
		f.group("board", func() { boardFields(f, &v.Board) })
		f.group("load", func() { loadFields(f, &v.Load) })
		f.group("withstand", func() { withstandFields(f, &v.Withstand) })
		f.group("exposure", func() { exposureFields(f, &v.Exposure) })
		word(f, "use", &v.Use)
	})
}

func systemFields(f fields, name string, v *diagram.System) {
	f.group(name, func() {
		word(f, "wiring", &v.Wiring)
		f.number("voltage", voltsRMS, &v.Voltage)
		f.flag("neutral", &v.Neutral)
		word(f, "earthing", &v.Earthing)
		f.number("frequency", hertz, &v.Frequency)
	})
}

func sourceFields(f fields, v *diagram.SourceData) {
	f.number("faultCurrent", amperes, &v.FaultCurrent)
	f.number("earthFaultCurrent", amperes, &v.EarthFaultCurrent)
	f.number("xr", ratio, &v.XR)
	f.number("power", voltAmperes, &v.Power)
	f.number("reactance", perCent, &v.Reactance)
}

func transferFields(f fields, v *diagram.TransferData) {
	word(f, "position", &v.Position)
	f.flag("switchesNeutral", &v.SwitchesNeutral)
}

func transformerFields(f fields, v *diagram.TransformerData) {
	f.number("power", voltAmperes, &v.Power)
	systemFields(f, "primary", &v.Primary)
	f.number("impedance", perCent, &v.Impedance)
	f.number("xr", ratio, &v.XR)
	f.flag("screen", &v.Screen)
	f.flag("auto", &v.Auto)
}

func boardFields(f fields, v *diagram.BoardData) {
	f.number("rating", amperes, &v.Rating)
	f.number("mainBreaker", amperes, &v.MainBreaker)
	f.count("spaces", &v.Spaces)
	f.count("freeSpaces", &v.FreeSpaces)
	word(f, "mounting", &v.Mounting)
	f.flag("service", &v.Service)
	f.flag("bonded", &v.Bonded)
	f.flag("structure", &v.Structure)
	f.number("faultCurrent", amperes, &v.FaultCurrent)
	f.text("freePositions", &v.FreePositions)
	f.text("shortLead", &v.ShortLead)
}

func loadFields(f fields, v *diagram.LoadData) {
	word(f, "connection", &v.Connection)
	f.number("voltage", voltsRMS, &v.Voltage)
	f.number("power", voltAmperes, &v.Power)
	f.flag("critical", &v.Critical)
	f.flag("motor", &v.Motor)
	word(f, "terminals", &v.Terminals)
}

func withstandFields(f fields, v *diagram.Withstand) {
	word(f, "kind", &v.Kind)
	f.count("category", &v.Category)
	f.number("multiple", crestMultiple, &v.Multiple)
	f.number("volts", volts, &v.Volts)
}

func exposureFields(f fields, v *diagram.Exposure) {
	word(f, "occupancy", &v.Occupancy)
	f.flag("declined", &v.Declined)
	word(f, "surges", &v.Surges)
	word(f, "lightning", &v.Lightning)
	word(f, "surroundings", &v.Surroundings)
	f.number("flashDensity", flashesPerKM2, &v.FlashDensity)
	f.number("lowOverhead", metres, &v.LowOverhead)
	f.number("lowCable", metres, &v.LowCable)
	f.number("highOverhead", metres, &v.HighOverhead)
	f.number("highCable", metres, &v.HighCable)
	f.flag("linesEnd", &v.LinesEnd)
}

func feederFields(f fields, v *diagram.Feeder) {
	f.record(&v.ID, &v.Extra, func() {
		f.text("name", &v.Name)
		f.text("note", &v.Note)
		endFields(f, "from", &v.From)
		endFields(f, "to", &v.To)
		f.number("length", metres, &v.Length)
		f.number("area", squareMetres, &v.Area)
		word(f, "material", &v.Material)
		f.count("parallel", &v.Parallel)
		word(f, "raceway", &v.Raceway)
		f.group("switch", func() {
			word(f, "kind", &v.Switch.Kind)
			f.flag("open", &v.Switch.Open)
			f.number("rated", amperes, &v.Switch.Rated)
			f.count("poles", &v.Switch.Poles)
			f.flag("residual", &v.Switch.Residual)
		})
		f.number("resistance", ohmsPerMetre, &v.Resistance)
		f.number("reactance", ohmsPerMetre, &v.Reactance)
		f.number("constant", feetPerOhm, &v.Constant)
		f.number("surgeImpedance", ohms, &v.SurgeImpedance)
		f.number("velocity", metresPerSec, &v.Velocity)
	})
}

func endFields(f fields, name string, v *diagram.End) {
	f.group(name, func() {
		word(f, "part", &v.Part)
		word(f, "port", &v.Port)
	})
}

func protectorFields(f fields, v *diagram.Protector) {
	f.record(&v.ID, &v.Extra, func() {
		word(f, "plan", &v.Plan)
		word(f, "bus", &v.Bus)
		f.text("name", &v.Name)
		f.text("note", &v.Note)
		f.number("offset", millimetres, &v.Offset)
		deviceFields(f, v)
	})
}

// kindFields are those of a protector in a library: without where it stands.
func kindFields(f fields, v *diagram.Protector) {
	f.record(&v.ID, &v.Extra, func() {
		f.text("name", &v.Name)
		f.text("note", &v.Note)
		deviceFields(f, v)
	})
}

// deviceFields are those of the thing itself, wherever it stands.
func deviceFields(f fields, v *diagram.Protector) {
	word(f, "type", &v.Type)
	word(f, "rating", &v.Rating)
	systemFields(f, "system", &v.System)
	f.group("modes", func() {
		for _, mode := range diagram.Modes() {
			f.mode(mode.String(), &v.Modes[mode])
		}
	})
	ratingFields(f, v)
	f.group("leads", func() { leadsFields(f, &v.Leads) })
	f.number("price", ownCurrency, &v.Price)
	f.number("hours", hours, &v.Hours)
}

func modeFields(f fields, v *diagram.ModeRating) {
	f.number("level", volts, &v.Level)
	f.number("mcov", voltsRMS, &v.MCOV)
	f.flag("switching", &v.Switching)
}

func ratingFields(f fields, v *diagram.Protector) {
	f.number("in", amperes, &v.In)
	f.number("imax", amperes, &v.Imax)
	f.number("iimp", amperes, &v.Iimp)
	f.number("sccr", amperes, &v.SCCR)
	f.group("breaker", func() {
		f.number("rated", amperes, &v.Breaker.Rated)
		f.count("poles", &v.Breaker.Poles)
		f.flag("shared", &v.Breaker.Shared)
		f.number("least", amperes, &v.Breaker.Least)
		f.number("most", amperes, &v.Breaker.Most)
	})
	f.flag("external", &v.External)
}

func leadsFields(f fields, v *diagram.Leads) {
	leadFields(f, "phase", &v.Phase)
	leadFields(f, "neutral", &v.Neutral)
	leadFields(f, "earth", &v.Earth)
	word(f, "run", &v.Run)
	f.count("bends", &v.Bends)
	f.count("coils", &v.Coils)
	f.flag("steel", &v.Steel)
	f.flag("steelBonded", &v.SteelBonded)
}

func leadFields(f fields, name string, v *diagram.Lead) {
	f.group(name, func() {
		f.number("length", metres, &v.Length)
		f.number("area", squareMetres, &v.Area)
	})
}

func surgeFields(f fields, v *diagram.Surge) {
	f.record(&v.ID, &v.Extra, func() {
		f.text("name", &v.Name)
		f.text("note", &v.Note)
		f.count("order", &v.Order)
		word(f, "part", &v.Part)
		word(f, "path", &v.Path)
		word(f, "wave", &v.Wave)
		f.number("voltage", volts, &v.Voltage)
		f.number("current", amperes, &v.Current)
	})
}
