package file_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/file"
)

// everything lists every record, so that two documents can be compared.
type everything struct {
	Info       diagram.Info
	Plans      []diagram.Plan
	Parts      []diagram.Part
	Feeders    []diagram.Feeder
	Protectors []diagram.Protector
	Surges     []diagram.Surge
}

func contents(doc *diagram.Document) everything {
	return everything{
		doc.Info(), doc.Plans(), slices.Collect(doc.Parts()),
		slices.Collect(doc.Feeders()), slices.Collect(doc.Protectors()), doc.Surges(),
	}
}

func write(t testing.TB, doc *diagram.Document) string {
	t.Helper()
	var out bytes.Buffer
	if err := file.Write(&out, doc); err != nil {
		t.Fatalf("write: %v", err)
	}
	return out.String()
}

func read(t testing.TB, text string) *diagram.Document {
	t.Helper()
	doc, err := file.Read(strings.NewReader(text))
	if err != nil {
		t.Fatalf("read: %v\n%s", err, text)
	}
	return doc
}

// sheet returns the text of a file with the members, which may be empty. The
// plan is there unless the members bring their own.
func sheet(members string) string {
	if !strings.Contains(members, `"plans"`) {
		members = `"plans": [{"id": "plan-1"}]` + comma(members)
	}
	return fmt.Sprintf(`{"format": "clampline", "version": 1, %s}`, members)
}

func comma(members string) string {
	if members == "" {
		return ""
	}
	return ",\n" + members
}
