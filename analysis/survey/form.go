package survey

import (
	"path"
	"slices"

	"clampline/diagram"
)

// form is one of the tables: what its rows are about, and its columns.
type form struct {
	title   words
	record  string // what people call the records
	columns []column
}

// The tables, in their order.
const (
	boards   = iota
	feeds    // the transformers that feed boards
	feeders  // the wiring to boards and to the loads on them
	loads    // on boards
	supplies // that come to boards
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
	keyFeeder   = "feeder"
	keyLoadOn   = "load on"
	keySupply   = "supply"

	keyName    = "name"
	keyNote    = "note"
	keyType    = "type"
	keyRated   = "rating"
	keyVoltage = "system.voltage"
	keyWiring  = "system.wiring"
	keyNeutral = "system.neutral"
)

// head is the section of what stands in a place of its own on the page.
const head = "head"

// forms returns the tables. A field of a record that is not left out is in its table
// and on the page.
func forms() [formCount]form {
	panelID, panel := words{idHeading, "Board id"}, words{"Panel", "Board"}
	parts := diagram.Within(partOf, diagram.PartFields())
	return [formCount]form{
		boards: {
			words{"Panels and switchboards", "Boards"}, "panel",
			columnsOf(parts, diagram.Panel, leftOutOfBoards, ofBoards(), names(keyID, panelID, (*subject).id)),
		},
		feeds: {
			both("Transformers that feed them, those of the utility among them"), "transformer",
			columnsOf(parts, diagram.Transformer, leftOutOfFeeds, ofFeeds(), names(keyID, both("Transformer id"), (*subject).id),
				tells(keyFeedName, both("Transformer"), "transformer", (*building).feedName), tells(keyFeeds, both("Feeds"), head, (*building).feeds)),
		},
		feeders: {
			both("Feeders of them and of the loads on them"), "feeder",
			columnsOf(diagram.Within(feederOf, diagram.FeederFields()), "", leftOutOfFeeders, ofFeeders(), names(keyID, both("Feeder id"), (*subject).id),
				tells(keyFeeder, both("Feeder"), head, (*building).run)),
		},
		loads: {
			both("Loads on them"), "load",
			columnsOf(parts, diagram.Load, leftOutOfLoads, ofLoads(), names(keyID, both("Load id"), (*subject).id),
				tells(keyLoadOn, both("Load is on"), head, (*building).loadOn)),
		},
		supplies: {
			both("Supplies: what comes over them"), "supply",
			columnsOf(parts, diagram.Supply, leftOutOfSupplies, ofSupplies(), names(keyID, both("Supply id"), (*subject).id),
				tells(keySupply, both("Supply"), head, (*building).ownName)),
		},
		protectors: {
			words{"Protectors on the panels; a row without an id is for one that is not listed", "Protectors on the boards; a row without an id is for one that is not listed"}, "protector",
			columnsOf(diagram.Within(protectorOf, diagram.ProtectorFields()), "", leftOutOfProtectors, ofProtectors(), names(keyBoard, panelID, (*subject).board),
				tells(keyOn, panel, head, (*building).onBoard), names(keyID, both("Protector id"), (*subject).id)),
		},
	}
}

// columnsOf returns, after the first ones, a column for each field that a form shows
// and that is asked on site, the remarks last.
func columnsOf(fields []field, kind diagram.Kind, leftOut []string, special map[string]column, first ...column) []column {
	out, last := first, []column(nil)
	for i := range fields {
		f := &fields[i]
		matches := func(pattern string) bool { found, _ := path.Match(pattern, f.Key); return found }
		if f.Label == "" || f.Fits != nil && !f.Fits(kind) || slices.ContainsFunc(leftOut, matches) {
			continue
		}
		c := special[f.Key].ofField(f)
		if f.Key == keyNote {
			last = append([]column{c}, c.then...)
			continue
		}
		out = append(append(out, c), c.then...)
	}
	return append(out, last...)
}

// names is a column of ids.
func names(key string, heading words, id func(*subject) diagram.ID) column {
	return column{role: naming, key: key, heading: heading, group: head, tell: func(_ *building, s *subject) string { return string(id(s)) }}
}

// tells is a column of what the drawing says.
func tells(key string, heading words, group string, tell func(*building, *subject) string) column {
	return column{role: telling, key: key, heading: heading, group: group, hint: both("not known"), tell: tell}
}

// ticks is a choice on the page alone.
func ticks(key, group string, heading string, choices ...string) column {
	out := column{role: onPaper, key: key, heading: both(heading), group: group}
	for _, word := range choices {
		out.options = append(out.options, option{word, both(word), nil})
	}
	return out
}
