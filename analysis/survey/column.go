package survey

import (
	"errors"
	"fmt"
	"strconv"
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

// textColumn is a text on one line.
func textColumn[R comparable](key string, heading words, field func(*R) *string) column[R] {
	return column[R]{
		key: key, heading: heading, silent: "empty",
		read:  func(r R, _ unit.Convention) string { return oneLine(*field(&r)) },
		write: func(r *R, s string, _ habits) error { *field(r) = oneLine(s); return nil },
		clear: func(r *R) { *field(r) = "" },
	}
}

// remarksColumn is a text of any number of lines.
func remarksColumn[R comparable](key string, heading words, field func(*R) *string) column[R] {
	out := textColumn(key, heading, field)
	out.read = func(r R, _ unit.Convention) string { return printable(*field(&r)) }
	out.write = func(r *R, s string, _ habits) error { *field(r) = printable(s); return nil }
	return out
}

// quantityColumn is a number with a unit; zero is not known.
func quantityColumn[R comparable](key string, heading words, d unit.Dimension, field func(*R) *float64) column[R] {
	return column[R]{
		key: key, heading: heading, silent: "not known",
		read: func(r R, c unit.Convention) string {
			if *field(&r) == 0 {
				return ""
			}
			return shown(*field(&r), d, c)
		},
		write: func(r *R, s string, h habits) error {
			v, err := h.quantity(s, d)
			if err == nil && !closeTo(v, *field(r)) {
				*field(r) = v
			}
			return err
		},
		clear: func(r *R) { *field(r) = 0 },
		value: func(r R) float64 { return *field(&r) },
		such:  func(c unit.Convention) string { return unit.Such(d, c) },
		bound: func(v float64, c unit.Convention) string { return unit.Format(v, d, c) },
	}
}

// usual has the review tell what is unusual of the figure, and what to write with
// an example of it.
func (c column[R]) usual(f diagram.Figure) column[R] {
	value, write := c.value, c.write
	c.such = func(convention unit.Convention) string { return f.Usual().Example(convention) }
	c.write = func(r *R, s string, h habits) error {
		err := write(r, s, h)
		if must, ok := err.(unit.Must); ok {
			must.Such = f.Usual().Example(h.convention)
			return must
		}
		return err
	}
	c.mark = func(r R, convention unit.Convention) string {
		if mark := f.Usual().Mark(value(r), convention); mark != "" && value(r) != 0 {
			return "Unusual: " + mark + "."
		}
		return ""
	}
	return c
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

// countColumn is a whole number; zero is not known.
func countColumn[R comparable](key string, heading words, field func(*R) *int) column[R] {
	return column[R]{
		key: key, heading: heading, silent: "not known",
		read: func(r R, _ unit.Convention) string {
			if *field(&r) == 0 {
				return ""
			}
			return strconv.Itoa(*field(&r))
		},
		write: func(r *R, s string, h habits) error {
			v, err := h.quantity(s, unit.Count)
			if err == nil {
				*field(r) = int(v)
			}
			return err
		},
		clear: func(r *R) { *field(r) = 0 },
		bound: func(v float64, c unit.Convention) string { return unit.Format(v, unit.Count, c) },
	}
}

// choiceColumn is one of a list of words.
func choiceColumn[R comparable, T ~string](key string, heading words, options []option, field func(*R) *T) column[R] {
	return column[R]{
		key: key, heading: heading, silent: "not known",
		read: func(r R, c unit.Convention) string { return wordOf(options, string(*field(&r)), c) },
		write: func(r *R, s string, h habits) error {
			value, err := choose(options, s, h.convention)
			if err == nil {
				*field(r) = T(value)
			}
			return err
		},
		clear: func(r *R) { *field(r) = "" },
	}
}

// yesColumn is a yes or no. A no cannot be told from what nobody has said, so it
// is left blank.
func yesColumn[R comparable](key string, heading words, field func(*R) *bool) column[R] {
	return column[R]{
		key: key, heading: heading, silent: "no",
		read: func(r R, _ unit.Convention) string {
			if *field(&r) {
				return "yes"
			}
			return ""
		},
		write: func(r *R, s string, _ habits) error {
			yes, err := yesNo(s)
			if err == nil {
				*field(r) = yes
			}
			return err
		},
		clear: func(r *R) { *field(r) = false },
	}
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
	data := func(p *part) *diagram.BoardData { return &p.Board }
	mains := quantityColumn("main", both("Main breaker"), unit.Current, func(p *part) *float64 { return &data(p).MainBreaker }).usual(diagram.UsualMainBreaker).orWords("none", "lugs", "lugs only", "main lugs", "main lugs only", "MLO")
	mains.silent = "lugs only or not known"
	spare := countColumn("free", both("Free spaces"), func(p *part) *int { return &data(p).FreeSpaces }).orWords("none")
	spare.silent = "none or not known"
	free := textColumn("free positions", both("Free positions"), func(p *part) *string { return &data(p).FreePositions })
	free.write = refuseDates(free.write)
	return []column[part]{
		textColumn(keyName, words{"Panel", "Board"}, func(p *part) *string { return &p.Name }),
		voltageColumn(),
		choiceColumn(keyWiring, both("Wiring"), wirings(), func(p *part) *diagram.Wiring { return &p.System.Wiring }),
		neutralColumn(),
		choiceColumn("earthing", words{"Grounding of the source", "Earthing of the source"}, earthings(), func(p *part) *diagram.Earthing { return &p.System.Earthing }),
		quantityColumn("frequency", both("Frequency"), unit.Frequency, func(p *part) *float64 { return &p.System.Frequency }).usual(diagram.UsualFrequency),
		quantityColumn(keyFault, both("Fault current marked or told"), unit.LargeCurrent, func(p *part) *float64 { return &data(p).FaultCurrent }).usual(diagram.UsualFault).in("kA", 1000),
		quantityColumn("rating", both("Bus rating"), unit.Current, func(p *part) *float64 { return &data(p).Rating }).usual(diagram.UsualBusRating),
		mains,
		countColumn("spaces", both("Spaces"), func(p *part) *int { return &data(p).Spaces }),
		spare,
		free,
		choiceColumn("mounting", both("Mounting"), mountings(), func(p *part) *diagram.Mounting { return &data(p).Mounting }),
		yesColumn("service", both("Service disconnect"), func(p *part) *bool { return &data(p).Service }),
		yesColumn("bonded", words{"Neutral bonded to ground here", "Neutral bonded to earth here"}, func(p *part) *bool { return &data(p).Bonded }),
		yesColumn("structure", words{"First panel of another structure", "First board of another structure"}, func(p *part) *bool { return &data(p).Structure }),
		textColumn("short lead", both("Place for short leads"), func(p *part) *string { return &data(p).ShortLead }),
		remarksColumn("note", both("Remarks"), func(p *part) *string { return &p.Note }),
	}
}

// neutralColumn says whether there is a neutral, once the system is known: a
// voltage or a frequency alone says nothing of it.
func neutralColumn() column[part] {
	out := yesColumn(keyNeutral, both("Neutral"), func(p *part) *bool { return &p.System.Neutral })
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

// protectorColumns returns what is asked of a protector.
func protectorColumns() []column[protector] {
	leads := func(p *protector) *diagram.Leads { return &p.Leads }
	out := []column[protector]{
		textColumn(keyProtectorName, both("Protector"), func(p *protector) *string { return &p.Name }),
		choiceColumn(keyType, both("Type or class"), types(), func(p *protector) *diagram.Type { return &p.Type }),
		ratedColumn(),
	}
	for _, mode := range diagram.Modes() {
		out = append(out, levelColumn(mode), mcovColumn(mode))
	}
	return append(out,
		quantityColumn(keyIn, both("In"), unit.LargeCurrent, func(p *protector) *float64 { return &p.In }).usual(diagram.UsualIn).in("kA", 1000),
		quantityColumn("sccr", both("SCCR"), unit.LargeCurrent, func(p *protector) *float64 { return &p.SCCR }).usual(diagram.UsualSCCR).in("kA", 1000),
		quantityColumn("breaker", both("Breaker of the protector"), unit.Current, func(p *protector) *float64 { return &p.Breaker.Rated }).usual(diagram.UsualBreaker).orWords("none"),
		quantityColumn("phase lead", both("Phase lead"), unit.LeadLength, func(p *protector) *float64 { return &leads(p).Phase.Length }).usual(diagram.UsualLeadLength),
		quantityColumn("neutral lead", both("Neutral lead"), unit.LeadLength, func(p *protector) *float64 { return &leads(p).Neutral.Length }).usual(diagram.UsualLeadLength),
		quantityColumn("earth lead", words{"Ground lead", "Earth lead"}, unit.LeadLength, func(p *protector) *float64 { return &leads(p).Earth.Length }).usual(diagram.UsualLeadLength),
		remarksColumn("protector note", both("Protector remarks"), func(p *protector) *string { return &p.Note }),
	)
}

// ratedColumn says which measured voltage the nameplate states; the empty value
// stands for VPR.
func ratedColumn() column[protector] {
	out := choiceColumn(keyRated, both("Rated by"), ratings(), func(p *protector) *diagram.Rating { return &p.Rating })
	out.write = func(p *protector, s string, h habits) error {
		value, err := choose(ratings(), s, h.convention)
		if err == nil && (p.Rating != "" || value != string(diagram.VPR)) {
			p.Rating = diagram.Rating(value)
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
	out := quantityColumn(keyLevel(mode), modeWords(mode, "VPR or Up"), unit.Voltage, level).usual(diagram.UsualLevel)
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
	return quantityColumn(keyMCOV(mode), modeWords(mode, "MCOV or Uc"), unit.Voltage, func(p *protector) *float64 { return &p.Modes[mode].MCOV }).usual(diagram.UsualMCOV)
}
