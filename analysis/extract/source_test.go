package extract_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis/extract"
	"clampline/diagram"
)

// sourceInductors returns the impedance of a source that the surge does not come from,
// by line, and the nodes that it leads to.
func sourceInductors(t *testing.T, part diagram.Part) (c *extract.Circuit, ohms, henries map[string]float64, ends map[string]bool) {
	t.Helper()
	part.ID = "source"
	surge := usual
	surge.Part = "main"
	c = network(t, sheet(t, []diagram.Part{part, panel("main")}, feed("source", "main", 10)), surge)
	ohms, henries, ends = map[string]float64{}, map[string]float64{}, map[string]bool{}
	for _, inductor := range c.Network.Inductors {
		from := c.Network.Names[inductor.Branches[0].A]
		if line, ok := strings.CutPrefix(from, "source "); ok && strings.HasPrefix(inductor.Name, "source "+line) {
			ohms[line], henries[line] = inductor.Ohms[0], inductor.Henries[0]
			ends[c.Network.Names[inductor.Branches[0].B]] = true
		}
	}
	return c, ohms, henries, ends
}

// Z = U / I of a bolted fault, where U is the voltage of one line to the middle;
// of a generator Z = x” U² / S with U between lines, each of two lines having half
// of it; R = Z / √(1 + (X/R)²) and L = R (X/R) / 2 pi f (textbook per-unit
// arithmetic, IEC 60909-0:2016 clauses 6.2 and 6.6). Worked by hand.
func TestImpedanceOfSources(t *testing.T) {
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	twoWire := diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	aircraft := wye208
	aircraft.Frequency = 400
	for _, row := range []struct {
		name  string
		part  diagram.Part
		lines string
		r, x  float64 // ohm
		told  string
	}{
		{"supply of three phases", diagram.Part{Kind: diagram.Supply, System: wye480, Source: diagram.SourceData{FaultCurrent: 20e3, XR: 3}}, "ABC", 4.380e-3, 13.139e-3, ""}, // 277/20e3 = 13.85 mohm
		{"supply of split phase", diagram.Part{Kind: diagram.Supply, System: split240, Source: diagram.SourceData{FaultCurrent: 10e3, XR: 4}}, "AB", 2.910e-3, 11.642e-3, ""}, // 120/10e3 = 12 mohm
		{"supply that says nothing", diagram.Part{Kind: diagram.Supply, System: split240}, "AB", 2.353e-3, 11.767e-3, "10 kA"},                                                // the same with the usual X/R of 5
		{"supply of two wires", diagram.Part{Kind: diagram.Supply, System: twoWire, Source: diagram.SourceData{FaultCurrent: 5e3, XR: 1}}, "AB", 33.941e-3, 33.941e-3, ""},    // 240/5e3 = 48 mohm
		{"supply of one line", diagram.Part{Kind: diagram.Supply, System: single, Source: diagram.SourceData{FaultCurrent: 6e3, XR: 0.5}}, "A", 34.286e-3, 17.143e-3, ""},     // 230/6e3 = 38.33 mohm
		{"ungrounded delta", diagram.Part{Kind: diagram.Supply, System: delta480, Source: diagram.SourceData{FaultCurrent: 10e3, XR: 1}}, "ABC", 19.596e-3, 19.596e-3, ""},    // 277.1/10e3
		{"generator of three phases", diagram.Part{Kind: diagram.Generator, System: wye480, Source: diagram.SourceData{Power: 150e3, Reactance: 12, XR: 10}}, "ABC",
			0.12 * 3 * 277 * 277 / 150e3 / 10.04988, 0.12 * 3 * 277 * 277 / 150e3 * 10 / 10.04988, ""}, // 184.2 mohm, √101 = 10.04988
		{"supply of a high-leg system", diagram.Part{Kind: diagram.Supply, System: highLeg, Source: diagram.SourceData{FaultCurrent: 10e3, XR: 1}}, "ABC", 9.7980e-3, 9.7980e-3, ""},         // 240/√3 / 10e3 = 13.856 mohm
		{"generator of split phase", diagram.Part{Kind: diagram.Generator, System: split240, Source: diagram.SourceData{Power: 24e3, Reactance: 10, XR: 1}}, "AB", 84.853e-3, 84.853e-3, ""}, // 0.1 × 240²/24e3 = 240 mohm, half of it
		{"generator of one line", diagram.Part{Kind: diagram.Generator, System: single, Source: diagram.SourceData{Power: 10e3, Reactance: 10, XR: 1}}, "A", 374.06e-3, 374.06e-3, ""},       // 0.1 × 230²/10e3 = 529 mohm
		{"generator that says nothing", diagram.Part{Kind: diagram.Generator, System: wye480}, "ABC", 67.717e-3, 338.58e-3, "100 kVA"},                                                       // 0.15 × 3 × 277²/100e3 = 345.3 mohm, X/R 5
		{"generator without a reactance", diagram.Part{Kind: diagram.Generator, System: wye480, Source: diagram.SourceData{Power: 100e3}}, "ABC", 67.717e-3, 338.58e-3, "15 %"},
		{"supply of a power and reactance", diagram.Part{Kind: diagram.Supply, System: wye480, Source: diagram.SourceData{Power: 1e6, Reactance: 5, XR: 1}}, "ABC", 8.1378e-3, 8.1378e-3, ""}, // 0.05 × 3 × 277²/1e6 = 11.51 mohm
		{"supply of one per cent", diagram.Part{Kind: diagram.Supply, System: wye480, Source: diagram.SourceData{Power: 1e6, Reactance: 1, XR: 1}}, "ABC", 1.6276e-3, 1.6276e-3, ""},          // a fifth of it
		{"supply of 400 Hz, as of aircraft", diagram.Part{Kind: diagram.Supply, System: aircraft, Source: diagram.SourceData{FaultCurrent: 2e3, XR: 2}}, "ABC", 26.833e-3, 53.666e-3, ""},     // 120/2e3 = 60 mohm
		{"supply of one ampere, as in a laboratory", diagram.Part{Kind: diagram.Supply, System: wye480, Source: diagram.SourceData{FaultCurrent: 1, XR: 1}}, "ABC", 195.87, 195.87, ""},       // 277 ohm
		{"less than one ampere counts as one", diagram.Part{Kind: diagram.Supply, System: wye480, Source: diagram.SourceData{FaultCurrent: 0.5, XR: 1}}, "ABC", 195.87, 195.87, ""},
		{"fault current before power", diagram.Part{Kind: diagram.Generator, System: wye480, Source: diagram.SourceData{Power: 150e3, Reactance: 12, FaultCurrent: 20e3, XR: 3}}, "ABC", 4.380e-3, 13.139e-3, ""},
	} {
		c, ohms, henries, ends := sourceInductors(t, row.part)
		if len(ohms) != len(row.lines) || len(ends) != 1 {
			t.Errorf("%s: got the lines %v to %v", row.name, ohms, ends)
			continue
		}
		for _, line := range strings.Split(row.lines, "") {
			x := henries[line] * 2 * math.Pi * row.part.System.Frequency
			const within = 5e-4 // of four figures worked by hand
			if math.Abs(ohms[line]-row.r) > within*row.r || math.Abs(x-row.x) > within*row.x {
				t.Errorf("%s, line %s: got %.5g + j %.5g ohm, want %.5g + j %.5g", row.name, line, ohms[line], x, row.r, row.x)
			}
		}
		if neutral := ends["source N"]; neutral != row.part.System.Neutral {
			t.Errorf("%s: leads to %v", row.name, ends)
		}
		if said := told(c, "source", "taken as"); said != (row.told != "") || said && !told(c, "source", row.told) {
			t.Errorf("%s: told %v", row.name, c.Assumptions)
		}
	}
}

// An impedance counts at the frequency of its system, from 10 to 1000 Hz: what lies
// beyond is no power system, and counts as the nearest.
func TestFrequencyOfASource(t *testing.T) {
	henries := func(hertz float64) float64 {
		system := wye480
		system.Frequency = hertz
		_, _, out, _ := sourceInductors(t, diagram.Part{Kind: diagram.Supply, System: system})
		return out["A"]
	}
	for hertz, counts := range map[float64]float64{0.01: 10, 10: 10, 16.7: 16.7, 50: 50, 400: 400, 1000: 1000, 1e5: 1000} {
		if got, want := henries(hertz)/henries(60), 60/counts; math.Abs(got-want) > 1e-9*want {
			t.Errorf("%g Hz: got %g of the inductance at 60 Hz, want %g", hertz, got, want)
		}
	}
}

// The surge stands at its source in place of the source's own impedance.
func TestStruckSourceHasNoImpedance(t *testing.T) {
	gen := diagram.Part{ID: "gen", Kind: diagram.Generator, System: wye480}
	doc := sheet(t, []diagram.Part{supply(wye480), gen, panel("main")}, feed("supply", "main", 10), feed("gen", "main", 10))
	for _, struck := range []diagram.ID{"supply", "gen"} {
		surge := usual
		surge.Part = struck
		got := map[string]int{}
		for _, inductor := range network(t, doc, surge).Network.Inductors {
			if part, line, _ := strings.Cut(inductor.Name, " "); len(line) == 1 {
				got[part]++
			}
		}
		other := map[diagram.ID]string{"supply": "gen", "gen": "supply"}[struck]
		if len(got) != 1 || got[other] != 3 {
			t.Errorf("surge at %s: got %v, want the three lines of %s", struck, got, other)
		}
	}
}

// The star of an impedance of a source without a neutral is earthed as its system
// is, and that of a delta is not there to be earthed.
func TestStarOfASource(t *testing.T) {
	for _, row := range []struct {
		system diagram.System
		want   string
	}{
		{diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Solid, Frequency: 60}, "source star bond"},
		{diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Impedance, Frequency: 60}, "source star 55.4 ohm"},
		{diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}, ""},
		{diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}, ""},
	} {
		c, _, _, _ := sourceInductors(t, diagram.Part{Kind: diagram.Supply, System: row.system})
		if got := strings.Join(ties(c), ", "); got != row.want {
			t.Errorf("%s: got %q, want %q", row.system, got, row.want)
		}
	}
}

// Where nothing says where a surge arrives it is at the supply in use: one that feeds
// something before one that does not, a supply before a generator, and of like ones
// the first.
func TestSurgeArrivesAtTheSupplyInUse(t *testing.T) {
	source := func(id diagram.ID, kind diagram.Kind) diagram.Part {
		return diagram.Part{ID: id, Kind: kind, System: wye480}
	}
	for _, row := range []struct {
		name  string
		parts []diagram.Part
		feeds []string
		want  diagram.ID
	}{
		{"two alike", []diagram.Part{source("east", diagram.Supply), source("west", diagram.Supply)}, []string{"east", "west"}, "east"},
		{"the second in use", []diagram.Part{source("east", diagram.Supply), source("west", diagram.Supply)}, []string{"west"}, "west"},
		{"a generator first", []diagram.Part{source("east", diagram.Generator), source("west", diagram.Supply)}, []string{"east", "west"}, "west"},
		{"a generator alone in use", []diagram.Part{source("east", diagram.Generator), source("west", diagram.Supply)}, []string{"east"}, "east"},
	} {
		var feeders []diagram.Feeder
		parts := row.parts
		for _, id := range row.feeds {
			board := "board-" + id
			parts, feeders = append(parts, panel(diagram.ID(board))), append(feeders, feed(id, board, 10))
		}
		c := network(t, sheet(t, parts, feeders...), usual)
		for _, p := range row.parts {
			if _, reached := c.Buses[diagram.End{Part: p.ID}]; reached != (p.ID == row.want) {
				t.Errorf("%s: %s is reached: %v", row.name, p.ID, reached)
			}
		}
	}
}
