package survey

import (
	"path"
	"slices"

	"clampline/diagram"
)

// form is one of the tables: what its rows are about, and its columns, the first of
// which has the id.
type form struct {
	title   words
	record  words // what people call the records: "panel"
	columns []column
}

// The tables, in their order.
const (
	boards = iota
	feeds  // the transformers that feed boards
	protectors
	formCount
)

// Keys of columns that others ask for; those of fields are those of the fields.
const (
	keyID       = "id"
	keyBoard    = "board id"
	keyOn       = "board"
	keyFedFrom  = "fed from"
	keyArrives  = "arrives"
	keyReckoned = "reckoned"
	keyFeedName = "feed"
	keyFeeds    = "feeds"

	keyName    = "name"
	keyNote    = "note"
	keyType    = "type"
	keyRated   = "rating"
	keyVoltage = "system.voltage"
	keyWiring  = "system.wiring"
	keyNeutral = "system.neutral"
	keyFault   = "board.faultCurrent"
)

// head is the section of what stands in a place of its own on the page.
const head = "head"

// forms returns the tables. A field of a record that no list here leaves out is in
// the table and on the page.
func forms() [formCount]form {
	panelID := words{idHeading, "Board id"}
	return [formCount]form{
		boards: {
			words{"Panels and switchboards", "Boards"}, words{"panel", "board"},
			append([]column{own(panelID)}, columnsOf(diagram.PartFields(), ofPart, diagram.Panel, ofBoards())...),
		},
		feeds: {
			both("Transformers that feed them, those of the utility among them"), both("transformer"),
			append([]column{own(both("Transformer id")), feedName, feedsWhat}, columnsOf(diagram.PartFields(), ofPart, diagram.Transformer, ofFeeds())...),
		},
		protectors: {
			words{"Protectors on the panels; a row without an id is for one that is not listed", "Protectors on the boards; a row without an id is for one that is not listed"}, both("protector"),
			append([]column{names(keyBoard, panelID, idOfBoard), nameOfBoard, own(both("Protector id"))}, columnsOf(diagram.ProtectorFields(), ofProtector, "", ofProtectors())...),
		},
	}
}

// oddities are what is special of the columns of a table, by the keys of their fields.
type oddities struct {
	leftOut []string // patterns of keys that nobody is asked for on site
	special map[string]special
}

// special is what is special of one column.
type special struct {
	heading words // in place of the label of the field
	alter   func(*column)
	then    []column // follow it
}

// columnsOf returns a column for each field that a form shows and that is asked on
// site, the remarks last.
func columnsOf[R any](fields []diagram.Field[R], of func(*subject) *R, kind diagram.Kind, a oddities) []column {
	var out, last []column
	for i := range fields {
		f := &fields[i]
		if f.Label == "" || f.Fits != nil && !f.Fits(kind) || a.leavesOut(f.Key) {
			continue
		}
		c := asked(f, of)
		own := a.special[f.Key]
		if own.heading != (words{}) {
			c.heading = own.heading
		}
		if own.alter != nil {
			own.alter(&c)
		}
		if f.Key == keyNote {
			last = append([]column{c}, own.then...)
			continue
		}
		out = append(append(out, c), own.then...)
	}
	return append(out, last...)
}

func (a oddities) leavesOut(key string) bool {
	return slices.ContainsFunc(a.leftOut, func(pattern string) bool { found, _ := path.Match(pattern, key); return found })
}

// own is the column of the id of what a row is about.
func own(heading words) column {
	return names(keyID, heading, (*subject).id)
}

func names(key string, heading words, id func(*subject) diagram.ID) column {
	return column{role: naming, key: key, heading: heading, group: head, tell: func(_ *building, s *subject) string { return string(id(s)) }}
}

func tells(key string, heading words, group string, tell func(*building, *subject) string) column {
	return column{role: telling, key: key, heading: heading, group: group, hint: both("not known"), tell: func(b *building, s *subject) string { return oneLine(tell(b, s)) }}
}

// ticks is a choice on the page alone.
func ticks(key, group string, heading string, choices ...string) column {
	out := column{role: onPaper, key: key, heading: both(heading), group: group}
	for _, word := range choices {
		out.options = append(out.options, option{word, both(word), nil})
	}
	return out
}
