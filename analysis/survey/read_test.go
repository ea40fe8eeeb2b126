package survey

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// grid is a table in the hands of a person.
type grid struct {
	t    testing.TB
	doc  *diagram.Document
	rows [][]string
}

// written returns the table of all boards of the document, or of some.
func written(t testing.TB, doc *diagram.Document, boards ...diagram.ID) *grid {
	t.Helper()
	var out bytes.Buffer
	if err := WriteCSV(&out, sheetsOf(t, doc, boards...)); err != nil {
		t.Fatal(err)
	}
	reader := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(out.Bytes(), []byte("\ufeff"))))
	reader.FieldsPerRecord = -1
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return &grid{t, doc, rows}
}

// headings returns the row of headings that a row stands below, or is.
func (g *grid) headings(row int) []string {
	for ; row >= 0; row-- {
		if strings.HasSuffix(g.rows[row][0], " id") {
			return g.rows[row]
		}
	}
	return []string{""}
}

// row returns the number of the row of a board, a transformer or a protector.
func (g *grid) row(id diagram.ID) int {
	g.t.Helper()
	for n, cells := range g.rows {
		if at := max(0, slices.Index(g.headings(n), "Protector id")); at < len(cells) && cells[at] == string(id) {
			return n
		}
	}
	g.t.Fatalf("the table has no row of %s", id)
	return -1
}

// free returns the number of the row for a protector on a board that is not drawn.
func (g *grid) free(board diagram.ID) int {
	g.t.Helper()
	for n, cells := range g.rows {
		if at := slices.Index(g.headings(n), "Protector id"); at > 0 && cells[0] == string(board) && cells[at] == "" {
			return n
		}
	}
	g.t.Fatalf("the table has no free row of %s", board)
	return -1
}

// column returns the column of a heading in the table of a row.
func (g *grid) column(row int, heading string) int {
	g.t.Helper()
	at := slices.Index(g.headings(row), heading)
	if at < 0 {
		g.t.Fatalf("the table has no column %q, only %q", heading, g.headings(row))
	}
	return at
}

func (g *grid) cell(id diagram.ID, heading string) string {
	row := g.with(id, heading)
	return g.rows[row][g.column(row, heading)]
}

func (g *grid) set(id diagram.ID, heading, text string) *grid {
	return g.write(g.with(id, heading), heading, text)
}

// with returns the number of the row of a record in the table that has a heading: that
// of a supply stands in two.
func (g *grid) with(id diagram.ID, heading string) int {
	for n, cells := range g.rows {
		if cells[0] == string(id) && slices.Contains(g.headings(n), heading) {
			return n
		}
	}
	return g.row(id)
}

func (g *grid) write(row int, heading, text string) *grid {
	g.rows[row][g.column(row, heading)] = text
	return g
}

// text writes the table as another program would.
func (g *grid) text(separator rune, crlf bool) string {
	var out strings.Builder
	writer := csv.NewWriter(&out)
	writer.Comma, writer.UseCRLF = separator, crlf
	if err := writer.WriteAll(g.rows); err != nil {
		g.t.Fatal(err)
	}
	return out.String()
}

func (g *grid) read() Review {
	g.t.Helper()
	return reviewed(g.t, g.doc, g.text(',', true))
}

func reviewed(t testing.TB, doc *diagram.Document, text string) Review {
	t.Helper()
	review, err := ReadCSV(strings.NewReader(text), doc, diagram.FirstPlan, analysis.Trace(doc), conventionOf(doc))
	if err != nil {
		t.Fatal(err)
	}
	return review
}

// lines returns a review as text: changes, then problems.
func lines(r Review) []string {
	var out []string
	for _, c := range r.Changes {
		out = append(out, c.String())
	}
	for _, p := range r.Problems {
		out = append(out, p.String())
	}
	return out
}

// taken returns what became of the document.
func taken(t testing.TB, doc *diagram.Document, r Review) diagram.Change {
	t.Helper()
	change, err := doc.Snapshot().Edit(r.Apply)
	if err != nil {
		t.Fatal(err)
	}
	return change
}

func same(t *testing.T, got []string, want ...string) {
	t.Helper()
	for i := range got {
		got[i] = strings.ReplaceAll(got[i], "\u00a0", " ")
	}
	if diff := cmp.Diff(got, want); diff != "" {
		t.Errorf("(-got +want):\n%s", diff)
	}
}

// filled returns a building in which every field of the survey has a value, some
// of them hostile.
func filled(t testing.TB) *diagram.Document {
	doc := laboratory(t)
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		board, _ := tx.Part("panel-5")
		board.Name = "=cmd|' /C calc'!A0"
		board.Note = "first line\nsecond; line, with \"marks\""
		board.System = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
		board.Board = diagram.BoardData{
			Rating: 225, MainBreaker: 150, Spaces: 42, FreeSpaces: 4, Mounting: diagram.Flush, Service: true, Bonded: true, Structure: true,
			FaultCurrent: 9.87654321e3, FreePositions: "12-14", ShortLead: "-", Photos: "front.jpg, label.jpg",
		}
		tx.SetPart(board)
		p, _ := tx.Protector("protector-2")
		p.Note, p.Name, p.Rating = "'tis marked", "2E1", diagram.Up
		p.Leads.Phase.Length, p.Leads.Neutral.Length = 0.123456789, 1.0/3
		p.Leads.Run, p.Leads.Bends, p.Leads.Coils, p.Leads.Steel, p.Leads.SteelBonded = diagram.Bundled, 2, 1, true, true
		p.Installed = diagram.Installed{Date: "2026-11-29", By: "A. Tern", Measured: true, Indicator: diagram.Fault, Checked: "2027-11-29", Photos: "spd.jpg"}
		tx.SetProtector(p)
		f, _ := tx.Feeder("feeder-2")
		f.Area, f.Material, f.Parallel, f.Raceway, f.Lay, f.Note = 70e-6, diagram.Aluminium, 2, diagram.NonmetallicConduit, diagram.TightLay, "through the yard"
		tx.SetFeeder(f)
		load, _ := tx.Part("load-1")
		load.Load = diagram.LoadData{Connection: diagram.ThreeWire, Power: 90e3, Critical: true, Motor: true, Terminals: diagram.OpenTerminals, Switching: diagram.ContactorSwitching}
		load.Withstand, load.Note = diagram.Withstand{Kind: diagram.ByCategory, Category: 3}, "on the roof"
		tx.SetPart(load)
		supply, _ := tx.Part("supply-1")
		supply.Exposure = diagram.Exposure{
			Surges: diagram.SurgeExposures()[0], Lightning: diagram.LightningSystems()[1], Surroundings: diagram.SurroundingsKinds()[0],
			FlashDensity: 2, LowOverhead: 100, LowCable: 50, HighOverhead: 400, HighCable: 30, LinesEnd: true,
		}
		tx.SetPart(supply)
		other, _ := tx.Part("panel-1")
		other.Name, other.Board.FreePositions, other.Board.ShortLead = "'=2+2", "007", "–"
		tx.SetPart(other)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// A table that comes back as it was written changes nothing, whatever has been
// made of its form.
func TestUnalteredTableChangesNothing(t *testing.T) {
	docs := map[string]*diagram.Document{"quay": demo(t, 0), "farm": demo(t, 1), "clinic": demo(t, 2), "filled": filled(t)}
	for name, doc := range docs {
		g := written(t, doc)
		for _, row := range []struct{ form, text string }{
			{"as it was", "\ufeff" + g.text(',', true)},
			{"without mark, with line feeds", g.text(',', false)},
			{"semicolons", "\ufeff" + g.text(';', true)},
			{"tabs", g.text('\t', true)},
			{"UTF-16", asUTF16(g.text('\t', true))},
			{"separator declared", "sep=;\r\n" + g.text(';', true)},
			{"columns reversed", g.reversed().text(',', true)},
			{"all cells quoted, with spaces round", g.quoted()},
			{"capital headings", strings.Replace(g.text(',', true), g.text(',', true)[:200], strings.ToUpper(g.text(',', true)[:200]), 1)},
			{"a title above", "Survey of the quay\r\n\r\n" + g.text(',', true)},
		} {
			for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
				review, err := ReadCSV(strings.NewReader(row.text), doc, diagram.FirstPlan, analysis.Trace(doc), c)
				if err != nil {
					t.Fatal(err)
				}
				if got := lines(review); len(got) > 0 || len(review.Notes) > 0 {
					t.Errorf("%s, %s, read in %s: %q %q", name, row.form, c, got, review.Notes)
				}
				if want := len(sheetsOf(t, doc)); review.Rows < want {
					t.Errorf("%s, %s: %d rows, want at least %d", name, row.form, review.Rows, want)
				}
			}
		}
	}
}

func asUTF16(text string) string {
	out := []byte{0xff, 0xfe}
	for _, unit := range utf16.Encode([]rune(text)) {
		out = append(out, byte(unit), byte(unit>>8))
	}
	return string(out)
}

func (g *grid) reversed() *grid {
	out := &grid{t: g.t, doc: g.doc}
	for _, row := range g.rows {
		row = slices.Clone(row)
		slices.Reverse(row)
		out.rows = append(out.rows, row)
	}
	return out
}

func (g *grid) quoted() string {
	var out strings.Builder
	for _, row := range g.rows {
		for i, cell := range row {
			if i > 0 {
				out.WriteByte(',')
			}
			out.WriteString(` "` + strings.ReplaceAll(cell, `"`, `""`) + `" `)
		}
		out.WriteString("\r\n")
	}
	return out.String()
}

// Each column that is altered makes exactly its own change.
func TestEachColumnIsRead(t *testing.T) {
	board := func(set func(*diagram.Part)) func(*diagram.Tx) error {
		return alter("panel-5", func(s *subject) { set(&s.part) })
	}
	on := func(set func(*diagram.Protector)) func(*diagram.Tx) error {
		return alter("protector-2", func(s *subject) { set(&s.protector) })
	}
	feed := func(set func(*diagram.Part)) func(*diagram.Tx) error {
		return alter("transformer-2", func(s *subject) { set(&s.part) })
	}
	run := func(set func(*diagram.Feeder)) func(*diagram.Tx) error {
		return alter("feeder-2", func(s *subject) { set(&s.feeder) })
	}
	load := func(set func(*diagram.Part)) func(*diagram.Tx) error {
		return alter("load-1", func(s *subject) { set(&s.part) })
	}
	supply := func(set func(*diagram.Exposure)) func(*diagram.Tx) error {
		return alter("supply-1", func(s *subject) { set(&s.part.Exposure) })
	}
	installed := func(set func(*diagram.Installed)) func(*diagram.Tx) error {
		return on(func(p *diagram.Protector) { set(&p.Installed) })
	}
	rows := []struct {
		id            diagram.ID
		heading, text string
		want          func(*diagram.Tx) error
		says          string
	}{
		{"panel-5", "Photos", "front.jpg", board(func(p *diagram.Part) { p.Board.Photos = "front.jpg" }), "Server room, photos: none → front.jpg"},
		{"feeder-2", "Length of the feeder", "120 ft", run(func(f *diagram.Feeder) { f.Length = 36.576 }), "feeder Main switchboard – Chiller panel, length of the feeder: 65.617 ft → 120 ft"},
		{"feeder-2", "Conductor size", "2/0", run(func(f *diagram.Feeder) { f.Area = unit.AWGArea(-1) }), "feeder Main switchboard – Chiller panel, conductor size: not known → 2/0 AWG"},
		{"feeder-2", "Conductor material", "Al", run(func(f *diagram.Feeder) { f.Material = diagram.Aluminium }), "feeder Main switchboard – Chiller panel, conductor material: copper → aluminum"},
		{"feeder-2", "Conductors per phase", "2", run(func(f *diagram.Feeder) { f.Parallel = 2 }), "feeder Main switchboard – Chiller panel, conductors per phase: 1 → 2"},
		{"feeder-2", "Raceway or cable", "EMT", run(func(f *diagram.Feeder) { f.Raceway = diagram.SteelConduit }), "feeder Main switchboard – Chiller panel, raceway or cable: not known → steel conduit"},
		{"feeder-2", "Lay of the wires", "loose", run(func(f *diagram.Feeder) { f.Lay = diagram.LooseLay }), "feeder Main switchboard – Chiller panel, lay of the wires: not known → loose"},
		{"load-1", "Load", "Chiller 1", load(func(p *diagram.Part) { p.Name = "Chiller 1" }), "Chiller, name: Chiller → Chiller 1"},
		{"load-1", "Connection", "3-phase", load(func(p *diagram.Part) { p.Load.Connection = diagram.ThreeWire }), "Chiller, connection: as the bus → three-phase"},
		{"load-1", "Power", "90 kVA", load(func(p *diagram.Part) { p.Load.Power = 90e3 }), "Chiller, power: not known → 90 kVA"},
		{"load-1", "Critical equipment", "yes", load(func(p *diagram.Part) { p.Load.Critical = true }), "Chiller, critical equipment: no → yes"},
		{"load-1", "Motor without a drive", "Present", load(func(p *diagram.Part) { p.Load.Motor = true }), "Chiller, motor without a drive: no → yes"},
		{"load-1", "Load during a surge", "acts as an input filter", load(func(p *diagram.Part) { p.Load.Terminals = diagram.FilteredTerminals }), "Chiller, load during a surge: not known → acts as an input filter"},
		{"load-1", "Makes surges like", "contactors, drive, welder", load(func(p *diagram.Part) { p.Load.Switching = diagram.ContactorSwitching }), "Chiller, makes surges like: by what it is → contactors, drive, welder"},
		{"load-1", "Overvoltage category", "CAT III", load(func(p *diagram.Part) { p.Withstand = diagram.Withstand{Kind: diagram.ByCategory, Category: 3} }), "Chiller, overvoltage category: not known → 3"},
		{"supply-1", "Surge exposure of the supply", "High", supply(func(e *diagram.Exposure) { e.Surges = diagram.HighExposure }), "Service, surge exposure of the supply: not known → high"},
		{"supply-1", "Lightning protection", "none", supply(func(e *diagram.Exposure) { e.Lightning = diagram.NoLightningSystem }), "Service, lightning protection: not known → none"},
		{"supply-1", "Surroundings", "rural", supply(func(e *diagram.Exposure) { e.Surroundings = diagram.Rural }), "Service, surroundings: not known → rural"},
		{"supply-1", "Lightning flashes", "2", supply(func(e *diagram.Exposure) { e.FlashDensity = 2 }), "Service, lightning flashes: not known → 2 per km² and year"},
		{"supply-1", "Ends at a surge arrester", "yes", supply(func(e *diagram.Exposure) { e.LinesEnd = true }), "Service, ends at a surge arrester: no → yes"},
		{"protector-2", "Leads run", "tied", on(func(p *diagram.Protector) { p.Leads.Run = diagram.Bundled }), "SPD-2 on Server room, leads run: apart → bundled"},
		{"protector-2", "Sharp bends", "2", on(func(p *diagram.Protector) { p.Leads.Bends = 2 }), "SPD-2 on Server room, sharp bends: none → 2"},
		{"protector-2", "Coils of slack", "1", on(func(p *diagram.Protector) { p.Leads.Coils = 1 }), "SPD-2 on Server room, coils of slack: none → 1"},
		{"protector-2", "Steel raceway", "no", func(*diagram.Tx) error { return nil }, ""},
		{"protector-2", "Steel raceway", "yes", on(func(p *diagram.Protector) { p.Leads.Steel = true }), "SPD-2 on Server room, steel raceway: no → yes"},
		{"protector-2", "Raceway bonded at both ends", "yes", on(func(p *diagram.Protector) { p.Leads.SteelBonded = true }), "SPD-2 on Server room, raceway bonded at both ends: no → yes"},
		{"protector-2", "Installed on", "29.11.2026", installed(func(i *diagram.Installed) { i.Date = "2026-11-29" }), "SPD-2 on Server room, installed on: not installed or not known → 2026-11-29"},
		{"protector-2", "Installed by", "A. Tern", installed(func(i *diagram.Installed) { i.By = "A. Tern" }), "SPD-2 on Server room, installed by: not known → A. Tern"},
		{"protector-2", "Leads measured as built", "yes", installed(func(i *diagram.Installed) { i.Measured = true }), "SPD-2 on Server room, leads measured as built: no → yes"},
		{"protector-2", "Indicator shows", "green", installed(func(i *diagram.Installed) { i.Indicator = diagram.InOrder }), "SPD-2 on Server room, indicator shows: not looked at → in order"},
		{"protector-2", "Last checked on", "2027-11-29", installed(func(i *diagram.Installed) { i.Checked = "2027-11-29" }), "SPD-2 on Server room, last checked on: not since → 2027-11-29"},
		{"protector-2", "Photos", "spd.jpg", installed(func(i *diagram.Installed) { i.Photos = "spd.jpg" }), "SPD-2 on Server room, photos: none → spd.jpg"},
		{"panel-5", "Panel", "Server room 2", board(func(p *diagram.Part) { p.Name = "Server room 2" }), "Server room, name: Server room → Server room 2"},
		{"panel-5", "Nameplate voltage", "240", board(func(p *diagram.Part) { p.System.Voltage = 240 }), "Server room, nameplate voltage: not known → 240 V"},
		{"panel-5", "Nameplate voltage", "208Y/120 V, 3PH 4W", board(func(p *diagram.Part) {
			p.System = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true}
		}), "Server room, nameplate voltage: not known → 208 V, wiring three-phase wye, neutral yes"},
		{"panel-5", "Wiring", "Delta", board(func(p *diagram.Part) { p.System.Wiring = diagram.Delta }), "Server room, wiring: not known → three-phase delta"},
		{"panel-5", "Neutral", "yes", board(func(p *diagram.Part) { p.System.Neutral = true }), "Server room, neutral: no or not known → yes"},
		{"panel-5", "Grounding of the source", "TN-C-S", board(func(p *diagram.Part) { p.System.Earthing = diagram.TNCS }), "Server room, grounding of the source: not known → TN-C-S"},
		{"panel-5", "Frequency", "60Hz", board(func(p *diagram.Part) { p.System.Frequency = 60 }), "Server room, frequency: not known → 60 Hz"},
		{"panel-5", "Fault current marked or told (kA)", "22 kA", board(func(p *diagram.Part) { p.Board.FaultCurrent = 22e3 }), "Server room, fault current marked or told: not known → 22 kA"},
		{"panel-5", "Fault current marked or told (kA)", "9.5", board(func(p *diagram.Part) { p.Board.FaultCurrent = 9.5e3 }), "Server room, fault current marked or told: not known → 9.5 kA"},
		{"transformer-2", "Transformer rating (kVA)", "75 kVA", feed(func(p *diagram.Part) { p.Transformer.Power = 75e3 }), "T2, transformer rating: 30 kVA → 75 kVA"},
		{"transformer-2", "Transformer rating (kVA)", "37.5", feed(func(p *diagram.Part) { p.Transformer.Power = 37.5e3 }), "T2, transformer rating: 30 kVA → 37.5 kVA"},
		{"transformer-2", "Transformer impedance", "5.75%", feed(func(p *diagram.Part) { p.Transformer.Impedance = 5.75 }), "T2, transformer impedance: 4 % → 5.75 %"},
		{"panel-5", "Bus rating", "225", board(func(p *diagram.Part) { p.Board.Rating = 225 }), "Server room, bus rating: not known → 225 A"},
		{"panel-5", "Main breaker", "150 A", board(func(p *diagram.Part) { p.Board.MainBreaker = 150 }), "Server room, main breaker: lugs only or not known → 150 A"},
		{"panel-5", "Spaces", "42", board(func(p *diagram.Part) { p.Board.Spaces = 42 }), "Server room, spaces: 30 → 42"},
		{"panel-5", "Free spaces", "none", board(func(p *diagram.Part) { p.Board.FreeSpaces = 0 }), "Server room, free spaces: 4 → none or not known"},
		{"panel-5", "Free positions", "'37-41", board(func(p *diagram.Part) { p.Board.FreePositions = "37-41" }), "Server room, free positions: not known → 37-41"},
		{"panel-5", "Mounting", "SURFACE", board(func(p *diagram.Part) { p.Board.Mounting = diagram.Surface }), "Server room, mounting: flush → surface"},
		{"panel-5", "Mounting", "-", board(func(p *diagram.Part) { p.Board.Mounting = "" }), "Server room, mounting: flush → not known"},
		{"panel-5", "Service disconnect", "Yes", board(func(p *diagram.Part) { p.Board.Service = true }), "Server room, service disconnect: no → yes"},
		{"panel-5", "Neutral bonded to ground here", "x", board(func(p *diagram.Part) { p.Board.Bonded = true }), "Server room, neutral bonded to ground here: no → yes"},
		{"panel-5", "First panel of another structure", "TRUE", board(func(p *diagram.Part) { p.Board.Structure = true }), "Server room, first panel of another structure: no → yes"},
		{"panel-5", "Place for short leads", "left gutter", board(func(p *diagram.Part) { p.Board.ShortLead = "left gutter" }), "Server room, place for short leads: not known → left gutter"},
		{"panel-5", "Remarks", "door jams\nsee photo", board(func(p *diagram.Part) { p.Note = "door jams\nsee photo" }), "Server room, remarks: empty → door jams\nsee photo"},
		{"protector-2", "Protector", "SPD-2A", on(func(p *diagram.Protector) { p.Name = "SPD-2A" }), "SPD-2 on Server room, name: SPD-2 → SPD-2A"},
		{"protector-2", "Type or class", "Type1", on(func(p *diagram.Protector) { p.Type = diagram.Type1 }), "SPD-2 on Server room, type or class: type 2 → type 1"},
		{"protector-2", "Rated by", "up", on(func(p *diagram.Protector) { p.Rating = diagram.Up }), "SPD-2 on Server room, rated by: VPR → Up"},
		{"protector-2", "L-G VPR or Up", "800 V", on(func(p *diagram.Protector) { p.Modes[diagram.LineEarth].Level = 800 }), "SPD-2 on Server room, L-G VPR or Up: 700 V → 800 V"},
		{"protector-2", "L-L VPR or Up", "-", on(func(p *diagram.Protector) {
			p.Modes[diagram.LineLine].Level, p.Modes[diagram.LineLine].Connected = 0, false
		}), "SPD-2 on Server room, L-L VPR or Up: 1200 V → not known"},
		{"protector-2", "L-N MCOV or Uc", "180", on(func(p *diagram.Protector) { p.Modes[diagram.LineNeutral].MCOV = 180 }), "SPD-2 on Server room, L-N MCOV or Uc: 150 V → 180 V"},
		{"protector-2", "In (kA)", "10", on(func(p *diagram.Protector) { p.In = 10e3 }), "SPD-2 on Server room, In: 20 kA → 10 kA"},
		{"protector-2", "SCCR (kA)", "100 kA", on(func(p *diagram.Protector) { p.SCCR = 100e3 }), "SPD-2 on Server room, SCCR: 200 kA → 100 kA"},
		{"protector-2", "Breaker", "20 A", on(func(p *diagram.Protector) { p.Breaker.Rated = 20 }), "SPD-2 on Server room, breaker: 30 A → 20 A"},
		{"protector-2", "Phase lead", "18 in", on(func(p *diagram.Protector) { p.Leads.Phase.Length = 0.4572 }), "SPD-2 on Server room, phase lead: 12 in → 18 in"},
		{"protector-2", "Neutral lead", "500 mm", on(func(p *diagram.Protector) { p.Leads.Neutral.Length = 0.5 }), "SPD-2 on Server room, neutral lead: 12 in → 19.685 in"},
		{"protector-2", "Ground lead", `1' 6"`, on(func(p *diagram.Protector) { p.Leads.Earth.Length = 0.4572 }), "SPD-2 on Server room, ground lead: 12 in → 18 in"},
		{"protector-2", "Remarks", "indicator green", on(func(p *diagram.Protector) { p.Note = "indicator green" }), "SPD-2 on Server room, remarks: empty → indicator green"},
	}
	covered := map[string]bool{}
	for _, row := range rows {
		covered[row.heading] = true
		doc := laboratory(t)
		review := written(t, doc).set(row.id, row.heading, row.text).read()
		if row.says == "" {
			same(t, lines(review))
		} else {
			same(t, lines(review), row.says)
		}
		want, err := doc.Snapshot().Edit(row.want)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(taken(t, doc, review), want); diff != "" {
			t.Errorf("%s %q (-got +want):\n%s", row.heading, row.text, diff)
		}
	}
	for _, form := range forms() {
		for _, c := range form.columns {
			if heading := c.heading.us; c.role == asks && !covered[heading] && !strings.Contains(heading, "-") {
				t.Errorf("no row alters %q", heading)
			}
		}
	}
}

// The transformer's columns change the transformer, and the review says what
// else hangs on it.
func TestTransformerOfSeveralPanels(t *testing.T) {
	const heading = "Transformer rating (kVA)"
	doc := laboratory(t)
	g := written(t, doc)
	if names := fmt.Sprint(g.cell("transformer-1", "Transformer"), ", ", g.cell("transformer-1", "Feeds")); names != "T1, Lab panel LP-1 and Instruments" {
		t.Errorf("the table has %q", names)
	}
	review := g.set("transformer-1", heading, "150 kVA").read()
	same(t, lines(review), "T1, transformer rating: 112.5 kVA → 150 kVA")
	if got, want := review.Changes[0].Note, "It feeds Lab panel LP-1 and Instruments."; got != want {
		t.Errorf("the note says %q, want %q", got, want)
	}
	first := g.row("transformer-1")
	g.rows = slices.Insert(g.rows, first+1, slices.Clone(g.rows[first])) // somebody doubled it
	same(t, lines(g.write(first+1, heading, "0.15 MVA").read()), "T1, transformer rating: 112.5 kVA → 150 kVA")
	same(t, lines(g.write(first, heading, "").read()), "T1, transformer rating: 112.5 kVA → 150 kVA")
	for _, row := range []struct{ first, second, says string }{
		{"150 kVA", "75 kVA", "row %d says 150 kVA and row %d says 75 kVA"},
		{"112.5 kVA", "75 kVA", "row %d says 112.5 kVA and row %d says 75 kVA"},
		{"75", "-", "row %d says 75 kVA and row %d says not known"},
	} {
		review = g.write(first, heading, row.first).write(first+1, heading, row.second).read()
		what := "the rows disagree about T1: " + fmt.Sprintf(row.says, first+1, first+2) + "; leave one of them; none was taken"
		same(t, lines(review), fmt.Sprintf("row %d, %s: %s", first+1, heading, what))
	}
}

// The utility's transformer stands in the record of the supply.
func TestTransformerOfTheUtility(t *testing.T) {
	doc := laboratory(t)
	review := written(t, doc).set("supply-1", "Transformer rating (kVA)", "1500").set("supply-1", "Transformer impedance", "5,75").read()
	change := taken(t, doc, review)
	if len(change.Parts) != 1 || change.Parts[0].To.Source.Power != 1.5e6 || change.Parts[0].To.Source.Reactance != 5.75 {
		t.Errorf("got %+v", change)
	}
}

func TestDecimalCommas(t *testing.T) {
	for _, row := range []struct{ separator, text, want string }{
		{";", "112,5 A", "Chiller panel, bus rating: not known → 112.5 A"},
		{";", "1.200,5 A", "Chiller panel, bus rating: not known → 1200.5 A"},
		{";", "1,200 A", "row 2, Bus rating must be 1200 or 1.2; “1,200 A” may be either"},
		{";", "1.125 A", "row 2, Bus rating must be 1125 or 1.1250; “1.125 A” may be either"},
		{"\t", "1,200 A", "row 2, Bus rating must be 1200 or 1.2; “1,200 A” may be either"},
		{",", `"1,200 A"`, "Chiller panel, bus rating: not known → 1200 A"},
		{",", "1 200 A", "Chiller panel, bus rating: not known → 1200 A"},
	} {
		text := "Panel id" + row.separator + "Bus rating\npanel-1" + row.separator + row.text + "\n"
		same(t, lines(reviewed(t, laboratory(t), text)), row.want)
	}
}

func TestOldCodePage(t *testing.T) {
	review := reviewed(t, laboratory(t), "Panel id,Remarks\npanel-1,K\xfchlung \x96 Gr\xf6\xdfe\n")
	same(t, lines(review), "Chiller panel, remarks: empty → Kühlung – Größe")
	if len(review.Notes) != 1 || !strings.Contains(review.Notes[0], "Windows-1252") {
		t.Errorf("the notes are %q", review.Notes)
	}
}

// An open quotation mark does not swallow the rows below.
func TestOpenQuotationMark(t *testing.T) {
	review := reviewed(t, laboratory(t), "Panel id,Remarks,Bus rating\npanel-1,\"left gutter,225 A\npanel-2,\"in order\",100 A\npanel-6,18\" high,\n")
	same(t, lines(review),
		"Chiller panel, remarks: empty → \"left gutter", "Chiller panel, bus rating: not known → 225 A",
		"Sea-water pumps, remarks: empty → in order", "Sea-water pumps, bus rating: not known → 100 A",
		"Instruments, remarks: empty → 18\" high",
		"row 2: a quotation mark before a cell is not closed; look whether the row was read as it is meant, and take the mark out or close it")
}

func TestNoTable(t *testing.T) {
	for _, text := range []string{"", "\ufeff", "hello", "Panel,Bus rating\nA,100", "\x00\x01\xff\xfe", strings.Repeat("a", 100_000)} {
		if _, err := ReadCSV(strings.NewReader(text), diagram.New(), diagram.FirstPlan, analysis.Trace(diagram.New()), unit.IEC); err == nil {
			t.Errorf("%.20q: no error", text)
		}
	}
	if _, err := ReadCSV(strings.NewReader("Panel id\n"+strings.Repeat(",", largestTable)), diagram.New(), diagram.FirstPlan, analysis.Trace(diagram.New()), unit.IEC); err == nil {
		t.Error("a table without end is read")
	}
}

// Part of a review may be taken, and one that is out of date is refused as a
// whole.
func TestApply(t *testing.T) {
	doc := laboratory(t)
	review := written(t, doc).set("panel-1", "Bus rating", "225").set("panel-2", "Bus rating", "100").read()
	half := review
	half.Changes = review.Changes[1:]
	if change := taken(t, doc, half); len(change.Parts) != 1 || change.Parts[0].ID != "panel-2" {
		t.Errorf("half of it changes %+v", change)
	}
	if _, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove("panel-2"); return nil }); err != nil {
		t.Fatal(err)
	}
	before := doc.Snapshot()
	if _, err := doc.Edit(review.Apply); err == nil || !strings.Contains(err.Error(), "panel-2") {
		t.Errorf("got %v", err)
	}
	if a, _ := doc.Part("panel-1"); a.Board.Rating != 0 {
		t.Error("half of the review was taken")
	}
	_ = before
}
