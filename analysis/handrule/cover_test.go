package handrule_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// Which protector decides, and what it comes to. The default slope is
// 2 × 5 kV/µs / 200 m/µs = 50 V/m.
func TestWhichCoverDecides(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	chain := func() *sheet {
		return newSheet(t).supply("u", wye480).boards("a", "b", "c").feed(3, "u > a").feed(20, "a > b").feed(40, "b > c")
	}
	tests := []struct {
		name  string
		sheet *sheet
		bus   diagram.ID
		mode  diagram.Mode
		volts float64
		by    diagram.ID
	}{
		{"the lower of two on a bus", chain().protect("p1", "a", wye480, full).protect("p2", "a", wye480, levels{1000, 1300, 900, 2500}), "a", ln, 1000, "p2"},
		{"mode by mode", chain().protect("p1", "a", wye480, full).protect("p2", "a", wye480, levels{1000, 1300, 900, 2500}), "a", lg, 1200, "p1"},
		{"the near one before its limit", chain().protect("p1", "a", wye480, levels{0, 1200, 0, 0}).protect("p2", "b", wye480, levels{0, 1500, 0, 0}), "b", lg, 1500, "p2"},
		{"its own before one as low at no distance", newSheet(t).supply("u", wye480).boards("a", "b").feed(0, "u > a", "a > b").protect("p1", "a", wye480, full).protect("p2", "b", wye480, full), "b", lg, 1200, "p2"},
		{"the far one at its limit", chain().protect("p1", "a", wye480, levels{0, 1200, 0, 0}).protect("p2", "b", wye480, levels{0, 1500, 0, 0}), "c", lg, 2400, "p1"},
		{"the far one even at the bus of another", chain().protect("p1", "a", wye480, levels{0, 600, 0, 0}).protect("p2", "b", wye480, levels{0, 1500, 0, 0}), "b", lg, 1200, "p1"},
		{"a protector on a junction", newSheet(t).supply("u", wye480).part(diagram.Part{ID: "j", Kind: diagram.Junction}).boards("a").feed(2, "u > j", "j > a").protect("p1", "j", wye480, full), "a", lg, 1300, "p1"},
		{"through a feeder drawn backwards", newSheet(t).supply("u", wye480).boards("a", "b").feed(2, "a > u", "b > a").protect("p1", "a", wye480, full), "b", lg, 1300, "p1"},
		{"through an autotransformer",
			newSheet(t).supply("u", wye480).boards("a", "b").part(diagram.Part{ID: "t", Kind: diagram.Transformer, System: wye240, Transformer: diagram.TransformerData{Auto: true}}).
				feed(2, "u > a", "a > t:primary", "t:secondary > b").protect("p1", "a", wye480, full), "b", lg, 1400, "p1"},
		{"L-L by L-N twice", chain().protect("p1", "a", wye480, levels{700, 0, 0, 0}), "a", ll, 1400, "p1"},
		{"L-L by L-G twice", chain().protect("p1", "a", wye480, levels{0, 800, 0, 0}), "a", ll, 1600, "p1"},
		{"L-L by the lower of the two", chain().protect("p1", "a", wye480, levels{900, 800, 0, 0}), "a", ll, 1600, "p1"},
		{"L-L as rated", chain().protect("p1", "a", wye480, levels{900, 800, 0, 1500}), "a", ll, 1500, "p1"},
		{"L-L rated higher than the sum", chain().protect("p1", "a", wye480, levels{700, 800, 0, 1500}), "a", ll, 1400, "p1"},
		{"L-G by L-N and N-G", chain().protect("p1", "a", wye480, levels{700, 0, 600, 0}), "a", lg, 1300, "p1"},
		{"L-N by L-G and N-G", chain().protect("p1", "a", wye480, levels{0, 700, 600, 0}), "a", ln, 1300, "p1"},
		{"L-G by two protectors", chain().protect("p1", "a", wye480, levels{700, 0, 0, 0}).protect("p2", "a", wye480, levels{0, 0, 600, 0}), "a", lg, 1300, "p1"},
		{"a sum rises with distance as one", chain().protect("p1", "a", wye480, levels{1700, 0, 1600, 0}), "b", lg, 4300, "p1"},
		{"L-G by the bond at the bus", newSheet(t).supply("u", wye480).bonded("a").feed(3, "u > a").protect("p1", "a", wye480, levels{700, 0, 0, 0}), "a", lg, 700, "p1"},
		{"L-N by the bond at the bus", newSheet(t).supply("u", wye480).bonded("a").feed(3, "u > a").protect("p1", "a", wye480, levels{0, 800, 0, 0}), "a", ln, 800, "p1"},
		{"L-G by the bond at a bus downstream", newSheet(t).supply("u", wye480).boards("a").bonded("b").feed(3, "u > a", "a > b").protect("p1", "a", wye480, levels{700, 0, 0, 0}), "b", lg, 850, "p1"},
		{"N-G by the bond upstream", newSheet(t).supply("u", wye480).bonded("a").boards("b").feed(3, "u > a", "a > b").protect("p1", "a", wye480, full), "b", ng, 150, ""},
		{"N-G by the bond, without a mode for it", newSheet(t).supply("u", wye480).bonded("a").boards("b").feed(10, "u > a", "a > b").protect("p1", "a", wye480, levels{700, 700, 0, 1200}), "b", ng, 500, ""},
		{"N-G far from the bond: no more than a line has to earth", newSheet(t).supply("u", wye480).bonded("a").boards("b").feed(90, "u > a", "a > b").protect("p1", "a", wye480, levels{700, 700, 0, 1200}), "b", ng, 1400, ""},
		{"N-G far from the bond, by a protector closer", newSheet(t).supply("u", wye480).bonded("a").boards("b", "c").feed(60, "u > a", "a > b").feed(2, "b > c").protect("p1", "b", wye480, full), "c", ng, 1300, "p1"},
		{"N-G by the bond alone, at most what arrives", newSheet(t).supply("u", wye480).bonded("a").boards("b").feed(500, "u > a", "a > b"), "b", ng, 6000, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := level(t, test.sheet.solve(), test.bus, test.mode)
			if !got.Known || math.Abs(got.Volts-test.volts) > 1e-6 || got.Protector != test.by {
				t.Errorf("got %v, %g V by %s (%s); want %g V by %s", got.Known, got.Volts, got.Protector, got.Why, test.volts, test.by)
			}
		})
	}
}

// The modes that take part in the verdict of a bus: those of its system, L-L
// with a neutral only where a protector is rated for it; of a load, those
// that it is connected in.
func TestJudgedModes(t *testing.T) {
	noLine := levels{1200, 1200, 1200, 0}
	tests := []struct {
		name       string
		system     diagram.System
		ratings    levels
		connection diagram.Connection
		board      string
		load       string
	}{
		{"wye", wye480, full, "", "L-N L-G N-G L-L", "L-N L-G N-G L-L"},
		{"wye, L-L not rated", wye480, noLine, "", "L-N L-G N-G", "L-N L-G N-G"},
		{"delta, L-L not rated", delta480, levels{0, 1200, 0, 0}, "", "L-G L-L", "L-G L-L"},
		{"one phase", single230, full, "", "L-N L-G N-G", "L-N L-G N-G"},
		{"split phase", split240, full, "", "L-N L-G N-G L-L", "L-N L-G N-G L-L"},
		{"load to neutral", wye480, full, diagram.ToNeutral, "L-N L-G N-G L-L", "L-N L-G N-G"},
		{"load between lines", wye480, noLine, diagram.BetweenLines, "L-N L-G N-G", "L-G L-L"},
		{"three-phase load", wye480, noLine, diagram.ThreeWire, "L-N L-G N-G", "L-G L-L"},
		{"three-phase load with neutral", wye480, noLine, diagram.ThreeWireStar, "L-N L-G N-G", "L-N L-G N-G"},
		{"load to neutral without one", delta480, full, diagram.ToNeutral, "L-G L-L", "L-G"},
	}
	for _, test := range tests {
		s := newSheet(t).supply("u", test.system).boards("a").load("l", test.connection).feed(3, "u > a", "a > l")
		r := s.protect("p", "a", diagram.System{}, test.ratings).solve()
		for bus, want := range map[diagram.ID]string{"a": test.board, "l": test.load} {
			got := ""
			for _, mode := range diagram.Modes() {
				for _, l := range r.Buses[bus].Levels {
					if l.Mode == mode && l.Judged {
						got += " " + mode.String()
					}
				}
			}
			if got != " "+want {
				t.Errorf("%s: %s: got%s, want %s", test.name, bus, got, want)
			}
		}
	}
}

// The level that decides stands first.
func TestWorstFirst(t *testing.T) {
	volts := func(v float64) diagram.Withstand { return diagram.Withstand{Kind: diagram.ByVolts, Volts: v} }
	board := func(w diagram.Withstand, ratings levels) *sheet {
		return newSheet(t).supply("u", wye480).part(diagram.Part{ID: "a", Kind: diagram.Panel, Withstand: w}).feed(3, "u > a").
			protect("p", "a", wye480, ratings)
	}
	unrated := protector("q", "a", wye480, levels{0, 1, 0, 0})
	unrated.Modes[diagram.LineEarth].Level = 0
	tests := []struct {
		name  string
		sheet *sheet
		want  []string
	}{
		{"by per cent", board(volts(1500), levels{1000, 1100, 900, 0}), []string{"L-G Held", "L-N Held", "N-G Held", "L-L Exceeded not judged"}},
		{"unreached before exceeded", board(volts(1000), levels{1100, 0, 0, 0}), []string{"L-G Unreached", "N-G Unreached", "L-N Exceeded", "L-L Exceeded not judged"}},
		{"exceeded before not known", board(volts(1000), levels{1100, 0, 0, 0}).attach(unrated), []string{"N-G Unreached", "L-N Exceeded", "L-G Unknown", "L-L Exceeded not judged"}},
		{"not known before held", board(volts(9000), levels{0, 0, 700, 0}).attach(unrated), []string{"L-N Unknown", "L-G Unknown", "N-G Held", "L-L Unknown not judged"}},
		{"withstand not known", board(diagram.Withstand{}, full), []string{"L-L Unknown", "L-N Unknown", "L-G Unknown", "N-G Unknown"}},
		{"unreached needs no withstand", board(diagram.Withstand{}, levels{700, 700, 0, 1200}), []string{"N-G Unreached", "L-L Unknown", "L-N Unknown", "L-G Unknown"}},
	}
	for _, test := range tests {
		var got []string
		for _, l := range test.sheet.solve().Buses["a"].Levels {
			text := fmt.Sprintf("%s %s", l.Mode, l.Verdict)
			if !l.Judged {
				text += " not judged"
			}
			got = append(got, text)
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s: -want +got:\n%s", test.name, diff)
		}
	}
}

func TestBreaks(t *testing.T) {
	between := func() *sheet {
		return newSheet(t).supply("u", wye480).boards("a", "b", "c").transformer("t", wye480, wye208).
			feed(3, "u > a", "a > t:primary", "t:secondary > b").open(3, "a > c")
	}
	auto := diagram.Part{ID: "t", Kind: diagram.Transformer, System: wye208, Transformer: diagram.TransformerData{Auto: true}}
	tests := []struct {
		name  string
		sheet *sheet
		want  []analysis.Break
	}{
		{"nothing to end", between(), nil},
		{"cover above", between().protect("p", "a", wye480, full), []analysis.Break{{ID: "a-c", Reason: analysis.PastSwitch}, {ID: "t", Reason: analysis.PastTransformer}}},
		{"cover below", between().protect("p", "b", wye208, full), []analysis.Break{{ID: "t", Reason: analysis.PastTransformer}}},
		{"an autotransformer ends nothing", between().part(auto).protect("p", "a", wye480, full), []analysis.Break{{ID: "a-c", Reason: analysis.PastSwitch}}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, test.sheet.solve().Breaks); diff != "" {
			t.Errorf("%s: -want +got:\n%s", test.name, diff)
		}
	}
}

func TestWhyAProtectorDoesNotCount(t *testing.T) {
	on := func(supply diagram.System) *sheet {
		return newSheet(t).supply("u", supply).boards("a").feed(3, "u > a")
	}
	tests := []struct {
		name  string
		sheet *sheet
		want  []string
	}{
		{"fits", on(wye480).protect("p", "a", wye480, full), nil},
		{"a missing mode is no misfit", on(wye480).protect("p", "a", wye480, levels{1200, 1200, 0, 0}), nil},
		{"voltage", on(wye480).protect("p", "a", wye208, full), []string{
			"L-N: p on a does not count: it is made for 208Y/120, not for 480Y/277",
			"L-G: p on a does not count: it is made for 208Y/120, not for 480Y/277",
			"N-G: p on a does not count: it is made for 208Y/120, not for 480Y/277",
			"L-L: p on a does not count: it is made for 208Y/120, not for 480Y/277",
		}},
		{"MCOV", on(wye480).attach(mcov(protector("p", "a", wye480, levels{0, 0, 0, 1800}), diagram.LineLine, 320)),
			[]string{"L-L: p on a does not count: its continuous voltage L-L is too low for 480Y/277"}},
		{"earthing", on(delta480).protect("p", "a", wye480, full),
			[]string{"L-G: p on a does not count: its continuous voltage L-G is too low for 480 delta"}},
		{"lines", on(tns400).protect("p", "a", single230, full), []string{
			"L-N: p on a does not count: it lacks a line of 400/230 TN-S",
			"L-G: p on a does not count: it lacks a line of 400/230 TN-S",
			"L-L: p on a does not count: it lacks a line of 400/230 TN-S",
		}},
		{"neutral", on(wye480).protect("p", "a", delta480, levels{0, 1200, 0, 1200}), []string{
			"L-N: p on a does not count: it has no terminal for the neutral of 480Y/277",
			"N-G: p on a does not count: it has no terminal for the neutral of 480Y/277",
		}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, misfits(test.sheet.solve().Buses["a"])); diff != "" {
			t.Errorf("%s: -want +got:\n%s", test.name, diff)
		}
	}
}

// misfits lists why a protector does not count, mode by mode.
func misfits(bus analysis.BusResult) []string {
	var out []string
	levels := slices.SortedFunc(slices.Values(bus.Levels), func(a, b analysis.Level) int { return int(a.Mode) - int(b.Mode) })
	for _, l := range levels {
		switch l.Reason {
		case analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases:
			out = append(out, l.Mode.String()+": "+l.Why)
		}
	}
	return out
}

// In a 3+1 protector the gap between neutral and earth holds all until it
// fires, and its arc (25 V) from then on; two varistors in series add up. The
// leads of line and earth count, half a metre in all.
func TestGapInSeries(t *testing.T) {
	tt400 := tns400
	tt400.Earthing = diagram.TT
	lead := diagram.Lead{Length: 0.25}
	with := func(toNeutral, toEarth float64, gap bool) diagram.Protector {
		p := protector("p", "a", tt400, levels{toNeutral, 0, toEarth, 0})
		p.Rating, p.Leads = diagram.Up, diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}
		p.Modes[diagram.NeutralEarth].Switching = gap
		return p
	}
	tests := []struct {
		name string
		p    diagram.Protector
		want float64
	}{
		{"two varistors", with(1500, 1500, false), 1500 + 1500 + 500},
		{"the gap decides", with(1000, 2500, true), 2500 + 500},
		{"the varistor decides", with(1500, 1500, true), 1500 + 25 + 500},
	}
	for _, test := range tests {
		got := level(t, newSheet(t).supply("u", tt400).boards("a").feed(3, "u > a").attach(test.p).solve(), "a", diagram.LineEarth)
		if got.Volts != test.want {
			t.Errorf("%s: got %g V, want %g V", test.name, got.Volts, test.want)
		}
	}
}

// A load between one line and neutral of a three-phase bus needs no protector
// with three lines.
func TestLinesThatALoadTakes(t *testing.T) {
	sheet := newSheet(t).supply("u", tns400).boards("a").load("l", diagram.ToNeutral).feed(3, "u > a", "a > l").protect("p", "l", single230, full)
	if got := level(t, sheet.solve(), "l", diagram.LineNeutral); got.Reason != analysis.AtProtector {
		t.Errorf("got %s: %s", got.Reason, got.Why)
	}
}
