package analysis

import (
	"fmt"
	"slices"

	"clampline/diagram"
)

// loopsSpelledOut bounds how many loops are named one by one; a sheet with
// more has another trouble.
const loopsSpelledOut = 50

// closures reports the closed ways that the walk did not need: each either
// closes a loop or joins what two sources feed.
func (t *tracer) closures() []Finding {
	var out []Finding
	meetings := map[[2]diagram.ID][]int{}
	loops := 0
	for i, w := range t.ways {
		if w.open || t.via[w.from] == i || t.via[w.to] == i {
			continue
		}
		from, to := &t.nodes[w.from], &t.nodes[w.to]
		switch {
		case t.root[w.from] == t.root[w.to]:
			loops++
			if loops <= loopsSpelledOut {
				out = append(out, t.loop(i))
			}
		case from.Fed && to.Fed:
			pair := [2]diagram.ID{from.Source, to.Source}
			if diagram.CompareID(pair[0], pair[1]) > 0 {
				pair[0], pair[1] = pair[1], pair[0]
			}
			meetings[pair] = append(meetings[pair], i)
		}
	}
	if rest := loops - loopsSpelledOut; rest > 0 {
		out = append(out, moreLoops(rest))
	}
	for pair, ways := range meetings {
		out = append(out, t.meeting(pair, ways))
	}
	return out
}

func (t *tracer) meeting(pair [2]diagram.ID, ways []int) Finding {
	out := Finding{
		Rule: "supply.meet", Detail: string(pair[0] + " " + pair[1]), Severity: Error, Subject: SubjectSupply,
		Why:    "two live supplies in parallel: the results at each bus are those of the nearer one",
		Remedy: "open a switch between them, or put a transfer switch where they meet",
	}
	var places []string
	for _, w := range ways {
		id, name := t.recordOf(w)
		if !slices.Contains(out.Records, id) {
			out.Records = append(out.Records, id)
			places = append(places, name)
		}
	}
	out.Records = append(out.Records, pair[0], pair[1])
	out.What = fmt.Sprintf("%s and %s feed the same network: they meet at %s", t.sourceName(pair[0]), t.sourceName(pair[1]), List(places))
	return out
}

func (t *tracer) sourceName(id diagram.ID) string {
	i, _ := slices.BinarySearchFunc(t.parts, id, func(p diagram.Part, id diagram.ID) int { return diagram.CompareID(p.ID, id) })
	return nameOf(&t.parts[i])
}

// loop names the parts round the loop that a way closes, and the feeders
// between them.
func (t *tracer) loop(closing int) Finding {
	id, name := t.recordOf(closing)
	terminals, ways := t.around(closing)
	records := []diagram.ID{id}
	var names []string
	for _, terminal := range terminals {
		part := t.partOf(terminal)
		if records[len(records)-1] != part.ID && part.ID != id { // a transformer has two terminals in a row
			names = append(names, nameOf(part))
		}
		records = append(records, part.ID)
	}
	for _, w := range ways {
		record, _ := t.recordOf(w)
		records = append(records, record)
	}
	return Finding{
		Rule: "loop.closed", Severity: Warning, Subject: SubjectLoop, Records: unique(records),
		What:   fmt.Sprintf("%s closes a loop through %s", name, List(names)),
		Why:    "a surge arrives both ways; the results follow the way with fewer parts",
		Remedy: "open a switch in the loop, or remove the feeder that is too many",
	}
}

// around returns the terminals and the other ways of the loop that a way
// closes, in order from its From to its To.
func (t *tracer) around(closing int) (terminals, ways []int) {
	a, b := t.ways[closing].from, t.ways[closing].to
	terminals = []int{a}
	back, backWays := []int{b}, []int(nil)
	for a != b {
		if t.nodes[a].Depth >= t.nodes[b].Depth {
			ways = append(ways, t.via[a])
			a = t.far(t.via[a], a)
			terminals = append(terminals, a)
			continue
		}
		backWays = append(backWays, t.via[b])
		b = t.far(t.via[b], b)
		back = append(back, b)
	}
	slices.Reverse(back)
	slices.Reverse(backWays)
	return append(terminals, back[1:]...), append(ways, backWays...)
}

// unique keeps the first of each id, in order.
func unique(ids []diagram.ID) []diagram.ID {
	seen := make(map[diagram.ID]bool, len(ids))
	return slices.DeleteFunc(ids, func(id diagram.ID) bool {
		again := seen[id]
		seen[id] = true
		return again
	})
}

func moreLoops(n int) Finding {
	return Finding{
		Rule: "loop.more", Severity: Warning, Subject: SubjectLoop,
		What:   fmt.Sprintf("%s more in the network", countOf(n, "loop")),
		Why:    "a building's wiring is a tree: each part is fed one way",
		Remedy: "mend the loops named here first",
	}
}
