package main

import (
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// Help does not know the convention of a sheet: where it says earth it says ground
// as well. The sources keep the names of their subjects.
func TestHelpSaysGround(t *testing.T) {
	looked := 0
	var walk func(*cobra.Command)
	walk = func(cmd *cobra.Command) {
		if cmd.Name() == "sources" {
			return
		}
		for _, text := range []string{cmd.Short, cmd.Long, cmd.Flags().FlagUsages()} {
			looked++
			plain := strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "ground (earth)", "")
			if word := regexp.MustCompile(`(?i)\b(un)?earth(ed|ing)?\b`).FindString(plain); word != "" {
				t.Errorf("%s: %q in %q", cmd.Name(), word, text)
			}
		}
		for _, child := range cmd.Commands() {
			walk(child)
		}
	}
	walk(rootCommand(io.Discard, io.Discard))
	if looked < 30 {
		t.Errorf("only %d texts", looked)
	}
}
