package assess

import (
	"context"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The voltage at the end of a feeder is that of the bus there, and so is the
// verdict; toward the supply, where the surge comes from, each place is judged by
// what the same equipment withstands.
func TestFeedersOnTheTransient(t *testing.T) {
	doc := house(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for _, p := range []diagram.ID{"two", "three", "four", "five"} {
			tx.Remove(p)
		}
		p := analysis.TypicalProtector(diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60})
		p.ID, p.Plan, p.Bus = "one", diagram.FirstPlan, "panel"
		tx.SetProtector(p)
		main, _ := tx.Document().Part("panel")
		main.Board.Bonded = true
		tx.SetPart(main)
		f, _ := tx.Document().Feeder("f1")
		f.Length = 60
		f.Raceway = diagram.SteelConduit // round the axis of which lines are alike: the worst mode is that of the surge
		tx.SetFeeder(f)
		tx.SetPart(diagram.Part{ID: "island", Kind: diagram.Panel})
		tx.SetFeeder(diagram.Feeder{ID: "f3", From: diagram.End{Part: "panel"}, To: diagram.End{Part: "island"}, Length: 20, Switch: diagram.SwitchData{Open: true}})
	})
	surges := []diagram.Surge{short(), {Name: "small", Path: diagram.LineToNeutral, Wave: diagram.RingWave, Voltage: 600, Current: 50}}
	var engine Engine
	r, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, surges...)
	if err != nil {
		t.Fatal(err)
	}
	level := r.Buses["panel"].Worst()
	samples := r.Feeders["f1"].Samples
	first, last := samples[0], samples[len(samples)-1]
	if last.Volts != level.Volts || last.Verdict != level.Verdict || !last.Known {
		t.Errorf("at the panel: got %.0f V, %s, and the panel has %.0f V, %s", last.Volts, last.Verdict, level.Volts, level.Verdict)
	}
	// the protector holds the panel to a part of what arrives 60 m before it
	if first.Volts < 2*last.Volts || first.Verdict != analysis.Exceeded || last.Verdict == analysis.Exceeded {
		t.Errorf("got %.0f V, %s at the supply and %.0f V, %s at the panel, which withstands 2500 V", first.Volts, first.Verdict, last.Volts, last.Verdict)
	}
	if len(samples) != insidePlaces+2 || first.Share != 0 || last.Share != 1 {
		t.Fatalf("got %d samples from %g to %g", len(samples), first.Share, last.Share)
	}
	for i := 1; i < len(samples); i++ {
		if !samples[i].Known || samples[i].Volts < last.Volts/2 {
			t.Errorf("sample %d is %+v, on the way to %.0f V", i, samples[i], last.Volts)
		}
		if samples[i].Share <= samples[i-1].Share {
			t.Errorf("sample %d stands at %g after %g", i, samples[i].Share, samples[i-1].Share)
		}
	}
	for _, s := range r.Feeders["f2"].Samples { // the pump states no withstand
		if !s.Known || s.Verdict != analysis.Unknown {
			t.Errorf("toward the pump: got %+v, want a voltage without a verdict", s)
		}
	}
	want := []analysis.Sample{{Share: 0}, {Share: 1}}
	if diff := cmp.Diff(want, r.Feeders["f3"].Samples); diff != "" { // its switch stands at the panel
		t.Errorf("beyond the open switch: -want +got\n%s", diff)
	}
	// The feeder is short beside the front of the surge, and so an inductance: the
	// voltage falls evenly along it, but for waves of a fifth of that.
	for _, s := range samples {
		even := first.Volts + s.Share*(last.Volts-first.Volts)
		if math.Abs(s.Volts-even) > (first.Volts-last.Volts)/5 {
			t.Errorf("at %g of the way: got %.0f V, want about %.0f", s.Share, s.Volts, even)
		}
	}
}

// What leads to no board or load has nothing to be judged by. A surge common to all
// lines of an ungrounded delta stands all along the feeder to earth, whose end is open,
// and not between them.
func TestFeederOfNothing(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}})
		tx.SetPart(diagram.Part{ID: "end", Kind: diagram.Junction})
		tx.SetFeeder(diagram.Feeder{ID: "f1", From: diagram.End{Part: "supply"}, To: diagram.End{Part: "end"}, Length: 30})
	})
	var engine Engine
	surge := short()
	surge.Path = diagram.LinesToEarth
	r, err := engine.Transient(context.Background(), doc, diagram.FirstPlan, surge)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range r.Feeders["f1"].Samples {
		if !s.Known || s.Verdict != analysis.Unknown || s.Volts < 0.9*surge.Voltage {
			t.Errorf("got %+v, want about %.0f V without a verdict", s, surge.Voltage)
		}
	}
}

func TestHighest(t *testing.T) {
	known := func(share, volts float64) analysis.Sample {
		return analysis.Sample{Share: share, Known: true, Volts: volts}
	}
	long := []analysis.Sample{known(0, 5), {Share: 0.5}, known(1, 3)}
	for _, row := range []struct {
		name       string
		a, b, want []analysis.Sample
	}{
		{"each the higher", long, []analysis.Sample{known(0, 4), known(0.5, 2), known(1, 7)}, []analysis.Sample{known(0, 5), known(0.5, 2), known(1, 7)}},
		{"only ends against all", []analysis.Sample{known(0, 6), {Share: 1}}, long, []analysis.Sample{known(0, 6), {Share: 0.5}, known(1, 3)}},
		{"all against only ends", long, []analysis.Sample{{Share: 0}, known(1, 9)}, []analysis.Sample{known(0, 5), {Share: 0.5}, known(1, 9)}},
		{"ends alone go evenly", []analysis.Sample{known(0, 9), known(1, 7)}, []analysis.Sample{known(0, 5), known(0.5, 6), known(1, 9)}, []analysis.Sample{known(0, 9), known(0.5, 8), known(1, 9)}},
		{"what is known, though zero", []analysis.Sample{{Share: 0}, {Share: 1}}, []analysis.Sample{known(0, 0), known(1, 0)}, []analysis.Sample{known(0, 0), known(1, 0)}},
	} {
		if diff := cmp.Diff(row.want, highest(row.a, row.b)); diff != "" {
			t.Errorf("%s: -want +got\n%s", row.name, diff)
		}
	}
	if long[0].Volts != 5 || long[1].Known || long[2].Volts != 3 {
		t.Errorf("it altered what it was given: %v", long)
	}
}
