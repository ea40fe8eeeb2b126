package report

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/file/filetest"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

// drawn returns a drawing of a document by the hand rule.
func drawn(t *testing.T, doc *diagram.Document, paper page.Paper, c unit.Convention) Drawing {
	t.Helper()
	result, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	return Drawing{Document: doc, Result: result, Convention: c, Palette: Light(), DotsPerInch: 60, Paper: paper}
}

func laid(t *testing.T, d Drawing, format Format) Sheets {
	t.Helper()
	sheets, err := d.Sheets(format)
	if err != nil {
		t.Fatal(err)
	}
	return sheets
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

// Every demo on every paper, upright and across, in both conventions: nothing lies
// beyond the margins, no text is smaller than 6 points, and all of it is there.
func TestDemosOnPaper(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			for _, upright := range page.Papers() {
				for _, paper := range []page.Paper{upright, upright.Landscape()} {
					d := drawn(t, doc, paper, c)
					sheets := laid(t, d, PDF)
					name := fmt.Sprintf("%s on %s %g wide", doc.Info().Title, paper.Name, paper.Size.X)
					holds(t, name, sheets)
					if sheets.Points < leastPoints-1e-9 || sheets.Remark != "" {
						t.Errorf("%s: %.2f points, %q", name, sheets.Points, sheets.Remark)
					}
					isWhole(t, name, d, sheets)
				}
			}
		}
	}
}

// holds checks that all of the sheets lies within their margins and above the foot.
func holds(t *testing.T, name string, s Sheets) {
	t.Helper()
	within(t, name, geom.Rect{Max: s.Frame.Paper.Size}.Grow(-page.Margin*s.Frame.Paper.Enlarged()), s.Pages)
	for i, p := range s.Pages {
		if want := fmt.Sprintf("sheet %d of %d", i+1, len(s.Pages)); !slices.Contains(textsOf(p.Picture), want) {
			t.Errorf("%s: no %q", name, want)
		}
	}
}

// within checks that all of the pages lies in a frame.
func within(t *testing.T, name string, frame geom.Rect, pages []page.Page) {
	t.Helper()
	frame = frame.Grow(0.01)
	for i, p := range pages {
		for _, item := range p.Picture.Items() {
			bounds := item.Bounds
			if item.Shape != nil { // ends of lines are cut square, which its bounds don't know
				bounds = item.Shape.Path.Bounds()
			}
			if !frame.Holds(bounds) {
				t.Errorf("%s, sheet %d: %+v reaches %v beyond %v", name, i+1, item.Text, bounds, frame)
				return
			}
		}
	}
}

// isWhole checks that each text of the drawing is on a sheet, or its beginning on one
// and its end on another.
func isWhole(t *testing.T, name string, d Drawing, s Sheets) {
	t.Helper()
	l := layout{of: d}
	l.draw()
	var there []string
	for _, p := range s.Pages {
		there = append(there, textsOf(p.Picture)...)
	}
	for _, item := range l.picture.Items() {
		if item.Text == nil || slices.Contains(there, item.Text.String) {
			continue
		}
		head, tail := 0, 0
		for _, text := range there {
			if strings.HasPrefix(item.Text.String, text) {
				head = max(head, len(text))
			}
			if strings.HasSuffix(item.Text.String, text) {
				tail = max(tail, len(text))
			}
		}
		if head+tail < len(item.Text.String) {
			t.Errorf("%s: %q is on no sheet", name, item.Text.String)
		}
	}
}

// Sheets name their neighbours, each way, and the key map has all of them.
func TestSheetsNameTheirNeighbours(t *testing.T) {
	d := drawn(t, filetest.Demos(t)[0], page.Usual(unit.NorthAmerican).Landscape(), unit.NorthAmerican)
	d.Scale = 1.2
	sheets := laid(t, d, PDF)
	if sheets.Across < 2 || sheets.Down < 2 {
		t.Fatalf("%d by %d sheets are no test", sheets.Across, sheets.Down)
	}
	for i, p := range sheets.Pages {
		texts := textsOf(p.Picture)
		column, row := i%sheets.Across, i/sheets.Across
		for _, next := range []struct {
			sign        string
			column, row int
			last        bool // the sign stands behind the words
		}{{"◂", column - 1, row, false}, {"▸", column + 1, row, true}, {"▴", column, row - 1, false}, {"▾", column, row + 1, false}} {
			there := next.column >= 0 && next.column < sheets.Across && next.row >= 0 && next.row < sheets.Down
			words := fmt.Sprintf("match line: sheet %d", next.row*sheets.Across+next.column+1)
			want := next.sign + " " + words
			if next.last {
				want = words + " " + next.sign
			}
			if slices.Contains(texts, want) != there {
				t.Errorf("sheet %d: %q stands there %v, want %v", i+1, want, !there, there)
			}
		}
		for n := range sheets.Pages {
			if !slices.Contains(texts, fmt.Sprint(n+1)) {
				t.Errorf("sheet %d: the key map lacks sheet %d", i+1, n+1)
			}
		}
	}
}

// A scale is kept, said of where it makes text too small, and refused where it takes
// too many sheets; formats of one page get one as large as it needs.
func TestScale(t *testing.T) {
	doc, paper := filetest.Demos(t)[0], page.Usual(unit.IEC)
	for _, row := range []struct {
		format  Format
		scale   float64
		several bool
		remark  string
		err     string
	}{
		{PDF, 1, true, "", ""}, {PDF, 0.3, false, "the smallest text has 2.0 points", ""}, {PDF, 20, false, "", "sheets of A4 at a scale of 20; choose larger paper"},
		{PNG, 1, false, "does not fit on A4", ""}, {SVG, 0, false, "does not fit on A4", ""}, {DXF, 0.3, false, "2.0 points", ""},
	} {
		d := drawn(t, doc, paper, unit.IEC)
		d.Scale = row.scale
		sheets, err := d.Sheets(row.format)
		if row.err != "" {
			if err == nil || !strings.Contains(err.Error(), row.err) {
				t.Errorf("%s at %g: got %v, want %q", row.format, row.scale, err, row.err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if row.scale > 0 && sheets.Scale != row.scale || (len(sheets.Pages) > 1) != row.several || !strings.Contains(sheets.Remark, row.remark) || row.remark == "" && sheets.Remark != "" {
			t.Errorf("%s at %g: %d sheets at %g, %q", row.format, row.scale, len(sheets.Pages), sheets.Scale, sheets.Remark)
		}
		holds(t, string(row.format), sheets)
	}
}

// What the verdicts rest on stands on a sheet of its own where it would crowd the drawing.
func TestLongNotesHaveTheirOwnSheet(t *testing.T) {
	d := drawn(t, filetest.Demos(t)[1], page.Usual(unit.IEC).Landscape(), unit.IEC)
	for i := range 40 {
		d.Result.Surges = append(d.Result.Surges, analysis.SurgeResult{Surge: diagram.Surge{Name: fmt.Sprintf("case %d", i), Wave: diagram.RingWave, Path: diagram.LineToEarth, Voltage: 6000, Current: 500}})
		d.Result.Aside = append(d.Result.Aside, analysis.SetAside{Finding: analysis.Finding{What: "A finding"}, By: diagram.Aside{Reason: "as told", By: "N. N."}})
	}
	sheets := laid(t, d, PDF)
	holds(t, "notes", sheets)
	last := strings.Join(textsOf(sheets.Pages[len(sheets.Pages)-1].Picture), "\n")
	first := strings.Join(textsOf(sheets.Pages[0].Picture), "\n")
	if !strings.Contains(last, "At each place the worst") || strings.Contains(first, "At each place the worst") || !strings.Contains(first, "stands on the last sheet") {
		t.Errorf("the last sheet says\n%s\nand the first\n%s", last, first)
	}
}

// A plain drawing has the parts without what was found of them.
func TestPlain(t *testing.T) {
	d := drawn(t, filetest.Demos(t)[0], page.Paper{}, unit.NorthAmerican)
	d.Plain = true
	got := textsOf(laid(t, d, SVG).Pages[0].Picture)
	if !slices.Contains(got, "Main switchboard") || slices.Contains(got, "Unreached") || slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, "hand rule") || strings.Contains(s, " %") }) {
		t.Errorf("it says %q", got)
	}
}

// The title block says what the sheet does, and the date of the drawing where that has none.
func TestTitleBlock(t *testing.T) {
	doc := diagramtest.Building(20)
	issue := diagram.Issue{Firm: "Firm of your own", Address: "Harbour Row 3", Number: "E-1", Revision: "B"}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Site: "Quay", Author: "N. N.", Issue: issue}) })
	d := drawn(t, doc, page.Usual(unit.IEC), unit.IEC)
	d.Date = time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC)
	for date, want := range map[string]string{"": "2 Nov 2026", "Nov '26": "Nov '26"} {
		issue.Date = date
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Site: "Quay", Author: "N. N.", Issue: issue}) })
		got := textsOf(laid(t, d, PDF).Pages[0].Picture)
		for _, words := range []string{"Firm of your own, Harbour Row 3", "one-line diagram · plan As found · hand rule · " + want + ", revision B", "Site: Quay", "sheet E-1 · drawn by N. N."} {
			if !slices.Contains(got, words) {
				t.Errorf("it lacks %q", words)
			}
		}
	}
}

// 1 000 parts are laid out over sheets and written, the same each time.
func TestLargeDrawing(t *testing.T) {
	d := drawn(t, diagramtest.Building(1000), page.Papers()[1].Landscape(), unit.NorthAmerican)
	var first, again bytes.Buffer
	if err := d.Write(&first, PDF); err != nil {
		t.Fatal(err)
	}
	if err := d.Write(&again, PDF); err != nil || !bytes.Equal(first.Bytes(), again.Bytes()) {
		t.Errorf("two writings differ, or %v", err)
	}
	if sheets := laid(t, d, PDF); len(sheets.Pages) < 4 {
		t.Errorf("%d sheets are no test", len(sheets.Pages))
	}
}

// Cuts are in order, no piece is longer than a sheet takes, and they cross what is there
// as little as they can.
func TestCuts(t *testing.T) {
	words := []geom.Rect{{Min: geom.Pt(40, 0), Max: geom.Pt(60, 5)}, {Min: geom.Pt(100, 0), Max: geom.Pt(140, 5)}}
	crossed := func(x float64) float64 {
		n := 0.0
		for _, w := range words {
			if w.Min.X < x && x < w.Max.X {
				n++
			}
		}
		return n
	}
	for usable := 70.0; usable < 160; usable += 7 {
		count := int(200/usable) + 1
		got := cuts(0, 200, usable, count, crossed)
		if len(got) != count+1 || got[0] != 0 || got[count] != 200 {
			t.Fatalf("%g: got %v", usable, got)
		}
		for i := 1; i < len(got); i++ {
			if got[i]-got[i-1] > usable+1e-9 || got[i] <= got[i-1] {
				t.Errorf("%g: got %v", usable, got)
			}
			if crossed(got[i]) > 0 && usable > 75 {
				t.Errorf("%g: a cut at %g crosses words", usable, got[i])
			}
		}
	}
}

// Independent readers find nothing wrong with what is written of the demos.
func TestReadByOthers(t *testing.T) {
	check := func(name string, command ...string) {
		if out, err := exec.Command(command[0], command[1:]...).CombinedOutput(); err != nil || bytes.Contains(bytes.ToUpper(out), []byte("WARNING")) {
			t.Errorf("%s: %s: %v\n%s", name, command[0], err, out)
		}
	}
	const audit = "import ezdxf, sys; d = ezdxf.readfile(sys.argv[1]); a = d.audit(); l = [x.dxf.name for x in d.layers]; sys.exit(len(a.errors) + len(a.fixes) + sum(n not in l for n in ['bus', 'feeder', 'load', 'protector', 'text', 'page']))"
	python := slices.IndexFunc(pythons, func(p string) bool { return exec.Command(p, "-c", "import ezdxf").Run() == nil })
	_, qpdf := exec.LookPath("qpdf")
	if python < 0 && qpdf != nil {
		t.Skip("neither ezdxf nor qpdf is on this machine; “go run ./cmd/dev test” installs them")
	}
	for i, doc := range filetest.Demos(t) {
		d := drawn(t, doc, page.Usual(unit.IEC).Landscape(), unit.IEC)
		for _, format := range []Format{PDF, DXF} {
			var out bytes.Buffer
			if err := d.Write(&out, format); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(t.TempDir(), fmt.Sprint(i)+string(format))
			if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			switch {
			case format == PDF && qpdf == nil:
				check(doc.Info().Title, "qpdf", "--check", path)
			case format == DXF && python >= 0:
				check(doc.Info().Title, pythons[python], "-c", audit, path)
			}
		}
	}
}

var pythons = []string{"python3", "/usr/bin/python3"}

// A sheet spread over kilometres is drawn as small as a page may be, which is said.
func TestVeryWideDrawing(t *testing.T) {
	doc := diagramtest.Building(20)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for p := range doc.Snapshot().Parts() {
			p.At = p.At.Mul(300)
			tx.SetPart(p)
		}
	})
	d := drawn(t, doc, page.Paper{}, unit.IEC)
	var out bytes.Buffer
	if err := d.Write(&out, PDF); err != nil {
		t.Fatal(err)
	}
	if s := laid(t, d, PDF); s.Frame.Paper.Size.X > 5080 || s.Frame.Paper.Size.Y > 5080 || !strings.Contains(s.Remark, "hard to read") {
		t.Errorf("a page of %v, %q", s.Frame.Paper.Size, s.Remark)
	}
}
