package survey

import (
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// answered writes an answer into the row of a board, reads the table, and returns
// the board as it is then.
func answered(t *testing.T, board diagram.ID, heading, cell string) diagram.Part {
	t.Helper()
	doc := laboratory(t).Snapshot()
	review := written(t, doc).set(board, heading, cell).read()
	if len(review.Problems) > 0 {
		t.Errorf("%s %q: %v", heading, cell, review.Problems)
	}
	if _, err := doc.Edit(review.Apply); err != nil {
		t.Fatal(err)
	}
	part, _ := doc.Part(board)
	return part
}

func fieldOfPart(key string) *field {
	return diagram.FieldOf(diagram.Within(partOf, diagram.PartFields()), key)
}

// Every earthing, as either convention writes it and as people write it besides,
// comes back as that earthing: the codes are those of IEC 60364-1, and HRG is what
// the trade calls a system grounded through a high resistance.
func TestEveryEarthingComesBack(t *testing.T) {
	ways := map[diagram.Earthing][]string{
		diagram.Solid:     {"solidly grounded", "Solidly Earthed", "solid", "grounded"},
		diagram.Impedance: {"high-resistance grounded", "HRG", "earthed through an impedance", "High resistance grounded (5 A)"},
		diagram.Corner:    {"corner grounded", "corner-grounded", "one line earthed"},
		diagram.Unearthed: {"ungrounded", "unearthed"},
		diagram.TNS:       {"TN-S", "TNS", "tn s", "TN_S", "T.N.S.", "TN–S", "TN-S [as marked]", "\ufeffTN-S"},
		diagram.TNC:       {"TN-C", "TNC"},
		diagram.TNCS:      {"TN-C-S", "TNCS", "TN C-S"},
		diagram.TT:        {"TT", "tt"},
		diagram.IT:        {"IT", "it"},
	}
	for _, earthing := range diagram.Earthings() {
		if len(ways[earthing]) == 0 {
			t.Errorf("%s is not tried", earthing)
		}
		for _, convention := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			ways[earthing] = append(ways[earthing], wordOf(optionsOf(fieldOfPart("system.earthing")), string(earthing), convention))
		}
		for _, way := range ways[earthing] {
			if got := answered(t, "panel-5", "Grounding of the source", way).System.Earthing; got != earthing {
				t.Errorf("%q: got %q, want %q", way, got, earthing)
			}
		}
	}
}

// Likewise every wiring.
func TestEveryWiringComesBack(t *testing.T) {
	ways := map[diagram.Wiring][]string{
		diagram.Single:   {"single phase", "1-phase", "single"},
		diagram.Split:    {"split phase", "split-phase", "split"},
		diagram.TwoOfWye: {"two lines of a wye", "two lines of a star", "1-phase wye"},
		diagram.Wye:      {"three-phase wye", "3 phase wye", "Y", "star"},
		diagram.Delta:    {"three-phase delta", "3-phase delta", "DELTA"},
		diagram.HighLeg:  {"high-leg delta", "high leg"},
	}
	for _, wiring := range diagram.Wirings() {
		for _, convention := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			ways[wiring] = append(ways[wiring], wordOf(optionsOf(fieldOfPart("system.wiring")), string(wiring), convention))
		}
		for _, way := range ways[wiring] {
			if got := answered(t, "panel-5", "Wiring", way).System.Wiring; got != wiring {
				t.Errorf("%q: got %q, want %q", way, got, wiring)
			}
		}
	}
}

// What is none of the words is told with all of them, and changes nothing.
func TestUnknownEarthingIsTold(t *testing.T) {
	doc := laboratory(t)
	review := written(t, doc).set("panel-5", "Grounding of the source", "by a rod").read()
	if len(review.Problems) != 1 || len(review.Changes) != 0 {
		t.Fatalf("got %v", lines(review))
	}
	told := review.Problems[0].String()
	for _, part := range []string{"by a rod", "TN-C-S", "ungrounded", "corner grounded", "solidly grounded"} {
		if !strings.Contains(told, part) {
			t.Errorf("got %q, want %q in it", told, part)
		}
	}
}

// A rating that was read wrong is corrected either way: Up to VPR and VPR to Up.
// One that is VPR by being left open stays open where the survey says VPR.
func TestRatingIsCorrected(t *testing.T) {
	for _, row := range []struct {
		was     diagram.Rating
		cell    string
		want    diagram.Rating
		changes int
	}{
		{diagram.Up, "VPR", diagram.VPR, 1},
		{diagram.Up, "vpr", diagram.VPR, 1},
		{diagram.Up, "Up", diagram.Up, 0},
		{diagram.Up, "", diagram.Up, 0},
		{diagram.VPR, "Up", diagram.Up, 1},
		{diagram.VPR, "VPR", diagram.VPR, 0},
		{"", "VPR", "", 0},
		{"", "Up", diagram.Up, 1},
	} {
		doc := laboratory(t)
		if _, err := doc.Edit(func(tx *diagram.Tx) error {
			p, _ := tx.Document().Protector("protector-2")
			p.Rating = row.was
			tx.SetProtector(p)
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		review := written(t, doc).set("protector-2", "Rated by", row.cell).read()
		if len(review.Changes) != row.changes || len(review.Problems) > 0 {
			t.Errorf("%q, %q: got %q", row.was, row.cell, lines(review))
		}
		if _, err := doc.Edit(review.Apply); err != nil {
			t.Fatal(err)
		}
		if p, _ := doc.Protector("protector-2"); p.Rating != row.want {
			t.Errorf("%q, %q: got %q, want %q", row.was, row.cell, p.Rating, row.want)
		}
	}
}

// A current of 100 000 A is none that a survey refuses, however it is written.
func TestHundredKiloamperesAreTaken(t *testing.T) {
	for _, cell := range []string{"100000 A", "100 kA", "100", "100,000 A"} {
		if got := answered(t, "panel-5", "Fault current marked or told (kA)", cell).Board.FaultCurrent; got != 100e3 {
			t.Errorf("%q: got %g A, want 100 000 A", cell, got)
		}
	}
	doc := laboratory(t)
	review := written(t, doc).set("panel-5", "Fault current marked or told (kA)", "100000").read()
	if len(review.Problems) != 1 || !slices.ContainsFunc(lines(review), func(line string) bool { return strings.Contains(line, "unit") }) {
		t.Errorf("100 000 kA by its heading: got %q, want that it asks for the unit", lines(review))
	}
}

// What people write for a type is one by number where the convention has it so: UL 1449
// numbers types and IEC 61643-11 classes. More than one says none.
func TestTypesAsPeopleWriteThem(t *testing.T) {
	options := optionsOf(diagram.FieldOf(diagram.Within(protectorOf, diagram.ProtectorFields()), keyType))
	for text, want := range map[string][2]diagram.Type{
		"2": {diagram.Type2, diagram.ClassII}, "II": {diagram.Type2, diagram.ClassII}, "T2": {diagram.Type2, diagram.ClassII}, "t 2": {diagram.Type2, diagram.ClassII},
		"1": {diagram.Type1, diagram.ClassI}, "III": {diagram.Type3, diagram.ClassIII},
		"type 2": {diagram.Type2, diagram.Type2}, "Type II": {diagram.Type2, diagram.Type2}, "UL Type 2": {diagram.Type2, diagram.Type2},
		"class 2": {diagram.ClassII, diagram.ClassII}, "Class II (test)": {diagram.ClassII, diagram.ClassII}, "1+2": {}, "4": {}, "T1/T2": {},
	} {
		for i, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			got, err := choose(options, text, c)
			if diagram.Type(got) != want[i] || (err == nil) != (want[i] != "") {
				t.Errorf("%s, %s: got %q, %v", text, c, got, err)
			}
		}
	}
}

// Other ways to write a word are those of one word of its field alone, and none is a
// word of the field itself.
func TestOtherWaysDiffer(t *testing.T) {
	used := map[string]bool{}
	for _, form := range forms() {
		for _, col := range form.columns {
			for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
				met := map[string]string{}
				for _, o := range col.options {
					used[o.value] = true
					for _, way := range append(append([]string{o.value, o.words.in(c)}, o.also...), byNumber(o.value, c)...) {
						if before, ok := met[folded(way)]; ok && before != o.value {
							t.Errorf("%s: %q is %q and %q", col.key, way, before, o.value)
						}
						met[folded(way)] = o.value
					}
				}
			}
		}
	}
	for value := range also {
		if !used[value] {
			t.Errorf("no column has the word %q", value)
		}
	}
}

// Days as people and spreadsheets write them, and none that is guessed.
func TestDays(t *testing.T) {
	for text, want := range map[string]string{
		"2026-11-29": "2026-11-29", "29.11.2026": "2026-11-29", "3.11.2026": "2026-11-03", "11/29/2026": "2026-11-29", "29/11/2026": "2026-11-29", "5/5/2026": "2026-05-05",
		"29 Nov 2026": "2026-11-29", "November 29, 2026": "2026-11-29", "2026-11-29 00:00:00": "2026-11-29",
	} {
		if got, err := dayOf(text, unit.NorthAmerican); got != want || err != nil {
			t.Errorf("%s: got %q, %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"3/11/2026": "must be 2026-03-11 or 2026-11-03; “3/11/2026” may be either", "30.02.2026": "must be a day, such as 2026-11-29", "last week": "must be a day", "29": "must be a day", "29/11/26": "must be a day",
	} {
		if got, err := dayOf(text, unit.NorthAmerican); err == nil || !strings.HasPrefix(strings.TrimSpace(err.Error()), says) {
			t.Errorf("%s: got %q, %v", text, got, err)
		}
	}
}

// The row below the headings says in each table what may be written, and is read as
// nothing, wherever it has been put.
func TestGuideSaysWhatMayStandBelow(t *testing.T) {
	g := written(t, filled(t))
	said := map[string]bool{}
	for n, cells := range g.rows {
		if cells[0] != guideMark {
			continue
		}
		for i, heading := range g.headings(n) {
			said[heading+": "+cells[i]] = true
		}
	}
	for _, want := range []string{
		"Mounting: surface / flush", "Neutral: yes / no", "Type or class: type 1 / type 2 / type 3 / class I / class II / class III", "In (kA): kA", "Installed on: a day, such as 2026-11-29",
		"Indicator shows: in order / fault / dark / has none", "Overvoltage category: I to IV", "Length of the feeder: ft",
	} {
		if !said[want] {
			t.Errorf("no guide says %q", want)
		}
	}
	if got := lines(g.reversed().read()); len(got) > 0 {
		t.Errorf("got %q", got)
	}
}

// Tables as people send them back: some columns, of a spreadsheet with semicolons and
// decimal commas in Windows-1252, and of one with commas; titles and notes of their own.
func TestTablesAsPeopleFillThemIn(t *testing.T) {
	for name, row := range map[string]struct {
		doc   *diagram.Document
		table string
		want  []string
	}{
		"semicolons, Windows-1252": {clinic(t), "Begehung am 29.11.2026;;;\r\n;;;\r\nBoard id;Board;Mounting;Bus rating;Fault current marked or told (kA);Neutral bonded to earth here;Remarks\r\n" +
			"panel-3;Outbuilding;recessed;63;6,5;nein;T\xfcr klemmt\r\n\r\nFeeder id;Feeder;Length of the feeder;Conductor size;Conductor material;Raceway or cable\r\n" +
			"feeder-1;Supply \x96 Outbuilding;62,5;16;Cu;NYY\r\n\r\nBoard id;Protector id;Type or class;Earth lead;Installed on;Indicator shows\r\npanel-3;protector-2;T2;35 cm;3.11.2026;OK\r\n",
			[]string{"Outbuilding, mounting: not known → flush", "Outbuilding, bus rating: not known → 63 A", "Outbuilding, fault current marked or told: not known → 6.5 kA",
				"Outbuilding, remarks: Earthed by its own electrode. → Tür klemmt", "feeder Supply – Outbuilding, length of the feeder: 60 m → 62.5 m",
				"feeder Supply – Outbuilding, conductor size: not known → 16 mm²", "feeder Supply – Outbuilding, raceway or cable: not known → sheathed cable",
				"SPD-2 on Outbuilding, earth lead: 400 mm → 350 mm", "SPD-2 on Outbuilding, installed on: not installed or not known → 2026-11-03", "SPD-2 on Outbuilding, indicator shows: not looked at → in order"}},
		"commas": {laboratory(t), "Panel id,Panel,Mounting,Bus rating,\"Fault current marked or told (kA)\",Service disconnect\npanel-1,Chiller panel,Recessed,225,22,Y\npanel-2,Sea-water pumps,sunk,\"1,200 A\",22000,maybe\n\n" +
			"Panel id,Protector id,Type or class,Phase lead,Neutral lead,Ground lead,Leads run,In (kA)\npanel-5,protector-2,T1,6 1/2\",6½ in,1' 2\",tied,10\n",
			[]string{"Chiller panel, mounting: not known → flush", "Chiller panel, bus rating: not known → 225 A", "Chiller panel, fault current marked or told: not known → 22 kA", "Chiller panel, service disconnect: no → yes",
				"Sea-water pumps, bus rating: not known → 1200 A", "SPD-2 on Server room, type or class: type 2 → type 1", "SPD-2 on Server room, phase lead: 12 in → 6.5 in", "SPD-2 on Server room, neutral lead: 12 in → 6.5 in",
				"SPD-2 on Server room, ground lead: 12 in → 14 in", "SPD-2 on Server room, leads run: apart → bundled", "SPD-2 on Server room, In: 20 kA → 10 kA",
				"row 3, Mounting must be one of: surface; flush; “sunk” is not",
				"row 3, Fault current marked or told (kA) must have its unit: 22 kA where that is meant; “22000” has none, and would be 22000 kA",
				"row 3, Service disconnect must be yes or no; “maybe” is not"}},
	} {
		t.Run(name, func(t *testing.T) { same(t, lines(reviewed(t, row.doc, row.table)), row.want...) })
	}
}
