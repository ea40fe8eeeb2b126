package analysis_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

func TestSameNominal(t *testing.T) {
	const single, split, two, wye = diagram.Single, diagram.Split, diagram.TwoOfWye, diagram.Wye
	tests := []struct {
		name      string
		made, bus diagram.System
		want      bool
	}{
		{"its own", wye480, wye480, true},
		{"480 V on 208 V", wye480, wye208, false},
		{"one line on three", system(single, 277, true, ""), wye480, true},
		{"three lines on one", tns400, system(single, 230, true, ""), true},
		{"120/240 V on two lines of a wye", split240, system(two, 208, true, ""), true},
		{"two lines of a wye on 120/240 V", system(two, 208, true, ""), split240, true},
		{"three lines of 208 V on 120/240 V", wye208, split240, false},
		{"two lines without neutral of other voltages", system(single, 240, false, ""), system(two, 208, false, ""), false},
		{"230 V to neutral on two lines of 230 V", system(single, 230, true, ""), system(single, 230, false, diagram.IT), true},
		{"two lines of 230 V on a line and neutral", system(single, 230, false, diagram.IT), system(single, 230, true, ""), true},
		{"277 V to neutral on two lines of 480 V", system(single, 277, true, ""), system(two, 480, false, ""), true},
		{"120 V to neutral on two lines of 480 V", system(single, 120, true, ""), system(two, 480, false, ""), false},
		{"480 V to neutral on a wye of 480 V", system(single, 480, true, ""), system(wye, 480, true, ""), false},
		{"480 V to neutral on a delta of 480 V", system(single, 480, true, ""), delta480, false},
		{"120 V on a split phase", system(single, 120, true, ""), system(split, 240, true, ""), true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := analysis.SameNominal(test.made, test.bus); got != test.want {
				made, bus := analysis.NominalVoltages(test.made, test.bus)
				t.Errorf("got %v (%.4g V for %.4g V), want %v", got, made, bus, test.want)
			}
		})
	}
}
