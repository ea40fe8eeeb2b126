package fault_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

func utility(t *testing.T) *sheet {
	return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5})
}

func same(t *testing.T, what string, got, want analysis.Fault) {
	t.Helper()
	t.Run(what, func(t *testing.T) {
		check(t, got, amps{want.ThreePhase, want.LineLine, want.LineNeutral, want.LineEarth})
	})
}

func TestFeederSplitInTwo(t *testing.T) {
	whole := utility(t).boards("board").feed(steel(100, 50e-6, 1), "utility > board").at("board")
	halves := utility(t).boards("middle", "board").feed(steel(50, 50e-6, 1), "utility > middle", "middle > board").at("board")
	same(t, "halves", halves, whole)
}

// Two feeders side by side are one with two conductors for each line.
func TestFeedersSideBySide(t *testing.T) {
	one := utility(t).boards("board", "far").feed(steel(100, 50e-6, 2), "utility > board").feed(steel(30, 20e-6, 1), "board > far")
	second := steel(100, 50e-6, 1)
	second.ID = "second"
	two := utility(t).boards("board", "far").feed(steel(100, 50e-6, 1), "utility > board").feed(second, "utility > board").feed(steel(30, 20e-6, 1), "board > far")
	same(t, "board", two.at("board"), one.at("board"))
	same(t, "far", two.at("far"), one.at("far"))
}

// Two transformers side by side are one of twice the power.
func TestTransformersSideBySide(t *testing.T) {
	data := diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 2}
	both := data
	both.Power *= 2
	one := utility(t).transformer("t", delta480, wye208, both).boards("board").join("utility > t:primary", "t:secondary > board")
	two := utility(t).transformer("t", delta480, wye208, data).transformer("u", delta480, wye208, data).boards("board").
		join("utility > t:primary", "utility > u:primary", "t:secondary > board", "u:secondary > board")
	same(t, "board", two.at("board"), one.at("board"))
}

// Sources in parallel add up at their common bus, and another one raises the
// current everywhere.
func TestSourcesInParallel(t *testing.T) {
	s := utility(t).boards("main", "far").join("utility > main").feed(steel(100, 50e-6, 1), "main > far")
	before := s.at("far")
	s.generator("set", wye480, diagram.SourceData{FaultCurrent: 5e3, XR: 5, EarthFaultCurrent: 5e3}).join("set > main")
	near(t, "main", s.at("main").ThreePhase, 25e3, exact)
	near(t, "main to earth", s.at("main").LineEarth, 25e3, exact)
	if after := s.at("far"); after.ThreePhase <= before.ThreePhase || after.LineNeutral <= before.LineNeutral {
		t.Errorf("another source: got %g A, and %g before", after.ThreePhase, before.ThreePhase)
	}
	if got := s.at("main").Why; got != "from set and utility" {
		t.Errorf("got %q", got)
	}
}

// Of many sources two are named.
func TestManySourcesAreNotAllNamed(t *testing.T) {
	s := newSheet(t).boards("main")
	for _, row := range []struct {
		id   diagram.ID
		want string
	}{{"a", "from a"}, {"b", "from a and b"}, {"c", "from a and b and c"}, {"d", "from a and b and 2 more"}} {
		s.supply(row.id, wye480, diagram.SourceData{FaultCurrent: 5e3, XR: 5}).join(string(row.id) + " > main")
		if got := s.at("main").Why; got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}

func TestLongerFeederLowers(t *testing.T) {
	last := math.Inf(1)
	for _, feet := range []float64{0, 1, 10, 100, 1000} {
		f := utility(t).boards("board").feed(steel(feet, 50e-6, 1), "utility > board").at("board")
		if f.ThreePhase >= last {
			t.Errorf("%g ft: got %g A, and %g with less", feet, f.ThreePhase, last)
		}
		last = f.ThreePhase
	}
}

// Where all impedances have one ratio of reactance to resistance, both methods
// agree but for what their constants differ by.
func TestMethodsAgreeAtOneRatio(t *testing.T) {
	run := diagram.Feeder{Length: 40, Area: 70e-6, Raceway: diagram.Tray}
	xr := 0.08e-3 / (1 / 54e6 / 70e-6)
	s := newSheet(t).supply("utility", tns400, diagram.SourceData{FaultCurrent: 15e3, XR: xr}).boards("board").feed(run, "utility > board")
	complexSum := s.at("board")
	points := s.byPoints().at("board")
	same(t, "IEC: one constant", points, complexSum)

	// table 9 for 2 AWG in steel: 0.20 + j0.057 Ω per 1000 ft; C 5907
	na := newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 15e3, XR: 0.057 / 0.20}).boards("board").
		feed(steel(100, 33.631e-6, 1), "utility > board")
	sum := na.at("board").ThreePhase
	point := na.byPoints().at("board").ThreePhase
	difference := 100 * (math.Hypot(0.20, 0.057)/1000 - 1/5907.0)
	near(t, "what table and constant differ by", 480/root3*(1/sum-1/point), difference, 1e-6)
}

// A motor at the end of a feeder is in parallel with the supply; the bus in
// between sees each by its own way, and so does one behind a transformer.
func TestMotorsInParallel(t *testing.T) {
	const gauge2 = 33.631e-6 // as table 9 has it: 0.20 + j0.057 Ω per 1000 ft
	s := utility(t).boards("main", "end").feed(steel(100, gauge2, 1), "utility > main", "main > end").motor("pump", 40e3).feed(steel(200, gauge2, 1), "end > pump")
	z := polar(480/root3/20e3, 5)
	line := complex(0.020, 0.0057)
	motor := polar(0.25*480*480/40e3, 6)
	parallel := func(a, b complex128) complex128 { return a * b / (a + b) }
	for place, want := range map[string]complex128{
		"utility": parallel(z, 4*line+motor),
		"main":    parallel(z+line, 3*line+motor),
		"end":     parallel(z+2*line, 2*line+motor),
		"pump":    parallel(z+4*line, motor),
	} {
		f := s.at(place)
		three := 480 / root3 / math.Hypot(real(want), imag(want))
		near(t, place, f.ThreePhase, three, exact)
		if place == "end" {
			z0 := z + 8*line // the way back has no motor
			sum := 2*want + z0
			near(t, "end to neutral", f.LineNeutral, root3*480/math.Hypot(real(sum), imag(sum)), exact)
		}
	}
	// large ones have less, those of IEC five times their current
	large := utility(t).byPoints().motor("pump", 60e3).join("utility > pump").at("utility").ThreePhase - 20e3
	near(t, "60 kVA", large, 60e3/(root3*480)/0.167, 1e-9)
	iec := newSheet(t).supply("utility", tns400, diagram.SourceData{FaultCurrent: 20e3}).byPoints().motor("pump", 60e3).join("utility > pump").at("utility").ThreePhase - 20e3
	near(t, "by IEC", iec, 1.1*5*60e3/(root3*400), 1e-9)
}

// A motor of unknown power adds nothing and is told.
func TestMotorOfUnknownPower(t *testing.T) {
	s := utility(t).motor("pump", 0).join("utility > pump")
	f := s.at("utility")
	near(t, "utility", f.ThreePhase, 20e3, exact)
	if len(f.Assumptions) != 1 || f.Assumptions[0].Record != "pump" || !f.Estimated {
		t.Errorf("got %+v, want the motor told", f.Assumptions)
	}
	for i, want := range []string{
		"does not feed the fault: its power is not known", "and 1 more motor do not feed the fault: their power is not known", "and 2 more motors do not feed the fault: their power is not known",
	} {
		if got := s.at("utility").Assumptions[0]; got.Text != want || got.Record != "pump" {
			t.Errorf("got %+v, want %q of the pump", got, want)
		}
		next := diagram.ID(fmt.Sprint("pump-", i+2))
		s.motor(next, 0).join("utility > " + string(next))
	}
}

// A network of all boards joined to all is no building's: the tree within it is
// taken, and told.
func TestTooManyLoops(t *testing.T) {
	s := boardsJoinedToAll(utility(t))
	s.feed(steel(100, 50e-6, 1), "utility > panel-0")
	one := utility(t).boards("a", "b").feed(steel(100, 50e-6, 1), "utility > a", "a > b").at("b")
	f := s.at("panel-7")
	same(t, "by the shortest way", f, one)
	if len(f.Assumptions) != 1 || !f.Estimated || !strings.Contains(f.Assumptions[0].Text, "loops") {
		t.Errorf("got %+v, want the loops told", f.Assumptions)
	}
}

// What a motor in such a network feeds back through a transfer switch is not found.
func TestTooManyLoopsBehindATransferSwitch(t *testing.T) {
	s := boardsJoinedToAll(utility(t)).transfers("switch").motor("pump", 60e3)
	s.join("utility > switch:normal", "switch:load > panel-0", "panel-1 > pump")
	near(t, "utility", s.at("utility").ThreePhase, 20e3, exact)
}

// boardsJoinedToAll adds 60 boards, panel-0 and so on, each joined to all.
func boardsJoinedToAll(s *sheet) *sheet {
	const n = 60
	return s.edit(func(tx *diagram.Tx) {
		for i := range n {
			tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprintf("panel-%d", i)), Kind: diagram.Panel})
			for j := range i {
				f := steel(100, 50e-6, 1)
				f.ID = diagram.ID(fmt.Sprintf("f-%d-%d", i, j))
				f.From.Part, f.To.Part = diagram.ID(fmt.Sprintf("panel-%d", j)), diagram.ID(fmt.Sprintf("panel-%d", i))
				tx.SetFeeder(f)
			}
		}
	})
}

// What was taken on the way is told at the end of it, and nowhere else.
func TestAssumptionsFollowTheWay(t *testing.T) {
	s := utility(t).boards("one", "two").feed(diagram.Feeder{Length: 10}, "utility > one").feed(steel(10, 50e-6, 1), "utility > two")
	if f := s.at("one"); len(f.Assumptions) != 1 || f.Assumptions[0].Record != "utility-one" || !f.Estimated {
		t.Errorf("one: got %+v", f.Assumptions)
	}
	near(t, "one has no impedance before it", s.at("one").ThreePhase, 20e3, exact)
	if f := s.at("two"); len(f.Assumptions) != 0 || f.Estimated {
		t.Errorf("two: got %+v", f.Assumptions)
	}
}

// Solve lists the last assumptions of a long way, Explain all.
func TestManyAssumptions(t *testing.T) {
	const n = 40
	s := utility(t)
	before := "utility"
	for i := range n {
		id := fmt.Sprintf("b%d", i)
		s.boards(diagram.ID(id)).feed(diagram.Feeder{Length: 10}, before+" > "+id)
		before = id
	}
	if got := len(s.at(before).Assumptions); got != 12 {
		t.Errorf("Solve lists %d", got)
	}
	if got := len(explain(t, s, diagram.End{Part: diagram.ID(before)}).Assumptions); got != n {
		t.Errorf("Explain lists %d, want %d", got, n)
	}
}

// Random documents hold whatever a document may: no figure is out of bounds,
// what is not known says why, equal documents give equal results, and Explain
// agrees with Solve.
func TestRandomDocuments(t *testing.T) {
	found := 0
	for seed := range uint64(150) {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 1+int(seed)%60)
		codes := diagram.Codes{
			Practice: []diagram.Practice{"", diagram.NECPractice, diagram.IECPractice}[seed%3],
			Fault:    []diagram.FaultMethod{diagram.ComplexSum, diagram.PointToPoint}[seed/3%2], Tolerance: 10,
		}
		s := &sheet{t, doc}
		s.codes(codes)
		addMotors(s, rng)
		topology := analysis.Trace(doc)
		faults := diagramtest.Must(fault.Solve(context.Background(), doc, topology))
		if diff := cmp.Diff(faults, diagramtest.Must(fault.Solve(context.Background(), doc.Snapshot(), topology))); diff != "" {
			t.Fatalf("seed %d: a second run differs:\n%s", seed, diff)
		}
		some := 0
		for end, node := range topology.Nodes {
			f, ok := faults[end]
			if node.Fed && !ok {
				t.Errorf("seed %d: %v is fed and has no fault current", seed, end)
			}
			if !ok {
				continue
			}
			if !finite(f) || f.Why == "" || f.At != end || !f.Known && f.Highest() != 0 {
				t.Errorf("seed %d: %v: %+v", seed, end, f)
			}
			if f.Known {
				found++
			}
			if some++; some < 4 {
				g, found := fault.Explain(doc, topology, end)
				g.Working = nil
				if f.Assumptions != nil && len(f.Assumptions) < len(g.Assumptions) {
					g.Assumptions = f.Assumptions
				}
				if diff := cmp.Diff(f, g); !found || diff != "" {
					t.Errorf("seed %d: %v is explained otherwise:\n%s", seed, end, diff)
				}
			}
		}
	}
	if found < 500 {
		t.Errorf("%d currents were found in all: the documents say too little", found)
	}
}

func addMotors(s *sheet, rng *rand.Rand) {
	s.edit(func(tx *diagram.Tx) {
		for p := range s.doc.Snapshot().Parts() {
			if p.Kind == diagram.Load && rng.IntN(2) == 0 {
				p.Load.Motor = true
				tx.SetPart(p)
			}
		}
	})
}

// Of magnitudes alone, more impedance anywhere raises no current, and one motor
// more lowers none (Rayleigh's law of resistances).
func TestRandomMonotone(t *testing.T) {
	for seed := range uint64(150) {
		rng := diagramtest.Rand(1000 + seed)
		s := &sheet{t, diagramtest.Random(rng, 1+int(seed)%60)}
		s.byPoints()
		limitLoads(s)
		before := s.solve()
		s.edit(func(tx *diagram.Tx) {
			for f := range s.doc.Snapshot().Feeders() {
				f.Length = min(1e5, f.Length+50*rng.Float64())
				tx.SetFeeder(f)
			}
		})
		longer := s.solve()
		compare(t, seed, "longer feeders", longer, before)
		addMotors(s, rng)
		compare(t, seed, "motors", longer, s.solve())
	}
}

// limitLoads keeps motors within what a building has: beside a motor of 10 GVA
// rounding is all that a comparison sees.
func limitLoads(s *sheet) {
	s.edit(func(tx *diagram.Tx) {
		for p := range s.doc.Snapshot().Parts() {
			p.Load.Power = min(p.Load.Power, 1e6)
			tx.SetPart(p)
		}
	})
}

// cancelled is how far a way back may be off that begins behind a transformer: what
// feeds it without the transformer is a difference, which is taken down to 1e-9 of
// what it is the difference of, with numbers of 16 digits.
const cancelled = 1e-7

// compare reports where what should be the lower of two results is higher.
func compare(t *testing.T, seed uint64, what string, low, high map[diagram.End]analysis.Fault) {
	t.Helper()
	for end, l := range low {
		h, ok := high[end]
		if !ok || l.Known != h.Known {
			t.Errorf("seed %d, %s: %v is known in one of them alone", seed, what, end)
		}
		if l.ThreePhase > h.ThreePhase*(1+1e-9) || l.LineLine > h.LineLine*(1+1e-9) || l.LineNeutral > h.LineNeutral*(1+cancelled) {
			t.Errorf("seed %d, %s: %v: got %+v and %+v", seed, what, end, l, h)
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		doc := diagramtest.Building(n)
		topology := analysis.Trace(doc)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				diagramtest.Must(fault.Solve(context.Background(), doc, topology))
			}
		})
	}
}

func BenchmarkExplain(b *testing.B) {
	doc := diagramtest.Building(10_000)
	topology := analysis.Trace(doc)
	for b.Loop() {
		fault.Explain(doc, topology, diagram.End{Part: "part-9000"})
	}
}
