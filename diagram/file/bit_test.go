package file

import (
	"bytes"
	"io"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// TestEveryChangedBitIsNoticed turns each bit of a saved sheet over: it is
// refused, or its checksum does not fit.
func TestEveryChangedBitIsNoticed(t *testing.T) {
	t.Run("sheet", func(t *testing.T) {
		text, err := encode(diagramtest.Building(1), true)
		if err != nil {
			t.Fatal(err)
		}
		turnEachBit(t, text, func(r io.Reader) (seal, error) { _, got, err := readSealed(r); return got, err })
	})
	t.Run("library", func(t *testing.T) {
		text, err := encodeLibrary(&Library{Protectors: []diagram.Protector{{ID: "own-1", Name: "Type 2", In: 20000}}}, true)
		if err != nil {
			t.Fatal(err)
		}
		turnEachBit(t, text, func(r io.Reader) (seal, error) { _, got, err := readSealedLibrary(r); return got, err })
	})
}

func turnEachBit(t *testing.T, text []byte, read func(io.Reader) (seal, error)) {
	t.Helper()
	if got, err := read(bytes.NewReader(text)); got != sealWhole || err != nil {
		t.Fatalf("as it was saved: %v, %v", got, err)
	}
	warned := 0
	for at := range text {
		for bit := range 8 {
			text[at] ^= 1 << bit
			got, err := read(bytes.NewReader(text))
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
