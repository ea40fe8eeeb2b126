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
