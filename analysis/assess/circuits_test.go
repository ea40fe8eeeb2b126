package assess

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis/circuit"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// short returns a surge case that is soon over.
func short() diagram.Surge {
	return diagram.Surge{Name: "ring", Path: diagram.LinesToEarth, Wave: diagram.RingWave, Voltage: 6000, Current: 500}
}

func TestCasesAgreeWithTransient(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		var engine Engine
		want, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, short())
		if err != nil {
			t.Fatalf("%s: %v", doc.Info().Title, err)
		}
		got, cases, err := engine.Cases(context.Background(), doc, diagram.FirstPlan, short())
		if err != nil {
			t.Fatalf("%s: %v", doc.Info().Title, err)
		}
		if diff := cmp.Diff(want.Buses, got.Buses); diff != "" {
			t.Errorf("%s: -want +got:\n%s", doc.Info().Title, diff)
		}
		if diff := cmp.Diff(want.Surges[0], cases[0].SurgeResult); diff != "" {
			t.Errorf("%s: -want +got:\n%s", doc.Info().Title, diff)
		}
	}
}

// Every bus of a circuit stands for a record of the sheet, and those that are
// judged have the peaks of the result.
func TestPlacesAreRecords(t *testing.T) {
	for _, doc := range filetest.Demos(t) {
		_, cases, err := new(Engine).Cases(context.Background(), doc, diagram.FirstPlan, short())
		if err != nil {
			t.Fatal(err)
		}
		c, judged := cases[0], 0
		for bus, place := range c.Circuit.Places {
			name := c.Circuit.Network.Buses[bus].Name
			if called := doc.NameOf(place.Record); place.Record == "" || !strings.HasPrefix(name, called) {
				t.Errorf("%s: bus %q stands for %q, called %q", doc.Info().Title, name, place.Record, called)
			}
			if place.Judged {
				judged++
				if diff := cmp.Diff(c.Buses[place.Record], c.Peaks[bus]); diff != "" {
					t.Errorf("%s: %s: -want +got:\n%s", doc.Info().Title, name, diff)
				}
			}
		}
		if judged == 0 || judged != len(c.Buses) || judged == len(c.Circuit.Places) {
			t.Errorf("%s: got %d judged of %d places, want %d", doc.Info().Title, judged, len(c.Circuit.Places), len(c.Buses))
		}
	}
}

// The waves of a bus reach the very peaks that are told of it: they are solved
// in the same steps.
func TestWavesReachThePeaks(t *testing.T) {
	doc := filetest.Demos(t)[1]
	_, cases, err := new(Engine).Cases(context.Background(), doc, diagram.FirstPlan, short())
	if err != nil {
		t.Fatal(err)
	}
	if len(cases[0].Alone()) != 2 {
		t.Fatalf("got %d circuits, want one with loads open and one with filters", len(cases[0].Alone()))
	}
	for _, c := range cases[0].Alone() {
		wavesReachThePeaks(t, c)
	}
}

func wavesReachThePeaks(t *testing.T, c Case) {
	t.Helper()
	for bus := range c.Circuit.Places {
		waves, err := Waves(context.Background(), c.Circuit, bus)
		if err != nil {
			t.Fatal(err)
		}
		at := c.Circuit.Network.Buses[bus]
		if want := len(circuit.Pairs(len(at.Conductors))); len(waves) != want {
			t.Fatalf("%s: got %d waves, want %d", at.Name, len(waves), want)
		}
		byPair := map[string]Wave{}
		for _, wave := range waves {
			byPair[wave.Between] = wave
		}
		for _, peak := range c.Peaks[bus] {
			value, when := byPair[peak.Between].Peak()
			if math.Abs(value) != peak.Volts || math.Abs(when-peak.At) > c.Step/2 {
				t.Errorf("%s %s: the wave peaks at %g V, %g s, want %g V, %g s", at.Name, peak.Between, value, when, peak.Volts, peak.At)
			}
		}
	}
}

func TestCasesErrors(t *testing.T) {
	doc := filetest.Demos(t)[1]
	var engine Engine
	if _, _, err := engine.Cases(context.Background(), doc, "plan-9"); err == nil {
		t.Error("got cases for a plan that is not there")
	}
	nowhere := short()
	nowhere.Part = "part-999"
	if _, _, err := engine.Cases(context.Background(), doc, diagram.FirstPlan, nowhere); err == nil || !strings.Contains(err.Error(), "part-999") {
		t.Errorf("got %v, want an error that names part-999", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := engine.Cases(ctx, doc, diagram.FirstPlan); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want that it was cancelled", err)
	}
}
