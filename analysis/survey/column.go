package survey

import (
	"errors"
	"fmt"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// column is one thing that a survey asks of a record: a column of the table and
// a field of the page.
type column[R comparable] struct {
	key     string
	heading words
	silent  string // what stands for a value that the record does not have
	read    func(R, unit.Convention) string
	write   func(*R, string, habits) error // what is typed
	clear   func(*R)

	// value is the number that the column asks, and mark what is unusual about it;
	// nil where the column has neither.
	value func(R) float64
	mark  func(R, unit.Convention) string

	// such is an example of the number that the column asks, and bound writes one of
	// the bounds that a document sets it; nil where it asks none.
	such  func(unit.Convention) string
	bound func(float64, unit.Convention) string

	// changed reports whether what was said has changed, where read shows more than
	// was said; nil where what it shows tells.
	changed func(before, after R) bool
}

// differs reports whether the column says something else of two records.
func (c column[R]) differs(before, after R, convention unit.Convention) bool {
	if c.changed != nil {
		return c.changed(before, after)
	}
	return c.read(before, convention) != c.read(after, convention)
}

// asked returns the column that asks for a field; a heading that is empty is the
// label of the field.
func asked[R comparable](fields []diagram.Field[R], field, key string, heading words) column[R] {
	f := diagram.FieldOf(fields, field)
	if heading == (words{}) {
		heading = words{unit.SentenceCase(f.Title(unit.NorthAmerican)), unit.SentenceCase(f.Title(unit.IEC))}
	}
	out := column[R]{key: key, heading: heading, silent: "not known"}
	switch f.Sort {
	case diagram.SortNumber:
		out.asksNumber(f)
	case diagram.SortCount:
		out.asksCount(f)
	case diagram.SortFlag:
		out.asksYes(f)
	case diagram.SortWord:
		out.asksWord(f, optionsOf(f))
	default:
		out.asksText(f)
	}
	return out
}

// asksText asks a text on one line, or for remarks of any number of lines.
func (c *column[R]) asksText(f *diagram.Field[R]) {
	form := oneLine
	if f.Key == "note" {
		form = printable
	}
	c.silent = "empty"
	c.read = func(r R, _ unit.Convention) string { return form(f.Text(&r)) }
	c.write = func(r *R, s string, _ habits) error { f.SetText(r, form(s)); return nil }
	c.clear = func(r *R) { f.SetText(r, "") }
}

// asksNumber asks a number with a unit; zero is not known. The review tells what is
// unusual of it, and what to write with an example.
func (c *column[R]) asksNumber(f *diagram.Field[R]) {
	usual := f.Figure.Usual()
	c.read = func(r R, convention unit.Convention) string {
		if *f.Number(&r) == 0 {
			return ""
		}
		return shown(*f.Number(&r), f.Measures, convention)
	}
	c.write = func(r *R, s string, h habits) error {
		v, err := h.quantity(s, f.Measures)
		if must, ok := err.(unit.Must); ok {
			must.Such = usual.Example(h.convention)
			return must
		}
		if err == nil && !closeTo(v, *f.Number(r)) {
			*f.Number(r) = v
		}
		return err
	}
	c.clear = func(r *R) { *f.Number(r) = 0 }
	c.value = func(r R) float64 { return *f.Number(&r) }
	c.such = usual.Example
	c.bound = func(v float64, convention unit.Convention) string { return unit.Format(v, f.Measures, convention) }
	c.mark = func(r R, convention unit.Convention) string {
		if mark := usual.Mark(*f.Number(&r), convention); mark != "" && *f.Number(&r) != 0 {
			return "Unusual: " + mark + "."
		}
		return ""
	}
}

// asksCount asks a whole number; zero is not known.
func (c *column[R]) asksCount(f *diagram.Field[R]) {
	c.read = func(r R, convention unit.Convention) string { return f.Said(&r, convention) }
	c.write = func(r *R, s string, h habits) error {
		v, err := h.quantity(s, unit.Count)
		if err == nil {
			*f.Count(r) = int(v)
		}
		return err
	}
	c.clear = func(r *R) { *f.Count(r) = 0 }
	c.bound = func(v float64, convention unit.Convention) string { return unit.Format(v, unit.Count, convention) }
}

// asksWord asks one of a list of words.
func (c *column[R]) asksWord(f *diagram.Field[R], options []option) {
	c.read = func(r R, convention unit.Convention) string { return wordOf(options, f.Text(&r), convention) }
	c.write = func(r *R, s string, h habits) error {
		value, err := choose(options, s, h.convention)
		if err == nil {
			f.SetText(r, value)
		}
		return err
	}
	c.clear = func(r *R) { f.SetText(r, "") }
}

// asksYes asks a yes or no. A no cannot be told from what nobody has said, so it
// is left blank.
func (c *column[R]) asksYes(f *diagram.Field[R]) {
	c.silent = "no"
	c.read = func(r R, convention unit.Convention) string { return f.Said(&r, convention) }
	c.write = func(r *R, s string, _ habits) error {
		yes, err := yesNo(s)
		if err == nil {
			*f.Flag(r) = yes
		}
		return err
	}
	c.clear = func(r *R) { *f.Flag(r) = false }
}

// shown writes a quantity as a cell or a page has it: with plain spaces, so that
// it can be typed again.
func shown(v float64, d unit.Dimension, c unit.Convention) string {
	return strings.ReplaceAll(unit.FormatEntry(v, d, c), "\u00a0", " ")
}

// in has a number without a unit taken in the one that the heading names, as
// people write it on site, up to most of them.
func (c column[R]) in(name string, most float64) column[R] {
	write, such := c.write, c.such
	c.heading.us += " (" + name + ")"
	c.heading.iec += " (" + name + ")"
	c.write = func(r *R, s string, h habits) error {
		switch v, err := h.quantity(s, unit.Ratio); {
		case errors.As(err, new(unit.Must)):
			return write(r, s, h) // which takes its unit, or says what the column asks
		case err != nil:
			return err
		case v > most:
			return unread{"must have its unit, such as " + such(h.convention), fmt.Sprintf("%s has none, and would be %s %s", quoted(s), strings.TrimSpace(s), name)}
		}
		return write(r, s+" "+name, h)
	}
	return c
}

// orWords lets certain words stand for a value that the record has as zero.
func (c column[R]) orWords(list ...string) column[R] {
	write := c.write
	c.write = func(r *R, s string, h habits) error {
		for _, word := range list {
			if folded(word) == folded(s) {
				c.clear(r)
				return nil
			}
		}
		return write(r, s, h)
	}
	return c
}

// Keys of columns that others ask for.
const (
	keyName          = "name"
	keyProtectorName = "protector"
	keyVoltage       = "voltage"
	keyWiring        = "wiring"
	keyNeutral       = "neutral"
	keyFault         = "fault current"
	keyType          = "type"
	keyRated         = "rated"
	keyIn            = "in"
)

func keyLevel(mode diagram.Mode) string { return "level " + mode.String() }
func keyMCOV(mode diagram.Mode) string  { return "mcov " + mode.String() }

type (
	part      = diagram.Part
	protector = diagram.Protector
)

// boardColumns returns what is asked of a board, in the order of the page.
func boardColumns() []column[part] {
	fields := diagram.PartFields()
	ask := func(field, key string, heading ...words) column[part] {
		return asked(fields, field, key, append(heading, words{})[0])
	}
	mains := ask("board.mainBreaker", "main").orWords("none", "lugs", "lugs only", "main lugs", "main lugs only", "MLO")
	mains.silent = "lugs only or not known"
	spare := ask("board.freeSpaces", "free").orWords("none")
	spare.silent = "none or not known"
	free := ask("board.freePositions", "free positions")
	free.write = refuseDates(free.write)
	return []column[part]{
		ask("name", keyName, words{"Panel", "Board"}),
		voltageColumn(),
		ask("system.wiring", keyWiring),
		neutralColumn(),
		ask("system.earthing", "earthing", words{"Grounding of the source", "Earthing of the source"}),
		ask("system.frequency", "frequency"),
		ask("board.faultCurrent", keyFault, both("Fault current marked or told")).in("kA", 1000),
		ask("board.rating", "rating"),
		mains,
		ask("board.spaces", "spaces"),
		spare,
		free,
		ask("board.mounting", "mounting"),
		ask("board.service", "service"),
		ask("board.bonded", "bonded", words{"Neutral bonded to ground here", "Neutral bonded to earth here"}),
		ask("board.structure", "structure", words{"First panel of another structure", "First board of another structure"}),
		ask("board.shortLead", "short lead", both("Place for short leads")),
		ask("note", "note", both("Remarks")),
	}
}

// neutralColumn says whether there is a neutral, once the system is known: a
// voltage or a frequency alone says nothing of it.
func neutralColumn() column[part] {
	out := asked(diagram.PartFields(), "system.neutral", keyNeutral, both("Neutral"))
	read := out.read
	out.silent = "no or not known"
	out.read = func(p part, c unit.Convention) string {
		if text := read(p, c); text != "" || !p.System.Known() {
			return text
		}
		return "no"
	}
	out.changed = func(before, after part) bool { return before.System.Neutral != after.System.Neutral }
	return out
}

// refuseDates tells what a spreadsheet has made of positions such as 12-14.
func refuseDates[R any](write func(*R, string, habits) error) func(*R, string, habits) error {
	return func(r *R, s string, h habits) error {
		if isDate(s) {
			return unread{"must be written with words or commas between, such as 12 and 14, or with a ' before", quoted(s) + " is a date that the spreadsheet has made of the positions"}
		}
		return write(r, s, h)
	}
}

// askOfProtector returns the column that asks for a field of a protector.
func askOfProtector(field, key string, heading ...words) column[protector] {
	return asked(diagram.ProtectorFields(), field, key, append(heading, words{})[0])
}

// protectorColumns returns what is asked of a protector.
func protectorColumns() []column[protector] {
	out := []column[protector]{
		askOfProtector("name", keyProtectorName, both("Protector")),
		askOfProtector("type", keyType),
		ratedColumn(),
	}
	for _, mode := range diagram.Modes() {
		out = append(out, levelColumn(mode), mcovColumn(mode))
	}
	return append(out,
		askOfProtector("in", keyIn).in("kA", 1000),
		askOfProtector("sccr", "sccr").in("kA", 1000),
		askOfProtector("breaker.rated", "breaker", both("Breaker of the protector")).orWords("none"),
		askOfProtector("leads.phase.length", "phase lead"),
		askOfProtector("leads.neutral.length", "neutral lead"),
		askOfProtector("leads.earth.length", "earth lead"),
		askOfProtector("note", "protector note", both("Protector remarks")),
	)
}

// ratedColumn says which measured voltage the nameplate states; the empty value
// stands for VPR.
func ratedColumn() column[protector] {
	f := diagram.FieldOf(diagram.ProtectorFields(), "rating")
	options := []option{{string(diagram.VPR), both(string(diagram.VPR)), nil}, {string(diagram.Up), both(string(diagram.Up)), nil}}
	out := column[protector]{key: keyRated, heading: both("Rated by"), silent: "not known"}
	out.asksWord(f, options)
	write := out.write
	out.write = func(p *protector, s string, h habits) error {
		after := *p
		err := write(&after, s, h)
		if p.Rating != "" || after.Rating != diagram.VPR {
			*p = after
		}
		return err
	}
	return out
}

// modeWords is a heading about one mode.
func modeWords(mode diagram.Mode, about string) words {
	return words{unit.ModeWord(mode.String(), unit.NorthAmerican) + " " + about, unit.ModeWord(mode.String(), unit.IEC) + " " + about}
}

// levelColumn is the measured voltage in one mode; without one the mode is not
// connected.
func levelColumn(mode diagram.Mode) column[protector] {
	level := func(p *protector) *float64 { return &p.Modes[mode].Level }
	out := askOfProtector("modes."+mode.String()+".level", keyLevel(mode), modeWords(mode, "VPR or Up"))
	read, write := out.read, out.write
	out.read = func(p protector, c unit.Convention) string {
		if !p.Modes[mode].Connected {
			return ""
		}
		return read(p, c)
	}
	out.write = func(p *protector, s string, h habits) error {
		if err := write(p, s, h); err != nil {
			return err
		}
		p.Modes[mode].Connected = *level(p) > 0
		return nil
	}
	out.clear = func(p *protector) { *level(p), p.Modes[mode].Connected = 0, false }
	return out
}

func mcovColumn(mode diagram.Mode) column[protector] {
	return askOfProtector("modes."+mode.String()+".mcov", keyMCOV(mode), modeWords(mode, "MCOV or Uc"))
}
