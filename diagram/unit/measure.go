package unit

import "strings"

// A measure is a unit of measurement as people write it.
type measure struct {
	// names are its spellings: first the one to write, then others that are
	// read, in the form that [normal] leaves.
	names []string
	// worth is how much one of it is in the unit the dimension is kept in.
	worth float64
	// cased says that its first letter, m or M, is milli or mega and must be
	// typed as it is.
	cased bool
}

func (m measure) name() string { return m.names[0] }

// of returns the text of a number of this measure.
func (m measure) of(number string) string {
	if m.name() == "" {
		return number
	}
	return number + " " + m.name()
}

// The measures that are more than a prefix and a symbol. Inch and foot are the
// international ones, exact.
var (
	plain = measure{names: []string{""}, worth: 1}

	metre      = measure{names: []string{"m", "metre", "metres", "meter", "meters"}, worth: 1}
	centimetre = measure{names: []string{"cm"}, worth: 1e-2}
	millimetre = measure{names: []string{"mm"}, worth: 1e-3}
	kilometre  = measure{names: []string{"km"}, worth: 1e3}
	foot       = measure{names: []string{"ft", "'", "foot", "feet"}, worth: 0.3048}
	inch       = measure{names: []string{"in", `"`, "''", "inch", "inches"}, worth: 0.0254}

	squareMillimetre = measure{names: []string{"mm²", "mm2", "mm^2", "sqmm", "sq.mm"}, worth: 1e-6}
	// A circular mil is the area of a circle one thousandth of an inch across.
	kcmil = measure{names: []string{"kcmil", "mcm"}, worth: 1e3 * circle(25.4e-6)}

	second = measure{names: []string{"s", "sec"}, worth: 1}
	// Hours are kept in hours, so these three belong to that dimension only.
	hour         = measure{names: []string{"h", "hr", "hrs", "hour", "hours"}, worth: 1}
	minuteOfHour = measure{names: []string{"min", "mins", "minute", "minutes"}, worth: 1.0 / 60}
	secondOfHour = measure{names: second.names, worth: 1.0 / 3600}

	metrePerMicrosecond = measure{names: []string{"m/µs", "m/us"}, worth: 1e6}
	footPerMicrosecond  = measure{names: []string{"ft/µs", "ft/us"}, worth: 1e6 * foot.worth}

	perSquareKilometre = measure{names: perAreaAndYear("km"), worth: 1}
	perSquareMile      = measure{names: perAreaAndYear("mi"), worth: 1e6 / (mile * mile)}

	ohmPerThousandFeet = measure{names: perLength("Ω", "1000 ft", "1000ft", "kft"), worth: 1 / (1e3 * foot.worth)}
	ohmPerKilometre    = measure{names: perLength("Ω", "km"), worth: 1e-3}
	ohmPerMetre        = measure{names: perLength("Ω", "m"), worth: 1}
	milliohmPerMetre   = measure{names: perLength("mΩ", "m"), worth: 1e-3, cased: true}

	percent = measure{names: []string{"%", "percent", "pct"}, worth: 1}
)

// mile is the international mile in metres, exact.
const mile = 1609.344

// perAreaAndYear spells flashes per square of a length and year. A symbol of the
// year that everybody reads at once is wanting, so it is a word.
func perAreaAndYear(length string) []string {
	names := []string{"per " + length + "² and year"}
	for _, area := range []string{length + "^2", length + "2"} {
		for _, year := range []string{"andyear", "peryear", "/year", "/yr", "/y", "/a", ""} {
			names = append(names, "per"+area+year, "/"+area+year)
		}
	}
	return names
}

// perLength spells ohms per length.
func perLength(symbol string, lengths ...string) []string {
	names := []string{symbol + "/" + lengths[0]}
	for _, ohm := range []string{symbol, strings.Replace(symbol, "Ω", "ohm", 1)} {
		for _, length := range lengths {
			names = append(names, ohm+"/"+length, ohm+"per"+length)
		}
	}
	return names
}

// The prefixed forms of a symbol and of its other spelling, if it has one.
func giga(symbol ...string) measure  { return prefixed("G", "G", 1e9, symbol) }
func mega(symbol ...string) measure  { return prefixed("M", "M", 1e6, symbol) }
func kilo(symbol ...string) measure  { return prefixed("k", "k", 1e3, symbol) }
func one(symbol ...string) measure   { return prefixed("", "", 1, symbol) }
func milli(symbol ...string) measure { return prefixed("m", "m", 1e-3, symbol) }
func micro(symbol ...string) measure { return prefixed("µ", "u", 1e-6, symbol) }
func nano(symbol ...string) measure  { return prefixed("n", "n", 1e-9, symbol) }
func pico(symbol ...string) measure  { return prefixed("p", "p", 1e-12, symbol) }

// prefixed joins the symbols with a prefix, once as written and once as read.
func prefixed(written, read string, worth float64, symbols []string) measure {
	names := []string{written + symbols[0]}
	for _, s := range symbols {
		names = append(names, read+s)
	}
	return measure{names: names, worth: worth, cased: read == "m" || read == "M"}
}
