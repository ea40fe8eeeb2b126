package survey

import (
	"path"
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// A field that a record has more is in its table and on the page, in the section of
// its group or in one of its own, and so is a whole group.
func TestAFieldMoreIsInTheTableAndOnThePage(t *testing.T) {
	doc := filled(t)
	fields := diagram.Within(partOf, diagram.PartFields())
	for _, more := range []struct{ like, key, label string }{
		{"board.rating", "board.neutralRating", "neutral bus"}, {"board.shortLead", "board.maker", "maker"}, {"board.mounting", "board.door", "door"}, {"board.service", "board.lit", "lit"},
	} {
		f := *diagram.FieldOf(fields, more.like)
		f.Key, f.Label = more.key, more.label
		fields = append(fields, f)
	}
	f := form{columns: columnsOf(fields, diagram.Panel, leftOutOfBoards, ofBoards(), names(keyID, both(idHeading), (*subject).id))}
	board, _ := doc.Part("panel-5")
	lines := newBuilding(doc, analysis.Trace(doc), nil, unit.NorthAmerican).lines(f, subject{part: board})
	headings := f.row(func(i int) string { return f.columns[i].heading.us })
	sheet := sheetsOf(t, doc, "panel-5")[0]
	sheet.Lines = lines
	page := wordsOf(Pages([]Sheet{sheet})[0])
	for _, label := range []string{"Neutral bus", "Maker", "Door", "Lit"} {
		if !slices.Contains(headings, label) || !slices.Contains(page, label) {
			t.Errorf("%s is not in the table or not on the page", label)
		}
	}
	if got := lineOf(lines, "board.neutralRating").Value; got != "225 A" {
		t.Errorf("the field says %q, want 225 A", got)
	}
}

// What is left out is a field, and a column that is special is of one.
func TestOnlyFieldsAreLeftOut(t *testing.T) {
	for name, row := range map[string]struct {
		fields  []field
		leftOut []string
		special map[string]column
	}{
		"boards":     {diagram.Within(partOf, diagram.PartFields()), leftOutOfBoards, ofBoards()},
		"feeds":      {diagram.Within(partOf, diagram.PartFields()), leftOutOfFeeds, ofFeeds()},
		"protectors": {diagram.Within(protectorOf, diagram.ProtectorFields()), leftOutOfProtectors, ofProtectors()},
	} {
		for _, pattern := range row.leftOut {
			if !slices.ContainsFunc(row.fields, func(f field) bool { found, _ := path.Match(pattern, f.Key); return found }) {
				t.Errorf("%s: no field is left out by %q", name, pattern)
			}
		}
		for key := range row.special {
			diagram.FieldOf(row.fields, key) // panics where there is none
		}
	}
}

// What a supply has no place for is refused: all but the rating and the impedance of
// the transformer that it comes from.
func TestWhatASupplyDoesNotHave(t *testing.T) {
	supply := about(part{ID: "supply-1", Kind: diagram.Supply, Source: diagram.SourceData{Power: 75e3}})
	for key, want := range map[string]bool{"transformer.xr": false, "transformer.impedance": true, "transformer.power": true} {
		c := column{}.ofField(diagram.FieldOf(diagram.Within(partOf, diagram.PartFields()), key))
		_, differs, err := propose([]column{c}, 0, supply, "5", habits{unit.NorthAmerican, ','})
		if differs != want || (err == nil) != want {
			t.Errorf("%s: differs %t, %v", key, differs, err)
		}
	}
}

// Each heading stands for one thing in a table.
func TestHeadingsDiffer(t *testing.T) {
	for _, f := range forms() {
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			headings := f.row(func(i int) string { return folded(f.columns[i].heading.in(c)) })
			slices.Sort(headings)
			if len(slices.Compact(slices.Clone(headings))) != len(headings) {
				t.Errorf("a heading stands twice among %q", headings)
			}
		}
	}
}
