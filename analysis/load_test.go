package analysis_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// A protector at a load has as many lines to hold as the load is wired to, and never
// more than its bus has; at a board it has all of them.
func TestLinesOf(t *testing.T) {
	pump := func(c diagram.Connection) diagram.Part {
		return diagram.Part{Kind: diagram.Load, Load: diagram.LoadData{Connection: c}}
	}
	flat := system(diagram.Single, 230, true, diagram.TNS)
	for _, row := range []struct {
		name string
		part diagram.Part
		bus  diagram.System
		want int
	}{
		{"a lamp on a wye", pump(diagram.ToNeutral), wye208, 1},
		{"a heater on a wye", pump(diagram.BetweenLines), wye208, 2},
		{"a motor on a wye", pump(diagram.ThreeWire), wye208, 3},
		{"a range on a wye", pump(diagram.ThreeWireStar), wye208, 3},
		{"a load of which nothing is said", pump(""), wye208, 3},
		{"a motor on a split phase", pump(diagram.ThreeWire), split240, 2},
		{"a heater in a flat", pump(diagram.BetweenLines), flat, 1},
		{"a panel", diagram.Part{Kind: diagram.Panel}, wye208, 3},
		{"a panel that was a lamp", diagram.Part{Kind: diagram.Panel, Load: diagram.LoadData{Connection: diagram.ToNeutral}}, wye208, 3},
		{"a panel in a flat", diagram.Part{Kind: diagram.Panel}, flat, 1},
	} {
		if got := analysis.LinesOf(row.part, row.bus); got != row.want {
			t.Errorf("%s: got %d, want %d", row.name, got, row.want)
		}
	}
}
