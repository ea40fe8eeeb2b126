package analysis_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/draw/drawtest"
)

// Every finding that a sheet gives, as "severity subject: sentence [records]"; the
// reasons and remedies are written out, and were read.
func TestTraceFindings(t *testing.T) {
	wye480Bare := system(diagram.Wye, 480, false, diagram.Solid)
	motor := diagram.LoadData{Connection: diagram.ThreeWire, Voltage: 460}
	tests := []struct {
		name  string
		sheet *sheet
		want  []string
	}{
		{"an empty sheet", newSheet(t), nil},
		{
			"a plain building has none",
			newSheet(t).supply("u", wye480).transformer("t", wye480, wye208).boards("a", "b").load("m", motor).
				load("lamp", diagram.LoadData{Connection: diagram.ToNeutral}).load("pump", diagram.LoadData{Connection: diagram.ThreeWire}). // of no stated voltage
				feed(5, "u > a", "a > m", "a > t:primary", "t:secondary > b", "b > lamp", "a > pump"),
			nil,
		},
		{
			"no supply",
			newSheet(t).boards("a", "b", "c").feed(1, "a > b"),
			[]string{"error supply: There is no supply or generator on the sheet []"},
		},
		{
			"a system that is not known",
			newSheet(t).supply("u", diagram.System{}).transformer("t", wye480, diagram.System{}).feed(1, "u > t:primary"),
			[]string{
				"warning system: The system that t delivers is not known [t]",
				"warning system: The system that u delivers is not known [u]",
			},
		},
		{
			"an island, once for all its parts",
			newSheet(t).supply("u", wye480).boards("a", "b", "c", "d").feed(1, "a > b", "b > c", "b > d"),
			[]string{"warning supply: a and 3 more parts are not fed [a]"},
		},
		{
			"one board alone",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(1, "u > a"),
			[]string{"warning supply: b is not fed [b]"},
		},
		{
			"an island of many tops",
			newSheet(t).supply("u", wye480).boards("a", "b", "c", "d", "e", "f", "g", "h").feed(1, "a > h", "b > h", "c > h", "d > h", "e > h", "f > h", "g > h"),
			[]string{"warning supply: a, b, c, d, e and 3 more parts are not fed [a b c d e]"},
		},
		{
			"an island behind an open switch",
			newSheet(t).supply("u", wye480).boards("a", "b").open(1, "u > a").feed(1, "a > b"),
			[]string{"warning supply: a and 1 more part are not fed; open on the way: feeder u – a [a u-a]"},
		},
		{
			"behind the throw of a transfer switch",
			newSheet(t).generator("g", wye480).transfer("x", "").boards("a").feed(1, "g > x:emergency", "x:load > a"),
			[]string{"warning supply: x and 1 more part are not fed; open on the way: x set to normal [x]"},
		},
		{
			"a loop of three boards",
			newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(1, "u > a", "a > b", "b > c", "a > c"),
			[]string{"warning loop: feeder b – c closes a loop through b, a and c [b-c b a c a-b a-c]"},
		},
		{
			"two transformers in parallel",
			newSheet(t).supply("u", wye480).transformer("t1", wye480, wye208).transformer("t2", wye480, wye208).boards("a").
				feed(1, "u > t1:primary", "u > t2:primary", "t1:secondary > a", "t2:secondary > a"),
			[]string{"warning loop: feeder t2 – a closes a loop through t2, u, t1 and a [t2-a t2 u t1 a u-t2 u-t1 t1-a]"},
		},
		{
			"two sources meet",
			newSheet(t).supply("u", wye480).generator("g", wye480).boards("a", "b").feed(1, "u > a", "g > b", "a > b"),
			[]string{"error supply: g and u feed the same network: they meet at feeder a – b [a-b g u]"},
		},
		{
			"a generator on the secondary of a live transformer",
			newSheet(t).supply("u", wye480).transformer("t", wye480, wye208).generator("g", wye208).
				feed(1, "u > t:primary", "t:secondary > g"),
			[]string{"error supply: g and u feed the same network: they meet at t [t g u]", "note feeder: feeder t – g is drawn against the flow: g feeds t [t-g]"},
		},
		{
			"a feeder against the flow",
			newSheet(t).supply("u", wye480).boards("a").feed(1, "a > u"),
			[]string{"note feeder: feeder a – u is drawn against the flow: u feeds a [a-u]"},
		},
		{
			"a transformer fed at its secondary, with the wrong voltage besides",
			newSheet(t).supply("u", split240).transformer("t", wye480, wye208).feed(1, "u > t:secondary"),
			[]string{
				"error voltage: t is stated as 208Y/120 on its secondary, and u gives 120/240 [t u]",
				"warning transformer: t is fed at its secondary [t]",
			},
		},
		{
			"a nameplate of another voltage",
			newSheet(t).supply("u", wye480).stated("a", wye208).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 208Y/120, and u gives 480Y/277 [a u]"},
		},
		{
			"a voltage and nothing else",
			newSheet(t).supply("u", wye480).stated("a", diagram.System{Voltage: 240}).stated("b", diagram.System{Voltage: 277}).feed(1, "u > a", "u > b"),
			[]string{"error voltage: a is stated as 240 V, and u gives 480Y/277 [a u]"},
		},
		{
			"a nameplate of another voltage and earthing: what arrives is told as it arrives",
			newSheet(t).supply("u", tns400).stated("a", diagram.System{Wiring: diagram.Wye, Voltage: 690, Neutral: true, Earthing: diagram.TT}).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 690/400 TT, and u gives 400/230 TN-S [a u]"},
		},
		{
			"a panel of two lines on one",
			newSheet(t).supply("u", diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid}).stated("a", split240).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 120/240, and u gives 120 [a u]"},
		},
		{
			"one line of another voltage, and loads of one",
			newSheet(t).supply("u", wye480).stated("a", diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true}).
				load("fan", diagram.LoadData{Connection: diagram.ToNeutral, Voltage: 120.57}).load("pump", diagram.LoadData{Connection: diagram.ThreeWireStar, Voltage: 480}).
				feed(1, "u > a", "u > fan", "u > pump"),
			[]string{
				"error voltage: a is stated as 230, and u gives 480Y/277 [a u]",
				"error voltage: fan does not fit 480Y/277 at u [fan u]",
			},
		},
		{
			"a split phase on two lines of a wye",
			newSheet(t).supply("u", wye208).stated("a", split240).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 120/240, and u gives 208Y/120 [a u]"},
		},
		{
			"another frequency",
			newSheet(t).supply("u", wye480).stated("a", diagram.System{Frequency: 50}).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 50 Hz, and u gives 480Y/277, 60 Hz [a u]"},
		},
		{
			"a nameplate with a neutral that does not arrive",
			newSheet(t).supply("u", delta480).stated("a", wye480).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 480Y/277, and u gives 480 delta [a u]"},
		},
		{
			"a nameplate of another earthing",
			newSheet(t).supply("u", it400).stated("a", diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.TNS}).feed(1, "u > a"),
			[]string{"error voltage: a is stated as 400 3-wire TN-S, and u gives 400 3-wire IT [a u]"},
		},
		{
			"a transformer on another voltage than its primary's",
			newSheet(t).supply("u", wye208).transformer("t", wye480, wye208).feed(1, "u > t:primary"),
			[]string{"error voltage: t is stated as 480Y/277 on its primary, and u gives 208Y/120 [t u]"},
		},
		{
			"loads that their bus cannot feed",
			newSheet(t).supply("u", delta480).boards("a").
				load("lamp", diagram.LoadData{Connection: diagram.ToNeutral}).
				load("motor", motor).load("range", diagram.LoadData{Connection: diagram.ThreeWireStar, Voltage: 480}).
				load("oven", diagram.LoadData{Connection: diagram.BetweenLines, Voltage: 240}).
				feed(1, "u > a", "a > lamp", "a > motor", "a > oven", "a > range"),
			[]string{
				"error voltage: lamp does not fit 480 delta at a [lamp a]",
				"error voltage: oven does not fit 480 delta at a [oven a]",
				"error voltage: range does not fit 480 delta at a [range a]",
			},
		},
		{
			"a transfer switch between two systems",
			newSheet(t).supply("u", wye480).generator("g", wye208).transfer("x", "").feed(1, "u > x:normal", "g > x:emergency"),
			[]string{"error voltage: x gets 480Y/277 on its normal side and 208Y/120 on its emergency side [x u g]"},
		},
		{
			"a generator that brings no neutral",
			newSheet(t).supply("u", wye480).generator("g", wye480Bare).transfer("x", "").feed(1, "u > x:normal", "g > x:emergency"),
			[]string{"error voltage: x gets 480Y/277 on its normal side and 480 3-wire on its emergency side [x u g]"},
		},
		{
			"a generator that brings a neutral where the supply has none",
			newSheet(t).supply("u", wye480Bare).generator("g", wye480).transfer("x", "").feed(1, "u > x:normal", "g > x:emergency"),
			[]string{"error voltage: x gets 480 3-wire on its normal side and 480Y/277 on its emergency side [x u g]"},
		},
		{
			"a transfer switch that waits for its generator: the empty throw is no dead part",
			newSheet(t).supply("u", wye480).transfer("x", "").boards("a").feed(1, "u > x:normal", "x:load > a"),
			nil,
		},
		{
			"a transfer switch before its boards, set to a side that is empty",
			newSheet(t).generator("g", wye480).transfer("a", "").boards("x").feed(1, "g > a:emergency", "a:load > x"),
			[]string{"warning supply: a and 1 more part are not fed; open on the way: a set to normal [a]"},
		},
	}
	var texts strings.Builder
	for _, test := range tests {
		fmt.Fprintln(&texts, test.name)
		t.Run(test.name, func(t *testing.T) {
			var got []string
			for _, f := range analysis.Trace(test.sheet.doc).Findings {
				got = append(got, fmt.Sprintf("%s %s: %s %s", f.Severity, f.Subject, f.What, f.Records))
				if f.Why == "" || f.Remedy == "" {
					t.Errorf("%q has no reason or no remedy", f.What)
				}
				fmt.Fprintf(&texts, "  %s\n    %s\n    %s\n", f.What, f.Why, f.Remedy)
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
	drawtest.Text(t, "findings.txt", strings.ReplaceAll(texts.String(), "\u00a0", " "))
}

// What was accepted on site is known again by its key, also by later versions: of two
// sides of one transfer switch that are dead each has its own, and a board that is
// added below changes neither.
func TestKeysOfWhatIsNotFed(t *testing.T) {
	s := newSheet(t).supply("u", wye480).transfer("x", "").boards("a", "b").
		open(1, "u > x:normal", "u > x:emergency").feed(1, "x:load > a")
	keys := func() (out []string) {
		for _, f := range analysis.Trace(s.doc).Findings {
			if f.Subject == analysis.SubjectSupply && f.Records[0] == "x" {
				out = append(out, f.Key().String())
			}
		}
		return out
	}
	want := []string{"supply.switched off x normal"}
	if diff := cmp.Diff(want, keys()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	s.feed(1, "x:load > b")
	if diff := cmp.Diff(want, keys()); diff != "" {
		t.Errorf("with another board: -want +got:\n%s", diff)
	}
	s.boards("c").feed(1, "x:emergency > c")
	if diff := cmp.Diff([]string{"supply.switched off x emergency", "supply.switched off x normal"}, slices.Sorted(slices.Values(keys()))); diff != "" {
		t.Errorf("with the other side in use: -want +got:\n%s", diff)
	}
}
