package survey

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/unit"
)

// laidOut writes what is on a page: texts with their place and size, all else with
// the rectangle of its ink, mm.
func laidOut(p *draw.Picture) string {
	var out strings.Builder
	for _, item := range p.Items() {
		b := item.Bounds
		if item.Text != nil {
			fmt.Fprintf(&out, "%.1f,%.1f size %.2f: %s\n", item.Text.At.X, item.Text.At.Y, item.Text.Size, item.Text.String)
			continue
		}
		fmt.Fprintf(&out, "%.1f,%.1f to %.1f,%.1f\n", b.Min.X, b.Min.Y, b.Max.X, b.Max.Y)
	}
	return out.String()
}

// Texts that are too long shrink and are cut, and protectors for which there is no room stand
// on a page of their own; a board of which nothing is known has room for all of it.
func TestPagesOfMuchAndOfNothing(t *testing.T) {
	much := Pages(crowded(t, 6))
	doc := clinic(t)
	if _, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "panel-9", Kind: diagram.Panel, Name: "Store"})
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	nothing := sheetsOf(t, doc, "panel-9")
	drawtest.Text(t, "much.txt", laidOut(much[0])+"\n"+laidOut(much[1]))
	drawtest.Text(t, "nothing.txt", laidOut(Pages(nothing)[0]))
}

// TestTableText writes the whole table of the laboratory, and that of no boards.
func TestTableText(t *testing.T) {
	var out strings.Builder
	for _, sheets := range [][]Sheet{sheetsOf(t, filled(t), "switchboard-1", "panel-5", "panel-4", "panel-6"), sheetsOf(t, clinic(t)), nil} {
		if err := WriteCSV(&out, sheets); err != nil {
			t.Fatal(err)
		}
	}
	text := strings.ReplaceAll(out.String(), "\r\n", "\n")
	if strings.Contains(text, "\r") || strings.Count(out.String(), "\ufeff") != 3 {
		t.Error("a line ends otherwise, or a table has no mark")
	}
	drawtest.Text(t, "table.txt", strings.ReplaceAll(text, "\ufeff", "(mark)\n"))
}

// One sheet, of a page and one for the wiring, has the paper and the title of its convention.
func TestPDFOfOneSheet(t *testing.T) {
	for paper, sheets := range map[string][]Sheet{"612.00 792.00": sheetsOf(t, laboratory(t), "panel-5"), "595.28 841.89": sheetsOf(t, clinic(t))} {
		var out strings.Builder
		if err := WritePDF(&out, sheets); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(out.String(), "/MediaBox [0 0 "+paper+"]") || !strings.Contains(out.String(), "/Count 2") {
			t.Errorf("not two pages of %s points", paper)
		}
	}
}

// full is a disk that takes so many bytes.
type full struct{ left int }

func (f *full) Write(p []byte) (int, error) {
	if f.left -= len(p); f.left < 0 {
		return 0, errors.New("the disk is full")
	}
	return len(p), nil
}

// A table that cannot be written whole is an error, wherever the disk is full, and one
// that is too large to be a survey is refused with its bound.
func TestTablesThatFail(t *testing.T) {
	sheets := sheetsOf(t, laboratory(t))
	var whole strings.Builder
	if err := WriteCSV(&whole, sheets); err != nil {
		t.Fatal(err)
	}
	for _, left := range []int{0, 3, 2000, whole.Len() - 1} {
		if err := WriteCSV(&full{left}, sheets); err == nil || err.Error() != "the disk is full" {
			t.Errorf("%d bytes of %d: got %v", left, whole.Len(), err)
		}
	}
	if err := WriteCSV(&full{whole.Len()}, sheets); err != nil {
		t.Error(err)
	}
	doc := laboratory(t)
	text := "Panel id\n" + strings.Repeat("x", 16<<20)
	if _, err := ReadCSV(strings.NewReader(text), doc, diagram.FirstPlan, analysis.Trace(doc), unit.NorthAmerican); err == nil || !strings.Contains(err.Error(), "more than 16 MB") {
		t.Errorf("a table of more than 16 MB: got %v", err)
	}
}
