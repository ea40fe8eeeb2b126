package extract_test

import (
	"context"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/analysis/transient"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

var (
	wye480   = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208   = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta480 = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	split240 = diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	tt400    = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TT, Frequency: 50}
)

// usual is a combination wave from the supply on all lines.
var usual = diagram.Surge{Name: "usual", Path: diagram.LinesToEarth, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000}

// sheet makes a document of parts and feeders.
func sheet(t testing.TB, parts []diagram.Part, feeders ...diagram.Feeder) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for _, p := range parts {
			tx.SetPart(p)
		}
		for _, f := range feeders {
			tx.SetFeeder(f)
		}
	})
}

// feed is a feeder of a length; "trafo:secondary" names a terminal.
func feed(from, to string, length float64) diagram.Feeder {
	end := func(text string) diagram.End {
		part, port, _ := strings.Cut(text, ":")
		return diagram.End{Part: diagram.ID(part), Port: diagram.Port(port)}
	}
	f := diagram.Feeder{From: end(from), To: end(to), Length: length, Area: 33.6e-6, Raceway: diagram.NonmetallicConduit, Lay: diagram.LooseLay}
	f.ID = f.From.Part + "-" + f.To.Part
	return f
}

func supply(system diagram.System) diagram.Part {
	return diagram.Part{ID: "supply", Kind: diagram.Supply, System: system}
}

func panel(id diagram.ID) diagram.Part { return diagram.Part{ID: id, Kind: diagram.Panel} }

func input(doc *diagram.Document, surge diagram.Surge) extract.Input {
	return extract.Input{Document: doc, Plan: diagram.FirstPlan, Topology: analysis.Trace(doc), Surge: surge}
}

func network(t testing.TB, doc *diagram.Document, surge diagram.Surge) *extract.Circuit {
	t.Helper()
	return networkOf(t, input(doc, surge))
}

func networkOf(t testing.TB, in extract.Input) *extract.Circuit {
	t.Helper()
	c, err := extract.Network(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// solve returns the peaks of a bus in volts, by pair of conductors ("AG").
func solve(t testing.TB, c *extract.Circuit, part diagram.ID) map[string]float64 {
	t.Helper()
	return solveAt(t, c, diagram.End{Part: part})
}

func solveAt(t testing.TB, c *extract.Circuit, end diagram.End) map[string]float64 {
	t.Helper()
	s, err := transient.New(context.Background(), c.Network, transient.Options{Step: c.Step, Duration: min(c.Duration, 30e-6)})
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	bus, ok := c.Buses[end]
	if !ok {
		t.Fatalf("the surge does not reach %v", end)
	}
	return peaksOf(c, r, bus)
}

func told(c *extract.Circuit, record diagram.ID, words string) bool {
	for _, a := range c.Assumptions {
		if a.Record == record && strings.Contains(a.Text, words) {
			return true
		}
	}
	return false
}
