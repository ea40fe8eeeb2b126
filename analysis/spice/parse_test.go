package spice

import (
	"fmt"
	"strings"
	"testing"

	"clampline/analysis/circuit"

	"github.com/google/go-cmp/cmp"
)

// one is a network with a single bus of two conductors.
func one() *circuit.Network {
	n := &circuit.Network{}
	b := circuit.Bus{Name: "Panel"}
	for _, letter := range []byte("AN") {
		node := n.AddNode(string(letter))
		b.Conductors = append(b.Conductors, circuit.Conductor{Letter: letter, Node: node})
		n.Resistors = append(n.Resistors, circuit.Resistor{Name: "leak " + string(letter), A: node, Ohms: 1e6})
	}
	n.Buses = []circuit.Bus{b}
	return n
}

const goodOutput = "Circuit: * peak_ln_panel = 7\r\n" + `
peak_ln_panel       =  6.000461e+02 at=  2.423359e-06
time_ln_panel=  2.423359e-06 with=  6.000461e+02
peak_lg_panel       =  5.0e+02 at=  1.0e-06
time_lg_panel       =  1.0e-06 with=  5.0e+02
peak_ng_panel       =  -0 at=  0
time_ng_panel       =  0 with=  0
`

func TestParseMeasures(t *testing.T) {
	got, err := ParseMeasures(strings.NewReader(goodOutput), one())
	want := []float64{600.0461, 2.423359e-6, 500, 1e-6, 0, 0}
	if diff := cmp.Diff(got, want); err != nil || diff != "" {
		t.Errorf("error %v (-got +want):\n%s", err, diff)
	}
}

func TestParseMeasuresRefuses(t *testing.T) {
	const halt = "\r Reference value :  1.44e-05\rdoAnalyses: TRAN:  Timestep too small; time = 1.4e-05: trouble with node \"n1\"\n"
	tests := []struct {
		name, output, reason string
	}{
		{"nothing", "", "6 of 6 numbers are missing, first peak_ln_panel: ngspice did not say why"},
		{"one missing", strings.Replace(goodOutput, "peak_lg", "peek_lg", 1), "1 of 6 numbers are missing, first peak_lg_panel"},
		{"no number", strings.Replace(goodOutput, "5.0e+02 at", "nan at", 1), "first peak_lg_panel"},
		{"broke off", brokeOff + "\n" + halt, "Timestep too small"},
		{"broke off without a word", brokeOff + "\n", "broke off"},
		{"complaint", "Error: no such vector as 'v(1)'\nError: and so on\n", "no such vector"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := ParseMeasures(strings.NewReader(test.output), one())
			if err == nil || !strings.Contains(err.Error(), test.reason) {
				t.Errorf("got error %v, want one with %q", err, test.reason)
			}
		})
	}
}

func TestTail(t *testing.T) {
	var b strings.Builder
	for i := range 20 {
		fmt.Fprintf(&b, "line %d\r Reference value : %d\n\n", i, i)
	}
	if got, want := tail(b.String()), "line 12; line 13; line 14; line 15; line 16; line 17; line 18; line 19"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
