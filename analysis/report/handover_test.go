package report

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/geom"
	"clampline/diagram/page"
	"clampline/diagram/unit"
)

var issued = time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC)

// workOf returns a plan of a document by the hand rule, solved for all that is handed
// over; of several plans the second.
func workOf(t testing.TB, doc *diagram.Document, c unit.Convention) *Work {
	t.Helper()
	plans := doc.Plans()
	plan := plans[min(1, len(plans)-1)].ID
	result, err := assess.Run(context.Background(), doc, plan)
	if err != nil {
		t.Fatal(err)
	}
	w := &Work{Document: doc, Result: result, Convention: c, Date: issued}
	if err := w.Solve(context.Background(), &assess.Engine{}, Takes{Before: true, Plans: true, Purchases: true}, nil); err != nil {
		t.Fatal(err)
	}
	return w
}

func deliverable(t testing.TB, name string) Deliverable {
	t.Helper()
	all := Deliverables()
	at := slices.IndexFunc(all, func(d Deliverable) bool { return d.Name == name })
	if at < 0 {
		t.Fatalf("there is no %s", name)
	}
	return all[at]
}

func written(t testing.TB, name string, w *Work, format Format) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := deliverable(t, name).Write(&out, w, format); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// readBy runs a program of others on a file and returns what it prints. The test skips
// where the program is missing.
func readBy(t *testing.T, content []byte, ending Format, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skipf("%s is not on this machine; “go run ./cmd/dev test” installs it", program)
	}
	path := filepath.Join(t.TempDir(), "file"+string(ending))
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, arg := range args {
		if arg == "FILE" {
			args[i] = path
		}
	}
	out, err := exec.Command(program, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	return string(out)
}

// pdfText returns what pdftotext reads in a PDF, each run of spaces as one.
func pdfText(t *testing.T, content []byte) string {
	t.Helper()
	return strings.Join(strings.Fields(readBy(t, content, PDF, "pdftotext", "-enc", "UTF-8", "FILE", "-")), " ")
}

// plain is a text as pdfText has it.
func plain(text string) string { return strings.Join(strings.Fields(text), " ") }

// The same sheet and date give the same bytes, in every format; another date others.
func TestSameBytes(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		w := workOf(t, doc, unit.NorthAmerican)
		later := *w
		later.Date = issued.AddDate(0, 0, 1)
		for _, d := range Deliverables() {
			for _, format := range d.Formats {
				first := written(t, d.Name, w, format)
				for range 3 {
					if !bytes.Equal(written(t, d.Name, workOf(t, doc, unit.NorthAmerican), format), first) {
						t.Errorf("%s, %s%s: two runs differ", doc.Info().Title, d.Name, format)
					}
				}
				if format != CSV && bytes.Equal(written(t, d.Name, &later, format), first) {
					t.Errorf("%s, %s%s: the date is not in it", doc.Info().Title, d.Name, format)
				}
			}
		}
	}
}

// No PDF of any demo, in either convention, has a fault that a reader of others finds.
func TestHandedOverPDFsAreClean(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			w := workOf(t, doc, c)
			for _, name := range []string{"proposal", "worksheets", "findings"} {
				got := readBy(t, written(t, name, w, PDF), PDF, "qpdf", "--check", "FILE")
				if strings.Contains(strings.ToUpper(got), "WARNING") || !strings.Contains(got, "No syntax or stream encoding errors") {
					t.Errorf("%s, %s: got %s", doc.Info().Title, name, got)
				}
			}
		}
	}
}

// A format that it has not is refused, and the plan that records the building has no
// work in it.
func TestRefusals(t *testing.T) {
	w := workOf(t, filetest.Demos(t)[0], unit.NorthAmerican)
	if err := deliverable(t, "proposal").Write(&bytes.Buffer{}, w, XLSX); err == nil || !strings.Contains(err.Error(), "use .pdf") {
		t.Errorf("a proposal as XLSX: %v", err)
	}
	found, err := assess.Run(context.Background(), w.Document, w.Document.Plans()[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	asFound := &Work{Document: w.Document, Result: found}
	if err := asFound.Solve(context.Background(), &assess.Engine{}, Takes{Before: true, Plans: true}, nil); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"proposal", "worksheets"} {
		if err := deliverable(t, name).Write(&bytes.Buffer{}, asFound, PDF); err == nil || !strings.Contains(err.Error(), "choose another plan") {
			t.Errorf("%s of the building as found: %v", name, err)
		}
	}
}

// BenchmarkHandOver hands 1 000 parts over, with all that is solved for that: wanted are
// less than 1 s for the schedule and 5 s for the proposal.
func BenchmarkHandOver(b *testing.B) {
	doc := diagramtest.Building(1000)
	for _, row := range []struct {
		name   string
		format Format
	}{{"schedule", XLSX}, {"schedule", CSV}, {"proposal", PDF}} {
		b.Run(row.name+string(row.format), func(b *testing.B) {
			d := deliverable(b, row.name)
			for b.Loop() {
				result, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
				if err != nil {
					b.Fatal(err)
				}
				w := &Work{Document: doc, Result: result, Date: issued}
				if err := w.Solve(context.Background(), &assess.Engine{}, d.Takes, nil); err != nil {
					b.Fatal(err)
				}
				written(b, row.name, w, row.format)
			}
		})
	}
}

// With names, notes and reasons of hundreds of letters, in every script, nothing that is
// handed over reaches over the margins.
func TestHandedOverStaysWithinMargins(t *testing.T) {
	doc := filetest.Demos(t)[0].Snapshot()
	long := strings.Repeat("Überlanger Name щит πίνακας ", 12) + strings.Repeat("W", 200)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for part := range doc.Snapshot().Parts() {
			if part.Kind != diagram.Note {
				part.Name = string(part.ID) + " " + long
				part.Note = long
				tx.SetPart(part)
			}
		}
		for p := range doc.Snapshot().Protectors() {
			p.Name, p.Note, p.Catalogue = string(p.ID)+" "+long, long, long
			tx.SetProtector(p)
		}
		info := doc.Info()
		info.Title, info.Note, info.Issue.Firm = long, long, long
		tx.SetInfo(info)
	})
	for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
		for _, paper := range page.Papers() {
			w := workOf(t, doc, c)
			w.Paper = paper
			frame := geom.Rect{Max: paper.Size}.Grow(-page.Margin * paper.Enlarged())
			within(t, "proposal on "+paper.Name, frame, w.proposal().Pages())
			within(t, "findings on "+paper.Name, frame, w.findings().Pages())
			frame.Min.Y, frame.Max.Y = frame.Min.Y-2*paper.Enlarged(), frame.Max.Y+2*paper.Enlarged() // tight
			_, pages := w.workSheets(w.boards())
			within(t, "work sheets on "+paper.Name, frame, pages)
		}
	}
}

// Whatever a sheet holds, each of its plans can be handed over or is refused with what to
// do, in every format, and no text has a number that is none.
func TestRandomSheetsAreHandedOver(t *testing.T) {
	for seed := range uint64(10) {
		doc := diagramtest.Random(diagramtest.Rand(seed), 25)
		for _, plan := range doc.Plans() {
			result, err := assess.Run(context.Background(), doc, plan.ID)
			if err != nil {
				t.Fatal(err)
			}
			w := &Work{Document: doc, Result: result, Convention: unit.Convention(seed % 2)}
			if err := w.Solve(context.Background(), &assess.Engine{}, Takes{Before: true, Plans: true, Purchases: true}, nil); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			for _, d := range Deliverables() {
				for _, format := range d.Formats {
					var out bytes.Buffer
					if err := d.Write(&out, w, format); err != nil && !strings.Contains(err.Error(), "choose another plan") {
						t.Errorf("seed %d, %s%s: %v", seed, d.Name, format, err)
					}
					if format == CSV && diagramtest.AbsurdText(out.String()) != "" {
						t.Errorf("seed %d, %s: %s", seed, d.Name, diagramtest.AbsurdText(out.String()))
					}
				}
			}
			frame := geom.Rect{Max: page.Usual(w.Convention).Size}.Grow(2 - page.Margin)
			_, pages := w.workSheets(w.boards())
			within(t, "work sheets", frame, pages)
			if !w.records() {
				within(t, "proposal", frame, w.proposal().Pages())
			}
			within(t, "findings", frame, w.findings().Pages())
		}
	}
}
