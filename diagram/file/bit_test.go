package file

import (
	"bytes"
	"testing"

	"clampline/diagram/diagramtest"
)

// TestEveryChangedBitIsNoticed turns each bit of a saved sheet over: it is
// refused, or its checksum does not fit.
func TestEveryChangedBitIsNoticed(t *testing.T) {
	text, err := encode(diagramtest.Building(1), true)
	if err != nil {
		t.Fatal(err)
	}
	if _, got, err := readSealed(bytes.NewReader(text)); got != sealWhole || err != nil {
		t.Fatalf("as it was saved: %v, %v", got, err)
	}
	warned := 0
	for at := range text {
		for bit := range 8 {
			text[at] ^= 1 << bit
			_, got, err := readSealed(bytes.NewReader(text))
			if err == nil && got != sealBroken {
				t.Fatalf("byte %d, now %q, is taken in silence", at, text[at])
			}
			if err == nil {
				warned++
			}
			text[at] ^= 1 << bit
		}
	}
	if warned < len(text) {
		t.Errorf("only %d of %d changed bits are found by the checksum", warned, 8*len(text))
	}
}
