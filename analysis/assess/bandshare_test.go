package assess

import (
	"context"
	"math"
	"os"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// The share is that of a closed form on average over seeds, and as far off as it tells,
// whether a surface can follow the voltage or knows nothing of it. Where it can, it is
// known at least twice as well as by counting the runs.
func TestShareIsThatOfClosedForm(t *testing.T) {
	spans := []span{crestSpan(0.1), mainsSpan(), leadSpan("spd", 0.25)}
	bus := analysis.BusResult{ID: "load", Levels: []analysis.Level{{Judged: true, Known: true, Withstand: 1}}}
	for name, row := range map[string]struct {
		used    func(x []float64) float64
		want    float64
		follows bool
	}{
		"a plane":      {func(x []float64) float64 { return (x[0] + x[2]) / 0.6 }, 0.18, true},                        // a triangle of sides 0.6
		"a saddle":     {func(x []float64) float64 { return 1 + (2*x[0]-1)*(2*x[2]-1) }, 0.5, true},                   // two of four quarters
		"a turn":       {func(x []float64) float64 { return 2 * math.Cos(2*math.Pi*x[1]) }, 2. / 3, true},             // cos under one half
		"a chessboard": {func(x []float64) float64 { return 0.5 + float64((int(8*x[0])+int(8*x[2]))%2) }, 0.5, false}, // as many white fields
		"a far corner": {func(x []float64) float64 {
			return 0.5 + 0.6*math.Floor(x[0]+0.1) + 0.6*math.Floor(x[2]+0.1) - 0.6*math.Floor(x[1]+0.5)
		}, 0.9, false}, // 0.19 of one half are over, 0.01 of the other
	} {
		var shares, offs []float64
		const seeds, runs = 24, 400
		for seed := range uint64(seeds) {
			b := &bander{spans: spans, buses: []analysis.BusResult{bus}}
			b.cloud = hypercube(guesses, len(spans), seed, 1)
			var all []outcome
			for _, place := range hypercube(runs, len(spans), seed, 0) {
				peaks := modePeaks{row.used(place)}
				all = append(all, outcome{place, peaks, holds(bus, peaks)})
			}
			share, off := b.share(0, all)
			shares, offs = append(shares, share), append(offs, off)
		}
		mean, spread := stat.MeanStdDev(shares, nil)
		told := stat.Mean(offs, nil)
		counted := math.Sqrt(row.want * (1 - row.want) / runs)
		if math.Abs(mean-row.want) > 4*spread/math.Sqrt(seeds) {
			t.Errorf("%s: got %.4f ± %.4f, want %.4f", name, mean, spread/math.Sqrt(seeds), row.want)
		}
		if spread > 1.4*told+0.003 { // the guesses themselves are off by up to 0.003
			t.Errorf("%s: the shares spread by %.4f, and %.4f is told", name, spread, told)
		}
		if row.follows != (told < counted/2) {
			t.Errorf("%s: %.4f is told, counting gives %.4f", name, told, counted)
		}
	}
}

// A bus that a flash to the building decides has a band, and a run of that need not be
// solved any longer: at random places its voltages are those of all of it, solved
// without the protectors that are destroyed in that very run.
func TestLongRunIsEndedInTime(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	ended := 0
	for _, doc := range filetest.Demos(t) {
		if len(flashes(doc)) == 0 {
			continue
		}
		for _, plan := range doc.Plans() {
			b := banderOf(t, doc, plan.ID, flashes(doc), spansOf(doc, plan.ID))
			for _, c := range b.cases {
				if c.end <= 0 || c.end > 500e-6 {
					t.Errorf("%s, %s: a run ends at %g s", doc.Info().Title, plan.Name, c.end)
				}
				ended += len(c.buses)
				for _, place := range hypercube(3, len(b.spans), 5, 0) {
					sameInTheEnd(t, b, c, vary(b.spans, place))
				}
			}
		}
	}
	if ended < 20 {
		t.Errorf("only %d buses see a flash", ended)
	}
}

func flashes(doc *diagram.Document) []diagram.Surge {
	var out []diagram.Surge
	for _, s := range analysis.SurgesOf(doc) {
		if extract.IsLong(s.Wave) {
			out = append(out, s)
		}
	}
	return out
}

// sameInTheEnd compares a case of a run with all of it.
func sameInTheEnd(t *testing.T, b *bander, c bandCase, v *extract.Vary) {
	t.Helper()
	got, err := c.solve(context.Background(), b.engine, v)
	if err != nil {
		t.Fatal(err)
	}
	whole := c
	whole.end, whole.grows = 0, nil
	want, err := whole.solve(context.Background(), b.engine, v)
	if err != nil {
		t.Fatal(err)
	}
	if len(want.failed) != len(got.failed) {
		t.Errorf("%s: %d protectors are destroyed, %d were foreseen", c.Surge.Name, len(want.failed), len(got.failed))
		return
	}
	for _, i := range c.buses {
		mode := b.buses[i].Worst().Mode
		x, _ := got.alone().Worst(b.buses[i].ID, mode)
		y, _ := want.alone().Worst(b.buses[i].ID, mode)
		if x.Volts != y.Volts {
			t.Errorf("%s: got %.1f V, in the end it is %.1f V at %.0f µs", b.buses[i].ID, x.Volts, y.Volts, 1e6*y.At)
		}
	}
}

// The shares of three seeds differ by no more than 2 % at any bus of two demos.
func TestShareIsStable(t *testing.T) {
	if os.Getenv("CLAMPLINE_SOAK") == "" {
		t.Skip("takes some minutes; CLAMPLINE_SOAK=1 runs it")
	}
	divided := 0
	for _, doc := range filetest.Demos(t)[1:] {
		t.Run(doc.Info().Title, func(t *testing.T) {
			b := banderOf(t, doc, diagram.FirstPlan, nil, spansOf(doc, diagram.FirstPlan))
			var seeds [][]sample
			for b.Seed = range uint64(3) {
				samples, _, _, err := b.sampled(context.Background())
				if err != nil {
					t.Fatal(err)
				}
				seeds = append(seeds, samples)
			}
			for i, bus := range b.buses {
				shares, runs := make([]float64, len(seeds)), make([]int, len(seeds))
				for k, samples := range seeds {
					shares[k], runs[k] = samples[i].share, len(samples[i].outcomes)
				}
				if shares[0] > 0.02 && shares[0] < 0.98 {
					divided++
				}
				t.Logf("%s holds in %.4f, by %d runs", doc.NameOf(bus.ID), shares, runs)
				if slices.Max(shares)-slices.Min(shares) > 0.02 {
					t.Errorf("%s: the shares of three seeds are %.4f", doc.NameOf(bus.ID), shares)
				}
			}
		})
	}
	if divided < 5 {
		t.Errorf("%d buses hold in some runs and not in others: too few to tell", divided)
	}
}

// More runs solve only what counts where it is in doubt whether a bus holds; a bus that
// is known, and one without a withstand, has no more than the first ones.
func TestMoreRunsAreOfBusesInDoubt(t *testing.T) {
	b := &bander{buses: make([]analysis.BusResult, 3), cases: []bandCase{{buses: []int{0, 1}}, {buses: []int{1}}, {buses: []int{2}}}}
	for at, want := range []int{1, 2, 1} { // how many cases count for a bus
		samples := []sample{{known: true}, {known: true}, {known: true}}
		samples[at].known = false
		if got := b.casesFor(samples); len(got) != want {
			t.Errorf("bus %d: got %d cases, want %d", at, len(got), want)
		}
	}
	b = smallBander(t, onLine(), crestSpan(0.1), clampSpan("spd", 0.1))
	mode := b.buses[0].Worst().Mode
	middle := allOf(t, b, [][]float64{{0.5, 0.5}})[0]
	b.buses[0].Levels = []analysis.Level{{Mode: mode, Judged: true, Known: true, Withstand: middle[0][mode]}}
	b.buses[1].Levels = []analysis.Level{{Mode: mode, Judged: true, Known: true}}
	b.Runs = 500
	bands := bandsOf(t, b)
	first, second := bands[b.buses[0].ID], bands[b.buses[1].ID]
	if first.Off <= 0 || first.Runs == firstRuns && first.Off > shareError || first.Runs > 500 || math.Abs(first.Holds-0.5) > 0.05 {
		t.Errorf("in doubt: got %+v", first)
	}
	if second.Runs != firstRuns || second.Holds != 0 || second.Off != 0 {
		t.Errorf("without a withstand: got %+v", second)
	}
}
