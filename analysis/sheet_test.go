package analysis_test

import (
	"strings"
	"testing"

	"clampline/diagram"
)

// The systems of the small sheets in these tests.
var (
	wye480   = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208   = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta480 = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	split240 = diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	tns400   = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	it400    = diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.IT, Frequency: 50}
)

// sheet draws small documents: parts by name, feeders as "from > to".
type sheet struct {
	t   *testing.T
	doc *diagram.Document
}

func newSheet(t *testing.T) *sheet { return &sheet{t, diagram.New()} }

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

func (s *sheet) generator(id diagram.ID, system diagram.System) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.Generator, System: system})
}

func (s *sheet) boards(ids ...diagram.ID) *sheet {
	for _, id := range ids {
		s.part(diagram.Part{ID: id, Kind: diagram.Panel})
	}
	return s
}

func (s *sheet) stated(id diagram.ID, system diagram.System) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.Panel, System: system})
}

func (s *sheet) load(id diagram.ID, data diagram.LoadData) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.Load, Load: data})
}

func (s *sheet) transformer(id diagram.ID, primary, secondary diagram.System) *sheet {
	return s.part(diagram.Part{
		ID: id, Kind: diagram.Transformer, System: secondary, Transformer: diagram.TransformerData{Primary: primary},
	})
}

func (s *sheet) transfer(id diagram.ID, position diagram.Position) *sheet {
	return s.part(diagram.Part{ID: id, Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: position}})
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
