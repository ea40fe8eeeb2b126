package survey

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
)

// wide returns a table that the program wrote when it was one of rows of several
// sorts, of the document that filled or clinic returns.
func wide(t *testing.T, doc *diagram.Document, name string) *grid {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	reader := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(text), "\ufeff")))
	reader.FieldsPerRecord = -1
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return &grid{t, doc, rows}
}

// A table of before that comes back as it was written changes nothing.
func TestWideTableChangesNothing(t *testing.T) {
	for name, doc := range map[string]*diagram.Document{"wide.csv": filled(t), "wide-iec.csv": clinic(t)} {
		review := wide(t, doc, name).read()
		if got := lines(review); len(got) > 0 || len(review.Notes) > 0 || review.Rows < 2 {
			t.Errorf("%s: %d rows, %q %q", name, review.Rows, got, review.Notes)
		}
	}
}

// What was filled in there is taken, of whichever of the three a row is.
func TestWideTableIsTaken(t *testing.T) {
	const rating = "Transformer rating (kVA)"
	for _, row := range []struct {
		name  string
		alter func(*grid)
		want  []string
	}{
		{"a board", func(g *grid) { g.write(4, "Bus rating", "400") }, []string{"Lab panel LP-1, bus rating: not known → 400 A"}},
		{"its name", func(g *grid) { g.write(4, "Panel", "Laboratory") }, []string{"Lab panel LP-1, name: Lab panel LP-1 → Laboratory"}},
		{"remarks of a board", func(g *grid) { g.write(4, "Remarks", "door jams") }, []string{"Lab panel LP-1, remarks: empty → door jams"}},
		{"its transformer", func(g *grid) { g.write(4, rating, "75") }, []string{"T1, transformer rating: 112.5 kVA → 75 kVA"}},
		{"a transformer without its id", func(g *grid) { g.write(4, "Transformer id", "").write(4, rating, "75") }, []string{"T1, transformer rating: 112.5 kVA → 75 kVA"}},
		{"a protector", func(g *grid) { g.write(6, "Breaker of the protector", "20").write(6, "Protector remarks", "-") },
			[]string{"2E1 on =cmd|' /C calc'!A0, breaker: 30 A → 20 A", "2E1 on =cmd|' /C calc'!A0, remarks: 'tis marked → empty"}},
		{"a board in the row of its protector", func(g *grid) { g.write(6, "Spaces", "30") },
			[]string{"row 6, Spaces: the rows disagree about =cmd|' /C calc'!A0: row 6 says 42 and row 7 says 30; leave one of them; none was taken"}},
		{"a new protector in the row of its board", func(g *grid) { g.write(4, "Protector", "SPD-9").write(4, "Spaces", "30") },
			[]string{"Lab panel LP-1, spaces: not known → 30", "new protector SPD-9 on Lab panel LP-1: nothing but the name is stated"}},
		{"a new protector in a row of its own", func(g *grid) {
			g.rows = slices.Insert(g.rows, 5, slices.Clone(g.rows[4]))
			g.write(4, "Panel", "Laboratory").write(5, "Protector id", "new").write(5, "Type or class", "type 3")
		}, []string{"Lab panel LP-1, name: Lab panel LP-1 → Laboratory", "new protector " + filled(t).NewProtectorName(diagram.FirstPlan) + " on Lab panel LP-1: type 3"}},
		{"a board that nothing feeds", func(g *grid) { g.write(9, rating, "75").write(9, "Transformer impedance", "5") },
			[]string{"row 10, Transformer rating (kVA): no transformer feeds Spare panel on the drawing; draw what feeds it, then enter it there"}},
		{"a gone board", func(g *grid) { g.write(4, "Panel id", "panel-99").write(4, rating, "75") },
			[]string{"row 5, Panel id: the drawing has no panel with the id “panel-99”; it was taken away or its id was altered; enter the row by hand"}},
		{"another board's protector", func(g *grid) { g.write(6, "Panel id", "panel-1") },
			[]string{"row 7, Protector id: 2E1 is on =cmd|' /C calc'!A0 and not on '=2+2; correct the ids, or move it on the drawing"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := wide(t, filled(t), "wide.csv")
			row.alter(g)
			same(t, lines(g.read()), row.want...)
		})
	}
}

// The tables may stand in another order, with titles of their own or none, with rows
// between them or none; each may be alone.
func TestTablesBelowEachOther(t *testing.T) {
	const (
		panels       = "Panel id,Bus rating\npanel-1,225\n"
		transformers = "Transformer id,Transformer impedance\ntransformer-1,5\n"
		protectors   = "Panel id,Protector id,Phase lead\npanel-5,protector-2,18 in\n"
	)
	says := map[string]string{
		panels: "Chiller panel, bus rating: not known → 225 A", transformers: "T1, transformer impedance: 4.5 % → 5 %", protectors: "SPD-2 on Server room, phase lead: 12 in → 18 in",
	}
	for _, tables := range [][]string{{panels, transformers, protectors}, {protectors, panels, transformers}, {transformers, protectors}, {panels}, {transformers}, {protectors}} {
		for _, between := range []string{"", "\n", "\n\n,,\n", "Title\n", "\n# a note\nJoe's part,,\n\n"} {
			var want []string
			for _, table := range tables {
				want = append(want, says[table])
			}
			review := reviewed(t, laboratory(t), between+strings.Join(tables, between))
			same(t, lines(review), want...)
			if review.Rows != len(tables) {
				t.Errorf("%d rows, want %d", review.Rows, len(tables))
			}
		}
	}
}

// What a row says twice is told where it stands in the file, blank rows and titles
// counted.
func TestRowsAreThoseOfTheFile(t *testing.T) {
	const text = "A title\n\nPanel id,Bus rating\n\npanel-1,many\n\nTitle\nTransformer id,Transformer impedance\n\ntransformer-1,many\n"
	var rows []int
	for _, p := range reviewed(t, laboratory(t), text).Problems {
		rows = append(rows, p.Row)
	}
	if !slices.Equal(rows, []int{5, 10}) {
		t.Errorf("rows %d, want 5 and 10", rows)
	}
}
