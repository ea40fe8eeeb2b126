package assess_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// For any sheet there is a result of numbers, or an error that names what it
// is about: with feeders of 0 m and 10 km, nameplates of 1 V and 40 kV, loops,
// and parts that nothing feeds.
func TestAnySheet(t *testing.T) {
	solved, refused := 0, 0
	var engine assess.Engine
	sheets := uint64(7)
	if testing.Short() {
		sheets = 4
	}
	for seed := range sheets {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 3+int(seed%20))
		for _, surge := range shortened(doc) {
			result, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, surge)
			if err != nil {
				refused++
				if !strings.Contains(err.Error(), ":") {
					t.Errorf("seed %d: the error names nothing: %v", seed, err)
				}
				continue
			}
			solved++
			checkNumbers(t, seed, result)
		}
	}
	if solved < int(sheets) || refused == 0 {
		t.Errorf("got %d solved and %d refused: the sheets show too little", solved, refused)
	}
	t.Logf("%d solved, %d refused", solved, refused)
}

// shortened returns the surge cases of a sheet and a usual one on each path;
// long waves would only take time.
func shortened(doc *diagram.Document) []diagram.Surge {
	all := doc.Surges()
	for _, path := range diagram.Paths() {
		all = append(all, diagram.Surge{Name: "usual", Path: path, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000})
	}
	var out []diagram.Surge
	for _, s := range all {
		if s.Wave == diagram.ImpulseWave || s.Wave == diagram.LongWave {
			s.Wave = diagram.CurrentWave
		}
		out = append(out, s)
	}
	return out
}

func checkNumbers(t *testing.T, seed uint64, r *analysis.Result) {
	t.Helper()
	good := func(what string, v float64) {
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			t.Errorf("seed %d: %s is %g", seed, what, v)
		}
	}
	for _, bus := range r.Buses {
		if len(bus.Levels) == 0 {
			t.Errorf("seed %d: %s has no level", seed, bus.ID)
		}
		for _, level := range bus.Levels {
			good("voltage of "+string(bus.ID), level.Volts)
		}
	}
	for id, f := range r.Feeders {
		for _, sample := range f.Samples {
			good("voltage along "+string(id), sample.Volts)
		}
	}
	for _, s := range r.Surges {
		good("balance", s.Balance)
		if s.Balance > 0.005 {
			t.Errorf("seed %d, %s: the balance of energy lacks %.3g %%", seed, s.Surge.Name, 100*s.Balance)
		}
		for id, duties := range s.Protectors {
			for _, d := range duties {
				good("current of "+string(id), d.Amps)
				good("charge of "+string(id), d.Charge)
				good("energy of "+string(id), d.Energy)
			}
		}
	}
}
