package diagramtest

import (
	"testing"

	"clampline/diagram"
)

// Sheet returns a new document with what is drawn on it, in one transaction.
func Sheet(t testing.TB, draw func(*diagram.Tx)) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	Edit(t, doc, draw)
	return doc
}

// Edit changes the document in one transaction, which must be valid.
func Edit(t testing.TB, doc *diagram.Document, change func(*diagram.Tx)) {
	t.Helper()
	if _, err := doc.Edit(func(tx *diagram.Tx) error { change(tx); return nil }); err != nil {
		t.Fatal(err)
	}
}
