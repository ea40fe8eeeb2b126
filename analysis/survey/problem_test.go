package survey

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
)

// What cannot be read is told with its place and what to do, and the rest is
// read.
func TestProblems(t *testing.T) {
	for _, row := range []struct {
		name  string
		alter func(*grid)
		want  []string // "N" stands for the row of panel-5
	}{
		{"a gone panel", func(g *grid) { g.set("panel-5", "Panel id", "panel-99") },
			[]string{"row N, Panel id: the drawing has no panel with the id “panel-99”; it was taken away or its id was altered; enter the row by hand"}},
		{"no id", func(g *grid) { g.set("panel-5", "Panel id", " ") },
			[]string{"row N, Panel id: the row has no id of a panel; copy the id from the table that was written, or enter the row by hand"}},
		{"the id of a load", func(g *grid) { g.set("panel-5", "Panel id", "load-1") },
			[]string{"row N, Panel id: “load-1” is a load and no panel; correct the id"}},
		{"a word for a number", func(g *grid) { g.set("panel-5", "Bus rating", "about 200") },
			[]string{"row N, Bus rating must be a number with A, kA or mA, such as 225 A; “about 200” is not"}},
		{"a wrong unit", func(g *grid) { g.set("panel-5", "Bus rating", "200 V") },
			[]string{"row N, Bus rating must be a number with A, kA or mA, such as 225 A; “200 V” is not"}},
		{"a negative number", func(g *grid) { g.set("panel-5", "Bus rating", "-200 A") },
			[]string{"row N, Bus rating must be 0 or more, such as 225 A; “-200 A” is not"}},
		{"half a space", func(g *grid) { g.set("panel-5", "Spaces", "41.5") },
			[]string{"row N, Spaces must be a whole number, such as 3; “41.5” is not"}},
		{"too many spaces", func(g *grid) { g.set("panel-5", "Spaces", "123456") },
			[]string{"row N, Spaces must be 0 to 10 000; “123456” is not"}},
		{"neither yes nor no", func(g *grid) { g.set("panel-5", "Service disconnect", "maybe") },
			[]string{"row N, Service disconnect must be yes or no; “maybe” is not"}},
		{"an unknown word", func(g *grid) { g.set("panel-5", "Mounting", "sunken") },
			[]string{"row N, Mounting must be one of: surface; flush; “sunken” is not"}},
		{"kVA without a unit, too many", func(g *grid) { g.set("transformer-2", "Transformer rating (kVA)", "112500") },
			[]string{"row N, Transformer rating (kVA) must have its unit: 112.5 kVA where that is meant; “112500” has none, and would be 112500 kVA"}},
		{"positions that became a date", func(g *grid) { g.set("panel-5", "Free positions", "14-Dec") },
			[]string{"row N, Free positions must be written with words or commas between, such as 12 and 14, or with a ' before; “14-Dec” is a date that the spreadsheet has made of the positions"}},
		{"wiring against the nameplate", func(g *grid) { g.set("panel-5", "Nameplate voltage", "208Y/120").set("panel-5", "Wiring", "delta") },
			[]string{"Server room, nameplate voltage: not known → 208 V, wiring three-phase wye, neutral yes",
				"row N, Wiring: “delta” says something else than the nameplate voltage, 208Y/120; correct whichever of the two is wrong"}},
		{"neutral as the nameplate", func(g *grid) { g.set("panel-5", "Nameplate voltage", "208Y/120").set("panel-5", "Neutral", "yes") },
			[]string{"Server room, nameplate voltage: not known → 208 V, wiring three-phase wye, neutral yes", "Server room, neutral: no or not known → yes"}},
		{"a load for a transformer", func(g *grid) { g.set("transformer-2", "Transformer id", "load-1") },
			[]string{"row N, Transformer id: “load-1” is a load and no transformer; correct the id"}},
		{"no transformer", func(g *grid) { g.set("transformer-2", "Transformer id", "") },
			[]string{"row N, Transformer id: the row has no id of a transformer; copy the id from the table that was written, or enter the row by hand"}},
		{"what the drawing says", func(g *grid) { g.set("panel-5", "System by the drawing", "240 delta") },
			[]string{"row N, System by the drawing: “240 delta” is not read; the drawing says “208Y/120 V”; correct the drawing where it is wrong"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := written(t, laboratory(t))
			at := g.row("panel-5") + 1
			if strings.Contains(row.want[0], "Transformer") || strings.Contains(row.name, "kVA") {
				at = g.row("transformer-2") + 1
			}
			row.alter(g)
			got := lines(g.read())
			for i := range row.want {
				row.want[i] = strings.Replace(row.want[i], "row N", fmt.Sprintf("row %d", at), 1)
			}
			same(t, got, row.want...)
		})
	}
}

// A neutral that the nameplate has is not taken away beside it.
func TestNeutralAgainstTheNameplate(t *testing.T) {
	g := written(t, filled(t)).set("panel-5", "Nameplate voltage", "208Y/120").set("panel-5", "Neutral", "no")
	same(t, lines(g.read()), fmt.Sprintf("row %d, Neutral: “no” says something else than the nameplate voltage, 208Y/120; correct whichever of the two is wrong", g.row("panel-5")+1))
}

func TestProblemsOfProtectors(t *testing.T) {
	for _, row := range []struct {
		name  string
		alter func(*grid)
		want  string
	}{
		{"a gone protector", func(g *grid) { g.set("protector-2", "Protector id", "protector-77") },
			"row N, Protector id: the drawing has no protector with the id “protector-77”; it was taken away or its id was altered; enter the row by hand"},
		{"on another panel", func(g *grid) { g.set("protector-2", "Panel id", "panel-1") },
			"row N, Protector id: SPD-2 is on Server room and not on Chiller panel; correct the ids, or move it on the drawing"},
		{"another panel's name", func(g *grid) { g.set("protector-2", "Panel", "Chiller panel") },
			"row N, Panel: “Chiller panel” is not read; the drawing says “Server room”; correct the drawing where it is wrong"},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := written(t, laboratory(t))
			at := g.row("protector-2") + 1
			row.alter(g)
			same(t, lines(g.read()), strings.Replace(row.want, "row N", fmt.Sprintf("row %d", at), 1))
		})
	}
}

// Of rows that somebody has doubled, only cells that say different things are
// refused.
func TestDoubledRows(t *testing.T) {
	for _, row := range []struct {
		name    string
		id      diagram.ID
		first   map[string]string
		second  map[string]string
		changes []string
		refused string // of the first row; %d is the second
	}{
		{"the same twice", "panel-1", map[string]string{"Bus rating": "225 A"}, map[string]string{"Bus rating": "225"},
			[]string{"Chiller panel, bus rating: not known → 225 A"}, ""},
		{"each says something", "panel-1", map[string]string{"Bus rating": "225 A"}, map[string]string{"Spaces": "42"},
			[]string{"Chiller panel, bus rating: not known → 225 A", "Chiller panel, spaces: not known → 42"}, ""},
		{"one cell against another", "panel-1", map[string]string{"Bus rating": "225 A", "Spaces": "42"}, map[string]string{"Bus rating": "400 A"},
			[]string{"Chiller panel, spaces: not known → 42"},
			"Bus rating: the rows disagree about Chiller panel: row 6 says 225 A and row %d says 400 A; leave one of them; none was taken"},
		{"against what is drawn", "panel-5", map[string]string{"Spaces": "42"}, map[string]string{"Bus rating": "225 A"},
			[]string{"Server room, bus rating: not known → 225 A"},
			"Spaces: the rows disagree about Server room: row 6 says 42 and row %d says 30; leave one of them; none was taken"},
		{"the old name beside a new one", "panel-1", map[string]string{"Panel": "Chillers"}, map[string]string{"Bus rating": "225 A"},
			[]string{"Chiller panel, name: Chiller panel → Chillers", "Chiller panel, bus rating: not known → 225 A"}, ""},
		{"wiring against the nameplate of the other", "panel-1", map[string]string{"Nameplate voltage": "480Y/277"}, map[string]string{"Wiring": "delta"},
			[]string{"Chiller panel, nameplate voltage: not known → 480 V, wiring three-phase wye, neutral yes"}, "second"},
		{"of a protector", "protector-2", map[string]string{"Phase lead": "18 in", "Ground lead": "18 in"}, map[string]string{"Phase lead": "24 in", "Ground lead": "18 in"},
			[]string{"SPD-2 on Server room, ground lead: 12 in → 18 in"},
			"Phase lead: the rows disagree about SPD-2 on Server room: row 25 says 18 in and row %d says 24 in; leave one of them; none was taken"},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := written(t, laboratory(t), "panel-5")
			if row.id == "panel-1" {
				g = written(t, laboratory(t), "panel-1")
			}
			at := g.row(row.id)
			g.rows = slices.Insert(g.rows, at+1, slices.Clone(g.rows[at]))
			last := at + 2
			for heading, text := range row.first {
				g.write(at, heading, text)
			}
			for heading, text := range row.second {
				g.write(at+1, heading, text)
			}
			want := slices.Clone(row.changes)
			switch {
			case row.refused == "second":
				want = append(want, fmt.Sprintf("row %d, Wiring: “delta” says something else than the nameplate voltage, 480Y/277; correct whichever of the two is wrong", last))
			case row.refused != "":
				want = append(want, fmt.Sprintf("row %d, "+row.refused, at+1, last))
			}
			same(t, lines(g.read()), want...)
		})
	}
}

func TestOddColumns(t *testing.T) {
	g := written(t, laboratory(t), "panel-1")
	head, row := g.row("panel-1")-2, g.row("panel-1")
	g.rows[head] = append(g.rows[head], "Colour", "Bus rating", "")
	g.rows[row] = append(g.rows[row], "grey", "400 A", "?", "stray")
	width := len(g.rows[head])
	same(t, lines(g.read()),
		"row 4, Colour: the survey has no such column; 1 cell was not read; move what is in it to the column that it belongs to, or to the remarks",
		"row 4, Bus rating: the heading stands twice, and the second column was not read; join the two",
		fmt.Sprintf("row 4: column %d has no heading; 1 cell was not read; move what is in it to the column that it belongs to, or to the remarks", width),
		"row 6: the row has cells beyond the last heading, which were not read; move what is in it to the column that it belongs to, or to the remarks")
}

// Half a table is a table: what is not in it stays.
func TestFewColumns(t *testing.T) {
	doc := laboratory(t)
	review := reviewed(t, doc, "main breaker; PANEL-ID \r\n100 A;panel-1\r\n;panel-2\r\n\r\n")
	same(t, lines(review), "Chiller panel, main breaker: lugs only or not known → 100 A")
	if review.Rows != 2 {
		t.Errorf("%d rows, want 2", review.Rows)
	}
}

// What a locked plan refuses is told with the plan and what to do, and nothing is lost.
func TestLockedPlanIsTold(t *testing.T) {
	doc := laboratory(t)
	if _, err := doc.Edit(func(tx *diagram.Tx) error {
		plan, _ := tx.Document().Plan(diagram.FirstPlan)
		plan.Locked = true
		tx.SetPlan(plan)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	same(t, lines(written(t, doc).set("panel-1", "Bus rating", "225").set("protector-2", "Phase lead", "9").read()),
		"Chiller panel, bus rating: not known → 225 A",
		"row 50, Phase lead: plan As found: it is locked; unlock it (Plan, Unlock plan) or duplicate it")
}
