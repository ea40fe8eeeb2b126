package fault_test

import (
	"fmt"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/draw/drawtest"
)

// written is a working with the texts that stand beside its figures, as a person
// would read it: each number a step gives follows from those that it names.
func written(f analysis.Fault) string {
	var out strings.Builder
	fmt.Fprintf(&out, "  3ph %.0f A, L-L %.0f A, L-N %.0f A, L-G %.0f A, X/R %.3f, estimated %v\n", f.ThreePhase, f.LineLine, f.LineNeutral, f.LineEarth, f.XR, f.Estimated)
	for _, s := range f.Working {
		fmt.Fprintf(&out, "  - %s: ", s.Label)
		for _, text := range []string{s.Formula, s.Numbers, s.Text} {
			if text != "" {
				out.WriteString(text + " | ")
			}
		}
		if s.Unit != "" {
			fmt.Fprintf(&out, "= %.5g %s | ", s.Result, s.Unit)
		}
		out.WriteString(s.Source + "\n")
	}
	for _, a := range f.Assumptions {
		fmt.Fprintf(&out, "  ! %s %s (%s)\n", a.Record, a.Text, a.Source)
	}
	return strings.ReplaceAll(out.String(), "\u00a0", " ")
}

// written sheets, each with the places that are worked out there.
type workedSheet struct {
	name   string
	build  func(t *testing.T) *sheet
	places []string
}

var workedSheets = []workedSheet{
	{"two transformers, what is not told taken as usual", func(t *testing.T) *sheet {
		return newSheet(t).codes(diagram.Codes{Tolerance: 10}).
			supply("utility", wye480, diagram.SourceData{Power: 500e3}).
			transformer("T1", delta480, wye208, diagram.TransformerData{Power: 75e3}).boards("main", "panel", "far").
			feed(steel(100, 250*kcmil, 2), "utility > main").feed(steel(40, awg(1), 1), "main > T1:primary").
			feed(diagram.Feeder{Length: 20, Area: awg(2), Material: diagram.Aluminium}, "T1:secondary > panel").
			feed(diagram.Feeder{Length: 20}, "panel > far")
	}, []string{"far"}},
	{"a generator and a motor on a transfer switch", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3}).
			generator("set", wye480, diagram.SourceData{Power: 150e3}).transfers("switch").boards("board").motor("pump", 60e3).
			join("utility > switch:normal", "set > switch:emergency", "switch:load > board", "board > pump")
	}, []string{"board", "switch:emergency"}},
	{"230/400 V", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", tns400, diagram.SourceData{FaultCurrent: 15e3, EarthFaultCurrent: 12e3}).
			boards("main", "board", "end").feed(diagram.Feeder{Length: 30, Area: 70e-6, Parallel: 2, Raceway: diagram.Busway}, "utility > main").
			feed(diagram.Feeder{Length: 25, Area: 16e-6, Material: diagram.Aluminium, Resistance: 2e-3}, "main > board").
			feed(diagram.Feeder{Length: 5, Reactance: 1e-4}, "board > end")
	}, []string{"end"}},
	{"a generator and a transformer at 50 Hz", func(t *testing.T) *sheet {
		return newSheet(t).generator("set", tns400, diagram.SourceData{Power: 100e3, Reactance: 10}).
			transformer("T1", tns400, it400, diagram.TransformerData{Power: 50e3, Impedance: 4, XR: 2}).boards("board").
			join("set > T1:primary").feed(diagram.Feeder{Length: 40, Area: 25e-6, Raceway: diagram.Overhead}, "T1:secondary > board")
	}, []string{"board"}},
	{"split phase", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", split240, diagram.SourceData{Power: 25e3, Reactance: 2, XR: 1.5}).boards("panel").
			feed(steel(50, awg(1), 1), "utility > panel")
	}, []string{"utility", "panel"}},
	{"a transformer from one line to the neutral", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
			transformer("T1", line277, split240, diagram.TransformerData{Power: 25e3, Impedance: 3, XR: 1}).boards("panel").
			join("utility > T1:primary").feed(steel(30, awg(2), 1), "T1:secondary > panel")
	}, []string{"panel"}},
	{"a transformer from two lines of three", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
			transformer("T1", pair480, split240, diagram.TransformerData{Power: 25e3, Impedance: 3, XR: 1}).join("utility > T1:primary")
	}, []string{"T1:secondary"}},
	{"a transformer of two lines of a star, fed at its secondary", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
			transformer("T1", pair208, wye480, diagram.TransformerData{Power: 45e3, Impedance: 4, XR: 2}).join("utility > T1:secondary")
	}, []string{"T1:primary"}},
	{"one line and the neutral", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", wye208, diagram.SourceData{FaultCurrent: 8e3, XR: 2}).
			part(diagram.Part{ID: "panel", Name: "panel", Kind: diagram.Panel, System: line120}).
			feed(steel(30, awg(2), 1), "utility > panel")
	}, []string{"panel"}},
	{"a closed delta with a centre tap", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", highLeg, diagram.SourceData{FaultCurrent: 10e3, XR: 2}).boards("panel").
			feed(steel(30, awg(2), 1), "utility > panel")
	}, []string{"panel"}},
	{"one line earthed", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", corner480, diagram.SourceData{FaultCurrent: 10e3, XR: 2})
	}, []string{"utility"}},
	{"behind a transformer of which the power is not told", func(t *testing.T) *sheet {
		return newSheet(t).supply("utility", wye480, diagram.SourceData{FaultCurrent: 20e3, XR: 5}).
			transformer("T1", delta480, wye208, diagram.TransformerData{}).
			transformer("T2", wye208, split240, diagram.TransformerData{Power: 25e3, Impedance: 3, XR: 1}).
			join("utility > T1:primary", "T1:secondary > T2:primary")
	}, []string{"T2:primary", "T2:secondary"}},
	{"with a switch closed, from a supply of which nothing is told", func(t *testing.T) *sheet {
		open := steel(50, 50e-6, 1)
		open.Switch = diagram.SwitchData{Kind: diagram.Breaker, Open: true}
		return newSheet(t).supply("utility", delta480, diagram.SourceData{}).
			transformer("T1", delta480, hrg480, diagram.TransformerData{Power: 300e3, Impedance: 5, XR: 4}).boards("spare").
			join("utility > T1:primary").feed(open, "T1:secondary > spare")
	}, []string{"spare"}},
}

// TestWorkingsAsText writes the working of every kind of stretch by both methods.
// The file was worked through by hand: each result follows from the numbers in its
// step, by the formula beside them.
func TestWorkingsAsText(t *testing.T) {
	var out strings.Builder
	for _, row := range workedSheets {
		for _, method := range []diagram.FaultMethod{diagram.ComplexSum, diagram.PointToPoint} {
			s := row.build(t)
			codes := s.doc.Info().Codes
			codes.Fault = method
			s.codes(codes)
			for _, place := range row.places {
				fmt.Fprintf(&out, "%s: %s, %s\n%s", row.name, place, method, written(explain(t, s, end(place))))
			}
		}
	}
	drawtest.Text(t, "workings.txt", out.String())
}
