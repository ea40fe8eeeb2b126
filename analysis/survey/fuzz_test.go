package survey

import (
	"bytes"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// FuzzReadCSV: whatever comes back, nothing panics, what is listed can be taken
// as a whole, and what was taken is not listed again.
func FuzzReadCSV(f *testing.F) {
	doc := laboratory(f)
	topology := analysis.Trace(doc)
	var whole bytes.Buffer
	if err := WriteCSV(&whole, sheetsOf(f, doc, "panel-5", "panel-4")); err != nil {
		f.Fatal(err)
	}
	f.Add(whole.Bytes(), true)
	wide, err := os.ReadFile("testdata/wide.csv")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(wide, false)
	for _, text := range []string{
		"Panel id,Bus rating\npanel-5,225 A\n", "Panel id;Free positions;Panel\npanel-5;'12-14;=x\n", "Board id\tWiring\tNameplate voltage\npanel-5\tdelta\t208Y/120",
		"sep=|\nPanel id|Remarks\npanel-1|\"a\nb\"", "Panel id,Protector id,Phase lead\npanel-5,protector-2,18\"", "Panel id,Transformer rating\npanel-5,-\npanel-4,75",
		"Panel id,Spaces\npanel-5,1e9\npanel-5,\x00", "\xff\xfeP\x00", "Panel id,Mounting\n'panel-5,–",
		"Panels\nPanel id,Spaces\npanel-5,7\n\nProtectors\nPanel id,Protector id,Protector\npanel-5,,SPD-4\nTransformer id,Transformer rating\ntransformer-1,75\nsupply-1,-\n",
		"Panel id,Protector id,Protector,In\npanel-5,,SPD-4,20\npanel-5,new,,10\npanel-5,,none,\npanel-5,new,-,\n", "Panel id,L-N MCOV or Uc,L-N VPR or Up,Rated by\npanel-5,150,-,-\npanel-5,150,,Up\npanel-5,175,0,",
	} {
		f.Add([]byte(text), false)
	}
	recorded, record := doc.Snapshot(), diagram.Plan{}
	if _, err := recorded.Edit(func(tx *diagram.Tx) error {
		record, _ = tx.Document().Plan(tx.BeginRecord(diagram.FirstPlan))
		return nil
	}); err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text []byte, iec bool) {
		c := unit.NorthAmerican
		if iec {
			c = unit.IEC
		}
		review, err := ReadCSV(bytes.NewReader(text), doc, diagram.FirstPlan, topology, c)
		if err != nil {
			return
		}
		for _, p := range review.Problems {
			if p.Row < 1 || p.What == "" || p.Remedy == "" || strings.Contains(p.String(), "\n") {
				t.Errorf("a problem says %q", p)
			}
		}
		after := doc.Snapshot()
		if _, err := after.Edit(review.Apply); err != nil {
			t.Fatalf("the review cannot be taken: %v", err)
		}
		again, err := ReadCSV(bytes.NewReader(text), after, diagram.FirstPlan, analysis.Trace(after), c)
		if err != nil {
			t.Fatal(err)
		}
		if len(again.Changes) > 0 {
			t.Errorf("%q changes again: %q", text, again.Changes)
		}
		intoRecord(t, text, recorded, record, c)
	})
}

// TestRandomCells: whatever is typed where, a review can be taken as a whole, and
// a table that is read again after that changes nothing more.
func TestRandomCells(t *testing.T) {
	typed := []string{
		"", "-", "–", "yes", "no", "x", "225", "225 A", "22 kA", "0", "1e3", "112,5", "1,200", "75 kVA", "5.75 %", "18 in", "450 mm", "480 V", "208Y/120", "120/240 V",
		"delta", "three-phase wye", "TN-S", "solid", "flush", "type 2", "class I", "Up", "none", "lugs only", "=1+1", "'-", "'12-14", "14-Dec", "left\ngutter", "Ω",
		"new", "SPD-2", "SPD 1", "SPD-4", "700 V", "-5", "1e300", "panel-4", "panel-6", "protector-2", "transformer-1", "supply-1", "#", "\"", "99999999",
	}
	doc := filled(t)
	topology := analysis.Trace(doc)
	rng := rand.New(rand.NewPCG(5, 8))
	changed, added := 0, 0
	for round := range 300 {
		g := written(t, doc)
		notes := slices.IndexFunc(g.rows, func(cells []string) bool { return strings.HasPrefix(cells[0], "# A blank cell") })
		for range rng.IntN(4) { // rows for new protectors, and doubled ones
			at := 4 + rng.IntN(notes-4)
			row := slices.Clone(g.rows[at])
			if id := slices.Index(g.headings(at), "Protector id"); id > 0 && len(row) > id && rng.IntN(2) == 0 {
				row[id] = []string{"", "new"}[rng.IntN(2)]
			}
			g.rows = slices.Insert(g.rows, at, row)
		}
		for range 1 + rng.IntN(60) {
			row := 3 + rng.IntN(notes-3)
			g.rows[row][rng.IntN(len(g.rows[row]))] = typed[rng.IntN(len(typed))]
		}
		text := g.text([]rune{',', ';', '\t'}[rng.IntN(3)], true)
		review, err := ReadCSV(strings.NewReader(text), doc, diagram.FirstPlan, topology, unit.NorthAmerican)
		if err != nil {
			t.Fatal(err)
		}
		changed += len(review.Changes)
		for _, c := range review.Changes {
			if c.Record == "" {
				added++
			}
		}
		after := doc.Snapshot()
		if _, err := after.Edit(review.Apply); err != nil {
			t.Fatalf("round %d: the review cannot be taken: %v", round, err)
		}
		again, err := ReadCSV(strings.NewReader(text), after, diagram.FirstPlan, analysis.Trace(after), unit.NorthAmerican)
		if err != nil || len(again.Changes) > 0 {
			t.Fatalf("round %d changes again: %v %v\nafter %v", round, again.Changes, err, review.Changes)
		}
	}
	if changed < 500 || added < 50 {
		t.Errorf("%d changes in all, %d of them new protectors: the test looks at little", changed, added)
	}
}

// intoRecord reads a table as what was built: it can be taken, and the plan that was
// carried out stays as it is.
func intoRecord(t *testing.T, text []byte, doc *diagram.Document, record diagram.Plan, c unit.Convention) {
	t.Helper()
	review, err := ReadRecord(bytes.NewReader(text), doc, record, analysis.Trace(doc), c)
	if err != nil {
		t.Fatal(err)
	}
	after := doc.Snapshot()
	if _, err := after.Edit(review.Apply); err != nil {
		t.Fatalf("what was built cannot be taken: %v", err)
	}
	if !slices.Equal(slices.Collect(after.ProtectorsOf(record.Of)), slices.Collect(doc.ProtectorsOf(record.Of))) {
		t.Errorf("%q alters the plan that was carried out", text)
	}
}
