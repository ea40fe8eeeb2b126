package analysis_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// describe writes a node in one line: what it carries, whether it is live,
// the source, the terminal where its zone begins, the next node up, and the
// length and the steps back to the source.
func describe(n *analysis.Node) string {
	state, up := "dead", "-"
	if n.Fed {
		state = "live"
	}
	if n.Up != nil {
		up = name(n.Up.At)
	}
	return fmt.Sprintf("%s, %s, source %s, zone %s, up %s by %s, %g m, %d steps", n.System, state, n.Source, name(n.Zone), up, n.Feeder, n.Total, n.Depth)
}

func name(e diagram.End) string {
	if e.Port == "" {
		return string(e.Part)
	}
	return string(e.Part) + ":" + string(e.Port)
}

func TestTraceNodes(t *testing.T) {
	auto := diagram.Part{
		ID: "t", Kind: diagram.Transformer, System: diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.IT},
		Transformer: diagram.TransformerData{Auto: true},
	}
	tests := []struct {
		name  string
		sheet *sheet
		want  map[string]string
	}{
		{
			"down a chain, and through a feeder that is drawn backwards",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(6, "u > a").feed(20, "b > a"),
			map[string]string{
				"u": "480Y/277, live, source u, zone u, up - by , 0 m, 0 steps",
				"a": "480Y/277, live, source u, zone u, up u by u-a, 6 m, 1 steps",
				"b": "480Y/277, live, source u, zone u, up a by b-a, 26 m, 2 steps",
			},
		},
		{
			"a transformer begins a zone",
			newSheet(t).supply("u", wye480).transformer("t", wye480, wye208).boards("a").feed(5, "u > t:primary", "t:secondary > a"),
			map[string]string{
				"t:primary":   "480Y/277, live, source u, zone u, up u by u-t, 5 m, 1 steps",
				"t:secondary": "208Y/120, live, source u, zone t:secondary, up t:primary by , 5 m, 2 steps",
				"a":           "208Y/120, live, source u, zone t:secondary, up t:secondary by t-a, 10 m, 3 steps",
			},
		},
		{
			"an autotransformer changes the voltage, not the zone or the earthing",
			newSheet(t).supply("u", wye480).part(auto).boards("a").feed(5, "u > t:primary", "t:secondary > a"),
			map[string]string{"a": "400Y/230, live, source u, zone u, up t:secondary by t-a, 10 m, 3 steps"},
		},
		{
			"a transformer fed at its secondary",
			newSheet(t).supply("u", wye208).transformer("t", wye480, wye208).boards("a").feed(5, "u > t:secondary", "t:primary > a"),
			map[string]string{
				"t:primary": "480Y/277, live, source u, zone t:primary, up t:secondary by , 5 m, 2 steps",
				"a":         "480Y/277, live, source u, zone t:primary, up t:primary by t-a, 10 m, 3 steps",
			},
		},
		{
			"a transformer with both sides in reach is fed at its primary, however far that is",
			newSheet(t).supply("u", wye480).transformer("t1", wye480, wye208).transformer("t2", wye480, wye208).
				boards("a", "b", "c", "d", "low").
				feed(1, "u > t1:primary", "t1:secondary > low", "low > t2:secondary", "u > a", "a > b", "b > c", "c > d", "d > t2:primary"),
			map[string]string{
				"t2:primary":   "480Y/277, live, source u, zone u, up d by d-t2, 5 m, 5 steps",
				"t2:secondary": "208Y/120, live, source u, zone t1:secondary, up low by low-t2, 3 m, 4 steps",
			},
		},
		{
			"a transfer switch in its normal position",
			newSheet(t).supply("u", wye480).generator("g", wye480).transfer("x", "").boards("a").
				feed(2, "u > x:normal", "g > x:emergency", "x:load > a"),
			map[string]string{
				"x:normal":    "480Y/277, live, source u, zone u, up u by u-x, 2 m, 1 steps",
				"x:emergency": "480Y/277, live, source g, zone g, up g by g-x, 2 m, 1 steps",
				"a":           "480Y/277, live, source u, zone u, up x:load by x-a, 4 m, 3 steps",
			},
		},
		{
			"a transfer switch in its emergency position",
			newSheet(t).supply("u", wye480).generator("g", wye480).transfer("x", diagram.ToEmergency).boards("a").
				feed(2, "u > x:normal", "g > x:emergency", "x:load > a"),
			map[string]string{"a": "480Y/277, live, source g, zone g, up x:load by x-a, 4 m, 3 steps"},
		},
		{
			"the selected throw is dead, the other live: what it would feed, and not back through the throw",
			newSheet(t).generator("g", wye480).transfer("x", "").boards("a", "old").
				feed(2, "old > x:normal", "g > x:emergency", "x:load > a"),
			map[string]string{
				"a":        "480Y/277, dead, source g, zone g, up x:load by x-a, 4 m, 3 steps",
				"x:normal": "not known, dead, source , zone old, up old by old-x, 2 m, 1 steps",
				"old":      "not known, dead, source , zone old, up - by , 0 m, 0 steps",
			},
		},
		{
			"behind two open switches",
			newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(3, "u > a").open(4, "a > b", "b > c"),
			map[string]string{
				"b": "480Y/277, dead, source u, zone u, up a by a-b, 7 m, 2 steps",
				"c": "480Y/277, dead, source u, zone u, up b by b-c, 11 m, 3 steps",
			},
		},
		{
			"open switches toward two sources that agree on the system alone",
			newSheet(t).supply("u", wye480).supply("v", wye480).boards("a", "b").open(3, "u > a", "v > a").feed(1, "a > b"),
			map[string]string{"b": "480Y/277, dead, source , zone a, up a by a-b, 1 m, 1 steps"},
		},
		{
			"open switches toward two sources of other systems",
			newSheet(t).supply("u", wye480).supply("v", wye208).boards("a").open(3, "u > a", "v > a"),
			map[string]string{"a": "not known, dead, source , zone a, up - by , 0 m, 0 steps"},
		},
		{
			"open switches toward two zones of one source",
			newSheet(t).supply("u", wye480).transformer("t", wye480, wye480).boards("a").feed(5, "u > t:primary").open(3, "u > a", "t:secondary > a"),
			map[string]string{"a": "480Y/277, dead, source , zone a, up - by , 0 m, 0 steps"},
		},
		{
			"no source: a nameplate speaks for itself and what it feeds",
			newSheet(t).stated("a", tns400).boards("b").feed(8, "a > b"),
			map[string]string{"b": "400/230 TN-S, dead, source , zone a, up a by a-b, 8 m, 1 steps"},
		},
		{
			"nothing known of the supply: its secondary is no nameplate of the primary, nor a switch's or a load's of what feeds them",
			newSheet(t).supply("u", diagram.System{}).transformer("t", diagram.System{}, wye208).
				part(diagram.Part{ID: "l", Kind: diagram.Load, System: wye208}).feed(5, "u > t:primary", "u > l"),
			map[string]string{
				"t:primary":   "not known, live, source u, zone u, up u by u-t, 5 m, 1 steps",
				"t:secondary": "208Y/120, live, source u, zone t:secondary, up t:primary by , 5 m, 2 steps",
				"l":           "not known, live, source u, zone u, up u by u-l, 5 m, 1 steps",
			},
		},
		{
			"what arrives wins over a nameplate",
			newSheet(t).supply("u", wye480).stated("a", wye208).feed(8, "u > a"),
			map[string]string{"a": "480Y/277, live, source u, zone u, up u by u-a, 8 m, 1 steps"},
		},
		{
			"an outbuilding with an earth electrode of its own",
			newSheet(t).supply("u", tns400).
				stated("a", diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TT}).boards("b").
				feed(8, "u > a", "a > b"),
			map[string]string{"b": "400/230 TT, live, source u, zone u, up a by a-b, 16 m, 2 steps"},
		},
		{
			"two sources in parallel: the nearer one counts, then the order of the ids",
			newSheet(t).supply("u", wye480).generator("g", wye480).boards("a", "b", "c").feed(1, "u > a", "a > b", "b > c", "c > g"),
			map[string]string{
				"a": "480Y/277, live, source u, zone u, up u by u-a, 1 m, 1 steps",
				"b": "480Y/277, live, source g, zone g, up c by b-c, 2 m, 2 steps",
				"c": "480Y/277, live, source g, zone g, up g by c-g, 1 m, 1 steps",
			},
		},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			topology := analysis.Trace(test.sheet.doc)
			for at, want := range test.want {
				if got := describe(topology.Nodes[end(at)]); got != want {
					t.Errorf("%s:\n got %s\nwant %s", at, got, want)
				}
			}
		})
	}
}

// The voltages at either side of 10 %.
func TestSameVoltage(t *testing.T) {
	tests := []struct {
		stated, actual float64
		want           bool
	}{
		{480, 460, true}, {230, 208, true}, {240, 208, false}, {400, 440, true}, {400, 441, false}, {400, 360, true}, {400, 359, false},
	}
	for _, test := range tests {
		if got := analysis.SameVoltage(test.stated, test.actual); got != test.want {
			t.Errorf("%g for %g: got %v, want %v", test.actual, test.stated, got, test.want)
		}
	}
}

// checkNode tests what holds for every node of every document.
func checkNode(t *testing.T, n *analysis.Node) {
	t.Helper()
	if math.IsNaN(n.Total) || math.IsInf(n.Total, 0) {
		t.Errorf("%s: total %g", name(n.At), n.Total)
	}
	if n.Up == nil {
		if n.Depth != 0 || n.Total != 0 || n.Zone != n.At || n.Fed != (n.Source != "") {
			t.Errorf("%s begins a circuit and is %s", name(n.At), describe(n))
		}
		return
	}
	if n.Depth != n.Up.Depth+1 || n.Total != n.Up.Total+n.Length || n.Source != n.Up.Source || n.Fed && !n.Up.Fed {
		t.Errorf("%s does not follow from %s", describe(n), describe(n.Up))
	}
	if n.Feeder == "" && n.At.Part != n.Up.At.Part {
		t.Errorf("%s: no feeder to %s", name(n.At), name(n.Up.At))
	}
}

func TestTraceOfRandomDocuments(t *testing.T) {
	for seed := range uint64(300) {
		doc := diagramtest.Random(diagramtest.Rand(seed), 1+int(seed)%60)
		topology := analysis.Trace(doc)
		for part := range doc.Parts() {
			for _, port := range part.Kind.Ports() {
				node := topology.Nodes[diagram.End{Part: part.ID, Port: port}]
				if node == nil {
					t.Fatalf("seed %d: %s has no node", seed, part.ID)
				}
				checkNode(t, node)
			}
		}
		for _, f := range topology.Findings {
			if f.What == "" || strings.Contains(f.What, "%!") {
				t.Errorf("seed %d: finding %q", seed, f.What)
			}
		}
		again := analysis.Trace(doc.Snapshot())
		if diff := cmp.Diff(topology.Findings, again.Findings, cmp.Comparer(func(a, b analysis.Mend) bool { return a.Label == b.Label })); diff != "" {
			t.Errorf("seed %d: two runs differ: %s", seed, diff)
		}
		for at, node := range topology.Nodes {
			if describe(node) != describe(again.Nodes[at]) {
				t.Errorf("seed %d: two runs differ at %s", seed, name(at))
			}
		}
	}
}

// A chain far deeper than any building must neither overflow nor take long.
func TestTraceOfADeepChain(t *testing.T) {
	s := newSheet(t).supply("p-0", wye480)
	const depth = 20_000
	s.edit(func(tx *diagram.Tx) {
		for i := 1; i <= depth; i++ {
			tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprintf("p-%d", i)), Kind: diagram.Junction})
			tx.SetFeeder(diagram.Feeder{
				ID: diagram.ID(fmt.Sprintf("f-%d", i)), Length: 1,
				From: diagram.End{Part: diagram.ID(fmt.Sprintf("p-%d", i-1))}, To: diagram.End{Part: diagram.ID(fmt.Sprintf("p-%d", i))},
			})
		}
	})
	node := analysis.Trace(s.doc).Nodes[end(fmt.Sprintf("p-%d", depth))]
	if node.Depth != depth || node.Total != depth {
		t.Errorf("got %d steps, %g m; want %d", node.Depth, node.Total, depth)
	}
}

func BenchmarkTrace(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		doc := diagramtest.Building(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				analysis.Trace(doc)
			}
		})
	}
}

// A feeder that is drawn against the flow is turned round by what mends it.
func TestSwapEnds(t *testing.T) {
	doc := newSheet(t).supply("u", wye480).boards("a").feed(1, "a > u").doc
	found := analysis.Trace(doc).Findings
	if len(found) != 1 || !found[0].Mend.IsThere() {
		t.Fatalf("got %+v, want one finding with a change that mends it", found)
	}
	if _, err := doc.Edit(found[0].Mend.Apply); err != nil {
		t.Fatal(err)
	}
	if left := analysis.Trace(doc).Findings; len(left) > 0 {
		t.Errorf("got %+v after %q", left, found[0].Mend.Label)
	}
}
