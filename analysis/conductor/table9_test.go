package conductor

import (
	"math"
	"testing"
)

// Each size of the table is found as it stands; between two the figure lies between
// theirs, and beyond the ends it goes with the power that is given.
func TestLookUp(t *testing.T) {
	copper := func(row *Row) float64 { return row.R[OfCopper][InPlastic] }
	for i := range Table {
		row := &Table[i]
		if got := LookUp(row.Area, copper, -1); math.Abs(got-row.R[OfCopper][InPlastic]) > 1e-12 {
			t.Errorf("%s: got %g, want %g", row.Size, got, row.R[OfCopper][InPlastic])
		}
		if i == 0 {
			continue
		}
		before := &Table[i-1]
		middle := math.Sqrt(before.Area * row.Area)
		if got, want := LookUp(middle, copper, -1), math.Sqrt(before.R[OfCopper][InPlastic]*row.R[OfCopper][InPlastic]); math.Abs(got-want) > 1e-9 {
			t.Errorf("between %s and %s: got %g, want the geometric mean %g", before.Size, row.Size, got, want)
		}
	}
	first, last := Table[0], Table[len(Table)-1]
	if got, want := LookUp(first.Area/2, copper, -1), 2*first.R[OfCopper][InPlastic]; math.Abs(got-want) > 1e-12 {
		t.Errorf("half of the smallest: got %g, want %g", got, want)
	}
	if got, want := LookUp(4*last.Area, copper, -1), last.R[OfCopper][InPlastic]/4; math.Abs(got-want) > 1e-12 {
		t.Errorf("four times the largest: got %g, want %g", got, want)
	}
	if got := LookUp(4*last.Area, func(row *Row) float64 { return row.X[0] }, 0); got != last.X[0] {
		t.Errorf("its reactance: got %g, want that of the largest", got)
	}
	if got := LookUp(1e-6, func(row *Row) float64 { return row.R[OfAluminium][InPlastic] }, -1); math.Abs(got-3.2*3.3088) > 1e-9 {
		t.Errorf("aluminium below its smallest: got %g", got)
	}
}
