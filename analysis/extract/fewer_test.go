package extract_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/analysis/protector"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

var (
	highLeg = diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	it230   = diagram.System{Wiring: diagram.Single, Voltage: 230, Earthing: diagram.IT, Frequency: 50}
	tns230  = diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
)

// below is a board of a system that states another one on its nameplate, 20 m
// from a main board.
func below(t *testing.T, arrives, stated diagram.System) *diagram.Document {
	t.Helper()
	board := panel("board")
	board.System = stated
	return sheet(t, []diagram.Part{supply(arrives), panel("main"), board}, feed("supply", "main", 10), feed("main", "board", 20))
}

// ends lists the nodes at which a feeder begins.
func ends(c *extract.Circuit, id diagram.ID) []string {
	var out []string
	for _, node := range c.Network.Lines[c.Runs[id].Line].A {
		out = append(out, c.Network.Names[node])
	}
	return out
}

// A board with fewer conductors hangs on those of what feeds it, and on no
// other; a surge on all lines arrives on the same front as at a board with all
// of them, and no higher than twice that. A split phase takes the ordinary lines
// of a high-leg delta.
func TestBoardsWithFewerConductors(t *testing.T) {
	const solid = diagram.Solid
	tests := []struct {
		name            string
		arrives, stated diagram.System
		letters         string
		from            []string
	}{
		{"lighting at 277 V", wye480, diagram.System{Wiring: diagram.Single, Voltage: 277, Neutral: true, Earthing: solid}, "AN", []string{"main A", "main N"}},
		{"an apartment", wye208, diagram.System{Wiring: diagram.TwoOfWye, Voltage: 208, Neutral: true, Earthing: solid}, "ABN", []string{"main A", "main B", "main N"}},
		{"lights on a high leg", highLeg, split240, "ABN", []string{"main A", "main C", "main N"}},
		{"a heater on a high leg", highLeg, diagram.System{Wiring: diagram.Single, Voltage: 240, Earthing: solid}, "AB", []string{"main A", "main C"}},
		{"120 V on a high leg", highLeg, diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true}, "AN", []string{"main A", "main N"}},
		{"a motor control center", wye480, diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: solid}, "ABC", []string{"main A", "main B", "main C"}},
		{"two lines of a delta", delta480, diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Unearthed}, "AB", []string{"main A", "main B"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := network(t, below(t, test.arrives, test.stated), usual)
			if got := letters(c, "board"); got != test.letters {
				t.Errorf("got conductors %s, want %s", got, test.letters)
			}
			if got := ends(c, "main-board"); !slices.Equal(got, test.from) {
				t.Errorf("it hangs on %v, want %v", got, test.from)
			}
			whole := solve(t, network(t, below(t, test.arrives, diagram.System{}), usual), "board")
			got := solve(t, c, "board")
			pairs := len(circuit.Pairs(len(test.letters)))
			if got["AG"] < whole["AG"]/2 || got["AG"] > 2*whole["AG"] || len(got) != pairs {
				t.Errorf("got %v, want %d pairs and about %.0f V to earth", got, pairs, whole["AG"])
			}
		})
	}
}

// A surge between the two lines of a split phase stands between A and C of the
// high-leg delta that feeds it; from A to the high leg, which is not struck, is
// markedly less.
func TestHighLegStaysBehind(t *testing.T) {
	back := usual
	back.Part, back.Path = "board", diagram.LineToLine
	c := network(t, below(t, highLeg, split240), back)
	at := solve(t, c, "main")
	if between, high := at["AC"], at["AB"]; between < 1000 || high > 0.8*between {
		t.Errorf("a surge between the lines of the board gives %.0f V A-C and %.0f V A-B at the main board", between, high)
	}
}

// A protector for a line and neutral on two lines without a neutral clamps both
// of them to earth alike.
func TestProtectorOfALineAndNeutralOnTwoLines(t *testing.T) {
	p := diagram.Protector{ID: "spd", Plan: diagram.FirstPlan, Bus: "main", Type: diagram.ClassII, Rating: diagram.Up, In: 10e3, System: tns230}
	p.Modes[diagram.LineEarth] = diagram.ModeRating{Connected: true, Level: 1250, MCOV: 275}
	p.Modes[diagram.NeutralEarth] = diagram.ModeRating{Connected: true, Level: 1250, MCOV: 275}
	doc := sheet(t, []diagram.Part{supply(it230), panel("main")}, feed("supply", "main", 10))
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetProtector(p) })
	in := input(doc, usual)
	in.Models = map[protector.Nameplate]*protector.Model{}
	for _, plate := range extract.Nameplates(in) {
		model, err := protector.Calibrate(context.Background(), plate)
		if err != nil {
			t.Fatal(err)
		}
		in.Models[plate] = model
	}
	got := solve(t, networkOf(t, in), "main")
	if got["AG"] > 1250 || got["AG"] < 500 || math.Abs(got["AG"]-got["BG"]) > 0.01*got["AG"] {
		t.Errorf("got %.0f V and %.0f V to earth, want both below 1 250 V and alike", got["AG"], got["BG"])
	}
}
