package main

import (
	"os"
	"strings"
	"testing"
)

func TestVersionIsThatOfTheWindow(t *testing.T) {
	text, err := os.ReadFile("../../FyneApp.toml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), `Version = "`+version+`"`) {
		t.Errorf("FyneApp.toml does not say Version = %q", version)
	}
}
