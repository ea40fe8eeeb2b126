package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"clampline/assets"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

func sample() *draw.Picture {
	symbol := draw.NewPicture()
	symbol.FillStroke(draw.Circle(geom.Pt(0, 0), 3), draw.RoleCard, draw.Pen{Width: 0.4})
	symbol.Text(draw.Text{At: geom.Pt(0, 1.1), Size: 3, Bold: true, Align: draw.Center, String: "G"})
	p := draw.NewPicture()
	p.Begin("bus-1")
	for i, dash := range []draw.Dash{draw.Solid, draw.Dashed, draw.Dotted, draw.Double, draw.Hatched, draw.LongDash} {
		y := 5 * float64(i)
		p.Stroke(draw.Line(geom.Pt(0, y), geom.Pt(40, y)), draw.Pen{Role: draw.RoleHeld, Width: 2, Dash: dash})
	}
	p.FillStroke(draw.Rectangle(geom.RectOf(geom.Pt(2, 30), geom.Pt(30, 39)), 0), draw.RoleCard, draw.Pen{Role: draw.RoleTight, Width: 0.4})
	p.Text(draw.Text{At: geom.Pt(29, 34), Size: 3, Align: draw.Right, String: `Größe (½) \ Ω → mm²`})
	p.End()
	p.Place("machine", symbol, geom.Pt(50, 10), 1, draw.RoleExceeded)
	return p
}

func written(t *testing.T, pages []Page, options Options) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, pages, options); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func one(picture *draw.Picture) []Page { return Pages(geom.Pt(100, 60), picture) }

var streams = regexp.MustCompile(`(?s)/Filter /FlateDecode /Length (\d+)>>\nstream\n`)

// contents returns what is drawn on each page, in the operators of PDF.
func contents(t *testing.T, file []byte) []string {
	t.Helper()
	var out []string
	for _, at := range streams.FindAllSubmatchIndex(file, -1) {
		length, _ := strconv.Atoi(string(file[at[2]:at[3]]))
		reader, err := zlib.NewReader(bytes.NewReader(file[at[1] : at[1]+length]))
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(text))
	}
	return out
}

// encoded returns a text as it stands in a page.
func encoded(s string) string {
	var out strings.Builder
	for _, unit := range utf16.Encode([]rune(s)) {
		for _, b := range []byte{byte(unit >> 8), byte(unit)} {
			if strings.IndexByte(`\()`, b) >= 0 {
				out.WriteByte('\\')
			}
			out.WriteByte(b)
		}
	}
	return out.String()
}

func TestSameBytesEachTime(t *testing.T) {
	pages := append(one(sample()), Pages(A4, sample(), sample())...)
	options := Options{Title: "Tern Quay"}
	first := written(t, pages, options)
	for range 3 {
		if again := written(t, pages, options); !bytes.Equal(first, again) {
			t.Fatal("two exports of one picture differ")
		}
	}
	if bytes.Contains(first, []byte("CreationDate")) || bytes.Contains(first, []byte("ModDate")) {
		t.Error("the document bears a date")
	}
}

// The places of the objects are those that the file lists, also where the date
// was taken out.
func TestObjectsLieWhereTheFileSays(t *testing.T) {
	file := written(t, one(sample()), Options{})
	at := bytes.LastIndex(file, []byte("\nxref\n"))
	list := bytes.Split(file[at+1:], []byte("\n"))
	count := 0
	for i, line := range list[3:] {
		if !bytes.HasSuffix(line, []byte(" 00000 n ")) {
			break
		}
		offset, _ := strconv.Atoi(string(line[:10]))
		if want := strconv.Itoa(i+1) + " 0 obj"; !bytes.HasPrefix(file[offset:], []byte(want)) {
			t.Errorf("at %d lies %.12q, want %q", offset, file[offset:], want)
		}
		count++
	}
	if count < 10 {
		t.Errorf("the file lists %d objects", count)
	}
}

func TestDateIsWritten(t *testing.T) {
	file := written(t, one(sample()), Options{Created: time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC)})
	if !bytes.Contains(file, []byte("/CreationDate (D:20260304050607)")) {
		t.Error("the date is missing")
	}
}

func TestTextIsInTheFile(t *testing.T) {
	page := contents(t, written(t, one(sample()), Options{}))[0]
	for _, words := range []string{`Größe (½) \ Ω → mm²`, "G"} {
		if !strings.Contains(page, "("+encoded(words)+") Tj") {
			t.Errorf("the page lacks %q", words)
		}
	}
}

func TestProperties(t *testing.T) {
	file := written(t, one(sample()), Options{Title: "Tern Quay", Description: "plan As found", Author: "A. Warden"})
	for name, words := range map[string]string{"Title": "Tern Quay", "Subject": "plan As found", "Author": "A. Warden", "Producer": "Clampline"} {
		if want := "/" + name + " (\xfe\xff" + encoded(words) + ")"; !bytes.Contains(file, []byte(want)) {
			t.Errorf("the properties lack %s", name)
		}
	}
}

// Nothing in a title turns letters round or acts on what shows it.
func TestPropertiesAreText(t *testing.T) {
	file := written(t, one(sample()), Options{Title: "fdp.\u202egnp\x1b"})
	if want := "/Title (\xfe\xff" + encoded(`fdp.\u202egnp\x1b`) + ")"; !bytes.Contains(file, []byte(want)) {
		t.Error("the title is not shown as text")
	}
}

// Each pattern draws what its strands say: width, ink and gap, in points.
func TestEachPatternIsDrawn(t *testing.T) {
	const points = 72 / 25.4
	two := func(v float64) string { return strconv.FormatFloat(v*points, 'f', 2, 64) }
	for _, dash := range []draw.Dash{draw.Solid, draw.Dashed, draw.Dotted, draw.Double, draw.Hatched, draw.LongDash} {
		pen := draw.Pen{Role: draw.RoleInk, Width: 1.5, Dash: dash}
		path := draw.Line(geom.Pt(0, 0), geom.Pt(40, 0))
		p := draw.NewPicture()
		p.Stroke(path, pen)
		page := contents(t, written(t, one(p), Options{}))[0]
		if got, want := strings.Count(page, "\nS\n"), len(pen.Strands(path)); got != want {
			t.Errorf("%s: %d lines, want %d", dash, got, want)
		}
		for _, strand := range pen.Strands(path) {
			pattern := "[] 0.00 d"
			if strand.Gap > 0 {
				pattern = "[" + two(strand.Ink) + " " + two(strand.Gap) + "] 0.00 d"
			}
			if !strings.Contains(page, two(strand.Width)+" w\n"+pattern) {
				t.Errorf("%s: no line %s wide of pattern %q in\n%s", dash, two(strand.Width), pattern, page)
			}
		}
	}
}

func TestFillsAndColours(t *testing.T) {
	palette := draw.Light()
	palette[draw.RoleAccentSoft].A = 51
	p := draw.NewPicture()
	p.Fill(draw.Circle(geom.Pt(0, 0), 3), draw.RoleAccentSoft)
	p.Fill(draw.Rectangle(geom.RectOf(geom.Pt(0, 0), geom.Pt(9, 9)), 0), draw.RoleHeld)
	file := written(t, one(p), Options{Palette: palette})
	page := contents(t, file)[0]
	if got := strings.Count(page, "\nf\n"); got != 2 {
		t.Errorf("%d paths are filled, want 2", got)
	}
	if got := strings.Count(page, " c\n"); got != 4 {
		t.Errorf("the circle has %d curves, want 4", got)
	}
	for _, want := range []string{"0.071 0.678 0.463 rg", "/GS1 gs", "/GS2 gs"} { // the green of Held; a fifth, and all again
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if !bytes.Contains(file, []byte("/ca 0.200")) {
		t.Error("no colour covers a fifth")
	}
}

// boxes returns the sizes of the pages in points.
func boxes(file []byte) []string {
	var out []string
	for _, found := range regexp.MustCompile(`/Type /Page\n/Parent 1 0 R\n(?:/MediaBox \[0 0 ([\d. ]+)\])?`).FindAllSubmatch(file, -1) {
		out = append(out, string(found[1]))
	}
	return out
}

func TestPages(t *testing.T) {
	file := written(t, []Page{{Picture: sample(), Paper: Letter}, {Picture: sample(), Paper: geom.Pt(297, 210)}, {Picture: draw.NewPicture(), Paper: Letter}}, Options{})
	// Letter is 612 by 792 points.
	if got, want := strings.Join(boxes(file), "; "), "612.00 792.00; 841.89 595.28; 612.00 792.00"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if !bytes.Contains(file, []byte("/Count 3")) {
		t.Error("the document does not count three pages")
	}
}

// A picture on a paper of its own lies where it says.
func TestOriginIsTheCornerOfThePaper(t *testing.T) {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(25.4, 25.4), geom.Pt(50.8, 25.4)), draw.Pen{Width: 1})
	page := contents(t, written(t, Pages(Letter, p), Options{}))[0]
	if want := "72.00 720.00 m\n144.00 720.00 l"; !strings.Contains(page, want) {
		t.Errorf("no line %q in\n%s", want, page)
	}
}

func TestTextAlignment(t *testing.T) {
	p := draw.NewPicture()
	const words = "Main switchboard"
	for i := range 3 {
		p.Text(draw.Text{At: geom.Pt(100, 20+10*float64(i)), Size: 4, Align: draw.Align(i), String: words})
	}
	page := contents(t, written(t, Pages(A4, p), Options{}))[0]
	width := draw.TextWidth(words, 4, false)
	for i, share := range []float64{0, 0.5, 1} {
		x, y := (100-share*width)*72/25.4, (297-20-10*float64(i))*72/25.4
		want := "BT " + strconv.FormatFloat(x, 'f', 2, 64) + " " + strconv.FormatFloat(y, 'f', 2, 64) + " Td"
		if !strings.Contains(page, want) {
			t.Errorf("%s: no text at %q", draw.Align(i), want)
		}
	}
}

// Nothing that a name or a coordinate can hold makes it panic.
func TestOddThings(t *testing.T) {
	for _, s := range []string{"", "\xff", "a\xe2", "\U0001f600 \U0010ffff", "\ufffe\uffff\x00", strings.Repeat("W", 3000), "\r\n()\\"} {
		for _, v := range []float64{0, -1e9, 1e9, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, 5e-324} {
			p := draw.NewPicture()
			p.Text(draw.Text{At: geom.Pt(v, v), Size: 3, String: s})
			p.Text(draw.Text{Size: v, String: s})
			p.FillStroke(draw.Circle(geom.Pt(v, 0), v), draw.RoleInk, draw.Pen{Width: v, Dash: draw.Double})
			p.Stroke(draw.Line(geom.Pt(v, v), geom.Pt(v, v)), draw.Pen{Width: 1, Dash: draw.Hatched})
			file := written(t, append(one(p), Pages(A4, p)...), Options{Title: s, Description: s, Author: s})
			if got := len(boxes(file)); got != 2 {
				t.Errorf("%q, %g: %d pages, want 2", s, v, got)
			}
			if got := boxes(file)[0]; got == "" || strings.HasPrefix(got, "0.00") {
				t.Errorf("%q, %g: a page of %q", s, v, got)
			}
			for _, page := range contents(t, file) {
				if strings.Contains(page, "NaN") || strings.Contains(page, "Inf") {
					t.Errorf("%q, %g: what is drawn is no number", s, v)
				}
			}
		}
	}
}

func TestRefused(t *testing.T) {
	for name, pages := range map[string][]Page{
		"no pages":    nil,
		"no width":    {{Picture: sample(), Paper: geom.Pt(0, 297)}},
		"not a paper": {{Picture: sample(), Paper: geom.Pt(math.NaN(), 297)}},
		"too large":   {{Picture: sample(), Paper: geom.Pt(6000, 297)}},
	} {
		if err := Write(io.Discard, pages, Options{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	err := Write(io.Discard, []Page{{Picture: sample(), Paper: A4}, {Picture: sample(), Paper: geom.Pt(0, 297)}}, Options{})
	if want := "page 2: a paper of 0 by 297 mm; use sides above 0 and up to 5080 mm"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestFontsAreNotAltered(t *testing.T) {
	before := [2][32]byte{sha256.Sum256(assets.FontRegular()), sha256.Sum256(assets.FontBold())}
	written(t, one(sample()), Options{})
	if after := [2][32]byte{sha256.Sum256(assets.FontRegular()), sha256.Sum256(assets.FontBold())}; after != before {
		t.Error("writing alters the fonts that every drawing is measured with")
	}
}

// A page of a few words is small: the fonts are cut down to what is used.
func TestFontsAreCutDown(t *testing.T) {
	if got := len(written(t, one(sample()), Options{})); got > 60_000 {
		t.Errorf("a small page takes %d bytes", got)
	}
}

// broken is a full disk.
type broken struct{}

var errFull = errors.New("no space left")

func (broken) Write([]byte) (int, error) { return 0, errFull }

func TestWriteReportsTheWritersError(t *testing.T) {
	if err := Write(broken{}, one(sample()), Options{}); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

func BenchmarkWrite(b *testing.B) {
	for b.Loop() {
		if err := Write(io.Discard, one(sample()), Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
