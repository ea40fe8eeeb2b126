package rule

import (
	"context"
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The systems of the tests of rules on protectors.
var (
	split240    = diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208      = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye480      = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta480    = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	corner480   = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Corner, Frequency: 60}
	hrg480      = diagram.System{Wiring: diagram.Wye, Voltage: 480, Earthing: diagram.Impedance, Frequency: 60}
	highLeg     = diagram.System{Wiring: diagram.HighLeg, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	twoLines240 = diagram.System{Wiring: diagram.Single, Voltage: 240, Earthing: diagram.Solid, Frequency: 60}
	twoOf208    = diagram.System{Wiring: diagram.TwoOfWye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	single120   = diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	tns400      = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
	tnc400      = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNC, Frequency: 50}
	tt400       = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TT, Frequency: 50}
	it400       = diagram.System{Wiring: diagram.Wye, Voltage: 400, Earthing: diagram.IT, Frequency: 50}
	itn400      = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.IT, Frequency: 50}
)

// with returns the system with another voltage.
func with(s diagram.System, voltage float64) diagram.System { s.Voltage = voltage; return s }

// earthed returns the system with another earthing.
func earthed(s diagram.System, e diagram.Earthing) diagram.System { s.Earthing = e; return s }

// usual returns the usual protector for a system, altered.
func usual(s diagram.System, alter ...func(*diagram.Protector)) diagram.Protector {
	p := analysis.TypicalProtector(s)
	p.ID, p.Name = "spd", "SPD"
	for _, f := range alter {
		f(&p)
	}
	return p
}

// straight returns a protector made for a system with varistors from every
// conductor to earth and between lines and neutral, as is usual on TN-S.
func straight(s diagram.System, alter ...func(*diagram.Protector)) diagram.Protector {
	return usual(tns400, append([]func(*diagram.Protector){func(p *diagram.Protector) { p.System = s }}, alter...)...)
}

// only leaves the protector the modes that are named.
func only(modes ...diagram.Mode) func(*diagram.Protector) {
	return func(p *diagram.Protector) {
		for mode := range p.Modes {
			if !slices.Contains(modes, diagram.Mode(mode)) {
				p.Modes[mode] = diagram.ModeRating{}
			}
		}
	}
}

// rated sets the continuous rating of the connected modes that are named.
func rated(mcov float64, modes ...diagram.Mode) func(*diagram.Protector) {
	return func(p *diagram.Protector) {
		for _, mode := range modes {
			p.Modes[mode].MCOV = mcov
		}
	}
}

// level sets the level of the modes that are named.
func levelOf(volts float64, modes ...diagram.Mode) func(*diagram.Protector) {
	return func(p *diagram.Protector) {
		for _, mode := range modes {
			p.Modes[mode].Level = volts
		}
	}
}

// gapped makes the element from neutral to earth a gap.
func gapped(p *diagram.Protector) { p.Modes[diagram.NeutralEarth].Switching = true }

// madeFor states another system.
func madeFor(s diagram.System) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.System = s }
}

// told writes the findings on a subject, one line each.
func told(findings []analysis.Finding, subject string) []string {
	out := []string{}
	for _, f := range findings {
		if f.Subject == subject {
			out = append(out, f.Severity.String()+": "+f.What)
		}
	}
	return out
}

// complete checks that each finding says all that a person needs.
func complete(t *testing.T, name string, findings []analysis.Finding) {
	t.Helper()
	for _, f := range findings {
		if f.What == "" || f.Why == "" || f.Remedy == "" || f.Source == "" || len(f.Records) == 0 {
			t.Errorf("%s: a finding lacks something: %+v", name, f)
		}
	}
}

// building is a supply of a system and a panel fed from it, with protectors.
func building(t *testing.T, supply diagram.System, draw func(*diagram.Tx)) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "supply", Kind: diagram.Supply, System: supply})
		tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Name: "Panel"})
		tx.SetFeeder(feeder("feeder", "supply", "panel"))
		draw(tx)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func feeder(id, from, to diagram.ID) diagram.Feeder {
	return diagram.Feeder{ID: id, From: diagram.End{Part: from}, To: diagram.End{Part: to}, Length: 5}
}

// placed puts a protector on a part.
func placed(tx *diagram.Tx, p diagram.Protector, on diagram.ID) {
	p.Plan, p.Bus = diagram.FirstPlan, on
	tx.SetProtector(p)
}

func checkAll(doc *diagram.Document) []analysis.Finding {
	return diagramtest.Must(Check(context.Background(), Input{Document: doc, Plan: diagram.FirstPlan, Topology: analysis.Trace(doc)}))
}

func TestBears(t *testing.T) {
	tests := []struct {
		name   string
		p      diagram.Protector
		mode   diagram.Mode
		volts  float64
		stated bool
	}{
		{"stated", usual(wye480), diagram.LineNeutral, 320, true},
		{"by the system", usual(wye480, rated(0, diagram.LineNeutral)), diagram.LineNeutral, 304.7, false},
		{"by a system whose lines rise", usual(delta480, rated(0, diagram.LineEarth)), diagram.LineEarth, 528, false},
		{"the system tells nothing of N-G", usual(hrg480, rated(0, diagram.NeutralEarth)), diagram.NeutralEarth, 0, false},
		{"no system", usual(wye480, rated(0, diagram.LineNeutral), madeFor(diagram.System{})), diagram.LineNeutral, 0, false},
	}
	for _, test := range tests {
		volts, stated := bears(test.p, test.mode)
		if diff := volts - test.volts; diff > 1e-9 || diff < -1e-9 || stated != test.stated {
			t.Errorf("%s: got %g V, %v; want %g V, %v", test.name, volts, stated, test.volts, test.stated)
		}
	}
}
