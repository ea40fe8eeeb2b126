package survey

import (
	"fmt"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/unit"
)

// chain returns a row of boards, each fed by the one before, and seven side by side at the end of a
// transformer.
func chain(t testing.TB) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "s", Kind: diagram.Supply, Name: "Service", System: wye480})
		lead := func(from, to diagram.End, open bool) {
			tx.SetFeeder(diagram.Feeder{ID: tx.NewFeederID(), From: from, To: to, Length: 10, Switch: diagram.SwitchData{Kind: diagram.Breaker, Open: open}})
		}
		before := diagram.ID("s")
		for i := 1; i <= 7; i++ {
			id := diagram.ID(fmt.Sprintf("b-%d", i))
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel, Name: fmt.Sprintf("B%d", i)})
			lead(diagram.End{Part: before}, diagram.End{Part: id}, i == 7)
			before = id
		}
		tx.SetPart(diagram.Part{ID: "t", Kind: diagram.Transformer, Name: "T", System: wye208})
		lead(diagram.End{Part: "b-1"}, diagram.End{Part: "t", Port: diagram.Primary}, false)
		for i := 1; i <= 7; i++ {
			id := diagram.ID(fmt.Sprintf("c-%d", i))
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel, Name: fmt.Sprintf("C%d", i)})
			lead(diagram.End{Part: "t", Port: diagram.Secondary}, diagram.End{Part: id}, false)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// The way to a board is told with five names at most, and that it is open.
func TestLongWays(t *testing.T) {
	sheets := sheetsOf(t, chain(t), "b-1", "b-5", "b-6", "b-7", "c-1")
	for i, want := range []string{
		"Service", "Service – B1 – B2 – B3 – B4", "Service – … – B2 – B3 – B4 – B5", "Service – … – B3 – B4 – B5 – B6 (open now)", "Service – B1 – T",
	} {
		if got := sheets[i].Line(keyFedFrom).Drawing; got != want {
			t.Errorf("%s is fed from %q, want %q", sheets[i].Name, got, want)
		}
	}
}

// A note names six boards, and says how many more there are.
func TestTransformerOfManyPanels(t *testing.T) {
	for drop, want := range map[string]string{
		"c-7": "It feeds C1, C2, C3, C4, C5 and C6.", "": "It feeds C1, C2, C3, C4, C5 and 2 more.",
	} {
		doc := chain(t)
		if _, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove(diagram.ID(drop)); return nil }); err != nil {
			t.Fatal(err)
		}
		review := reviewed(t, doc, "Panel id,Transformer rating (kVA)\nc-1,75\n")
		if len(review.Changes) != 1 || review.Changes[0].Note != want {
			t.Errorf("got %+v, want the note %q", review.Changes, want)
		}
	}
}

// One transformer that does not stand before a board, and a row that is older than
// the drawing.
func TestNoTransformer(t *testing.T) {
	for text, want := range map[string]string{
		"panel-15,,75":            "row 2, Transformer rating (kVA): no transformer feeds Spare panel on the drawing; draw what feeds it, then enter it there",
		"panel-15,transformer-1,": "",
	} {
		var want = append([]string(nil), strings.Fields(want)...)
		got := lines(reviewed(t, laboratory(t), "Panel id,Transformer id,Transformer rating (kVA)\n"+text+"\n"))
		if strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// Rows that disagree are listed by what they say, the first row of each, six and how
// many more.
func TestManyRowsDisagree(t *testing.T) {
	for differing, rest := range map[int]string{2: "row 2 says 400 A and row 3 says 1 A", 6: "row 2 says 400 A, row 3 says 1 A, row 5 says 2 A, row 7 says 3 A, row 9 says 4 A and row 11 says 5 A",
		8: "row 2 says 400 A, row 3 says 1 A, row 5 says 2 A, row 7 says 3 A, row 9 says 4 A and 3 more"} {
		text := "Panel id,Bus rating\npanel-1,400\n"
		for i := 1; i < differing; i++ {
			text += strings.Repeat(fmt.Sprintf("panel-1,%d\n", i), 2)
		}
		same(t, lines(reviewed(t, laboratory(t), text)),
			"row 2, Bus rating: the rows disagree about Chiller panel: "+rest+"; leave one of them; none was taken")
	}
}

// What is repeated of a cell and of a heading has sixty characters at most.
func TestLongCells(t *testing.T) {
	for count, want := range map[int]string{60: strings.Repeat("x", 60), 61: strings.Repeat("x", 60) + "…"} {
		cell := strings.Repeat("x", count)
		review := reviewed(t, laboratory(t), "Panel id,"+cell+"\n"+cell+",\n")
		if len(review.Problems) != 2 {
			t.Fatalf("got %q", lines(review))
		}
		if got := review.Problems[0].Column; got != want {
			t.Errorf("a heading of %d: got %q", count, got)
		}
		if got := review.Problems[1].What; got != "the drawing has no panel with the id “"+want+"”" {
			t.Errorf("a cell of %d: got %q", count, got)
		}
	}
}

// A number without a unit is taken in that of its heading as far as that can be meant.
func TestMostOfAHeading(t *testing.T) {
	for _, row := range []struct {
		heading, cell string
		taken         bool
	}{
		{"Transformer rating (kVA)", "50000", true}, {"Transformer rating (kVA)", "50001", false}, {"Transformer rating (kVA)", "50001 kVA", true},
		{"SCCR (kA)", "1000", true}, {"SCCR (kA)", "1001", false}, {"In (kA)", "1000", true}, {"In (kA)", "1001", false},
		{"Fault current marked or told (kA)", "1000", true}, {"Fault current marked or told (kA)", "1001", false},
		{"In (kA)", "0", true}, {"In (kA)", "-1", false},
	} {
		id := map[string]diagram.ID{"SCCR (kA)": "protector-2", "In (kA)": "protector-2", "Transformer rating (kVA)": "transformer-2"}[row.heading]
		if id == "" {
			id = "panel-5"
		}
		review := written(t, laboratory(t)).set(id, row.heading, row.cell).read()
		asks := len(review.Problems) == 1 && (strings.HasPrefix(review.Problems[0].What, "must have its unit") || row.cell == "-1")
		if taken := len(review.Changes) == 1 && len(review.Problems) == 0; taken != row.taken || asks == row.taken {
			t.Errorf("%s %s: got %q", row.heading, row.cell, lines(review))
		}
	}
}

// A new protector of a board that is gone since is refused with what to do.
func TestNewProtectorOfAGoneBoard(t *testing.T) {
	doc := laboratory(t)
	review := reviewed(t, doc, "Panel id,Protector\npanel-15,SPD-9\n")
	if _, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove("panel-15"); return nil }); err != nil {
		t.Fatal(err)
	}
	if _, err := doc.Edit(review.Apply); err == nil || err.Error() != "panel-15 is no longer on the drawing; read the table again" {
		t.Errorf("got %v", err)
	}
}

// A number may be written with an exponent, as spreadsheets do; it is in the unit of its
// heading all the same.
func TestExponents(t *testing.T) {
	for heading, want := range map[string]string{"Transformer rating (kVA)": "T2, transformer rating: 30 kVA → 75 kVA", "Fault current marked or told (kA)": "Server room, fault current marked or told: not known → 75 kA"} {
		id := diagram.ID("panel-5")
		if strings.HasPrefix(heading, "Transformer") {
			id = "transformer-2"
		}
		for _, cell := range []string{"7.5e1", "7.5E+01"} {
			same(t, lines(written(t, laboratory(t)).set(id, heading, cell).read()), want)
		}
	}
}

// Headings are looked for in thirty rows, whatever stands above them, and in a table
// that names its separator.
func TestWhereTheHeadingsAre(t *testing.T) {
	const body = "Panel id,Bus rating\npanel-1,225\n"
	for _, row := range []struct {
		name, text string
		found      bool
	}{
		{"29 rows above", strings.Repeat("Title\n", 29) + body, true},
		{"30 rows above", strings.Repeat("Title\n", 30) + body, false},
		{"a bar declared", "sep=|\r\n" + strings.ReplaceAll(body, ",", "|"), true},
		{"a bar declared in quotation marks", "\"SEP=|\"\n" + strings.ReplaceAll(body, ",", "|"), true},
		{"a bar not declared", strings.ReplaceAll(body, ",", "|"), false},
		{"two letters declared", "sep=||\n" + body, true},
		{"none declared", "sep=\n" + body, true},
		{"a space declared", "sep= \n" + body, true},
		{"no id among the headings", strings.ReplaceAll(body, "Panel id", "Panel"), false},
	} {
		review, err := ReadCSV(strings.NewReader(row.text), laboratory(t), diagram.FirstPlan, analysis.Trace(laboratory(t)), unit.NorthAmerican)
		if found := err == nil && len(review.Changes) == 1; found != row.found {
			t.Errorf("%s: got %v, %q", row.name, err, lines(review))
		}
	}
}

// Within a sentence a word begins small, and an abbreviation as it is.
func TestLowerFirst(t *testing.T) {
	for text, want := range map[string]string{"Bus rating": "bus rating", "Is": "is", "L-N VPR or Up": "L-N VPR or Up", "SCCR": "SCCR", "In": "In", "In (kA)": "In (kA)", "Inner": "inner", "A": "A", "": "", "Xz": "xz", "Xa": "xa", "X{": "X{"} {
		if got := lowerFirst(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// The ends of the stretch in which Windows-1252 differs from Latin-1 (WHATWG Encoding
// Standard, index windows-1252, from memory).
func TestEndsOfWindows1252(t *testing.T) {
	if got, _ := decoded([]byte("\x7f\x80\x8e\x9e\x9f\xa0\xff")); got != "\x7f€ŽžŸ\u00a0ÿ" {
		t.Errorf("got %q", got)
	}
	if got, _ := decoded([]byte("\x81\x8d\x8f\x90\x9d")); got != strings.Repeat("\ufffd", 5) {
		t.Errorf("of those that it does not define: got %q", got)
	}
}

// A row without a name is about the protector that is most like it, of those that it
// does not speak against and that have no row of their own.
func TestMostAlikeIsMeant(t *testing.T) {
	more := func(tx *diagram.Tx) error {
		for i, p := range []diagram.Protector{
			{Type: diagram.Type2, In: 20e3}, {Type: diagram.Type2, In: 10e3, SCCR: 100e3}, {Type: diagram.Type2, In: 10e3}, {Type: diagram.Type1},
		} {
			p.ID, p.Plan, p.Bus, p.Name = diagram.ID(fmt.Sprintf("protector-%d", 11+i)), diagram.FirstPlan, "panel-1", fmt.Sprintf("P%d", 11+i)
			tx.SetProtector(p)
		}
		return nil
	}
	const head = "Panel id,Protector id,Type or class,In (kA),Phase lead\n"
	for _, row := range []struct{ name, rows, want string }{
		{"the nearest", "panel-1,,type 2,10,9 in\n", "P13 on Chiller panel, phase lead: not known → 9 in"},
		{"that says less", "panel-1,,type 2,,9 in\n", "P11 on Chiller panel, phase lead: not known → 9 in"},
		{"of another type", "panel-1,,type 1,,9 in\n", "P14 on Chiller panel, phase lead: not known → 9 in"},
		{"that has no row", "panel-1,,type 2,10,9 in\npanel-1,protector-13,,,\n", "P12 on Chiller panel, phase lead: not known → 9 in"},
		{"none of them", "panel-1,,type 3,,9 in\n", "new protector SPD 1 on Chiller panel: type 3, phase lead 9 in"},
		{"none on that panel", "panel-2,,type 2,10,9 in\n", "new protector SPD 1 on Sea-water pumps: type 2, In 10 kA, phase lead 9 in"},
	} {
		doc := laboratory(t)
		if _, err := doc.Edit(more); err != nil {
			t.Fatal(err)
		}
		got := lines(reviewed(t, doc, head+row.rows))
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], doc.NewProtectorName(diagram.FirstPlan), "SPD 1")
		}
		t.Run(row.name, func(t *testing.T) { same(t, got, row.want) })
	}
}

// What is rated is Up in the words of IEC where a row leaves it open, and VPR in those
// of North America, but for a class of IEC 61643-11.
func TestWhatIsRatedWhereLeftOpen(t *testing.T) {
	for _, row := range []struct {
		doc   *diagram.Document
		cells string // type, rated by
		want  diagram.Rating
	}{
		{clinic(t), ",", diagram.Up}, {clinic(t), "type 2,", ""}, {clinic(t), "class II,", diagram.Up}, {clinic(t), ",VPR", diagram.VPR}, {clinic(t), "class I,VPR", diagram.VPR},
		{laboratory(t), ",", ""}, {laboratory(t), "type 2,", ""}, {laboratory(t), "class III,", diagram.Up}, {laboratory(t), ",Up", diagram.Up},
	} {
		board := map[bool]string{true: "panel-3", false: "panel-1"}[row.doc.UsesIEC()]
		review := reviewed(t, row.doc, "Panel id,Protector,Type or class,Rated by\n"+board+",Found,"+row.cells+"\n")
		change := taken(t, row.doc, review)
		if len(change.Protectors) != 1 || change.Protectors[0].To.Rating != row.want {
			t.Errorf("%q: got %+v, want %q", row.cells, change.Protectors, row.want)
			continue
		}
		if told := strings.Contains(review.Changes[0].Note, "taken as Up"); told != (row.want == diagram.Up && strings.HasSuffix(row.cells, ",")) {
			t.Errorf("%q: the note is %q", row.cells, review.Changes[0].Note)
		}
	}
}

// Any one of these is enough to draw a protector by; leads and a breaker are not.
func TestWhatTellsAProtector(t *testing.T) {
	for heading, want := range map[string]int{
		"Protector": 1, "Type or class": 1, "In (kA)": 1, "SCCR (kA)": 1, "L-G VPR or Up": 1, "N-G MCOV or Uc": 1,
		"Phase lead": 0, "Breaker of the protector": 0, "Protector remarks": 0, "Rated by": 0,
	} {
		cell := map[string]string{"Type or class": "type 2", "Rated by": "VPR"}[heading]
		if cell == "" {
			cell = "0.5 V"
		}
		if strings.Contains(heading, "(kA)") || heading == "Breaker of the protector" {
			cell = "0.5 A"
		}
		review := reviewed(t, laboratory(t), "Panel id,"+heading+"\npanel-1,"+cell+"\n")
		if len(review.Changes) != want || len(review.Problems) != 1-want {
			t.Errorf("%s: got %q", heading, lines(review))
		}
	}
}

// A mode with a continuous voltage is there, however small, and a level that cannot be
// read is told, in the row of a new protector as in that of one that is drawn.
func TestModesOfARow(t *testing.T) {
	review := reviewed(t, laboratory(t), "Panel id,Protector id,L-G MCOV or Uc,N-G VPR or Up\npanel-1,,0.5 V,\npanel-1,,,many\npanel-5,protector-2,,some\n")
	const such = "N-G VPR or Up must be a number with V, kV or mV, such as 1200 V; "
	same(t, lines(review), "new protector "+laboratory(t).NewProtectorName(diagram.FirstPlan)+" on Chiller panel: L-G MCOV or Uc 0.5 V",
		"row 3, "+such+"“many” is not", "row 4, "+such+"“some” is not")
	if p := taken(t, laboratory(t), review).Protectors[0].To; !p.Modes[diagram.LineEarth].Connected || p.Modes[diagram.NeutralEarth].Connected {
		t.Errorf("got %+v", p.Modes)
	}
}

// A lone dash takes any value away.
func TestDashClearsEveryColumn(t *testing.T) {
	for f, form := range forms() {
		id := map[int]diagram.ID{boards: "panel-5", feeds: "transformer-2", feeders: "feeder-2", loads: "load-1", supplies: "supply-1", protectors: "protector-2"}[f]
		for _, c := range form.columns {
			if c.role != asks {
				continue
			}
			doc := filled(t)
			heading := c.heading.us
			g := written(t, doc)
			if g.cell(id, heading) == "" {
				t.Errorf("%s is empty already", heading)
			}
			review := g.set(id, heading, "-").read()
			if len(review.Problems) > 0 {
				t.Errorf("%s: %q", heading, lines(review))
				continue
			}
			if _, err := doc.Edit(review.Apply); err != nil {
				t.Fatal(err)
			}
			want := map[string]string{"Neutral": "no"}[heading] // which is known of a known system
			if got := written(t, doc).cell(id, heading); got != want {
				t.Errorf("%s: after a dash it says %q, want %q", heading, got, want)
			}
		}
	}
}

// The rows of a review are in the order of the table, and each in that of its columns.
func TestOrderOfAReview(t *testing.T) {
	review := reviewed(t, laboratory(t), "Spaces,Panel id,Bus rating,Mounting\n7,panel-2,100,surface\n5,panel-1,225,flush\nx,panel-6,y,z\nu,panel-4,3,v\n")
	var got []string
	for _, c := range review.Changes {
		got = append(got, fmt.Sprint(c.Row, " ", c.Field))
	}
	for _, p := range review.Problems {
		got = append(got, fmt.Sprint(p.Row, " ", p.Column))
	}
	same(t, got, "2 Spaces", "2 Bus rating", "2 Mounting", "3 Spaces", "3 Bus rating", "3 Mounting", "5 Bus rating",
		"4 Spaces", "4 Bus rating", "4 Mounting", "5 Spaces", "5 Mounting")
	if review.Rows != 4 {
		t.Errorf("%d rows, want 4", review.Rows)
	}
}

// Both voltages of a nameplate round: of a wye by 3 % of 1.732, of a split phase by 3 % of 2.
func TestRoundingOfNameplates(t *testing.T) {
	for text, want := range map[string]bool{
		"202/120": true, "214/120": true, "201/120": false, "215/120": false, "117/240": true, "116/240": false, "123/240": true, "124/240": false,
	} {
		if got, found := nameplate(text); found != want {
			t.Errorf("%s: got %v, %t", text, got, found)
		}
	}
}

// A name that its own row takes away is free for another protector; one that the row
// leaves as it is, is not.
func TestNameThatIsTakenAway(t *testing.T) {
	for name, want := range map[string][]string{
		"-":     {"SPD-2 on Server room, name: SPD-2 → empty", "new protector SPD-2 on Server room: nothing but the name is stated"},
		"SPD-7": {"SPD-2 on Server room, name: SPD-2 → SPD-7", "new protector SPD-2 on Server room: nothing but the name is stated"},
		"":      {"row 3, Protector: Server room has “SPD-2” already, in row 2; give this one another name, or take the row out"},
	} {
		same(t, lines(reviewed(t, laboratory(t), "Panel id,Protector id,Protector\npanel-5,protector-2,"+name+"\npanel-5,new,SPD-2\n")), want...)
	}
}

// Headings are found as people write them, with units of their own or none.
func TestHeadingsAsPeopleWriteThem(t *testing.T) {
	for heading, found := range map[string]bool{
		"Transformer impedance %": true, "TRANSFORMER_IMPEDANCE": true, "transformer-impedance (per cent)": true, "Transformer impedance [%]": true,
		"(Transformer) impedance": false, "Impedance": false,
	} {
		review := reviewed(t, laboratory(t), "panel  id,"+heading+"\npanel-5,5.75\n")
		if (len(review.Changes) == 1) != found {
			t.Errorf("%s: got %q", heading, lines(review))
		}
	}
}

// A table made to take long is refused at once.
func TestTableOfTooManyRows(t *testing.T) {
	doc := laboratory(t)
	text := "Panel id,Bus rating\n" + strings.Repeat("\n", 2*longestTable)
	_, err := ReadCSV(strings.NewReader(text), doc, diagram.FirstPlan, analysis.Trace(doc), unit.IEC)
	if err == nil || !strings.Contains(err.Error(), "more than 100000 rows") {
		t.Errorf("got %v", err)
	}
	text = "Panel id,Bus rating\r\n" + strings.Repeat("\r\n", longestTable-2) + "panel-5,225 A\r\n" // the most that is read
	if _, err := ReadCSV(strings.NewReader(text), doc, diagram.FirstPlan, analysis.Trace(doc), unit.IEC); err != nil {
		t.Error(err)
	}
}

// A table without its headings is told of, and so is a file of another building, of
// which nothing is ticked.
func TestRowsWithoutHeadingsAndOtherBuildings(t *testing.T) {
	doc := filetest.Demos(t)[0]
	topology := analysis.Trace(doc)
	var out strings.Builder
	if err := WriteCSV(&out, Sheets(doc, diagram.FirstPlan, topology, nil, nil, unit.NorthAmerican)); err != nil {
		t.Fatal(err)
	}
	read := func(text string, doc *diagram.Document) Review {
		review, err := ReadCSV(strings.NewReader(text), doc, diagram.FirstPlan, analysis.Trace(doc), unit.NorthAmerican)
		if err != nil {
			t.Fatal(err)
		}
		return review
	}
	if review := read(out.String(), doc); len(review.Problems) > 0 || review.Foreign != "" {
		t.Fatalf("as it was written: %v, of %q", review.Problems, review.Foreign)
	}
	head := out.String()[strings.Index(out.String(), "Panel id,"):]
	head = head[:strings.Index(head, "\r\n")+2]
	if guide := strings.SplitAfter(out.String()[strings.Index(out.String(), head)+len(head):], "\r\n")[0]; !strings.HasPrefix(guide, guideMark) {
		t.Errorf("below the headings stands %q", guide)
	}
	review := read(strings.Replace(out.String(), head, "", 1), doc)
	if len(review.Problems) != 1 || !strings.HasPrefix(review.Problems[0].String(), "row 6: 16 rows from here on stand above the first headings and were not read; put the headings above them back: Panel id, Panel, ") {
		t.Errorf("without the headings of the panels: got %v", review.Problems)
	}
	review = read(out.String(), filetest.Demos(t)[1])
	if review.Foreign != "Tern Quay Marine Laboratory, Tern Quay" || !strings.Contains(strings.Join(review.Notes, " "), "of another building") {
		t.Errorf("of another building: got %q and %q", review.Foreign, review.Notes)
	}
}

// That a number is none is told where the sheet keeps it no apart from not known.
func TestNoneThatIsNotKept(t *testing.T) {
	doc := filled(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		p, _ := doc.Part("panel-5")
		p.Board.MainBreaker, p.Board.FreeSpaces = 0, 0
		tx.SetPart(p)
	})
	for heading, text := range map[string]string{"Main breaker": "lugs only", "Free spaces": "0"} {
		review := written(t, doc).set("panel-5", heading, text).read()
		if len(review.Changes) != 0 || len(review.Problems) != 1 || !strings.Contains(review.Problems[0].String(), "“"+text+"” is what the sheet has no figure apart from “not known” for, so it is not kept; say it in the remarks") {
			t.Errorf("%s of %q: got %v and %v", heading, text, review.Changes, review.Problems)
		}
	}
}
