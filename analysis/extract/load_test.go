package extract_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/diagram"
)

// between returns what lies between two conductors of a bus as "AB" and to earth as
// "AG", of resistors or of capacitors whose names say what they are of.
func between(c *extract.Circuit, bus diagram.ID, filters bool) map[string]float64 {
	letter := map[circuit.Node]string{circuit.Earth: "G"}
	for _, conductor := range c.Network.Buses[c.Buses[diagram.End{Part: bus}]].Conductors {
		letter[conductor.Node] = string(conductor.Letter)
	}
	out := map[string]float64{}
	add := func(a, b circuit.Node, value float64) {
		if letter[a] != "" && letter[b] != "" {
			out[letter[a]+letter[b]] = value
		}
	}
	if filters {
		for _, e := range c.Network.Capacitors {
			add(e.A, e.B, e.Farads)
		}
		return out
	}
	for _, e := range c.Network.Resistors {
		if e.Ohms < 1e6 { // more is insulation
			add(e.A, e.B, e.Ohms)
		}
	}
	return out
}

func loaded(t *testing.T, system diagram.System, data diagram.LoadData) *extract.Circuit {
	t.Helper()
	load := diagram.Part{ID: "load", Kind: diagram.Load, Load: data}
	return network(t, sheet(t, []diagram.Part{supply(system), load}, feed("supply", "load", 30)), usual)
}

// A resistive load takes its power at its voltage: R = n U² / P for each of n like
// branches, with the voltage across a branch.
func TestResistiveLoads(t *testing.T) {
	single := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	twoWire := diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	type data = diagram.LoadData
	for _, row := range []struct {
		name   string
		system diagram.System
		load   data
		want   map[string]float64
	}{
		{"three lines without a neutral", delta480, data{Power: 30e3}, map[string]float64{"AB": 23.04, "BC": 23.04, "CA": 23.04}},
		{"three lines, connected between them", wye480, data{Power: 30e3, Connection: diagram.ThreeWire}, map[string]float64{"AB": 23.04, "BC": 23.04, "CA": 23.04}},
		{"that star without a neutral", delta480, data{Power: 30e3, Connection: diagram.ThreeWireStar}, map[string]float64{"AB": 23.04, "BC": 23.04, "CA": 23.04}},
		{"star", wye480, data{Power: 30e3}, map[string]float64{"AN": 7.6729, "BN": 7.6729, "CN": 7.6729}},
		{"star by name", wye480, data{Power: 30e3, Connection: diagram.ThreeWireStar}, map[string]float64{"AN": 7.6729, "BN": 7.6729, "CN": 7.6729}},
		{"one line of three", wye208, data{Power: 1200, Connection: diagram.ToNeutral}, map[string]float64{"AN": 12}},
		{"two lines of three", wye208, data{Power: 2080, Connection: diagram.BetweenLines}, map[string]float64{"AB": 20.8}},
		{"split phase", split240, data{Power: 2400}, map[string]float64{"AN": 12, "BN": 12}},
		{"split phase between lines", split240, data{Power: 2400, Connection: diagram.BetweenLines}, map[string]float64{"AB": 24}},
		{"one line", single, data{Power: 2300}, map[string]float64{"AN": 23}},
		{"two wires", twoWire, data{Power: 4800}, map[string]float64{"AB": 48}},
		{"to a neutral that is not there", delta480, data{Power: 30e3, Connection: diagram.ToNeutral}, map[string]float64{"AB": 23.04, "BC": 23.04, "CA": 23.04}},
		{"of another voltage between lines", delta480, data{Power: 30e3, Voltage: 460}, map[string]float64{"AB": 21.16, "BC": 21.16, "CA": 21.16}},
		{"in star, of a voltage between lines", wye480, data{Power: 30e3, Voltage: 460}, map[string]float64{"AN": 7.6729, "BN": 7.6729, "CN": 7.6729}},
		{"in star, of a voltage to neutral", wye480, data{Power: 30e3, Voltage: 265}, map[string]float64{"AN": 7.0225, "BN": 7.0225, "CN": 7.0225}},
		{"split phase, of a voltage between lines", split240, data{Power: 2400, Voltage: 240}, map[string]float64{"AN": 12, "BN": 12}},
		{"one line of another voltage", wye208, data{Power: 1150, Voltage: 115, Connection: diagram.ToNeutral}, map[string]float64{"AN": 11.5}},
		{"one line of a voltage far off", wye208, data{Power: 2080, Voltage: 208, Connection: diagram.ToNeutral}, map[string]float64{"AN": 20.8}},
		{"power not known", wye208, data{}, map[string]float64{}},
	} {
		row.load.Terminals = diagram.ResistiveTerminals
		c := loaded(t, row.system, row.load)
		got := between(c, "load", false)
		for pair, ohms := range row.want {
			if math.Abs(got[pair]-ohms) > 1e-4*ohms { // five figures worked by hand
				t.Errorf("%s, %s: got %.5g ohm, want %.5g", row.name, pair, got[pair], ohms)
			}
		}
		if len(got) != len(row.want) {
			t.Errorf("%s: got %v, want %v", row.name, got, row.want)
		}
		if told(c, "load", "not known") != (row.load.Power == 0) {
			t.Errorf("%s: told %v", row.name, c.Assumptions)
		}
	}
}

// The filter of an electronic load lies between its own conductors and from each of
// them to earth; a line that it does not use has nothing.
func TestFilteredLoads(t *testing.T) {
	for _, row := range []struct {
		name       string
		system     diagram.System
		connection diagram.Connection
		want       []string
	}{
		{"one line of three", wye208, diagram.ToNeutral, []string{"AG", "AN", "NG"}},
		{"three lines without a neutral", delta480, "", []string{"AB", "AG", "BC", "BG", "CA", "CG"}},
		{"two lines of three", wye208, diagram.BetweenLines, []string{"AB", "AG", "BG"}},
	} {
		got := between(loaded(t, row.system, diagram.LoadData{Terminals: diagram.FilteredTerminals, Connection: row.connection}), "load", true)
		var pairs []string
		for pair, farads := range got {
			pairs = append(pairs, pair)
			want := 0.47e-6
			if pair[1] == 'G' {
				want = 4.7e-9
			}
			if math.Abs(farads-want) > 1e-15 {
				t.Errorf("%s, %s: got %g F, want %g", row.name, pair, farads, want)
			}
		}
		slices.Sort(pairs)
		if diff := cmp.Diff(row.want, pairs); diff != "" {
			t.Errorf("%s: -want +got\n%s", row.name, diff)
		}
	}
}

// Loads that count as open are told once: the first, and how many more.
func TestOpenLoadsAreTold(t *testing.T) {
	for _, count := range []int{0, 1, 2, 4} {
		parts, feeders := []diagram.Part{supply(wye480), panel("main")}, []diagram.Feeder{feed("supply", "main", 10)}
		for i := range count {
			id := diagram.ID(fmt.Sprintf("load-%d", i+1))
			parts, feeders = append(parts, diagram.Part{ID: id, Kind: diagram.Load}), append(feeders, feed("main", string(id), 20))
		}
		var got []string
		for _, a := range network(t, sheet(t, parts, feeders...), usual).Assumptions {
			if len(a.Record) > 4 && a.Record[:5] == "load-" {
				got = append(got, string(a.Record)+" "+a.Text)
			}
		}
		switch want := fmt.Sprintf("and %d more", count-1); {
		case count == 0 && len(got) == 0:
		case count == 1 && len(got) == 1 && got[0][:13] == "load-1 counts":
		case count > 1 && len(got) == 1 && got[0][:7+len(want)] == "load-1 "+want:
		default:
			t.Errorf("%d loads: got %q", count, got)
		}
	}
}
