package assess

import (
	"cmp"
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// mostWork is how many surges times parts are solved of one sheet: on two cores some
// three quarters of a minute (BenchmarkTransient: 1.5 ms for a part and surge on one).
const mostWork = 60_000

// bound leaves out places of the cases that arrive at many where the building is so
// large that nobody would wait for all of them: first those of ordinary loads, then those of
// boards, and last of loads that make higher surges. It tells of what is left out.
func bound(doc *diagram.Document, cases []posed) []analysis.Finding {
	type place struct{ of, at int }
	weight := map[place]int{}
	var places []place
	all := 0
	for i, c := range cases {
		all += len(c.places)
		for at, in := range c.places {
			if c.surge.Places != "" {
				p := place{i, at}
				places, weight[p] = append(places, p), weightOf(doc, in.Surge.Part)
			}
		}
	}
	parts, _, _ := doc.Count()
	if extract.HasUnstated(doc) { // each is solved twice
		parts *= 2
	}
	more := all - mostWork/max(1, parts)
	if more <= 0 || len(places) == 0 {
		return nil
	}
	slices.SortStableFunc(places, func(a, b place) int { return cmp.Compare(weight[b], weight[a]) })
	kept := max(0, len(places)-more)
	for _, p := range places[kept:] {
		delete(weight, p)
	}
	for i, c := range cases {
		var left []extract.Input
		for at, in := range c.places {
			if _, keep := weight[place{i, at}]; keep || c.surge.Places == "" {
				left = append(left, in)
			}
		}
		cases[i].places = left
	}
	return []analysis.Finding{{
		Rule: "surge.not everywhere", Severity: analysis.Warning, Subject: analysis.SubjectSurge,
		What:   fmt.Sprintf("The building is large: surges born inside are solved at %d of %d places, counted for each surge case", kept, len(places)),
		Why:    "all of them would take minutes at each change; boards and loads that make surges of their own come first, and what arises at the others is not counted",
		Remedy: "pick one surge case, name a part whose transformer zone counts, or solve the sheet with clampcalc surge --everywhere",
	}}
}

// weightOf returns how much the surges of a part matter.
func weightOf(doc *diagram.Document, id diagram.ID) int {
	part, _ := doc.Part(id)
	switch {
	case part.Switches() == diagram.CapacitorSwitching:
		return 3
	case part.Switches() == diagram.ContactorSwitching:
		return 2
	case part.Kind.IsBoard():
		return 1
	}
	return 0
}
