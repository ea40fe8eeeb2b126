package report

import (
	"bytes"
	"compress/zlib"
	"context"
	"fmt"
	"image/png"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/page"
)

func drawing(t *testing.T) Drawing {
	t.Helper()
	doc := diagramtest.Building(20)
	result, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	return Drawing{Document: doc, Result: result, Palette: Light(), DotsPerInch: 60}
}

// Every drawing that leaves the program bears its title, the legend and the
// cautions.
func TestDrawingSaysWhatItIs(t *testing.T) {
	var out bytes.Buffer
	d := drawing(t)
	if err := d.Write(&out, SVG); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"Sheet without a title · one-line diagram · plan As found · hand rule", "Unreached", mark.Caution[:40]} {
		if !strings.Contains(out.String(), words) {
			t.Errorf("the drawing lacks %q", words)
		}
	}
}

// A drawing says what is set aside, by whom and why: up to eight of them by name.
func TestDrawingNamesWhatIsSetAside(t *testing.T) {
	d := drawing(t)
	for i := range 10 {
		d.Result.Aside = append(d.Result.Aside, analysis.SetAside{
			Finding: analysis.Finding{What: fmt.Sprintf("Finding %d", i)},
			By:      diagram.Aside{Reason: "as told", By: "A. Planner", Day: "2026-11-29"},
		})
	}
	got := d.notes()
	for words, want := range map[string]int{"Set aside: Finding ": 8, "Set aside: Finding 0: as told (A. Planner, 2026-11-29).": 1, "And 2 more are set aside.": 1} {
		if strings.Count(got, words) != want {
			t.Errorf("%q stands %d times, want %d, in\n%s", words, strings.Count(got, words), want, got)
		}
	}
	d.Result.Aside = d.Result.Aside[:8]
	if got := d.notes(); strings.Count(got, "Set aside: Finding ") != 8 || strings.Contains(got, "more are set aside") {
		t.Errorf("of eight: got\n%s", got)
	}
}

// A drawing of a transient names the surge cases, or most of them.
func TestDrawingNamesTheSurgeCases(t *testing.T) {
	cases := func(n int) []analysis.SurgeResult {
		var out []analysis.SurgeResult
		for i := range n {
			surge := diagram.Surge{Name: fmt.Sprintf("case %d", i+1), Wave: diagram.RingWave, Path: diagram.LineToEarth, Voltage: 6000, Current: 500}
			out = append(out, analysis.SurgeResult{Surge: surge})
		}
		return out
	}
	for _, row := range []struct {
		cases     int
		has, lack []string
	}{
		{0, nil, []string{"Surge case", "worst of them"}},
		{1, []string{"Surge case “case 1”: ring wave", "6 000 V open-circuit, 500 A short-circuit"}, []string{"worst of them"}},
		{2, []string{"“case 1”", "“case 2”", "worst of them"}, []string{"and "}},
		{6, []string{"“case 6”", "worst of them"}, []string{"more surge cases"}},
		{7, []string{"“case 6”", "and 1 more surge cases"}, []string{"“case 7”"}},
		{8, []string{"“case 6”", "and 2 more surge cases", "worst of them"}, []string{"“case 7”"}},
	} {
		d := drawing(t)
		d.Result.Basis, d.Result.Surges = analysis.Transient, cases(row.cases)
		var out bytes.Buffer
		if err := d.Write(&out, SVG); err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(out.String(), "\u00a0", " ")
		for _, words := range append(row.has, "plan As found · transient") {
			if !strings.Contains(text, words) {
				t.Errorf("%d cases: the drawing lacks %q", row.cases, words)
			}
		}
		for _, words := range row.lack {
			if strings.Contains(d.Cases(), words) {
				t.Errorf("%d cases: the drawing says %q", row.cases, words)
			}
		}
	}
}

// A PNG has the size of the SVG, which is in millimetres, at its dots per inch of 25.4
// mm; round what is drawn both leave the margin of a page.
func TestSizeOfADrawing(t *testing.T) {
	d := drawing(t)
	var vector bytes.Buffer
	if err := d.Write(&vector, SVG); err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`<svg[^>]*width="([0-9.]+)mm"[^>]*height="([0-9.]+)mm"`).FindStringSubmatch(vector.String())
	if found == nil {
		t.Fatalf("no size in %.200s", vector.String())
	}
	width, _ := strconv.ParseFloat(found[1], 64)
	height, _ := strconv.ParseFloat(found[2], 64)
	for _, dots := range []float64{25.4, 50.8} { // one and two pixels per millimetre
		d.DotsPerInch = dots
		var out bytes.Buffer
		if err := d.Write(&out, PNG); err != nil {
			t.Fatal(err)
		}
		size, err := png.DecodeConfig(&out)
		if err != nil {
			t.Fatal(err)
		}
		if w, h := width*dots/25.4, height*dots/25.4; math.Abs(float64(size.Width)-w) > 1 || math.Abs(float64(size.Height)-h) > 1 {
			t.Errorf("%g dots: got %d by %d, want about %.0f by %.0f", dots, size.Width, size.Height, w, h)
		}
	}
	d.DotsPerInch = 8 * 25.4 // letters of few pixels are set wider than they are
	if ink, want := inkFrom(t, d), int(8*page.Margin); ink < want-3 || ink > want+1 {
		t.Errorf("the first ink lies %d pixels from the edge, want about %d", ink, want)
	}
}

// inkFrom returns how many pixels lie between an edge and the first ink.
func inkFrom(t *testing.T, d Drawing) int {
	t.Helper()
	var out bytes.Buffer
	if err := d.Write(&out, PNG); err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	b := picture.Bounds()
	least := b.Dx()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, g, blue, _ := picture.At(x, y).RGBA(); r&g&blue != 0xffff {
				least = min(least, x-b.Min.X, y-b.Min.Y, b.Max.X-1-x, b.Max.Y-1-y)
			}
		}
	}
	return least
}

func TestDrawingAsPNG(t *testing.T) {
	var out bytes.Buffer
	d := drawing(t)
	if err := d.Write(&out, PNG); err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	if r, g, b, a := picture.At(0, 0).RGBA(); r != 0xffff || g != 0xffff || b != 0xffff || a != 0xffff {
		t.Errorf("the margin is %x %x %x %x, want white paper", r, g, b, a)
	}
}

// A PDF says the caution both on its page and in its properties.
func TestDrawingAsPDF(t *testing.T) {
	var out bytes.Buffer
	d := drawing(t)
	if err := d.Write(&out, PDF); err != nil {
		t.Fatal(err)
	}
	page := inflated(t, out.Bytes())
	for where, text := range map[string]string{"page": page, "file": out.String()} {
		for _, words := range []string{"plan As found", mark.Caution[:40]} {
			if !strings.Contains(text, wide(words)) {
				t.Errorf("the %s lacks %q", where, words)
			}
		}
	}
}

// inflated returns what is drawn on the first page of a PDF.
func inflated(t *testing.T, file []byte) string {
	t.Helper()
	_, rest, found := bytes.Cut(file, []byte("\nstream\n"))
	if !found {
		t.Fatal("the file has no page")
	}
	reader, err := zlib.NewReader(bytes.NewReader(rest))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(reader)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// wide returns plain letters as a PDF has them, two bytes to each.
func wide(words string) string {
	var out strings.Builder
	for _, letter := range []byte(words) {
		out.Write([]byte{0, letter})
	}
	return out.String()
}

func TestSheetTitle(t *testing.T) {
	doc := diagram.New()
	if got := SheetTitle(doc); got != "Sheet without a title" {
		t.Errorf("got %q", got)
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Title: "Fell Farm Dairy"}) })
	if got := SheetTitle(doc); got != "Fell Farm Dairy" {
		t.Errorf("got %q", got)
	}
}

func TestFormatOf(t *testing.T) {
	for path, want := range map[string]Format{"a.png": PNG, "b.SVG": SVG, "c.Pdf": PDF, "e.dxf": DXF, "c.jpg": "", "d": ""} {
		got, err := FormatOf(path)
		if got != want || (err != nil) != (want == "") {
			t.Errorf("%s: got %q, %v; want %q", path, got, err, want)
		}
	}
}
