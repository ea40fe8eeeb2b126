package handrule_test

import (
	"context"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The systems of the small sheets in these tests.
var (
	wye480    = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208    = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye240    = diagram.System{Wiring: diagram.Wye, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta480  = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	corner480 = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Corner, Frequency: 60}
	hrg480    = diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Impedance, Frequency: 60}
	highLeg   = diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	split240  = diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	tns400    = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	tnc400    = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNC, Frequency: 50}
	it400     = diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.IT, Frequency: 50}
	single230 = diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
)

const inch = 0.0254 // m

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

func (s *sheet) supply(id diagram.ID, system diagram.System) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.Supply, System: system})
}

// category returns the withstand of an overvoltage category.
func category(n int) diagram.Withstand {
	return diagram.Withstand{Kind: diagram.ByCategory, Category: n}
}

// boards places boards that stand what category III does.
func (s *sheet) boards(ids ...diagram.ID) *sheet {
	for _, id := range ids {
		s.part(diagram.Part{ID: id, Kind: diagram.Panel, Withstand: category(3)})
	}
	return s
}

// bonded places a board at which neutral and earth are bonded.
func (s *sheet) bonded(id diagram.ID) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.Panel, Withstand: category(3), Board: diagram.BoardData{Bonded: true}})
}

func (s *sheet) load(id diagram.ID, c diagram.Connection) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.Load, Withstand: category(2), Load: diagram.LoadData{Connection: c}})
}

func (s *sheet) transformer(id diagram.ID, primary, secondary diagram.System) *sheet {
	return s.part(diagram.Part{
		ID: id, Kind: diagram.Transformer, System: secondary, Transformer: diagram.TransformerData{Primary: primary},
	})
}

// feed draws feeders of the length, each named after its ends: "a > b:normal"
// is called "a-b".
func (s *sheet) feed(length float64, runs ...string) *sheet { return s.draw(length, false, runs) }

// open draws feeders whose switch is open.
func (s *sheet) open(length float64, runs ...string) *sheet { return s.draw(length, true, runs) }

func (s *sheet) draw(length float64, open bool, runs []string) *sheet {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		for _, run := range runs {
			from, to, _ := strings.Cut(run, " > ")
			f := diagram.Feeder{From: end(from), To: end(to), Length: length, Switch: diagram.SwitchData{Kind: diagram.Breaker, Open: open}}
			f.ID = f.From.Part + "-" + f.To.Part
			tx.SetFeeder(f)
		}
	})
}

func end(text string) diagram.End {
	part, port, _ := strings.Cut(text, ":")
	return diagram.End{Part: diagram.ID(part), Port: diagram.Port(port)}
}

// levels are ratings in the order L-N, L-G, N-G, L-L; 0 is not connected.
type levels [diagram.ModeCount]float64

// protector returns one with a VPR in the modes and leads of six inches, so
// that the leads add nothing.
func protector(id, bus diagram.ID, system diagram.System, ratings levels) diagram.Protector {
	lead := diagram.Lead{Length: 6 * inch}
	p := diagram.Protector{
		ID: id, Plan: diagram.FirstPlan, Bus: bus, System: system,
		Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead},
	}
	for mode, level := range ratings {
		if level > 0 {
			p.Modes[mode] = diagram.ModeRating{Connected: true, Level: level}
		}
	}
	return p
}

func (s *sheet) protect(id, bus diagram.ID, system diagram.System, ratings levels) *sheet {
	return s.attach(protector(id, bus, system, ratings))
}

func (s *sheet) attach(p diagram.Protector) *sheet {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) { tx.SetProtector(p) })
}

// mcov sets the MCOV of one mode.
func mcov(p diagram.Protector, mode diagram.Mode, volts float64) diagram.Protector {
	p.Modes[mode].MCOV = volts
	return p
}

func (s *sheet) solve() *analysis.Result {
	return diagramtest.Must(handrule.Solve(context.Background(), s.doc, diagram.FirstPlan, analysis.Trace(s.doc), handrule.DefaultRule()))
}

// level returns what the result says of one mode of a bus.
func level(t *testing.T, r *analysis.Result, bus diagram.ID, mode diagram.Mode) analysis.Level {
	t.Helper()
	for _, l := range r.Buses[bus].Levels {
		if l.Mode == mode {
			return l
		}
	}
	t.Fatalf("%s has no level %s", bus, mode)
	return analysis.Level{}
}
