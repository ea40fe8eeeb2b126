package assess

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file/filetest"
)

// solvedDemo returns the first demo, solved by the usual surge cases at one place each.
func solvedDemo(t *testing.T) (*diagram.Document, *analysis.Result) {
	t.Helper()
	doc := filetest.Demos(t)[0]
	result, err := new(Engine).Transient(context.Background(), doc, diagram.FirstPlan, FewSurges(doc)...)
	if err != nil {
		t.Fatal(err)
	}
	return doc, result
}

// step returns the first step whose label begins so.
func step(w analysis.Working, label string) (analysis.Step, bool) {
	for _, s := range w {
		if strings.HasPrefix(s.Label, label) {
			return s, true
		}
	}
	return analysis.Step{}, false
}

// The figures of a working are those of the result, of the hand rule and of
// the withstand.
func TestWorkingOfTransient(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	doc, result := solvedDemo(t)
	hand := diagramtest.Must(handrule.Solve(context.Background(), doc, result.Plan, result.Topology, handrule.DefaultRule()))
	solved := 0
	for id, bus := range result.Buses {
		explained, ok := Explain(doc, result, id)
		if !ok || len(explained.Levels) != len(bus.Levels) || explained.System != bus.System {
			t.Fatalf("%s: explained %t with %d levels, want %d", id, ok, len(explained.Levels), len(bus.Levels))
		}
		for i, level := range bus.Levels {
			got := explained.Levels[i]
			if got.Mode != level.Mode || got.Volts != level.Volts || got.Verdict != level.Verdict {
				t.Errorf("%s: explained %+v, want %+v", id, got, level)
			}
			checkHand(t, doc.NameOf(id), got, hand.Buses[id])
			if level.Known {
				solved++
				checkSolved(t, doc.NameOf(id), got, len(result.Surges))
			} else if s, ok := step(got.Working, "surge"); !ok || s.Text != level.Why {
				t.Errorf("%s %s: says %q, want why nothing is known: %q", id, level.Mode, s.Text, level.Why)
			}
		}
	}
	if solved < 40 {
		t.Errorf("only %d levels of the demo are solved", solved)
	}
}

func checkHand(t *testing.T, name string, got analysis.Level, hand analysis.BusResult) {
	t.Helper()
	for _, level := range hand.Levels {
		s, ok := step(got.Working, "hand rule")
		if level.Mode == got.Mode && (!ok || s.Unit != "" != level.Known || s.Result != level.Volts) {
			t.Errorf("%s %s: the working has %+v beside, the hand rule %+v", name, got.Mode, s, level)
		}
	}
}

func checkSolved(t *testing.T, name string, got analysis.Level, cases int) {
	t.Helper()
	peak, ok := step(got.Working, "peak")
	if !ok || peak.Result != got.Volts || peak.Unit != "V" || !strings.Contains(peak.Source, "transient model") {
		t.Errorf("%s %s: the peak is %+v, want %g V", name, got.Mode, peak, got.Volts)
	}
	others := 0
	for _, s := range got.Working {
		if strings.HasPrefix(s.Label, "in the surge case") {
			others++
			if s.Result > got.Volts {
				t.Errorf("%s %s: %q has %g V, more than the worst", name, got.Mode, s.Label, s.Result)
			}
		}
	}
	if others != cases-1 {
		t.Errorf("%s %s: %d other cases, want %d", name, got.Mode, others, cases-1)
	}
	share, stated := step(got.Working, "share of the withstand")
	if percent, known := got.Percent(); known != stated || share.Result != percent {
		t.Errorf("%s %s: the share is %g, want %g (%t)", name, got.Mode, share.Result, percent, known)
	}
}

// The working says what the protector took in the case that counts: in its
// text stand the figures of the result.
func TestWorkingNamesTheProtector(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	doc, result := solvedDemo(t)
	bus := result.Buses["switchboard-1"]
	explained, _ := Explain(doc, result, bus.ID)
	worst := explained.Worst()
	at, _, _ := worstCase(bus.ID, worst.Mode, result.Surges)
	duties := result.Surges[at].Protectors[worst.Protector]
	if len(duties) == 0 {
		t.Fatalf("%s took nothing: the demo shows too little", worst.Protector)
	}
	s, ok := step(worst.Working, doc.NameOf(worst.Protector)+" takes")
	if !ok {
		t.Fatal("the working does not name the protector")
	}
	for _, duty := range duties {
		want := fmt.Sprintf("%s: %s at ", duty.Mode, analysis.FigureIn(significant(duty.Amps), "A"))
		if got := strings.Contains(s.Text, want); got != (duty.Amps >= leastAmps) {
			t.Errorf("got %q: %q in it: %t", s.Text, want, got)
		}
	}
}

// The nearest protector is that of the bus, or the first on the way to the
// source, also beyond a transformer.
func TestNearestProtector(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	doc, result := solvedDemo(t)
	e := explainer{doc: doc, result: result}
	for bus, want := range map[string]string{
		"Main switchboard": "SPD-1", "Chiller panel": "SPD-1", "Lab panel LP-1": "SPD-1", "Server racks": "SPD-2", "Fume hoods": "SPD-3", "Navigation light": "",
	} {
		found := false
		for part := range doc.Parts() {
			if part.Name != bus {
				continue
			}
			found = true
			if p, ok := e.nearest(part.ID); p.Name != want || ok != (want != "") {
				t.Errorf("%s: got %q, want %q", bus, p.Name, want)
			}
		}
		if !found {
			t.Errorf("the demo has no %s", bus)
		}
	}
}

func TestDutyText(t *testing.T) {
	for _, row := range []struct {
		name   string
		duties []analysis.Duty
		want   string
	}{
		{"rated", []analysis.Duty{{Mode: diagram.LineNeutral, Amps: 1834.2, At: 8.04e-6, Energy: 40.26, Charge: 0.0349, Allows: 0.1745, By: "In of 10 kA"}}, "L-N: 1 830 A at 8.04 µs, 40.3 J in all; 0.035 C, 20 % of what its In of 10 kA allows"},
		{"one of two", []analysis.Duty{{Mode: diagram.LineNeutral, Amps: 0.5}, {Mode: diagram.LineEarth, Amps: 2, At: 1e-6, Energy: 0.001}}, "L-G: 2 A at 1 µs, 0.001 J in all"},
		{"none", []analysis.Duty{{Mode: diagram.LineNeutral, Amps: 0.5}}, "less than 1 A in each mode"},
	} {
		if got := strings.ReplaceAll(dutyText(row.duties), "\u00a0", " "); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

// Numbers are written as people write them.
func TestNumbersOfTheBalance(t *testing.T) {
	for _, row := range []struct {
		solved analysis.SurgeResult
		want   string
	}{
		{analysis.SurgeResult{Delivered: 40.26, Balance: 7.8e-7, Step: 1e-8, Duration: 1.5e-3}, "40.3 J delivered; less than 0.01 % of it is not accounted for, in steps of 10 ns over 1 500 µs"},
		{analysis.SurgeResult{Delivered: 12345, Balance: -0.000234, Step: 1.25e-8, Duration: 8.7e-5}, "12 300 J delivered; -0.023 % of it is not accounted for, in steps of 12.5 ns over 87 µs"},
	} {
		if got := strings.ReplaceAll(balanceStep(row.solved).Text, "\u00a0", " "); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
	if got := microseconds(1.5e-3); got != "1\u00a0500\u00a0µs" {
		t.Errorf("got %q", got)
	}
}

// One case alone has no others beside it.
func TestWorkingOfOneCase(t *testing.T) {
	doc := filetest.Demos(t)[0]
	result, err := new(Engine).Transient(context.Background(), doc, diagram.FirstPlan, short())
	if err != nil {
		t.Fatal(err)
	}
	explained, _ := Explain(doc, result, "switchboard-1")
	checkSolved(t, "switchboard-1", explained.Worst(), 1)
	s, _ := step(explained.Worst().Working, "surge case")
	if want := "“ring”: ring wave, 6 000 V open-circuit, 500 A short-circuit in all, lines to earth, at the supply in use"; strings.ReplaceAll(s.Text, "\u00a0", " ") != want {
		t.Errorf("got %q, want %q", s.Text, want)
	}
}
