package survey

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// adding returns the table of the server room with rows for more protectors on
// it, each as headings with their cells, and the first in the row that is free for it.
func adding(t testing.TB, doc *diagram.Document, rows ...map[string]string) *grid {
	t.Helper()
	g := written(t, doc, "panel-5")
	free := g.free("panel-5")
	for i, cells := range rows {
		if i > 0 {
			row := make([]string, len(g.rows[free]))
			copy(row, g.rows[free][:2]) // the panel
			g.rows = slices.Insert(g.rows, free+i, row)
		}
		for heading, text := range cells {
			g.write(free+i, heading, text)
		}
	}
	return g
}

// A protector that was found on site comes onto the drawing with what its row
// says, and with nothing else but the system of its panel.
func TestNewProtector(t *testing.T) {
	base := diagram.Protector{ID: "protector-3", Plan: diagram.FirstPlan, Bus: "panel-5", System: wye208}
	with := func(alter func(*diagram.Protector)) diagram.Protector {
		out := base
		alter(&out)
		return out
	}
	next := laboratory(t).NewProtectorName(diagram.FirstPlan)
	const system = "It is taken to be made for what the panel carries, 208Y/120 V."
	for _, row := range []struct {
		name       string
		cells      map[string]string
		want       diagram.Protector
		says, note string
	}{
		{"a name alone", map[string]string{"Protector": "SPD-4"}, with(func(p *diagram.Protector) { p.Name = "SPD-4" }),
			"new protector SPD-4 on Server room: nothing but the name is stated", system},
		{"the word new", map[string]string{"Protector id": "New", "Protector": "SPD-4"}, with(func(p *diagram.Protector) { p.Name = "SPD-4" }),
			"new protector SPD-4 on Server room: nothing but the name is stated", system},
		{"ratings and leads", map[string]string{"Protector": "SPD-4", "Type or class": "Type 2", "Rated by": "VPR", "L-N VPR or Up": "700", "L-N MCOV or Uc": "150 V", "In (kA)": "20", "Phase lead": "18"},
			with(func(p *diagram.Protector) {
				p.Name, p.Type, p.Rating, p.In, p.Leads.Phase.Length = "SPD-4", diagram.Type2, diagram.VPR, 20e3, 0.4572
				p.Modes[diagram.LineNeutral] = diagram.ModeRating{Connected: true, Level: 700, MCOV: 150}
			}), "new protector SPD-4 on Server room: type 2, rated by VPR, L-N VPR or Up 700 V, L-N MCOV or Uc 150 V, In 20 kA, phase lead 18 in", system},
		{"a rating alone", map[string]string{"SCCR (kA)": "100 kA", "Protector": "-"}, with(func(p *diagram.Protector) { p.Name, p.SCCR = next, 100e3 }),
			"new protector " + next + " on Server room: SCCR 100 kA", system},
		{"a mode of which the level cannot be read", map[string]string{"L-G MCOV or Uc": "150"}, with(func(p *diagram.Protector) {
			p.Name, p.Modes[diagram.LineEarth] = next, diagram.ModeRating{Connected: true, MCOV: 150}
		}), "new protector " + next + " on Server room: L-G MCOV or Uc 150 V", system},
		{"a class", map[string]string{"Type or class": "class II", "L-N VPR or Up": "1.5 kV"}, with(func(p *diagram.Protector) {
			p.Name, p.Type, p.Rating = next, diagram.ClassII, diagram.Up
			p.Modes[diagram.LineNeutral] = diagram.ModeRating{Connected: true, Level: 1500}
		}), "new protector " + next + " on Server room: class II, L-N VPR or Up 1500 V", system + " Its voltages are taken as Up."},
	} {
		t.Run(row.name, func(t *testing.T) {
			doc := laboratory(t)
			review := adding(t, doc, row.cells).read()
			same(t, lines(review), row.says)
			if got := review.Changes[0].Note; got != row.note {
				t.Errorf("the note says %q, want %q", got, row.note)
			}
			change := taken(t, doc, review)
			if len(change.Protectors) != 1 || len(change.Parts) > 0 {
				t.Fatalf("got %+v", change)
			}
			if diff := cmp.Diff(*change.Protectors[0].To, row.want); diff != "" {
				t.Errorf("(-got +want):\n%s", diff)
			}
		})
	}
}

// A row that adds a protector is counted, a free one is not, and a name of another panel
// beside the id is told.
func TestNewRowsAreLookedAt(t *testing.T) {
	g := adding(t, laboratory(t), map[string]string{"Protector": "SPD-4", "Panel": "Chiller panel"}, nil)
	review := g.read()
	same(t, lines(review), "new protector SPD-4 on Server room: nothing but the name is stated",
		"row 26, Panel: “Chiller panel” is not read; the drawing says “Server room”; correct the drawing where it is wrong")
	if review.Rows != 6 {
		t.Errorf("%d rows, want those of the panel, its transformer, two feeders and two protectors", review.Rows)
	}
}

// The row that is free may be left so, or say that there is none.
func TestFreeRow(t *testing.T) {
	for _, none := range []string{"none", "No", "n/a", "-", " "} {
		g := written(t, laboratory(t))
		same(t, lines(g.write(g.free("panel-1"), "Protector", none).read()))
	}
}

// Nothing that was written in the row of a protector that cannot be added is
// lost silently.
func TestProblemsOfNewProtectors(t *testing.T) {
	stray := " stands in a row that is about no protector; write it in the row of the protector; for a new one write its name, type or a rating beside it"
	for _, row := range []struct {
		name string
		rows []map[string]string
		want []string
	}{
		{"nothing of it", []map[string]string{{"Protector id": "new"}},
			[]string{"row 26, Protector id: the row is of a new protector and says nothing of it; write its name or what its nameplate says, or take the row out"}},
		{"leads alone", []map[string]string{{"Phase lead": "12 in", "Breaker": "thirty"}},
			[]string{"row 26, Breaker must be a number with A, kA or mA, such as 30 A; “thirty” is not", "row 26, Phase lead: “12 in”" + stray}},
		{"one cell of several", []map[string]string{{"Protector": "SPD-4", "In (kA)": "many", "L-N VPR or Up": "1e9 V"}},
			[]string{"new protector SPD-4 on Server room: nothing but the name is stated",
				"row 26, L-N VPR or Up must be 1 mV to 1 MV, or left empty; “1e9 V” is not",
				"row 26, In (kA) must be a number with kA, A or mA, such as 20 kA; “many” is not"}},
		{"the name of one that has a row", []map[string]string{{"Protector": "spd-2", "Phase lead": "9 in"}},
			[]string{"row 26, Protector: Server room has “spd-2” already, in row 25; give this one another name, or take the row out"}},
		{"the same name twice", []map[string]string{{"Protector": "SPD-4"}, {"Protector": "SPD-4"}},
			[]string{"new protector SPD-4 on Server room: nothing but the name is stated",
				"row 27, Protector: Server room has “SPD-4” already, in row 26; give this one another name, or take the row out"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			same(t, lines(adding(t, laboratory(t), row.rows...).read()), row.want...)
		})
	}
}

// A table that is read again finds what it has added, by its name or by what is
// stated of it, and takes over what has been mended in the row since.
func TestNewProtectorIsAddedOnce(t *testing.T) {
	doc := laboratory(t)
	g := adding(t, doc, map[string]string{"Protector": "SPD-4", "In (kA)": "20"}, map[string]string{"Type or class": "type 2"}, map[string]string{"Type or class": "type 2"})
	review := g.read()
	if len(review.Changes) != 3 || len(review.Problems) > 0 {
		t.Fatalf("got %q", lines(review))
	}
	second, third := review.Changes[1].Name, review.Changes[2].Name
	if second == third {
		t.Errorf("two are called %s", second)
	}
	same(t, lines(review), "new protector SPD-4 on Server room: In 20 kA", "new protector "+second+": type 2", "new protector "+third+": type 2")
	if _, err := doc.Edit(review.Apply); err != nil {
		t.Fatal(err)
	}
	same(t, lines(g.read()))
	first := g.row("protector-2") + 1
	for i, text := range []string{"12 in", "14 in", "16 in"} {
		g.write(first+i, "Phase lead", text)
	}
	g.write(first, "In (kA)", "10")
	same(t, lines(g.read()), "SPD-4 on Server room, In: 20 kA → 10 kA", "SPD-4 on Server room, phase lead: not known → 12 in",
		second+", phase lead: not known → 14 in", third+", phase lead: not known → 16 in")
}

// New protectors go into the plan that is given, and the review says so where
// the table is of another one.
func TestNewProtectorGoesIntoThePlan(t *testing.T) {
	doc := laboratory(t)
	if _, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "Proposal"})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	g := adding(t, doc, map[string]string{"Protector": "SPD-2B"})
	review, err := ReadCSV(strings.NewReader(g.text(',', true)), doc, "plan-2", analysis.Trace(doc), unit.NorthAmerican)
	if err != nil {
		t.Fatal(err)
	}
	if change := taken(t, doc, review); len(change.Protectors) != 1 || change.Protectors[0].To.Plan != "plan-2" {
		t.Errorf("got %+v", change)
	}
	want := []string{"The table was made for another plan. Its new protectors go into the plan “Proposal”."}
	if diff := cmp.Diff(review.Notes, want); diff != "" {
		t.Errorf("(-got +want):\n%s", diff)
	}
}

// What is written of a protector can be written into a row for a new one: all of
// it comes back but what the survey does not ask.
func TestProtectorsComeBackAsNew(t *testing.T) {
	for i := range 3 {
		doc := demo(t, i)
		g, bare := written(t, doc), doc.Snapshot()
		before := slices.Collect(doc.ProtectorsOf(diagram.FirstPlan))
		if _, err := bare.Edit(func(tx *diagram.Tx) error {
			for _, p := range before {
				tx.Remove(p.ID)
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		blanked := 0
		for _, p := range before {
			if slices.ContainsFunc(g.rows, func(cells []string) bool { return slices.Contains(cells, string(p.ID)) }) {
				g.set(p.ID, "Protector id", []string{"", "new"}[blanked%2])
				blanked++
			}
		}
		g.doc = bare
		review := g.read()
		if len(review.Problems) > 0 || len(review.Changes) != blanked || blanked == 0 {
			t.Fatalf("%d protectors give %q", blanked, lines(review))
		}
		after := bare.Snapshot()
		if _, err := after.Edit(review.Apply); err != nil {
			t.Fatal(err)
		}
		for j, sheet := range sheetsOf(t, after) {
			for k, p := range sheetsOf(t, doc)[j].Protectors {
				for at, line := range p {
					if got := sheet.Protectors[k][at].Value; line.role == asks && got != line.Value {
						t.Errorf("%s, protector %d, %s: got %q, want %q", sheet.Name, k, line.Label, got, line.Value)
					}
				}
			}
		}
	}
}

// The table says how to add a protector, and what has no column.
func TestTableSaysHowToAdd(t *testing.T) {
	text := fmt.Sprint(written(t, laboratory(t)).rows)
	for _, want := range []string{"fill in the free row of its panel", "the protector id stays blank, or say new", "write where a fault current is from into the remarks"} {
		if !strings.Contains(text, want) {
			t.Errorf("the table lacks %q", want)
		}
	}
}
