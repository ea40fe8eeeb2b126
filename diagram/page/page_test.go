package page

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

const caution = "Estimates for planning; not a substitute for the listing. Work on electrical equipment only de-energised, locked out and verified by qualified persons."

func head() Head {
	return Head{
		Logo: drawtest.Logo(60, 40), Firm: "Firm of your own", Address: "Harbour Row 3", Kind: "proposal", Title: "Surge protection, Tern Quay Marine Laboratory",
		Date: "2 Nov 2026", Revision: "1", Site: "Tern Quay", Sheet: "E-1", DrawnBy: "N. N.",
	}
}

// scripts are letters of those that the font has.
var scripts = []string{"panel ", "Größe ", "щит ", "πίνακας ", "վահանակ ", "панель-", "ტაბლო ", "لوحة ", "לוח "}

// long returns a text of so many letters in a script.
func long(script, letters int) string {
	return string([]rune(strings.Repeat(scripts[script%len(scripts)], letters))[:letters])
}

func table() Table {
	out := Table{Columns: []Column{{Title: "tag"}, {Title: "bus", Weight: 2}, {Title: "what it buys " + long(1, 90), Weight: 3}, {Title: "price", Align: draw.Right}}, Total: []string{"Total", "", "", "5 210"}}
	for i := range 200 {
		out.Rows = append(out.Rows, []string{fmt.Sprintf("SPD-%d", i), long(i, 300), long(i+1, 300), fmt.Sprint(10 * i)})
	}
	return out
}

// inside reports what of a page lies beyond its margins.
func inside(t *testing.T, name string, f Frame, pages []Page) {
	t.Helper()
	frame := geom.Rect{Max: f.Paper.Size}.Grow(-Margin * f.Paper.Enlarged())
	for i, p := range pages {
		for _, item := range p.Picture.Items() {
			bounds, text := item.Bounds, ""
			switch {
			case item.Shape != nil: // ends of lines are cut square, which its bounds don't know
				bounds = item.Shape.Path.Bounds()
			case item.Text != nil:
				text = item.Text.String
			}
			if !frame.Grow(0.01).Holds(bounds) {
				t.Errorf("%s, page %d: %q reaches %v beyond %v", name, i+1, text, bounds, frame)
				return
			}
		}
	}
}

// textsOf returns what is written on a page.
func textsOf(p *draw.Picture) []string {
	var out []string
	for _, item := range p.Items() {
		if item.Text != nil {
			out = append(out, item.Text.String)
		}
	}
	return out
}

// A table of 200 rows with names of 300 letters in several scripts stays within the
// margins of every paper, with its titles on each page and each row whole on one.
func TestLongTable(t *testing.T) {
	for _, paper := range Papers() {
		for _, paper := range []Paper{paper, paper.Landscape()} {
			d := Document{Frame: Frame{Paper: paper, Head: head(), Caution: caution}, Blocks: []Block{Heading{Text: "What it costs"}, table()}}
			pages := d.Pages()
			inside(t, paper.Name, d.Frame, pages)
			rows := 0
			for i, p := range pages {
				texts := textsOf(p.Picture)
				if !slices.Contains(texts, "tag") || !slices.Contains(texts, "price") {
					t.Errorf("%s, page %d has no titles of columns", paper.Name, i+1)
				}
				if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); !slices.Contains(texts, want) {
					t.Errorf("%s: no %q", paper.Name, want)
				}
				if !strings.Contains(strings.Join(texts, " "), caution) {
					t.Errorf("%s, page %d has no caution", paper.Name, i+1)
				}
				for _, text := range texts {
					if strings.HasPrefix(text, "SPD-") {
						rows++
					}
				}
			}
			if rows != 200 {
				t.Errorf("%s: %d rows, want 200", paper.Name, rows)
			}
			_, room := d.Begin()
			if got, want := len(table().lay(geom.Pt(room.Width(), room.Height()))), 202; got != want { // with the titles and the total
				t.Errorf("%s: %d pieces, want %d: a row is torn", paper.Name, got, want)
			}
		}
	}
}

// blocks returns one of each block, full of a text.
func blocks(text string) []Block {
	picture := draw.NewPicture()
	picture.Stroke(draw.Line(geom.Pt(-900, 5), geom.Pt(900, 5)), draw.Pen{Width: 2})
	picture.Text(draw.Text{At: geom.Pt(0, 30), Size: 9, String: "Main switchboard"})
	return []Block{
		Heading{Text: text}, Heading{Text: text, Minor: true}, Paragraph{Text: text}, Paragraph{Text: text, Faint: true}, Paragraph{Text: text, Bold: true},
		Pairs{{"Panel", text}, {text, "208Y/120 V"}, {"left out", ""}}, Checks{Items: []string{text, "Dead front off", ""}, Numbered: true}, Checks{Items: []string{text}},
		Box{Title: text, Value: text, Text: text, Aside: text, Accent: draw.RoleExceeded}, Box{Title: text, Accent: draw.RoleNone},
		Figure{Picture: picture, Title: text, Caption: text, Height: 60}, Figure{Picture: picture}, Figure{Title: text},
		Beside{Columns: [][]Block{{Figure{Picture: picture, Title: "today", Height: 50}}, {Paragraph{Text: text}}, {Signatures{text}}}},
		Beside{Columns: [][]Block{{Paragraph{Text: text}}, {Paragraph{Text: text}}}, Weights: []float64{1, 3}},
		Signatures{"Done by", text, "Date"}, Space(5), Image{drawtest.Logo(900, 300), 400}, Image{drawtest.Logo(30, 90), 40}, Image{[]byte(text), 40}, Together{Paragraph{Text: text}, Heading{Text: text}},
		Table{Columns: []Column{{Title: text}, {Title: text, Bold: true, Align: draw.Right}}, Rows: [][]string{{text, text}, {}, {text, "x", "beyond"}}, Total: []string{text}},
		Table{Columns: []Column{{Title: "step"}}, Empty: text}, Table{},
		Drawn{Height: 20, Draw: func(width float64) *draw.Picture {
			p := draw.NewPicture()
			p.Fill(draw.Rectangle(geom.RectOf(geom.Pt(0, 0), geom.Pt(width, 20)), 0), draw.RoleHeld)
			return p
		}},
	}
}

// Whatever a block holds, its pieces are no wider and no higher than the room, and what
// they draw lies within them.
func TestBlocksStayInTheirRoom(t *testing.T) {
	for name, text := range map[string]string{
		"nothing": "", "a word": "Main", "one long word": strings.Repeat("W", 3000), "many lines": strings.Repeat("line\n", 300), "much": strings.Repeat(long(2, 500)+long(7, 90), 40),
		"odd": "a\u202eb\x1b\x00\xff\ttab\r\n\U0001f600e\u0301", "no-break": strings.Repeat("6\u00a0in", 400),
	} {
		for _, room := range []geom.Point{geom.Pt(186, 240), geom.Pt(60, 50)} {
			for _, b := range blocks(text) {
				for i, p := range b.lay(room) {
					box := geom.Rect{Max: geom.Pt(room.X, p.height)}
					if p.height > room.Y+1e-6 {
						t.Errorf("%T of %s: piece %d is %.1f mm high in a room of %v", b, name, i, p.height, room)
					}
					if p.picture != nil && p.picture.Len() > 0 && !box.Grow(0.3).Holds(p.picture.Bounds()) {
						t.Errorf("%T of %s: piece %d of %v draws %v in %v", b, name, i, room, p.picture.Bounds(), box)
					}
				}
			}
		}
	}
}

// A whole document of all that, in a head of the same, stays within its margins.
func TestDocumentStaysInside(t *testing.T) {
	for _, text := range []string{"", "Main", strings.Repeat("W", 900), long(3, 900)} {
		h := Head{Logo: drawtest.Logo(900, 20), Firm: text, Address: text, Kind: text, Title: text, Date: text, Revision: text, Site: text, Sheet: text, DrawnBy: text}
		for _, paper := range Papers() {
			d := Document{Frame: Frame{Paper: paper, Head: h, Caution: text}, Blocks: blocks(text)}
			inside(t, paper.Name, d.Frame, d.Pages())
		}
	}
}

// A heading stands on the page of what follows it, and a paragraph leaves no single
// line behind or ahead.
func TestHeadingStaysWithWhatFollows(t *testing.T) {
	f := Frame{Paper: Usual(unit.IEC), Head: head(), Caution: caution}
	for gap := 190.0; gap < 240; gap++ {
		d := Document{Frame: f, Blocks: []Block{Space(gap), Heading{Text: "Leads"}, Paragraph{Text: strings.TrimSpace(strings.Repeat("as short as this, not longer ", 24))}}}
		pages := d.Pages()
		last := textsOf(pages[0].Picture)
		if slices.Contains(last, "Leads") != (len(pages) == 1 || !slices.Contains(textsOf(pages[1].Picture), "Leads")) {
			t.Fatalf("after %g mm the heading is on both pages or on none", gap)
		}
		for i, p := range pages {
			words := 0
			for _, text := range textsOf(p.Picture) {
				if strings.HasPrefix(text, "as short") || strings.Contains(text, "not longer") {
					words++
				}
			}
			if words == 1 || slices.Contains(textsOf(p.Picture), "Leads") && words < 2 {
				t.Errorf("after %g mm page %d has %d lines of the paragraph", gap, i+1, words)
			}
		}
	}
}

// What is in a document: the look of a page as its golden text.
func TestLookOfAPage(t *testing.T) {
	d := Document{Frame: Frame{Paper: Usual(unit.NorthAmerican), Head: head(), Caution: caution}, Blocks: []Block{
		Heading{Text: "What is at risk today"}, Paragraph{Text: "Today 9 of 24 places can get more than their equipment stands."},
		Box{Title: "Mass spectrometer", Value: "1 500 V", Text: "its protector hangs on 26 in of wire", Aside: "made for 800 V", Accent: draw.RoleExceeded},
		Pairs{{"Panel", "Fume hoods"}}, Checks{Items: []string{"Dead front off."}, Numbered: true}, Signatures{"Done by"},
		Table{Columns: []Column{{Title: "step", Weight: 1}, {Title: "price", Align: draw.Right}}, Rows: [][]string{{"Shorten the leads", "380"}}, Total: []string{"Total", "380"}},
	}}
	drawtest.Text(t, "page.txt", d.Pages()[0].Picture.String())
}

// The same document and date give the same bytes; another date does not.
func TestSameBytes(t *testing.T) {
	write := func(day int) []byte {
		d := Document{Frame: Frame{Paper: Usual(unit.IEC), Head: head(), Caution: caution}, Blocks: blocks(long(1, 300))}
		var out bytes.Buffer
		if err := d.WritePDF(&out, time.Date(2026, 11, day, 0, 0, 0, 0, time.UTC)); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	first := write(2)
	if !bytes.Equal(first, write(2)) {
		t.Error("two writings of one document differ")
	}
	if bytes.Equal(first, write(3)) {
		t.Error("the date is not written")
	}
}

// A text that is a little too wide is set smaller and not cut, down to 2.2 mm; one that
// is wider still has dots at its end.
func TestTextShrinksBeforeItIsCut(t *testing.T) {
	const text = "Main switchboard"
	for share, want := range map[float64]string{1.1: text, 1: text, 0.8: text, 0.74: text, 0.5: "Main swit…"} {
		p := draw.NewPicture()
		Write(p, geom.Point{}, share*draw.TextWidth(text, 3, false), text, Type{Size: 3})
		if got := textsOf(p)[0]; got != want {
			t.Errorf("%g of the width: got %q, want %q", share, got, want)
		}
		if got := p.Bounds().Width(); got > share*draw.TextWidth(text, 3, false)+1e-9 {
			t.Errorf("%g of the width: it is %g mm wide", share, got)
		}
	}
}

// A tight page has more room, and a title of one line however long that is.
func TestTightFrame(t *testing.T) {
	long := head()
	long.Title = strings.Repeat("Server room ", 40)
	for name, row := range map[string]struct {
		head  Head
		tight bool
		lines int
	}{"short": {head(), true, 1}, "long": {long, true, 1}, "loose": {long, false, 3}} {
		f := Frame{Paper: Usual(unit.IEC), Head: row.head, Caution: caution, Tight: row.tight}
		p, room := f.Begin()
		titles := 0
		for _, item := range p.Items() {
			if item.Text != nil && item.Text.Bold {
				titles++
			}
		}
		loose := Frame{Paper: f.Paper, Head: head(), Caution: caution}
		_, usual := loose.Begin()
		if titles != row.lines || row.tight && room.Height() < usual.Height()+5 {
			t.Errorf("%s: a title of %d lines, want %d; room %v, usually %v", name, titles, row.lines, room, usual)
		}
	}
}

func TestPapers(t *testing.T) {
	for name, want := range map[string]geom.Point{"a4": geom.Pt(210, 297), "ARCH D": geom.Pt(609.6, 914.4), "arch-d": geom.Pt(609.6, 914.4), "Tabloid": geom.Pt(279.4, 431.8)} {
		if got, err := PaperNamed(name); err != nil || got.Size != want {
			t.Errorf("%s: got %v, %v", name, got, err)
		}
	}
	if _, err := PaperNamed("foolscap"); err == nil || !strings.Contains(err.Error(), "A4, A3, Letter, Tabloid, Arch D") {
		t.Errorf("got %v", err)
	}
	if Usual(unit.IEC).Name != "A4" || Usual(unit.NorthAmerican).Name != "Letter" {
		t.Error("the usual papers are others")
	}
	if got := Usual(unit.IEC).Landscape(); got.Size != geom.Pt(297, 210) || got.Landscape() != got {
		t.Errorf("got %v", got)
	}
}
