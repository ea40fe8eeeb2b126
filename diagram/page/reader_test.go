package page

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"clampline/diagram/unit"
)

// read runs a program of others on a document and returns what it prints. The test
// skips where the program is missing.
func read(t *testing.T, d Document, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skipf("%s is not on this machine; “go run ./cmd/dev test” installs it", program)
	}
	path := filepath.Join(t.TempDir(), "page.pdf")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.WritePDF(f, time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	for i, arg := range args {
		if arg == "FILE" {
			args[i] = path
		}
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return string(out)
}

func full() Document {
	return Document{Frame: Frame{Paper: Usual(unit.IEC), Head: head(), Caution: caution}, Blocks: append(blocks(long(2, 200)), table())}
}

// A reader of others finds nothing wrong with the file.
func TestPDFIsClean(t *testing.T) {
	if got := read(t, full(), "qpdf", "--check", "FILE"); strings.Contains(strings.ToUpper(got), "WARNING") || !strings.Contains(got, "No syntax or stream encoding errors") {
		t.Errorf("got %s", got)
	}
}

// A reader of others reads the words that were put in, in each script that it does not
// turn round, and what the document says of itself.
func TestPDFReadsAsWritten(t *testing.T) {
	rows := [][]string{{"SPD-1", "Größe 4 mm² Ω"}, {"SPD-2", "щит 1 πίνακας"}, {"SPD-3", "վահանակ ტაბლო"}}
	d := Document{Frame: Frame{Paper: Usual(unit.IEC), Head: head(), Caution: caution}, Blocks: []Block{
		Heading{Text: "Schedule"}, Table{Columns: []Column{{Title: "tag"}, {Title: "bus", Weight: 1}}, Rows: rows},
		Paragraph{Text: strings.Repeat("Each inch beyond these lets about 25 V more through. ", 130)},
	}}
	squeezed := func(s string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) {
				return -1
			}
			return r
		}, s)
	}
	text := squeezed(read(t, d, "pdftotext", "-raw", "FILE", "-"))
	for _, want := range []string{"SPD-1Größe4mm²Ω", "SPD-2щит1πίνακας", "SPD-3վահանակტაბლო", "page1of2", "page2of2", squeezed(head().Title), squeezed(caution)} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q", want)
		}
	}
	if got := strings.Count(text, "lets"); got != 130 {
		t.Errorf("a sentence that stands there 130 times is read %d times", got)
	}
	about := read(t, d, "pdfinfo", "FILE")
	for _, want := range []string{"Surge protection, Tern Quay Marine Laboratory · proposal", "N. N., Firm of your own", "Nov  2"} {
		if !strings.Contains(about, want) {
			t.Errorf("it does not say of itself %q:\n%s", want, about)
		}
	}
}
