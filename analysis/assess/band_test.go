package assess

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
	"clampline/diagram/geom"
)

// smallSheet is a supply, a board with a protector, and a load.
func smallSheet(t testing.TB) *diagram.Document {
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		system := diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: system, At: geom.Pt(0, 0)})
		tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel, At: geom.Pt(40, 0), Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 1000}})
		tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load, At: geom.Pt(80, 0), Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 1600}})
		tx.SetFeeder(diagram.Feeder{ID: "f1", From: diagram.End{Part: "supply"}, To: diagram.End{Part: "board"}, Length: 20, Area: 16e-6})
		tx.SetFeeder(diagram.Feeder{ID: "f2", From: diagram.End{Part: "board"}, To: diagram.End{Part: "load"}, Length: 15, Area: 2.5e-6})
		p := analysis.TypicalProtector(system)
		p.ID, p.Plan, p.Bus = "spd", diagram.FirstPlan, "board"
		p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = 0.5, 0.5, 0.5
		tx.SetProtector(p)
	})
}

// onLine is a surge between line and neutral.
func onLine() []diagram.Surge {
	return []diagram.Surge{{Name: "line", Path: diagram.LineToNeutral, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000}}
}

// smallBander returns what the bands of the small sheet are found with, over some
// ranges alone. A longer step than usual saves time; all that is compared has it.
func smallBander(t testing.TB, surges []diagram.Surge, spans ...span) *bander {
	t.Helper()
	return coarse(banderOf(t, smallSheet(t), diagram.FirstPlan, surges, spans))
}

func coarse(b *bander) *bander {
	for i := range b.cases {
		b.cases[i].Step = 25e-9
	}
	return b
}

// banderOf returns what the bands of a sheet are found with, over some ranges. No
// surges stand for those of the sheet.
func banderOf(t testing.TB, doc *diagram.Document, plan diagram.ID, surges []diagram.Surge, spans []span) *bander {
	t.Helper()
	result, err := new(Engine).Transient(context.Background(), doc, plan, surges...)
	if err != nil {
		t.Fatal(err)
	}
	b, err := new(Engine).bander(context.Background(), doc, result, spans)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func bandsOf(t testing.TB, b *bander) map[diagram.ID]analysis.Band {
	t.Helper()
	bands, err := b.find(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return bands
}

// smallCases are ranges of one to three figures.
func smallCases() map[string][]span {
	return map[string][]span{
		"crest":               {crestSpan(0.1)},
		"mains":               {mainsSpan()},
		"varistor":            {clampSpan("spd", 0.1)},
		"lead":                {leadSpan("spd", 0.25)},
		"lay":                 {laySpan("f2", tightLay, spreadLay)},
		"load":                {loadSpan("load")},
		"crest, varistor":     {crestSpan(0.1), clampSpan("spd", 0.1)},
		"mains, varistor":     {mainsSpan(), clampSpan("spd", 0.1)},
		"varistor, lead, lay": {clampSpan("spd", 0.1), leadSpan("spd", 0.25), laySpan("f1", 0.85, 1.15)},
		"lead, load":          {leadSpan("spd", 0.25), loadSpan("load")},
	}
}

// Brute force: every place of a dense grid, in the middle of its cells, and every
// corner of the ranges. The percentiles are those of the grid within 2 % of the
// voltage; no run lies beyond the corners by more than the grid does, and where each
// range alone moves the voltage one way the runs reach to near the corners.
func TestBandIsThatOfBruteForce(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	divided := 0
	for name, spans := range smallCases() {
		t.Run(name, func(t *testing.T) {
			b := smallBander(t, onLine(), spans...)
			bands := bandsOf(t, b)
			var sampled []run
			if len(spans) == 1 {
				sampled = allOf(t, b, hypercube(firstRuns, 1, 0, 0))
			}
			dense := allOf(t, b, gridOf(len(spans), []int{240, 40, 15}[len(spans)-1], 0.5))
			corners := allOf(t, b, gridOf(len(spans), 2, 0))
			for i, bus := range b.buses {
				band := bands[bus.ID]
				every, edge := voltsOf(dense, i, band.Mode), voltsOf(corners, i, band.Mode)
				allowed := 0.02 * every[len(every)/2]
				if low, high := share(every, 0.05), share(every, 0.95); math.Abs(band.Low-low) > allowed || math.Abs(band.High-high) > allowed {
					t.Errorf("%s: got %.0f to %.0f V, by brute force %.0f to %.0f V", bus.ID, band.Low, band.High, low, high)
				}
				least, most := min(edge[0], every[0]), max(edge[len(edge)-1], every[len(every)-1])
				if band.Low < least-1e-6 || band.High > most+1e-6 {
					t.Errorf("%s: got %.0f to %.0f V, beyond the corners %.0f to %.0f V", bus.ID, band.Low, band.High, least, most)
				}
				if sampled != nil && name != "mains" { // which is alike at both ends of its turn
					most := voltsOf(sampled, i, band.Mode)
					if math.Abs(most[0]-edge[0]) > allowed/2 || math.Abs(most[len(most)-1]-edge[1]) > allowed/2 {
						t.Errorf("%s: the runs reach from %.0f to %.0f V, the corners are %.0f V", bus.ID, most[0], most[len(most)-1], edge)
					}
				}
				if band.Holds > 0 && band.Holds < 1 {
					divided++
				}
				if math.Abs(band.Holds-heldOf(dense, i, bus)) > 0.02 {
					t.Errorf("%s: holds in %.3f, by brute force in %.3f", bus.ID, band.Holds, heldOf(dense, i, bus))
				}
			}
		})
	}
	if divided < 5 {
		t.Errorf("%d buses hold in some runs and not in others: the withstands show too little", divided)
	}
}

// The longer step of the runs moves no voltage that decides on the demos by more than
// 1 %, which is little beside any range.
func TestRunsAreExactEnough(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for _, doc := range filetest.Demos(t) {
		plan := doc.Plans()[len(doc.Plans())-1]
		b := banderOf(t, doc, plan.ID, nil, nil)
		coarse := allOf(t, b, [][]float64{{}})[0]
		for i := range b.cases {
			b.cases[i].Step /= runSteps
		}
		fine := allOf(t, b, [][]float64{{}})[0]
		for i, bus := range b.buses {
			mode := bus.Worst().Mode
			if got, want := coarse[i][mode], fine[i][mode]; math.Abs(got/want-1) > 0.01 {
				t.Errorf("%s, %s: got %.1f V, by the usual step %.1f V", doc.Info().Title, doc.NameOf(bus.ID), got, want)
			}
			if bus.Worst().Filtered {
				continue // of two circuits, and the runs without ranges have the other
			}
			if usual := bus.Worst().Volts; math.Abs(fine[i][mode]/usual-1) > 1e-9 {
				t.Errorf("%s, %s: got %.1f V by the usual step, the result has %.1f V", doc.Info().Title, doc.NameOf(bus.ID), fine[i][mode], usual)
			}
		}
	}
}

// A run solves what decides at each bus on the sheet as it is, from the place at which
// that arrives, and nothing that is far from deciding anywhere.
func TestDeciding(t *testing.T) {
	inside := diagram.Surge{Name: "inside", Path: diagram.LineToNeutral, Wave: diagram.RingWave, Voltage: 6000, Current: 500, Places: diagram.EveryBus}
	weak := diagram.Surge{Name: "weak", Path: diagram.LineToNeutral, Wave: diagram.RingWave, Voltage: 200, Current: 10}
	surges := append(onLine(), inside, weak)
	b := smallBander(t, surges)
	result, err := new(Engine).Transient(context.Background(), smallSheet(t), diagram.FirstPlan, surges...)
	if err != nil {
		t.Fatal(err)
	}
	for id, bus := range result.Buses {
		worst := bus.Worst()
		if !slices.ContainsFunc(b.cases, func(in bandCase) bool {
			return in.Surge.Name == worst.Surge && (worst.Origin == "" || in.Surge.Part == worst.Origin)
		}) {
			t.Errorf("%s: %s from %q decides and is not solved", id, worst.Surge, worst.Origin)
		}
	}
	if result.Buses["load"].Worst().Origin != "load" {
		t.Errorf("what is born at the load does not decide there: %+v", result.Buses["load"].Worst())
	}
	if slices.ContainsFunc(b.cases, func(in bandCase) bool { return in.Surge.Name == "weak" }) || len(b.cases) > 3 {
		t.Errorf("%d cases are solved, the weak one among them?", len(b.cases))
	}
}

// gridOf returns the places of a grid of so many cells a side: their middles by a
// shift of 0.5; with 0 they lie from end to end.
func gridOf(figures, cells int, shift float64) [][]float64 {
	out := [][]float64{{}}
	for range figures {
		var next [][]float64
		for _, place := range out {
			for k := range cells {
				at := (float64(k) + shift) / float64(cells)
				if shift == 0 {
					at = float64(k) / float64(cells-1)
				}
				next = append(next, append(slices.Clone(place), at))
			}
		}
		out = next
	}
	return out
}

func allOf(t *testing.T, b *bander, places [][]float64) []run {
	t.Helper()
	runs, err := b.runAll(context.Background(), places, b.cases)
	if err != nil || slices.ContainsFunc(runs, func(r run) bool { return r == nil }) {
		t.Fatalf("a run is not solved: %v", err)
	}
	return runs
}

// voltsOf returns the voltages of a bus in all runs, sorted.
func voltsOf(runs []run, bus int, mode diagram.Mode) []float64 {
	var out []float64
	for _, r := range runs {
		out = append(out, r[bus][mode])
	}
	slices.Sort(out)
	return out
}

// share returns what a share of sorted values lies below, as plainly as can be.
func share(sorted []float64, p float64) float64 {
	return sorted[min(int(p*float64(len(sorted))), len(sorted)-1)]
}

func heldOf(runs []run, at int, bus analysis.BusResult) float64 {
	held := 0
	for _, r := range runs {
		ok := true
		for _, level := range bus.Levels {
			ok = ok && (!level.Judged || level.Withstand <= 0 || r[at][level.Mode] <= level.Withstand)
		}
		if ok {
			held++
		}
	}
	return float64(held) / float64(len(runs))
}

// Without a protector everything is linear, and a crest that lies anywhere within
// 10 % gives every voltage at 91 and 109 %, in closed form.
func TestBandOfALinearSheet(t *testing.T) {
	doc := smallSheet(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.Remove("spd") })
	b := banderOf(t, doc, diagram.FirstPlan, onLine(), []span{crestSpan(0.1)})
	coarse(b)
	plain := allOf(t, b, [][]float64{{math.NaN()}})[0]
	for i, bus := range b.buses {
		band := bandsOf(t, b)[bus.ID]
		volts := plain[i][band.Mode]
		if math.Abs(band.Low/volts-0.91) > 0.002 || math.Abs(band.High/volts-1.09) > 0.002 {
			t.Errorf("%s: got %.1f to %.1f V of %.1f V, want 91 to 109 %%", bus.ID, band.Low, band.High, volts)
		}
		if len(band.Ranges) != 1 || math.Abs(band.Ranges[0].Volts/volts-0.1) > 1e-6 || band.Ranges[0].Label(doc) != "crest of the surge" {
			t.Errorf("%s: got ranges %v, want the crest with 10 %%", bus.ID, band.Ranges)
		}
	}
}

// A mains alone adds its crest to what a bus far from any protector sees, in either
// polarity: a linear sheet carries both side by side.
func TestMainsOfALinearSheetAddsUp(t *testing.T) {
	doc := smallSheet(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.Remove("spd") })
	b := banderOf(t, doc, diagram.FirstPlan, onLine(), []span{mainsSpan()})
	runs := allOf(t, b, [][]float64{{math.NaN()}, {0}, {0.5}})
	for i, bus := range b.buses {
		plain, up, down := runs[0][i][diagram.LineNeutral], runs[1][i][diagram.LineNeutral], runs[2][i][diagram.LineNeutral]
		if crest := 230 * math.Sqrt2; math.Abs(up-plain-crest) > 0.01 || math.Abs(plain-down-crest) > 0.01 {
			t.Errorf("%s: got %.1f and %.1f V round %.1f V, want %.1f V more and less", bus.ID, up, down, plain, crest)
		}
	}
}

// A range of no width gives a band of none, and moves nothing.
func TestRangeOfZero(t *testing.T) {
	b := smallBander(t, onLine(), crestSpan(0), clampSpan("spd", 0), leadSpan("spd", 0), laySpan("f1", 1, 1))
	b.Runs = 5
	plain := allOf(t, b, [][]float64{{math.NaN(), math.NaN(), math.NaN(), math.NaN()}})[0]
	for i, bus := range b.buses {
		if band := bandsOf(t, b)[bus.ID]; band.Low != band.High || band.Low != plain[i][band.Mode] || len(band.Ranges) != 0 {
			t.Errorf("%s: got %+v, want %g V and no width", bus.ID, band, plain[i][band.Mode])
		}
	}
}

// The three ranges are those that move the voltage most of all when each is moved
// alone, whatever the choice by correlation.
func TestRangesAreTheGreatest(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	b := smallBander(t, onLine(), spansOf(smallSheet(t), diagram.FirstPlan)...)
	bands := bandsOf(t, b)
	all := make([]int, len(b.spans))
	for i := range all {
		all[i] = i
	}
	moved, err := b.moveAlone(context.Background(), all)
	if err != nil {
		t.Fatal(err)
	}
	for i, bus := range b.buses {
		if diff := cmp.Diff(b.ranges(i, moved), bands[bus.ID].Ranges); diff != "" {
			t.Errorf("%s: -all +chosen:\n%s", bus.ID, diff)
		}
	}
}

// The same seed gives the same numbers on one processor and on two, another seed
// others.
func TestBandIsRepeatable(t *testing.T) {
	found := func(processors int, seed uint64) map[diagram.ID]analysis.Band {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		b := smallBander(t, onLine(), spansOf(smallSheet(t), diagram.FirstPlan)...)
		b.Runs, b.Seed = 60, seed
		return bandsOf(t, b)
	}
	one, two, other := found(1, 3), found(2, 3), found(2, 4)
	if diff := cmp.Diff(one, two); diff != "" {
		t.Errorf("-one +two processors:\n%s", diff)
	}
	if cmp.Equal(two, other) {
		t.Error("another seed gives the same")
	}
}

// It tells how far it is, and stops soon where nobody waits any more.
func TestBandStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	doc := filetest.Demos(t)[0]
	var cut time.Time
	last := 0
	result, err := new(Engine).Transient(ctx, doc, diagram.FirstPlan, short())
	if err != nil {
		t.Fatal(err)
	}
	_, err = new(Engine).Band(ctx, doc, result, BandOptions{Runs: 1000, Progress: func(done, of int) {
		if done != last+1 || of <= firstRuns {
			t.Errorf("told %d of %d after %d", done, of, last)
		}
		if last = done; done == 3 {
			cut = time.Now()
			cancel()
		}
	}})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got error %v", err)
	}
	if took := time.Since(cut); took > time.Second || last > 10 {
		t.Errorf("it went on for %v, up to run %d", took, last)
	}
}
