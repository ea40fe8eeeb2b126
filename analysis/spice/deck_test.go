package spice

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"

	"github.com/google/go-cmp/cmp"
)

// deckOf writes a deck.
func deckOf(t testing.TB, n *circuit.Network, o Options) string {
	t.Helper()
	var b strings.Builder
	if err := Write(context.Background(), &b, n, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// golden compares a text with what is under testdata, or writes it there.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") == "1" {
		save(t, path, got)
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run with UPDATE=1 to make it", err)
	}
	if plain := strings.ReplaceAll(string(want), "\r\n", "\n"); got != plain { // a checkout may have changed line ends
		failed := filepath.Join("testdata", "failed", name)
		save(t, failed, got)
		t.Errorf("%s differs (-got +want):\n%s", failed, cmp.Diff(got, plain))
	}
}

func save(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func sampleOptions() Options {
	return Options{
		Title:    "Tern Quay Marine Laboratory, as found",
		Notes:    []string{"Estimates for planning.", "Two lines:\nthe second."},
		Step:     10e-9,
		Duration: 50e-6,
	}
}

func TestDeckText(t *testing.T) {
	golden(t, "every-kind.cir", deckOf(t, sample(), sampleOptions()))
}

// TestDeckOfShapes writes a source of every formula, those of waveform.Form, a gap that
// stays fired, and lines of which the conductors share nothing but a resistance, or not
// even that.
func TestDeckOfShapes(t *testing.T) {
	n := &circuit.Network{}
	s := &naming{}
	nodes := s.bus(n, "Panel", "ABCN")
	for i, shape := range []waveform.Shape{waveform.Voltage1_2x50(), waveform.Ring100kHz(), waveform.Current8x20(), waveform.Current10x350(), {Name: "none", Fall: 1, Rise: 1}} {
		n.Sources = append(n.Sources, circuit.Source{Name: shape.Name, A: nodes[i%4], B: circuit.Earth, Volts: 1000 * float64(i+1), Shape: shape, Ohms: 2})
	}
	n.Gaps = []circuit.Gap{{Name: "stays fired", A: nodes[0], B: nodes[3], Sparkover: 600, Arc: 25, Ohms: 0.01, Off: 1e8}}
	far := s.bus(n, "Load", "AN")
	n.Lines = []circuit.Line{
		{Name: "apart", A: nodes[:2], B: far, Length: 10, Delay: 60e-9, Z: circuit.Balanced{Own: 100}.Matrix(2), R: circuit.Balanced{Own: 0.2, Mutual: 0.1}},
		{Name: "alone", A: nodes[2:3], B: far[:1], Length: 10, Delay: 60e-9, Z: circuit.Balanced{Own: 100}.Matrix(1)},
	}
	golden(t, "shapes.cir", deckOf(t, n, Options{Step: 20e-9, Duration: 100e-6}))
}

func TestWriteRefuses(t *testing.T) {
	good := sampleOptions()
	tests := []struct {
		name   string
		spoil  func(*circuit.Network, *Options)
		reason string
	}{
		{"no step", func(_ *circuit.Network, o *Options) { o.Step = 0 }, "the step is 0 s"},
		{"duration below the step", func(_ *circuit.Network, o *Options) { o.Duration = 1e-9 }, "the duration is 1e-09 s"},
		{"step over a delay", func(_ *circuit.Network, o *Options) { o.Step = 71e-9 }, "shorter than the step"},
		{"bad network", func(n *circuit.Network, _ *Options) { n.Resistors[0].Ohms = 0 }, "resistance is 0"},
		{"shape without a fall", func(n *circuit.Network, _ *Options) { n.Sources[0].Shape.Fall = 0 }, "the fall of its shape is 0"},
		{"shape without a rise", func(n *circuit.Network, _ *Options) { n.Sources[0].Shape.Rise = 0 }, "the rise of its shape is 0"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			n, o := sample(), good
			test.spoil(n, &o)
			var b strings.Builder
			err := Write(context.Background(), &b, n, o)
			if err == nil || !strings.Contains(err.Error(), test.reason) {
				t.Errorf("got error %v, want one with %q", err, test.reason)
			}
			if b.Len() > 0 {
				t.Errorf("wrote %d bytes", b.Len())
			}
		})
	}
}

// TestCubicNeedsNoRise writes a shape in which the rise has no meaning.
func TestCubicNeedsNoRise(t *testing.T) {
	n := sample()
	n.Sources[0].Shape = waveform.Current8x20()
	deckOf(t, n, sampleOptions())
}

func TestMeasures(t *testing.T) {
	n := sample()
	n.Buses[2].Name = "sea WATER pump panel!" // as another one, after slugging
	var got []string
	for _, m := range Measures(n) {
		got = append(got, m.Name)
	}
	want := []string{
		"peak_ln_main_switchboard", "time_ln_main_switchboard", "peak_lg_main_switchboard", "time_lg_main_switchboard",
		"peak_ng_main_switchboard", "time_ng_main_switchboard", "peak_ll_main_switchboard", "time_ll_main_switchboard",
		"peak_ln_sea_water_pump_panel", "time_ln_sea_water_pump_panel", "peak_lg_sea_water_pump_panel", "time_lg_sea_water_pump_panel",
		"peak_ng_sea_water_pump_panel", "time_ng_sea_water_pump_panel", "peak_ll_sea_water_pump_panel", "time_ll_sea_water_pump_panel",
		"peak_lg_sea_water_pump_panel_2", "time_lg_sea_water_pump_panel_2",
	}
	if diff := cmp.Diff(got[:len(want)], want); diff != "" {
		t.Errorf("measures of buses (-got +want):\n%s", diff)
	}
	if rest := len(got) - len(want); rest != 3*(len(n.Varistors)+len(n.Gaps)) {
		t.Errorf("got %d measures of varistors and gaps", rest)
	}
	if first := Measures(n)[0]; first.Bus != 0 || first.Varistor != -1 || first.Gap != -1 {
		t.Errorf("got %+v, want that of a bus first", first)
	}
	last := Measures(n)[len(got)-1]
	if last.Kind != Energy || last.Gap != 0 || last.Bus != -1 || last.Varistor != -1 {
		t.Errorf("got %+v, want the energy of the gap last", last)
	}
}
