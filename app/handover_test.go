package app

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"clampline/analysis/report"
	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// handingOver returns the dialog on the first demo.
func handingOver(t *testing.T) (*App, *handOver) {
	t.Helper()
	a := start(t)
	a.workOn(filetest.Demos(t)[0], "")
	h := a.openHandOver()
	return a, h
}

// All that is handed over can be looked at and written in each of its formats.
func TestHandOver(t *testing.T) {
	a, h := handingOver(t)
	begins := map[report.Format]string{report.PDF: "%PDF-", report.PNG: "\x89PNG", report.SVG: "<?xml", report.DXF: "0\nSECTION", report.XLSX: "PK", report.CSV: ""}
	for _, w := range h.wares {
		h.what.SetSelected(w.title)
		h.plan.SetSelected("Upgrade A")
		if h.order == nil {
			t.Fatalf("%s: %s", w.name, h.told.Text)
		}
		if tables := w.name == "schedule"; (len(h.pages) == 0) != tables {
			t.Errorf("%s has %d pages", w.name, len(h.pages))
		}
		if len(h.pages) > 0 && (h.preview.Image.Bounds().Dx() < 200 || h.number.Text == "") {
			t.Errorf("%s: a page is shown as %v, %q", w.name, h.preview.Image.Bounds(), h.number.Text)
		}
		for _, f := range w.formats {
			path := filepath.Join(t.TempDir(), "out"+string(f))
			h.writeTo(path, "failed")
			if a.asking() != h.question {
				t.Errorf("%s as %s: something is asked or told", w.name, f)
			}
			got, err := os.ReadFile(path)
			if err != nil || !bytes.HasPrefix(got, []byte(begins[f])) {
				t.Errorf("%s as %s begins with %.9q (%v)", w.name, f, got, err)
			}
		}
	}
}

// Where the sheet names no date of issue, that of the plan stands at the head.
func TestHandOverIsDated(t *testing.T) {
	a, h := handingOver(t)
	plans := a.editor.Document().Plans()
	plan := plans[1]
	plan.Date = "2026-11-02"
	if err := a.editor.Change("date", func(tx *diagram.Tx) error { tx.SetPlan(plan); return nil }); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "out.svg")
	h.what.SetSelected("Drawing")
	h.plan.SetSelected("Upgrade A")
	h.writeTo(path, "failed")
	if got, err := os.ReadFile(path); err != nil || !bytes.Contains(got, []byte("2 Nov 2026")) {
		t.Errorf("the drawing lacks the date of its plan (%v)", err)
	}
	if got := fileWords(`A/B: "x"`); got != "A-B- -x-" {
		t.Errorf("in the name of a file it is %q", got)
	}
}

// Pages are turned within their number.
func TestPagesAreTurned(t *testing.T) {
	_, h := handingOver(t)
	h.what.SetSelected("Proposal")
	h.plan.SetSelected("Upgrade A")
	if len(h.pages) < 2 || h.before.Visible() || !h.after.Visible() {
		t.Fatalf("%d pages, back %t, on %t", len(h.pages), h.before.Visible(), h.after.Visible())
	}
	for range len(h.pages) + 2 {
		h.after.OnTapped()
	}
	if h.at != len(h.pages)-1 || h.after.Visible() {
		t.Errorf("it stands at page %d of %d", h.at+1, len(h.pages))
	}
	first := len(h.pages)
	h.paper.SetSelected("A3")
	if h.at != 0 || len(h.pages) > first {
		t.Errorf("on larger paper it stands at page %d of %d", h.at+1, len(h.pages))
	}
}

// What there is nothing of says so, and cannot be written.
func TestNothingToHandOver(t *testing.T) {
	_, h := handingOver(t)
	h.what.SetSelected("Proposal")
	h.plan.SetSelected("As found")
	if !strings.Contains(h.told.Text, "records the building as found") {
		t.Errorf("it says %q", h.told.Text)
	}
	for _, b := range []*look.Button{h.write, h.print} {
		if !b.Disabled() {
			t.Errorf("%q can be pressed", b.Text)
		}
	}
}

// The ending that is typed must be one of the formats.
func TestHandOverKeepsToItsFormats(t *testing.T) {
	a, h := handingOver(t)
	h.what.SetSelected("Schedule of protectors")
	path := filepath.Join(t.TempDir(), "out.pdf")
	h.writeTo(path, "Schedule not written")
	says(t, a, "Schedule not written")
	upper := filepath.Join(t.TempDir(), "OUT.CSV")
	if h.writeTo(upper, "failed"); !strings.Contains(h.told.Text, "Written to") {
		t.Errorf("an ending in capitals: it says %q", h.told.Text)
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("something was written")
	}
}
