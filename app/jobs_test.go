package app

import (
	"testing"
	"time"

	"clampline/analysis"
	"clampline/diagram"
)

// next runs the job that has waited longest and reports whether there was one.
func (h *held) next() bool {
	if len(h.jobs) == 0 {
		return false
	}
	job := h.jobs[0]
	h.jobs = h.jobs[1:]
	job()
	return true
}

func TestEveryUntilHalted(t *testing.T) {
	queue := make(chan func())
	count := 0
	halt := beside(func(f func()) { queue <- f }).every(time.Microsecond, func() { count++ })
	for range 3 {
		(<-queue)()
	}
	halt()
	if count != 3 {
		t.Errorf("ran %d times, want 3", count)
	}
}

// The window says that it is working, and then how long that took.
func TestEngineText(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	h := &held{}
	a.judge.run = h.executor()
	change(t, a, "Mains")
	if got := a.status.engine.Text(); got != "working …" {
		t.Errorf("got %q while a run is under way", got)
	}
	h.next()
	for took, want := range map[time.Duration]string{300 * time.Microsecond: "solved in under 1 ms", 6200 * time.Microsecond: "solved in 6 ms"} {
		a.judgement.took = took
		a.status.show(a)
		if got := a.status.engine.Text(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestVerdictText(t *testing.T) {
	held := analysis.BusResult{Levels: []analysis.Level{{Verdict: analysis.Held}}}
	tight := analysis.BusResult{Levels: []analysis.Level{{Verdict: analysis.Tight}}}
	unknown := analysis.BusResult{Levels: []analysis.Level{{Verdict: analysis.Unknown}}}
	for _, row := range []struct {
		name   string
		result *analysis.Result
		want   string
	}{
		{"none", nil, ""},
		{"empty", &analysis.Result{}, ""},
		{"two", &analysis.Result{Buses: map[diagram.ID]analysis.BusResult{"a": held, "b": tight, "c": held}}, "3 buses and loads: 2 held · 1 tight"},
		{"one", &analysis.Result{Buses: map[diagram.ID]analysis.BusResult{"a": held}}, "1 bus or load: 1 held"},
		{"not judged", &analysis.Result{Buses: map[diagram.ID]analysis.BusResult{"a": unknown, "b": unknown}}, "2 buses and loads: 2 unknown"},
	} {
		if got := verdictText(row.result); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}
