package survey

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// wordsOf returns what is written on a page.
func wordsOf(p *draw.Picture) []string {
	var out []string
	for _, item := range p.Items() {
		if item.Text != nil {
			out = append(out, item.Text.String)
		}
	}
	return out
}

func TestPageOfAPanel(t *testing.T) {
	doc := edited(t, laboratory(t), "panel-5", func(p *diagram.Part) {
		p.Note, p.Board.FreePositions, p.Board.Service = "Behind the racks.\nKey at the gate.", "37, 39, 41", true
	})
	pages := Pages(sheetsOf(t, doc, "panel-5"))
	drawtest.Text(t, "server-room.txt", pages[0].String())
}

// All that the survey is to find out is on the page, in the words of the
// convention, with the title block and the cautions.
func TestPageAsksForEverything(t *testing.T) {
	for c, sheets := range map[unit.Convention][]Sheet{
		unit.NorthAmerican: sheetsOf(t, laboratory(t), "panel-5"),
		unit.IEC:           sheetsOf(t, clinic(t), "panel-3"),
	} {
		text := strings.Join(wordsOf(Pages(sheets)[0]), "\n")
		earth := words{"ground", "earth"}.in(c)
		for _, want := range []string{
			"Page 1 of 1", sheets[0].Title, sheets[0].Name, "Plan: As found", "Site: ",
			"Nameplate voltage", "Frequency", "Neutral", "Wiring", words{"Grounding", "Earthing"}.in(c) + " of the source",
			"Fault current marked on it, or told by the utility", "Where from", "Fault current by the drawing",
			"Transformer that feeds it", "kVA", "Transformer impedance",
			"Bus rating", "Main breaker", "Spaces", "Free spaces", "Free positions", "Mounting", "surface", "flush", "Service disconnect",
			"Neutral bonded to " + earth + " here", words{"First panel", "First board"}.in(c) + " of another structure", "shortest leads",
			"Protectors that are there", "Indicator", "Phase lead", "In (kA)", "SCCR (kA)", "rated by VPR or Up", "remarks", unit.ModeWord("L-G", c), words{"VPR / MCOV", "Up / Uc"}.in(c),
			"Photos to take", "nameplate", "Remarks and sketch", "Surveyed by", "Date", "Qualified person",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the page lacks %q", c, want)
			}
		}
		said := strings.Join(strings.Fields(text), " ")
		for _, caution := range Cautions(c) {
			if !strings.Contains(said, caution) {
				t.Errorf("%s: the page lacks %q", c, caution)
			}
		}
		if strings.Contains(text, words{"earth", "ground"}.in(c)) {
			t.Errorf("%s: the page has a word of the other convention", c)
		}
	}
}

// What the table asks of a protector, the page asks too.
func TestPageAndTableAskTheSame(t *testing.T) {
	asked := map[string]bool{}
	var look func([]attachedColumn)
	look = func(columns []attachedColumn) {
		for _, c := range columns {
			asked[c.upper], asked[c.lower] = true, true
			look(c.divided)
		}
	}
	look(attachedColumns(unit.NorthAmerican))
	for _, c := range protectorColumns() {
		if !asked[c.key] {
			t.Errorf("the page has no place for %q", c.key)
		}
	}
	sheets := crowded(t, 1)
	lines := sheets[0].Protectors[0].Lines
	for i := range lines {
		lines[i].Value = fmt.Sprintf("v%d", i)
	}
	written := wordsOf(Pages(sheets)[0])
	for i, line := range lines {
		if !slices.Contains(written, line.Value) {
			t.Errorf("value %d, %s, is not on the page", i, line.Label)
		}
	}
}

// crowded returns a sheet with more and longer of everything than fits.
func crowded(t testing.TB, protectors int) []Sheet {
	long := strings.Repeat("Großtierstall Ω ", 50)
	doc := edited(t, laboratory(t), "panel-5", func(p *diagram.Part) {
		p.Name, p.Note, p.Board.FreePositions, p.Board.ShortLead = long, strings.Repeat(long+"\n", 12), long, strings.Repeat("W", 900)
		p.System = diagram.System{Wiring: diagram.HighLeg, Voltage: 123456.789, Earthing: diagram.TNCS}
		p.Board.Rating, p.Board.FaultCurrent = 12345.6789, 987654.321
	})
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetInfo(diagram.Info{Title: long, Site: long})
		plan, _ := tx.Document().Plan(diagram.FirstPlan)
		plan.Name = long
		tx.SetPlan(plan)
		for i := range protectors - 1 {
			p := serverRoomProtector()
			p.ID, p.Name = diagram.ID(fmt.Sprintf("extra-%d", i)), fmt.Sprintf("Extra %d %s", i, long)
			p.Leads.Phase.Length = 999.87654
			tx.SetProtector(p)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return sheetsOf(t, doc, "panel-5")
}

// Nothing runs off the paper or out of the title block, and what has no room is
// on a page of its own.
func TestPagesHoldWhatIsOnThem(t *testing.T) {
	for protectors, pages := range map[int]int{1: 1, 4: 1, 5: 2, 24: 2, 25: 3} {
		sheets := crowded(t, protectors)
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			sheets[0].Convention = c
			pictures := Pages(sheets)
			if len(pictures) != pages {
				t.Fatalf("%d protectors take %d pages, want %d", protectors, len(pictures), pages)
			}
			paper := geom.RectOf(geom.Pt(0, 0), Paper(c)).Grow(-8)
			named := 0
			for i, p := range pictures {
				if b := p.Bounds(); !paper.Holds(b) {
					t.Errorf("%s, %d protectors: page %d reaches %v, paper to %v", c, protectors, i+1, b, paper)
				}
				for _, w := range wordsOf(p) {
					if strings.HasPrefix(w, "Extra ") || w == "SPD-2" {
						named++
					}
				}
				if text := strings.Join(wordsOf(p), "\n"); !strings.Contains(text, fmt.Sprintf("Page %d of %d", i+1, pages)) || !strings.Contains(text, "Surveyed by") {
					t.Errorf("page %d lacks its number or foot", i+1)
				}
			}
			if named != protectors {
				t.Errorf("%d protectors are on the pages, want %d", named, protectors)
			}
		}
	}
}

// There is room to write: a row for a protector that is not drawn, and lines for
// remarks.
func TestRoomToWrite(t *testing.T) {
	for n := 1; n <= onForm; n++ {
		v := newCanvas(unit.NorthAmerican) // the shorter paper
		sheet := crowded(t, n)[0]
		v.head(sheet, "", 1, 1)
		v.nameplate(sheet)
		v.faultCurrent(sheet)
		v.board(sheet)
		v.section("")
		v.attached(sheet.Protectors, max(3, n+1))
		v.photos(sheet)
		if left := v.bottom - v.footHeight() - v.y - sectionGap; left < 14 {
			t.Errorf("%d protectors leave %.1f mm for remarks", n, left)
		}
	}
}

func TestWritePDF(t *testing.T) {
	sheets := sheetsOf(t, laboratory(t))
	var first, second bytes.Buffer
	for _, out := range []*bytes.Buffer{&first, &second} {
		if err := WritePDF(out, sheets); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("the same sheets give different files")
	}
	for _, want := range []string{"/Count 8", "/MediaBox [0 0 612.00 792.00]"} {
		if !strings.Contains(first.String(), want) {
			t.Errorf("the file lacks %q", want)
		}
	}
	if err := WritePDF(&first, nil); err == nil {
		t.Error("no sheets are no error")
	}
}
