package fault_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/diagram"
)

// essential has a utility of 20 kA and a generator of 2 kA on a transfer
// switch.
func essential(t *testing.T) *sheet {
	return newSheet(t).
		supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
		generator("set", wye480, diagram.SourceData{FaultCurrent: 2e3, XR: 8, EarthFaultCurrent: 2e3}).
		transfers("switch").boards("main", "board").
		join("utility > main", "main > switch:normal", "set > switch:emergency", "switch:load > board")
}

func TestHighestOfBothPositions(t *testing.T) {
	for _, position := range []diagram.Position{diagram.ToNormal, diagram.ToEmergency} {
		s := essential(t).part(diagram.Part{ID: "switch", Name: "switch", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: position}})
		for place, want := range map[string]float64{"main": 20e3, "switch:normal": 20e3, "switch:emergency": 2e3, "switch:load": 20e3, "board": 20e3} {
			near(t, place+" "+string(position), s.at(place).ThreePhase, want, exact)
		}
		if got, want := s.at("board").Why, "highest with switch on normal: utility"; got != want {
			t.Errorf("got %q, want %q", got, want)
		}
		if got := s.at("main").Why; got != "from utility" {
			t.Errorf("main: got %q", got)
		}
	}
}

// A current that is higher with the lower source, such as that of a generator
// to the neutral, counts as well.
func TestEachCurrentIsTheHighest(t *testing.T) {
	s := newSheet(t).
		supply("utility", wye480, diagram.SourceData{FaultCurrent: 3e3, XR: 5, EarthFaultCurrent: 1e3}).
		generator("set", wye480, diagram.SourceData{FaultCurrent: 2e3, XR: 8, EarthFaultCurrent: 2500}).
		transfers("switch").
		join("utility > switch:normal", "set > switch:emergency")
	f := s.at("switch:load")
	near(t, "three-phase", f.ThreePhase, 3e3, exact)
	near(t, "line to neutral", f.LineNeutral, 2500, exact)
}

// Where the source of the higher earth fault has the lower current between lines,
// that of the other counts there: √3/2 of 3 kA.
func TestHighestBetweenLines(t *testing.T) {
	s := newSheet(t).
		supply("utility", wye480, diagram.SourceData{FaultCurrent: 3e3, XR: 5, EarthFaultCurrent: 1e3}).
		generator("set", wye480, diagram.SourceData{FaultCurrent: 2.9e3, XR: 8, EarthFaultCurrent: 4e3}).
		transfers("switch", "other").
		join("utility > switch:normal", "set > switch:emergency", "set > other:normal", "utility > other:emergency")
	for _, place := range []string{"switch:load", "other:load"} {
		check(t, s.at(place), amps{3e3, 3e3 * math.Sqrt(3) / 2, 4e3, 4e3})
	}
}

func TestUnknownPositionMakesUnknown(t *testing.T) {
	s := essential(t).supply("utility", wye480, diagram.SourceData{})
	f := s.at("board")
	if f.Known || !strings.Contains(f.Why, "utility") {
		t.Errorf("got %+v, want it not known for the utility", f)
	}
	if !s.at("switch:emergency").Known {
		t.Error("the side of the generator is not known")
	}
	// behind a transformer the safe side is the utility's
	s.transformer("t", delta480, wye208, diagram.TransformerData{Power: 30e3, Impedance: 3, XR: 1}).join("board > t:primary")
	near(t, "behind a transformer", s.at("t:secondary").ThreePhase, 30e3/(root3*208)/0.03, exact)
}

// chain is transfer switches one behind the other, each with a generator of
// its own on its emergency side.
func chain(t *testing.T, n int) *sheet {
	s := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5})
	before := "utility"
	for i := range n {
		id := diagram.ID(fmt.Sprintf("switch%d", i))
		set := diagram.ID(fmt.Sprintf("set%d", i))
		s.transfers(id).generator(set, wye480, diagram.SourceData{FaultCurrent: 1000 + float64(i), XR: 8, EarthFaultCurrent: 1000})
		s.join(before+" > "+string(id)+":normal", string(set)+" > "+string(id)+":emergency")
		before = string(id) + ":load"
	}
	return s.boards("last").join(before + " > last")
}

// One source for each way the current can come: 9 behind 8 switches, not 256.
func TestAlternativesAddUp(t *testing.T) {
	const n = 8
	s := chain(t, n)
	end := diagram.End{Part: "last"}
	f := explain(t, s, end)
	count := 1
	for _, step := range f.Working {
		if strings.HasPrefix(step.Label, "else with") {
			count++
		}
	}
	if count != n+1 {
		t.Errorf("got %d alternatives, want %d", count, n+1)
	}
	near(t, "last", f.ThreePhase, 20e3, exact)
	if want := "highest with switch0 on normal"; !strings.HasPrefix(f.Why, want) {
		t.Errorf("got %q, want it to begin %q", f.Why, want)
	}
}

// A generator of no stated system feeds nothing, whatever is closed: the parts
// behind the open switches do not hand each other what none of them has.
func TestFeedingEnds(t *testing.T) {
	delta := diagram.System{Wiring: diagram.Delta, Voltage: 480}
	open := diagram.Feeder{Area: 1e-4, Switch: diagram.SwitchData{Kind: diagram.Breaker, Open: true}}
	s := newSheet(t).generator("generator", diagram.System{}, diagram.SourceData{}).part(diagram.Part{ID: "joint", Kind: diagram.Junction}).transfers("switch").
		part(diagram.Part{ID: "panel", Kind: diagram.Panel, System: diagram.System{Wiring: diagram.Delta, Voltage: 600}}).
		transformer("transformer", diagram.System{}, delta, diagram.TransformerData{}).
		join("generator > switch:emergency", "joint > transformer:primary").
		feed(open, "joint > switch:emergency", "panel > switch:normal", "panel > transformer:secondary")
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	faults, err := fault.Solve(ctx, s.doc, analysis.Trace(s.doc))
	if err != nil {
		t.Fatalf("it does not end: %v", err)
	}
	for at, f := range faults {
		if f.Known {
			t.Errorf("%v: got %+v, want that nothing feeds it", at, f)
		}
	}
}

// What arrives at a part whose stated system it cannot be is told as such.
func TestStatedSystemThatDoesNotFit(t *testing.T) {
	high := diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true}
	single := diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true}
	s := newSheet(t).generator("generator", diagram.System{}, diagram.SourceData{})
	for id, system := range map[diagram.ID]diagram.System{"first": high, "middle": {}, "last": single} {
		s.part(diagram.Part{ID: id, Kind: diagram.Junction, System: system})
	}
	s.join("first > generator", "last > middle", "first > middle")
	f, found := s.solve()[end("last")]
	explained, ok := fault.Explain(s.doc, analysis.Trace(s.doc), end("last"))
	if !found || !ok || f.Known || !strings.Contains(f.Why, "does not fit") || explained.Why != f.Why {
		t.Errorf("got %+v (%t), explained %+v (%t)", f, found, explained, ok)
	}
}

// Both sides from one board, again and again: the number of ways doubles, and
// what is followed stays bounded.
func TestManyWaysStayBounded(t *testing.T) {
	s := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5})
	before := "utility"
	run := steel(10, 50e-6, 1)
	for i := range 40 {
		id := string(rune('a'+i/26)) + string(rune('a'+i%26))
		s.transfers(diagram.ID(id))
		s.feed(run, before+" > "+id+":normal")
		long := run
		long.ID, long.Length = diagram.ID(id+"2"), 2*run.Length
		s.feed(long, before+" > "+id+":emergency")
		before = id + ":load"
	}
	f := s.at(before)
	one := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).boards("end").feed(steel(400, 50e-6, 1), "utility > end").at("end")
	near(t, "forty short runs", f.ThreePhase, one.ThreePhase, exact)
}

// A motor behind a transfer switch feeds back to the side from which the switch
// may take its supply, and not to a fault behind the switch twice.
func TestMotorBehindTransferSwitch(t *testing.T) {
	s := essential(t).byPoints()
	power := root3 * 480 * 50 // below 50 hp: four times 50 A
	s.motor("pump", power).join("board > pump")
	for place, want := range map[string]float64{"main": 20200, "board": 20200, "switch:normal": 20200, "switch:emergency": 2200, "switch:load": 20200, "set": 2200} {
		near(t, place, s.at(place).ThreePhase, want, exact)
	}
}

// Two switches that feed two boards with a tie between: at each what was taken for
// its own source is told, the one that is nearer, though both feed it.
func TestAssumptionsOfTwoSwitches(t *testing.T) {
	s := newSheet(t).supply("told", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).supply("taken", wye480, diagram.SourceData{FaultCurrent: 20e3}).
		transfers("one", "two").boards("left", "right").join("told > one:normal", "taken > two:normal", "one:load > left", "two:load > right").
		feed(steel(50, 50e-6, 1), "left > right")
	if got := s.at("left").Assumptions; len(got) != 0 {
		t.Errorf("left: got %v, want nothing taken", got)
	}
	if got := s.at("right").Assumptions; len(got) != 1 || got[0].Record != "taken" {
		t.Errorf("right: got %v, want the ratio of its supply", got)
	}
}

// Power the other way through a switch: a board on its load side feeds either
// of two.
func TestSwitchTheOtherWay(t *testing.T) {
	s := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).transfers("switch").boards("one").
		join("utility > switch:load", "switch:normal > one")
	near(t, "one", s.at("one").ThreePhase, 20e3, exact)
	if w := lines(explain(t, s, end("one")).Working); !slices.Contains(w, "switch: closed") {
		t.Errorf("the working does not tell of the switch: %v", w)
	}
}

func TestOpenSwitch(t *testing.T) {
	open := steel(50, 50e-6, 1)
	open.Switch = diagram.SwitchData{Kind: diagram.Breaker, Open: true}
	shut := open
	shut.Switch.Open = false
	build := func(run diagram.Feeder) *sheet {
		return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).boards("main", "spare", "beyond").
			join("utility > main").feed(run, "main > spare").feed(steel(20, 50e-6, 1), "spare > beyond")
	}
	for _, place := range []string{"spare", "beyond"} {
		got, want := build(open).at(place), build(shut).at(place)
		check(t, got, amps{want.ThreePhase, want.LineLine, want.LineNeutral, want.LineEarth})
		if want := "with the switch of feeder main – spare closed: utility"; got.Why != want {
			t.Errorf("%s: got %q, want %q", place, got.Why, want)
		}
	}
	// two in a row, and a motor beyond that does not feed back while it is open
	s := build(open).boards("last").feed(diagram.Feeder{Area: 1e-4, Switch: open.Switch}, "beyond > last").motor("pump", 50e3).join("spare > pump")
	near(t, "main", s.at("main").ThreePhase, 20e3, exact)
	near(t, "last", s.at("last").ThreePhase, s.at("beyond").ThreePhase, exact)
	if got := s.at("last").Why; strings.Count(got, "closed") != 2 {
		t.Errorf("got %q, want both switches named", got)
	}
}

// A board between two open switches from two supplies has the higher.
func TestOpenTie(t *testing.T) {
	open := diagram.Feeder{Area: 1e-4, Switch: diagram.SwitchData{Kind: diagram.Breaker, Open: true}}
	s := newSheet(t).
		supply("strong", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).supply("weak", wye480, diagram.SourceData{FaultCurrent: 8e3, XR: 5}).
		boards("left", "right", "between").join("strong > left", "weak > right").feed(open, "left > between", "right > between")
	f := s.at("between")
	near(t, "between", f.ThreePhase, 20e3, exact)
	if !strings.Contains(f.Why, "strong") {
		t.Errorf("got %q, want the strong supply named", f.Why)
	}
	near(t, "right", s.at("right").ThreePhase, 8e3, exact)
}

func TestFedByNothing(t *testing.T) {
	s := newSheet(t).boards("alone").supply("utility", wye480, diagram.SourceData{FaultCurrent: 1e3})
	if f, ok := s.solve()[diagram.End{Part: "alone"}]; ok {
		t.Errorf("got %+v for what nothing feeds", f)
	}
	if f, ok := explainOf(s.doc, analysis.Trace(s.doc), end("alone")); ok {
		t.Errorf("%+v is explained, which nothing feeds", f)
	}
}

func TestEmptySheet(t *testing.T) {
	doc := diagram.New()
	if got := newSheet(t).solve(); len(got) != 0 {
		t.Errorf("got %v", got)
	}
	if _, ok := explainOf(doc, analysis.Trace(doc), diagram.End{Part: "nobody"}); ok {
		t.Error("a terminal that is not there was explained")
	}
}

// finite reports whether no figure is out of bounds.
func finite(f analysis.Fault) bool {
	for _, v := range []float64{f.ThreePhase, f.LineLine, f.LineNeutral, f.LineEarth, f.XR} {
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			return false
		}
	}
	return true
}
