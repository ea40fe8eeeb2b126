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
	"clampline/diagram/page"
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
			"page 1 of 2", sheets[0].Title, sheets[0].Name, "plan As found", "Site: ",
			"Nameplate voltage", "Frequency", "Neutral", "Wiring", words{"Grounding", "Earthing"}.in(c) + " of the source",
			"Fault current marked or told (kA)", "Fault current from", "label", "utility", "study", "Fault current by the drawing",
			"Transformer that feeds it", "kVA", "Transformer impedance",
			"Bus rating", "Main breaker", "Spaces", "Free spaces", "Free positions", "Mounting", "surface", "flush", "Service disconnect",
			"Neutral bonded to " + earth + " here", words{"First panel", "First board"}.in(c) + " of another structure", "Place for short leads", "side, height, opening",
			"Protectors that are there", "Indicator shows", "Phase lead", "In (kA)", "SCCR (kA)", "Rated by", "Remarks", unit.ModeWord("L-G", c) + " VPR or Up", unit.ModeWord("L-G", c) + " MCOV or Uc",
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

// What the tables ask and tell, the page does too, and the other way round but for
// what is ticked on paper alone.
func TestPageAndTableAskTheSame(t *testing.T) {
	sheet := crowded(t, 1)[0]
	for at, lines := range [][]Line{sheet.Lines, sheet.Feed, sheet.Protectors[0], sheet.Feeders[0]} {
		for i, line := range lines {
			if line.role != naming && line.role != onPaper && len(line.options) == 0 && line.Key != keyOn {
				lines[i].Value, lines[i].Drawing = fmt.Sprintf("v%d", i), fmt.Sprintf("t%d", i)
			}
		}
		page := Pages([]Sheet{sheet})[at/3]
		written := strings.Join(wordsOf(page), "\n")
		for _, line := range lines {
			if !strings.Contains(written, line.Label) && line.group != head && !line.inTable {
				t.Errorf("the page does not ask for %s", line.Label)
			}
			if line.Value != "" && line.group != head && !line.inTable && len(line.options) == 0 && !slices.Contains(wordsOf(page), line.Value) {
				t.Errorf("what is known of %s is not on the page", line.Label)
			}
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
	for protectors, pages := range map[int]int{1: 2, 2: 2, 9: 4} {
		sheets := crowded(t, protectors)
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			sheets[0].Convention = c
			pictures := Pages(sheets)
			if len(pictures) != pages {
				t.Fatalf("%d protectors take %d pages, want %d", protectors, len(pictures), pages)
			}
			paper := geom.RectOf(geom.Pt(0, 0), page.Usual(c).Size).Grow(-8)
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
				if text := strings.Join(wordsOf(p), "\n"); !strings.Contains(text, fmt.Sprintf("page %d of %d", i+1, pages)) || !strings.Contains(text, "Surveyed by") {
					t.Errorf("page %d lacks its number or foot", i+1)
				}
			}
			if named != protectors {
				t.Errorf("%d protectors are on the pages, want %d", named, protectors)
			}
		}
	}
}

// There is room to write: boxes for a protector that is not drawn, and lines for
// remarks.
func TestRoomToWrite(t *testing.T) {
	for n := 1; n <= 9; n++ {
		places := map[string][]float64{}
		for _, item := range Pages(crowded(t, n))[0].Items() { // on the shorter paper
			if item.Text != nil {
				places[item.Text.String] = append(places[item.Text.String], item.Text.At.Y)
			}
		}
		if left := places["Surveyed by"][0] - places["Remarks and sketch"][0]; left < 14 {
			t.Errorf("%d protectors leave %.1f mm for remarks", n, left)
		}
		if boxes := len(places["Protector"]); boxes < 2 {
			t.Errorf("%d protectors have %d blocks on the page, want a free one too", n, boxes)
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
	for _, want := range []string{"/Count 15", "/MediaBox [0 0 612.00 792.00]"} {
		if !strings.Contains(first.String(), want) {
			t.Errorf("the file lacks %q", want)
		}
	}
	if err := WritePDF(&first, nil); err == nil {
		t.Error("no sheets are no error")
	}
}
