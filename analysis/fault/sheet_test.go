package fault_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/unit"
)

// The systems of the small sheets in these tests.
var (
	wye480    = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208    = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta480  = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	corner480 = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Corner, Frequency: 60}
	hrg480    = diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Impedance, Frequency: 60}
	star480   = diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Solid, Frequency: 60}
	highLeg   = diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	split240  = diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	line120   = diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	line277   = diagram.System{Wiring: diagram.Single, Voltage: 277, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	pair208   = diagram.System{Wiring: diagram.TwoOfWye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	pair480   = diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	tns400    = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	tt400     = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TT, Frequency: 50}
	it400     = diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.IT, Frequency: 50}
	single230 = diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
)

const (
	foot  = 0.3048
	kcmil = 0.50670748e-6
)

// sheet draws small documents: parts by name, feeders as "from > to".
type sheet struct {
	t   testing.TB
	doc *diagram.Document
}

func newSheet(t testing.TB) *sheet { return &sheet{t, diagram.New()} }

func (s *sheet) edit(f func(*diagram.Tx)) *sheet {
	s.t.Helper()
	_, err := s.doc.Edit(func(tx *diagram.Tx) error { f(tx); return nil })
	if err != nil {
		s.t.Fatal(err)
	}
	return s
}

func (s *sheet) part(p diagram.Part) *sheet {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) { tx.SetPart(p) })
}

func (s *sheet) codes(c diagram.Codes) *sheet {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) { tx.SetInfo(diagram.Info{Codes: c}) })
}

// byPoints chooses the point-to-point method.
func (s *sheet) byPoints() *sheet {
	codes := s.doc.Info().Codes
	codes.Fault = diagram.PointToPoint
	return s.codes(codes)
}

func (s *sheet) supply(id diagram.ID, system diagram.System, data diagram.SourceData) *sheet {
	return s.part(diagram.Part{ID: id, Name: string(id), Kind: diagram.Supply, System: system, Source: data})
}

func (s *sheet) generator(id diagram.ID, system diagram.System, data diagram.SourceData) *sheet {
	return s.part(diagram.Part{ID: id, Name: string(id), Kind: diagram.Generator, System: system, Source: data})
}

func (s *sheet) transformer(id diagram.ID, primary, secondary diagram.System, data diagram.TransformerData) *sheet {
	data.Primary = primary
	return s.part(diagram.Part{ID: id, Name: string(id), Kind: diagram.Transformer, System: secondary, Transformer: data})
}

func (s *sheet) boards(ids ...diagram.ID) *sheet {
	for _, id := range ids {
		s.part(diagram.Part{ID: id, Name: string(id), Kind: diagram.Panel})
	}
	return s
}

func (s *sheet) transfers(ids ...diagram.ID) *sheet {
	for _, id := range ids {
		s.part(diagram.Part{ID: id, Name: string(id), Kind: diagram.TransferSwitch})
	}
	return s
}

func (s *sheet) motor(id diagram.ID, power float64) *sheet {
	return s.part(diagram.Part{ID: id, Name: string(id), Kind: diagram.Load, Load: diagram.LoadData{Motor: true, Power: power}})
}

// feed draws feeders like the one given, each named after its ends: "a >
// b:normal" is called "a-b".
func (s *sheet) feed(like diagram.Feeder, runs ...string) *sheet {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		for _, run := range runs {
			from, to, _ := strings.Cut(run, " > ")
			f := like
			f.From, f.To = end(from), end(to)
			if f.ID == "" {
				f.ID = f.From.Part + "-" + f.To.Part
			}
			tx.SetFeeder(f)
		}
	})
}

// join draws feeders without length.
func (s *sheet) join(runs ...string) *sheet {
	return s.feed(diagram.Feeder{Area: 1e-4, Raceway: diagram.SteelConduit}, runs...)
}

func end(text string) diagram.End {
	part, port, _ := strings.Cut(text, ":")
	return diagram.End{Part: diagram.ID(part), Port: diagram.Port(port)}
}

func steel(lengthFt, area float64, parallel int) diagram.Feeder {
	return diagram.Feeder{Length: lengthFt * foot, Area: area, Parallel: parallel, Raceway: diagram.SteelConduit}
}

func (s *sheet) solve() map[diagram.End]analysis.Fault {
	return diagramtest.Must(fault.Solve(context.Background(), s.doc, analysis.Trace(s.doc)))
}

// at returns the fault current at one terminal: "board" or "trafo:primary".
func (s *sheet) at(place string) analysis.Fault {
	s.t.Helper()
	f, ok := s.solve()[end(place)]
	if !ok {
		s.t.Fatalf("%s has no fault current", place)
	}
	return f
}

// near reports a figure that is off by more than a share of what is wanted.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > share*math.Abs(want) {
		t.Errorf("%s: got %.6g, want %.6g within %.3g %%", what, got, want, 100*share)
	}
}

// exact is the tolerance of a closed form.
const exact = 1e-9

// awg is the cross-section of a gauge.
func awg(n int) float64 { return unit.AWGArea(n) }
