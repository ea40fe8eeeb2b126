package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/diagram/unit"
)

const sourcesLong = `What the findings, workings and assumptions rest on: each source with what is taken from
it, and whether it was read, recalled from memory or is common practice.

`

// sourcesTopic is a topic of help without anything to run.
func sourcesTopic() *cobra.Command {
	return &cobra.Command{Use: "sources", Short: "what the rules and figures are from, and how far it can be relied on", Long: sourcesLong + sourceList()}
}

func sourceList() string {
	var out strings.Builder
	for _, s := range analysis.Sources() {
		fmt.Fprintf(&out, "%s\n    %s\n    [%s]\n", unit.Wrapped(s.Name, tableWidth), strings.ReplaceAll(unit.Wrapped(s.Taken, tableWidth-4), "\n", "\n    "), s.Standing)
	}
	return out.String()
}
