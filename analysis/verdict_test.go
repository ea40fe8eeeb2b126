package analysis_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// At most 80 % of the withstand is Held (IEC 62305-4:2010 annex C, from memory), up to
// all of it Tight.
func TestJudge(t *testing.T) {
	for _, row := range []struct {
		volts, withstand float64
		want             analysis.Verdict
	}{
		{0, 1500, analysis.Held}, {1200, 1500, analysis.Held}, {1201, 1500, analysis.Tight}, {1500, 1500, analysis.Tight}, {1501, 1500, analysis.Exceeded},
		{1, 0, analysis.Unknown}, {0, 0, analysis.Unknown}, {1, -1, analysis.Unknown}, {0.8, 1, analysis.Held}, {0.9, 1, analysis.Tight},
	} {
		if got := analysis.Judge(row.volts, row.withstand); got != row.want {
			t.Errorf("%g V of %g V: got %s, want %s", row.volts, row.withstand, got, row.want)
		}
	}
}

// What is judged stands first, of that the worst.
func TestWorstFirst(t *testing.T) {
	level := func(v analysis.Verdict, volts, withstand float64, mode diagram.Mode, judged bool) analysis.Level {
		return analysis.Level{Mode: mode, Known: volts > 0, Volts: volts, Withstand: withstand, Verdict: v, Judged: judged}
	}
	want := []analysis.Level{
		level(analysis.Unreached, 0, 1500, diagram.LineNeutral, true),
		level(analysis.Unreached, 0, 1500, diagram.LineEarth, true),
		level(analysis.Exceeded, 4000, 2000, diagram.LineLine, true),
		level(analysis.Exceeded, 3000, 1500, diagram.LineLine, true), // both 200 %
		level(analysis.Exceeded, 2900, 1500, diagram.LineNeutral, true),
		level(analysis.Unknown, 5000, 0, diagram.LineNeutral, true),
		level(analysis.Unknown, 0, 0, diagram.LineNeutral, true),
		level(analysis.Tight, 1400, 1500, diagram.LineNeutral, true),
		level(analysis.Held, 900, 1500, diagram.LineNeutral, true),
		level(analysis.Unreached, 0, 1500, diagram.NeutralEarth, false),
		level(analysis.Held, 900, 1500, diagram.NeutralEarth, false),
	}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, analysis.WorstFirst)
	for i := range want {
		if got[i].Volts != want[i].Volts || got[i].Verdict != want[i].Verdict || got[i].Mode != want[i].Mode || got[i].Judged != want[i].Judged {
			t.Errorf("%d: got %+v, want %+v", i, got[i], want[i])
		}
	}
}

func TestPercent(t *testing.T) {
	for _, row := range []struct {
		level analysis.Level
		want  float64
		ok    bool
	}{
		{analysis.Level{Known: true, Volts: 900, Withstand: 1500}, 60, true},
		{analysis.Level{Known: true, Volts: 900}, 0, false},
		{analysis.Level{Volts: 900, Withstand: 1500}, 0, false},
		{analysis.Level{Known: true, Volts: 0, Withstand: 1}, 0, true},
	} {
		if got, ok := row.level.Percent(); got != row.want || ok != row.ok {
			t.Errorf("%+v: got %g, %v", row.level, got, ok)
		}
	}
}

func TestVerdictText(t *testing.T) {
	for _, row := range []struct {
		level analysis.Level
		want  string
	}{
		{analysis.Level{Known: true, Mode: diagram.LineLine, Volts: 4600, Withstand: 2500, Verdict: analysis.Exceeded}, "Exceeded, 4 600 V L-L, 184 % of 2 500 V"},
		{analysis.Level{Mode: diagram.LineNeutral, Verdict: analysis.Unreached}, "Unreached, no protector holds L-N"},
		{analysis.Level{Known: true, Volts: 900, Verdict: analysis.Unknown, Reason: analysis.NoWithstand}, "Unknown, not evaluated: " + string(analysis.NoWithstand)},
	} {
		if got := strings.ReplaceAll(analysis.VerdictText(row.level), "\u00a0", " "); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}

func TestWorstOfASurge(t *testing.T) {
	r := analysis.SurgeResult{Buses: map[diagram.ID][]analysis.Peak{"panel-1": {{Mode: diagram.LineNeutral, Volts: 3}, {Mode: diagram.LineLine, Volts: 5}}}}
	if p, ok := r.Worst("panel-1", diagram.LineLine); !ok || p.Volts != 5 {
		t.Errorf("got %+v, %v", p, ok)
	}
	for _, bus := range []diagram.ID{"panel-1", "panel-2"} {
		if p, ok := r.Worst(bus, diagram.NeutralEarth); ok || p != (analysis.Peak{}) {
			t.Errorf("%s: got %+v, %v, want that it does not reach it", bus, p, ok)
		}
	}
}

// Each board counts once, by the worst of its levels, which stands first.
func TestCount(t *testing.T) {
	bus := func(verdicts ...analysis.Verdict) analysis.BusResult {
		var out analysis.BusResult
		for _, v := range verdicts {
			out.Levels = append(out.Levels, analysis.Level{Verdict: v})
		}
		return out
	}
	r := analysis.Result{Buses: map[diagram.ID]analysis.BusResult{
		"a": bus(analysis.Exceeded, analysis.Held), "b": bus(analysis.Held), "c": bus(analysis.Held, analysis.Held, analysis.Unknown), "d": bus(analysis.Unreached, analysis.Exceeded),
	}}
	want := map[analysis.Verdict]int{analysis.Exceeded: 1, analysis.Held: 2, analysis.Unreached: 1}
	if got := r.Count(); !maps.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
