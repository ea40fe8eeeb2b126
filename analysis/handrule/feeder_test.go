package handrule_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
)

// Samples along one feeder, as "place: volts verdict", the place in metres
// from its From. Boards are of category III: 4 kV at 480Y/277 V, so Held up to
// 3200 V; loads of category II: 2500 V, Held up to 2000 V. The slope is
// 50 V/m.
func TestFeederSamples(t *testing.T) {
	tests := []struct {
		name   string
		sheet  *sheet
		feeder diagram.ID
		want   []string
	}{
		{
			"rising through both limits to twice the level, the mark of 30 ft between",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(100, "a > b").protect("p", "a", wye480, levels{2500, 2500, 2500, 0}),
			"a-b",
			[]string{"0: 2500 Held", "9.144: 2957 Held", "14: 3200 Tight", "30: 4000 Exceeded", "50: 5000 Exceeded", "100: 5000 Exceeded"},
		},
		{
			"the same drawn backwards",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(100, "b > a").protect("p", "a", wye480, levels{2500, 2500, 2500, 0}),
			"b-a",
			[]string{"0: 5000 Exceeded", "50: 5000 Exceeded", "70: 4000 Exceeded", "86: 3200 Tight", "90.856: 2957 Held", "100: 2500 Held"},
		},
		{
			"the far board has a protector of its own",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(8, "a > b").protect("p", "a", wye480, full).protect("q", "b", wye480, full),
			"a-b",
			[]string{"0: 2000 Held", "7.992: 2400 Held", "8: 2000 Held"},
		},
		{
			"nothing reaches it",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a", "a > b"),
			"a-b", []string{"0: - Unreached", "3: - Unreached"},
		},
		{
			"up to the first protector, far ahead of it nothing does",
			newSheet(t).supply("u", wye480).boards("a").feed(30, "u > a").protect("p", "a", wye480, full),
			"u-a", []string{"0: - Unreached", "29.97: - Unreached", "30: 2000 Held"},
		},
		{
			"up to a protector just below: falls, 25 V/in × 0.35, from Tight to Held at 80 % of 4 kV",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(5, "a > b").protect("p", "b", wye480, full),
			"a-b", []string{"0: 3722 Tight", "1.51657: 3200 Held", "5: 2000 Held"},
		},
		{
			"of no length",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(0, "a > b").protect("p", "a", wye480, full),
			"a-b", []string{"0: 2000 Held", "0: 2000 Held"},
		},
		{
			"to a transformer: by the board above",
			newSheet(t).supply("u", wye480).boards("a").transformer("t", wye480, wye208).feed(3, "u > a").feed(8, "a > t:primary").protect("p", "a", wye480, levels{2500, 2500, 2500, 0}),
			"a-t", []string{"0: 2500 Held", "8: 2900 Held"},
		},
		{
			"to a junction: by the load below, the worst of its modes",
			newSheet(t).supply("u", wye480).boards("a").part(diagram.Part{ID: "j", Kind: diagram.Junction}).load("l", diagram.ToNeutral).
				feed(3, "u > a").feed(8, "a > j", "j > l").protect("p", "a", wye480, levels{1200, 1700, 1200, 0}),
			"a-j", []string{"0: 1700 Held", "6: 2000 Tight", "8: 2100 Tight"},
		},
		{
			"below a transformer nothing reaches it",
			newSheet(t).supply("u", wye480).boards("a", "b").transformer("t", wye480, wye208).feed(3, "u > a", "a > t:primary", "t:secondary > b").protect("p", "a", wye480, full),
			"t-b", []string{"0: - Unreached", "3: - Unreached"},
		},
		{
			"behind its open switch nothing reaches it",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").open(3, "a > b").protect("p", "a", wye480, full),
			"a-b", []string{"0: - Unreached", "3: - Unreached"},
		},
		{
			"an open tie hangs on its far end",
			newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a", "u > b").open(4, "a > b").protect("p", "b", wye480, levels{1200, 1200, 1200, 0}),
			"a-b", []string{"0: 1400 Held", "4: 1200 Held"},
		},
		{
			"what closes a loop is reached from the nearer end",
			newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(3, "u > a", "a > b", "b > c", "a > c").protect("p", "a", wye480, levels{1200, 1200, 1200, 0}),
			"b-c", []string{"0: 1350 Held", "2.997: 1500 Held", "3: 1350 Held"},
		},
		{
			"two covers: the near one until the limit of the far one",
			newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(60, "u > a", "a > b", "b > c").
				protect("p", "a", wye480, levels{1500, 1500, 1500, 0}).protect("q", "b", wye480, levels{2000, 2000, 2000, 0}),
			"b-c",
			[]string{"0: 2000 Held", "9.144: 2457 Held", "20: 3000 Held", "24: 3000 Held", "40: 3000 Held", "60: 3000 Held"},
		},
		{
			"the system is not known",
			newSheet(t).supply("u", diagram.System{}).boards("a").feed(3, "u > a").protect("p", "a", wye480, full),
			"u-a", []string{"0: - Unknown", "3: - Unknown"},
		},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			feeder, _ := test.sheet.doc.Feeder(test.feeder)
			var got []string
			for _, s := range test.sheet.solve().Feeders[test.feeder].Samples {
				volts := "-"
				if s.Known {
					volts = fmt.Sprintf("%.0f", s.Volts)
				}
				got = append(got, fmt.Sprintf("%g: %s %s", math.Round(s.Share*feeder.Length*1e5)/1e5, volts, s.Verdict))
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}
