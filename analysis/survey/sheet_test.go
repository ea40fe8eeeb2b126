package survey

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// conventionOf returns the units and words that suit a document.
func conventionOf(doc *diagram.Document) unit.Convention {
	if doc.UsesIEC() {
		return unit.IEC
	}
	return unit.NorthAmerican
}

func sheetsOf(t testing.TB, doc *diagram.Document, boards ...diagram.ID) []Sheet {
	t.Helper()
	topology := analysis.Trace(doc)
	faults := map[diagram.End]analysis.Fault{{Part: "switchboard-1"}: {Known: true, ThreePhase: 22137}}
	return Sheets(doc, diagram.FirstPlan, topology, faults, boards, conventionOf(doc))
}

// edited returns the document with one part altered.
func edited(t testing.TB, doc *diagram.Document, id diagram.ID, set func(*diagram.Part)) *diagram.Document {
	t.Helper()
	if _, err := doc.Edit(alter(id, func(s *subject) { set(&s.part) })); err != nil {
		t.Fatal(err)
	}
	return doc
}

// From the supply outward, each board once; the spare panel, which nothing feeds,
// last.
func TestSheetsOfAllBoards(t *testing.T) {
	sheets := sheetsOf(t, laboratory(t))
	var got []string
	for _, s := range sheets {
		got = append(got, s.Name)
	}
	want := []string{"Main switchboard", "Chiller panel", "Sea-water pumps", "Lab panel LP-1", "Server room", "Winch house", "Instruments", "Spare panel"}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("(-got +want):\n%s", diff)
	}
}

func TestSheetsOfSomeBoards(t *testing.T) {
	sheets := sheetsOf(t, laboratory(t), "panel-5", "load-1", "nothing", "panel-1", "panel-5")
	if len(sheets) != 2 || sheets[0].Board != "panel-5" || sheets[1].Board != "panel-1" {
		t.Errorf("got %v", sheets)
	}
}

// What the record says is told from what the drawing says.
func TestWhatASheetSays(t *testing.T) {
	doc := laboratory(t)
	sheets := sheetsOf(t, doc, "switchboard-1", "panel-5", "panel-15")
	type says struct{ Value, Drawing string }
	for _, row := range []struct {
		sheet int
		key   string
		want  says
	}{
		{0, keyVoltage, says{"", "480 V"}},
		{0, keyWiring, says{"", "three-phase wye"}},
		{0, keyNeutral, says{"", "yes"}},
		{0, "system.earthing", says{"", "solidly grounded"}},
		{0, "board.faultCurrent", says{"", ""}},
		{0, keyReckoned, says{"", "22.14 kA"}},
		{0, "board.rating", says{"1200 A", ""}},
		{0, "board.service", says{"yes", ""}},
		{0, "board.structure", says{"", ""}},
		{1, keyVoltage, says{"", "208 V"}},
		{1, "board.faultCurrent", says{"", ""}},
		{1, "board.mounting", says{"flush", ""}},
		{1, "board.freeSpaces", says{"4", ""}},
		{2, keyVoltage, says{"", ""}},
		{2, "board.spaces", says{"", ""}},
	} {
		line := sheets[row.sheet].Line(row.key)
		if got := (says{line.Value, line.Drawing}); got != row.want {
			t.Errorf("%s, %s: got %+v, want %+v", sheets[row.sheet].Name, row.key, got, row.want)
		}
	}
	if got, want := sheets[1].Line(keyFedFrom).Drawing, "Service – Main switchboard – T2"; got != want {
		t.Errorf("fed from %q, want %q", got, want)
	}
	if got := sheets[1].Feed; lineOf(got, keyID).Value != "transformer-2" || lineOf(got, "transformer.power").Value != "30 kVA" || lineOf(got, "transformer.impedance").Value != "4 %" {
		t.Errorf("the transformer is %+v", got)
	}
	if got := sheets[0].Feed; lineOf(got, keyFeedName).Drawing != "transformer of the utility at "+doc.NameOf("supply-1") || lineOf(got, "transformer.power").Value != "" {
		t.Errorf("the transformer of the main switchboard is %+v", got)
	}
	if got := sheets[2]; got.Line(keyFedFrom).Drawing != "nothing on the drawing" || lineOf(got.Feed, keyID).Value != "" {
		t.Errorf("the spare panel is fed from %q through %+v", got.Line(keyFedFrom).Drawing, got.Feed)
	}
	if got, want := sheetsOf(t, doc, "panel-12")[0].Line(keyArrives).Drawing, "480 V delta"; got != want {
		t.Errorf("the drawing has %q arrive, want %q", got, want)
	}
	if got := sheets[1].Protectors; len(got) != 1 || lineOf(got[0], "leads.phase.length").Value != "12 in" || lineOf(got[0], "modes.L-G.level").Value != "700 V" {
		t.Errorf("the protectors are %+v", got)
	}
}

// A nameplate on record hides what the drawing says of the system.
func TestNameplateComesFirst(t *testing.T) {
	doc := edited(t, laboratory(t), "panel-5", func(p *diagram.Part) {
		p.System = diagram.System{Wiring: diagram.Delta, Voltage: 240}
	})
	sheet := sheetsOf(t, doc, "panel-5")[0]
	for key, want := range map[string][3]string{
		keyVoltage: {"Nameplate voltage", "240 V", ""}, keyNeutral: {"Neutral", "no", ""}, "system.earthing": {"Grounding of the source", "", ""},
	} {
		if line := sheet.Line(key); [3]string{line.Label, line.Value, line.Drawing} != want {
			t.Errorf("%s: got %q, %q, %q, want %q", key, line.Label, line.Value, line.Drawing, want)
		}
	}
	if sheet.Line(keyArrives).Drawing != "208Y/120 V" {
		t.Errorf("the drawing says %q arrives", sheet.Line(keyArrives).Drawing)
	}
}

func TestWordsOfTheConvention(t *testing.T) {
	doc := clinic(t)
	sheet := sheetsOf(t, doc, "panel-3")[0]
	for key, want := range map[string]string{
		keyWiring: "three-phase star", "system.earthing": "TT", "name": "Outbuilding", "system.frequency": "50 Hz",
	} {
		if got := sheet.Line(key).Value; got != want {
			t.Errorf("%s: got %q, want %q", key, got, want)
		}
	}
	if got := sheet.Line("board.bonded").Label; got != "Neutral bonded to earth here" {
		t.Errorf("got %q", got)
	}
	if got := lineOf(sheet.Protectors[0], "leads.earth.length"); got.Label != "Earth lead" || got.Value != "400 mm" {
		t.Errorf("got %+v", got)
	}
}

// Every text that people are to read is on the table too.
func TestTableBearsCautions(t *testing.T) {
	var out bytes.Buffer
	if err := WriteCSV(&out, sheetsOf(t, laboratory(t))); err != nil {
		t.Fatal(err)
	}
	for _, want := range append(Cautions(unit.NorthAmerican), "Survey of Tern Quay Marine Laboratory", "A lone - clears it") {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the table lacks %q", want)
		}
	}
	for _, want := range []string{"lock out", "line side stays live", "feed back", "qualified person", "licensed engineer"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the cautions do not say %q", want)
		}
	}
}
