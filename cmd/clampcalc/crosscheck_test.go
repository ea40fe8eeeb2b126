package main

import (
	"context"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/spice"
	"clampline/diagram"
)

// Every peak that surge prints is one that the deck measures, under a name that
// says its mode, and nothing else is.
func TestDeckMeasuresEveryPeak(t *testing.T) {
	for _, demo := range []string{"tern-quay", "fell-farm", "saltmarsh"} {
		s, err := new(source).open("../../assets/demo/" + demo + ".clampline")
		if err != nil {
			t.Fatal(err)
		}
		cases, err := s.solve(context.Background(), analysis.SurgesOf(s.doc)[:1])
		if err != nil {
			t.Fatal(err)
		}
		c := cases[0]
		type place struct {
			bus  int
			mode string
		}
		measured := map[place]bool{}
		for _, m := range spice.Measures(c.Circuit.Network) {
			ours(c, m) // panics where there is no such number
			if m.Kind == spice.PeakVolts {
				measured[place{m.Bus, m.Mode}] = true
				if mode := strings.ToLower(strings.ReplaceAll(m.Mode, "-", "")); !strings.HasPrefix(m.Name, "peak_"+mode+"_") {
					t.Errorf("%s: %s is of the mode %s", demo, m.Name, m.Mode)
				}
			}
		}
		printed := 0
		judgedOnes, others := rowsOf(s, c)
		for _, row := range append(judgedOnes, others...) {
			bus := slices.Index(c.Circuit.Places, row.Place)
			for _, peak := range row.peaks {
				printed++
				if !measured[place{bus, peak.Mode.String()}] {
					t.Errorf("%s: %s %s is not measured", demo, row.name, peak.Mode)
				}
			}
		}
		if printed == 0 || printed != len(measured) {
			t.Errorf("%s: %d peaks are printed, %d are measured", demo, printed, len(measured))
		}
	}
}

func TestSurgeChoice(t *testing.T) {
	doc := diagram.New()
	for _, test := range []struct {
		word string
		want int // how many cases; 0 where there is none of the name
	}{{"", 3}, {"Supply, ring wave", 1}, {"SUPPLY, RING WAVE", 1}, {"ring", 0}} {
		choice := surgeChoice{word: test.word}
		got, err := choice.of(doc)
		if len(got) != test.want || (err != nil) != (test.want == 0) {
			t.Errorf("%q: got %d cases, %v, want %d", test.word, len(got), err, test.want)
		}
	}
}
