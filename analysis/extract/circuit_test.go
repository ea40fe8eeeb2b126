package extract_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/extract"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw/drawtest"
)

// writer writes a circuit as a person would check it: an element a line, nodes by
// their names.
type writer struct {
	strings.Builder
	names []string
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, "  "+format+"\n", args...) }

func (w *writer) branch(b circuit.Branch) string { return w.names[b.A] + " – " + w.names[b.B] }

func (w *writer) nodes(nodes []circuit.Node) string {
	var out []string
	for _, node := range nodes {
		out = append(out, w.names[node])
	}
	return strings.Join(out, ", ")
}

func writtenCircuit(c *extract.Circuit) string {
	n := c.Network
	w := &writer{names: n.Names}
	w.line("step %.4g ns, %.5g µs", c.Step*1e9, c.Duration*1e6)
	for _, b := range n.Buses {
		letters := ""
		for _, conductor := range b.Conductors {
			letters += string(conductor.Letter)
		}
		w.line("bus %s: %s", b.Name, letters)
	}
	for _, l := range n.Lines {
		w.line("line %s: %s to %s, %.5g m, %.5g ns, R %.5g + %.5g shared mΩ", l.Name, w.nodes(l.A), w.nodes(l.B), l.Length, l.Delay*1e9, l.R.Own*1e3, l.R.Mutual*1e3)
		for _, row := range l.Z[:len(l.A)] {
			w.line("  Ω %.5g", row[:len(l.A)])
		}
	}
	for _, x := range n.Inductors {
		for i, b := range x.Branches {
			w.line("inductor %s: %s, %.5g mΩ", x.Name, w.branch(b), x.Ohms[i]*1e3)
		}
		for i := range x.Branches {
			w.line("  nH %.5g", nano(x.Henries[i*len(x.Branches):(i+1)*len(x.Branches)]))
		}
	}
	for _, x := range n.Windings {
		w.line("winding %s: %s to %s, %.5g : 1, %.5g µH, %.5g mΩ", x.Name, w.branch(x.P), w.branch(x.S), x.Ratio, x.Henries*1e6, x.Ohms*1e3)
	}
	for _, x := range n.Resistors {
		if !strings.Contains(x.Name, "insulation") {
			w.line("resistor %s: %s, %.5g Ω", x.Name, w.branch(circuit.Branch{A: x.A, B: x.B}), x.Ohms)
		}
	}
	for _, x := range n.Capacitors {
		w.line("capacitor %s: %s, %.5g nF, %.5g V", x.Name, w.branch(circuit.Branch{A: x.A, B: x.B}), x.Farads*1e9, x.Charged)
	}
	for _, x := range n.Sources {
		w.line("source %s: %s, %.5g V, %.5g Ω", x.Name, w.branch(circuit.Branch{A: x.A, B: x.B}), x.Volts, x.Ohms)
	}
	for _, x := range n.Diodes {
		w.line("diode %s: %s, %.5g Ω, back %.5g Ω", x.Name, w.branch(circuit.Branch{A: x.A, B: x.B}), x.On, x.Off)
	}
	for _, id := range slices.Sorted(maps.Keys(c.Runs)) {
		run := c.Runs[id]
		w.line("feeder %s from %s to %s, line %d, open %v", id, n.Buses[run.From].Name, n.Buses[run.To].Name, run.Line, run.Open)
	}
	for _, a := range c.Assumptions {
		w.line("! %s %s (%s)", a.Record, a.Text, a.Source)
	}
	return strings.ReplaceAll(w.String(), "\u00a0", " ")
}

func nano(henries []float64) []float64 {
	out := make([]float64, len(henries))
	for i, h := range henries {
		out[i] = h * 1e9
	}
	return out
}

// TestCircuitsAsText writes the circuit of small sheets. The file was worked
// through by hand: what each record becomes, between which nodes, and its figures
// by the formulas of the package.
func TestCircuitsAsText(t *testing.T) {
	run := func(from, to string, length float64, alter func(*diagram.Feeder)) diagram.Feeder {
		f := feed(from, to, length)
		alter(&f)
		return f
	}
	board := panel("main")
	board.Board = diagram.BoardData{Service: true, Bonded: true}
	at := func(part diagram.ID, wave diagram.Wave) diagram.Surge {
		return diagram.Surge{Name: "case", Part: part, Path: diagram.LinesToEarth, Wave: wave, Voltage: 6000, Current: 3000}
	}
	tns := diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS}
	it := diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.IT, Frequency: 50}
	var out strings.Builder
	for _, row := range []struct {
		name  string
		doc   *diagram.Document
		surge diagram.Surge
	}{
		{"feeders of every make-up, what is not told taken as usual", sheet(t,
			[]diagram.Part{supply(split240), board, panel("a"), panel("b"), panel("c"), panel("d"), panel("e"), panel("f")},
			run("supply", "main", 20, func(f *diagram.Feeder) { f.Raceway, f.Parallel = diagram.SteelConduit, 2 }),
			run("main", "a", 20, func(f *diagram.Feeder) { f.Raceway, f.Material = diagram.ArmouredCable, diagram.Aluminium }),
			run("main", "b", 20, func(f *diagram.Feeder) { f.Raceway = diagram.SheathedCable }),
			run("main", "c", 20, func(f *diagram.Feeder) { f.Raceway = diagram.Busway }),
			run("main", "d", 20, func(f *diagram.Feeder) { f.Raceway = diagram.Overhead }),
			run("main", "e", 20, func(f *diagram.Feeder) { f.Raceway, f.Area = "", 0 }),
			run("main", "f", 0.4, func(f *diagram.Feeder) { f.Raceway = diagram.Tray })), at("", diagram.RingWave)},
		{"a transformer, a surge at the load", sheet(t,
			[]diagram.Part{supply(wye480), {ID: "T1", Kind: diagram.Transformer, System: wye208, Transformer: diagram.TransformerData{Primary: delta480}},
				{ID: "load", Kind: diagram.Load, Load: diagram.LoadData{Power: 12e3, Terminals: diagram.ResistiveTerminals}}},
			feed("supply", "T1:primary", 10), feed("T1:secondary", "load", 15)), at("load", diagram.CombinationWave)},
		{"a screened transformer without an earthed star, from a generator", sheet(t,
			[]diagram.Part{{ID: "set", Kind: diagram.Generator, System: tns},
				{ID: "T1", Kind: diagram.Transformer, System: it, Transformer: diagram.TransformerData{Primary: tns, Power: 50e3, Impedance: 4, XR: 2, Screen: true}},
				{ID: "desk", Kind: diagram.Load, Load: diagram.LoadData{Terminals: diagram.FilteredTerminals}}},
			feed("set", "T1:primary", 10), feed("T1:secondary", "desk", 15)), at("desk", diagram.CurrentWave)},
		{"a transfer switch with a common neutral", sheet(t,
			[]diagram.Part{supply(wye480), {ID: "set", Kind: diagram.Generator, System: wye480, Source: diagram.SourceData{Power: 150e3, Reactance: 12, XR: 8}},
				{ID: "switch", Kind: diagram.TransferSwitch}, board, panel("far")},
			feed("supply", "switch:normal", 10), feed("set", "switch:emergency", 10), feed("switch:load", "main", 15),
			run("main", "far", 5, func(f *diagram.Feeder) { f.Switch = diagram.SwitchData{Kind: diagram.Breaker, Open: true} })), at("main", diagram.LongWave)},
		{"two lines of a star behind a transformer, a transfer switch with a neutral on one side", sheet(t,
			[]diagram.Part{supply(wye480), {ID: "set", Kind: diagram.Generator, System: delta480, Source: diagram.SourceData{FaultCurrent: 2e3}}, {ID: "switch", Kind: diagram.TransferSwitch},
				{ID: "T1", Kind: diagram.Transformer, System: diagram.System{Wiring: diagram.TwoOfWye, Voltage: 208, Neutral: true, Earthing: diagram.Solid},
					Transformer: diagram.TransformerData{Primary: delta480, Power: 30e3, Impedance: 4, XR: 1}}},
			feed("supply", "switch:normal", 10), feed("set", "switch:emergency", 10), feed("switch:load", "T1:primary", 15)), at("", diagram.BurstWave)},
		{"beyond an open switch, one line earthed", sheet(t,
			[]diagram.Part{supply(diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Corner, Frequency: 60}), panel("near"), panel("far")},
			feed("supply", "near", 10), run("near", "far", 15, func(f *diagram.Feeder) { f.Switch = diagram.SwitchData{Kind: diagram.Breaker, Open: true} })), at("far", diagram.ImpulseWave)},
	} {
		for _, p := range slices.Collect(row.doc.Parts()) {
			if p.Name == "" { // named after its id, that the file can be read
				p.Name = string(p.ID)
				diagramtest.Edit(t, row.doc, func(tx *diagram.Tx) { tx.SetPart(p) })
			}
		}
		fmt.Fprintf(&out, "%s\n%s", row.name, writtenCircuit(network(t, row.doc, row.surge)))
	}
	drawtest.Text(t, "circuits.txt", out.String())
}
