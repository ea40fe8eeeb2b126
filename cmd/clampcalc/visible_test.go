package main

import (
	"encoding/json"
	"strings"
	"testing"
)

// Whatever the pieces in which a text comes, what arrives is the same, and
// nothing of it acts on the terminal.
func TestVisibleInPieces(t *testing.T) {
	const in = "Büro \x1b[31m\r\nrow \u202e€\rx\n\xff"
	const want = "Büro \\x1b[31m\r\nrow \\u202e€\\x0dx\n\\xff"
	for size := 1; size <= len(in); size++ {
		var out strings.Builder
		v := &visible{to: &out}
		for at := 0; at < len(in); at += size {
			piece := in[at:min(at+size, len(in))]
			if n, err := v.Write([]byte(piece)); n != len(piece) || err != nil {
				t.Fatal(n, err)
			}
		}
		v.end()
		if out.String() != want {
			t.Errorf("in pieces of %d: got %q, want %q", size, out.String(), want)
		}
	}
}

// JSON stands for the same text as before.
func TestVisibleKeepsJSON(t *testing.T) {
	const name = "a\x1b\u202eb\u0085\x7f"
	text, err := json.Marshal(name)
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	v := &visible{to: &out}
	_, _ = v.Write(text)
	v.end()
	var got string
	if err := json.Unmarshal([]byte(out.String()), &got); err != nil || got != name {
		t.Errorf("%s: got %q, %v", out.String(), got, err)
	}
	if strings.ContainsAny(out.String(), "\u202e\u0085\x7f") {
		t.Errorf("got %q", out.String())
	}
}
