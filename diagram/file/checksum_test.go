package file_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

// savedText saves a small building and returns its path and text.
func savedText(t *testing.T) (path, text string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "farm.clampline")
	if err := filetest.Save(path, diagramtest.Building(1)); err != nil {
		t.Fatal(err)
	}
	out, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return path, string(out)
}

// warning opens the text as a file and returns what is said of it: why it cannot
// be read, or what is doubtful.
func warning(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	opened, err := file.Open(path)
	if err != nil {
		return err.Error()
	}
	return opened.Warning
}

func TestChecksumAndEditing(t *testing.T) {
	path, text := savedText(t)
	line := ""
	for l := range strings.Lines(text) {
		if strings.Contains(l, `"checksum"`) {
			line = l
		}
	}
	edited := strings.Replace(text, `"name": "`, `"name": "Old `, 1)
	if line == "" || edited == text {
		t.Fatalf("the text has no checksum or no name:\n%s", text)
	}
	for _, test := range []struct {
		name, text string
		warned     bool
	}{
		{"line ends of another system", strings.ReplaceAll(text, "\n", "\r\n"), false},
		{"a byte order mark", "\uFEFF" + text, false},
		{"edited by hand", edited, true},
		{"edited, and the line taken out", strings.Replace(edited, line, "", 1), false},
		{"a broken checksum", strings.Replace(text, "sha256 ", "sha256 x", 1), true},
		{"an empty checksum", strings.Replace(text, line, "\"checksum\": \"\",\n", 1), true},
		{"a checksum that is no text", strings.Replace(text, line, "\"checksum\": 7,\n", 1), true},
		{"under another name", strings.Replace(text, `"checksum"`, `"checksun"`, 1), true},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := warning(t, path, test.text); (got != "") != test.warned {
				t.Errorf("got %q", got)
			}
		})
	}
	if err := os.WriteFile(path+".bak", []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := warning(t, path, edited); !strings.Contains(got, "farm.clampline.bak") || !strings.Contains(got, `take the line "checksum" out`) {
		t.Errorf("the warning names no backup or no way on: %s", got)
	}
	opened, err := file.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := filetest.Save(path, opened.Document); err != nil {
		t.Fatal(err)
	}
	if opened, err = file.Open(path); err != nil || opened.Warning != "" || strings.Contains(opened.Document.Info().Extra, "sha256") {
		t.Errorf("saved again: %+v, %v", opened, err)
	}
}

// A file of which an object has more members than any sheet is refused soon.
func TestReadStopsAtTooManyMembers(t *testing.T) {
	var out strings.Builder
	out.WriteString(`{"format": "clampline", "version": 1, "plans": [{"id": "a"}]`)
	for i := range 1_800_000 {
		out.WriteString(`,"`)
		for n := i; n > 0; n /= 26 {
			out.WriteByte(byte('a' + n%26))
		}
		out.WriteString(`":0`)
	}
	out.WriteString("}")
	_, err := file.Read(strings.NewReader(out.String()))
	if err == nil || !strings.Contains(err.Error(), "more than 10000 members") {
		t.Errorf("got %v", err)
	}
}
