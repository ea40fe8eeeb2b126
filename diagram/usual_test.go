package diagram

import (
	"testing"

	"clampline/diagram/unit"
)

// Every figure has a range with a name, a dimension it can be written in, and a
// source.
func TestUsualRangesAreComplete(t *testing.T) {
	for f := UsualFault; f < figureCount; f++ {
		u := f.Usual()
		if u.Noun == "" || u.Source == "" || u.Most <= u.Least {
			t.Errorf("figure %d: %+v", f, u)
		}
		for _, v := range []float64{u.Least, u.Most} {
			if v > 0 && u.Outside(v) {
				t.Errorf("%s: %g is outside of its own range", u.Noun, v)
			}
		}
	}
}

func TestUsualMarks(t *testing.T) {
	for _, row := range []struct {
		figure Figure
		value  float64
		want   string
	}{
		{UsualFault, 22, "under 500 A"}, {UsualFault, 22e3, ""}, {UsualFault, 0, ""}, {UsualPower, 45, "under 1 kVA"},
		{UsualFeederLength, 0, "0\u00a0ft"}, {UsualLeadLength, 0, ""}, {UsualLevel, 6000, ""}, {UsualConductor, 1013.4e-6, ""},
		{UsualFault, 500 * (1 - 1e-12), ""}, {UsualIn, 100e3, ""}, {UsualIn, 100001, "over 100 kA"}, {UsualIimp, 100e3, ""}, {UsualIn, 50, ""}, {UsualIn, 49, "under 50 A"},
	} {
		if got := row.figure.Usual().Mark(row.value, unit.NorthAmerican); got != row.want {
			t.Errorf("%s of %g: got %q, want %q", row.figure.Usual().Noun, row.value, got, row.want)
		}
	}
}

// What a message offers for a figure is read, and is usual.
func TestUsualExamples(t *testing.T) {
	for f := UsualFault; f < figureCount; f++ {
		u := f.Usual()
		for _, c := range []unit.Convention{unit.NorthAmerican, unit.IEC} {
			v, err := unit.Parse(u.Example(c), u.Dimension, c)
			if err != nil || v == 0 || u.Outside(v) {
				t.Errorf("%s in %v: %q reads as %g: %v", u.Noun, c, u.Example(c), v, err)
			}
		}
	}
}
