package rule_test

import (
	"context"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The systems of the small buildings in the tests of rules on parts.
var (
	wyeOf480   = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wyeOf208   = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	splitOf240 = diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	tnsOf400   = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
)

// sketch draws a small building: boards by name, feeders as "from > to".
type sketch struct {
	t   *testing.T
	doc *diagram.Document
}

func newSketch(t *testing.T) *sketch { return &sketch{t, diagram.New()} }

func (s *sketch) edit(f func(*diagram.Tx)) *sketch {
	s.t.Helper()
	if _, err := s.doc.Edit(func(tx *diagram.Tx) error { f(tx); return nil }); err != nil {
		s.t.Fatal(err)
	}
	return s
}

// later makes the plan one that comes after the building as found.
func (s *sketch) later() *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: "plan-0", Name: "Before"}) })
}

func (s *sketch) codes(c diagram.Codes) *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		info := tx.Document().Info()
		info.Codes = c
		tx.SetInfo(info)
	})
}

func (s *sketch) part(p diagram.Part) *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) { tx.SetPart(p) })
}

func (s *sketch) supply(system diagram.System, e diagram.Exposure) *sketch {
	return s.part(diagram.Part{ID: "supply", Kind: diagram.Supply, System: system, Exposure: e})
}

func (s *sketch) panels(ids ...diagram.ID) *sketch {
	for _, id := range ids {
		s.part(diagram.Part{ID: id, Kind: diagram.Panel})
	}
	return s
}

// alter changes one part.
func (s *sketch) alter(id diagram.ID, f func(*diagram.Part)) *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		p, ok := tx.Part(id)
		if !ok {
			s.t.Fatalf("there is no part %s", id)
		}
		f(&p)
		tx.SetPart(p)
	})
}

// use says what a part is for.
func (s *sketch) use(id diagram.ID, u diagram.Use) *sketch {
	s.t.Helper()
	return s.alter(id, func(p *diagram.Part) { p.Use = u })
}

// feed draws feeders of the length.
func (s *sketch) feed(length float64, runs ...string) *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		for _, run := range runs {
			from, to, _ := strings.Cut(run, " > ")
			tx.SetFeeder(diagram.Feeder{ID: tx.NewFeederID(), From: endOf(from), To: endOf(to), Length: length})
		}
	})
}

func endOf(text string) diagram.End {
	part, port, _ := strings.Cut(text, ":")
	return diagram.End{Part: diagram.ID(part), Port: diagram.Port(port)}
}

// protect places a protector of the type on each of the parts.
func (s *sketch) protect(kind diagram.Type, hosts ...diagram.ID) *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		for _, host := range hosts {
			tx.SetProtector(connected(diagram.Protector{ID: tx.NewProtectorID(), Plan: diagram.FirstPlan, Bus: host, Type: kind}))
		}
	})
}

// connected returns the protector with its lines to the neutral.
func connected(p diagram.Protector) diagram.Protector {
	p.Modes[diagram.LineNeutral].Connected = true
	return p
}

// about returns the findings on a subject whose main record is a part.
func (s *sketch) about(subject string) []analysis.Finding {
	s.t.Helper()
	return s.aboutWith(subject, nil)
}

func (s *sketch) aboutWith(subject string, faults map[diagram.End]analysis.Fault) []analysis.Finding {
	s.t.Helper()
	in := rule.Input{Document: s.doc, Plan: diagram.FirstPlan, Topology: analysis.Trace(s.doc), Faults: faults}
	var out []analysis.Finding
	all := diagramtest.Must(rule.Check(context.Background(), in))
	rule.CheckSentences(s.t, all)
	for _, f := range all {
		if len(f.Records) == 0 {
			s.t.Fatalf("finding without a record: %s", f.What)
		}
		if _, isPart := s.doc.Part(f.Records[0]); isPart && f.Subject == subject {
			out = append(out, f)
		}
	}
	return out
}

// brief writes findings as "severity parts: standard section", one each.
func brief(findings []analysis.Finding) []string {
	out := []string{}
	for _, f := range findings {
		parts := make([]string, len(f.Records))
		for i, id := range f.Records {
			parts[i] = string(id)
		}
		source, _, _ := strings.Cut(f.Source, " (")
		out = append(out, f.Severity.String()+" "+strings.Join(parts, "+")+": "+source)
	}
	return out
}

// apply makes the change that mends the finding.
func (s *sketch) apply(f analysis.Finding) *sketch {
	s.t.Helper()
	if !f.Mend.IsThere() {
		s.t.Fatalf("nothing mends: %s", f.What)
	}
	if _, err := s.doc.Edit(f.Mend.Apply); err != nil {
		s.t.Fatal(err)
	}
	return s
}

// checkTexts compares the texts of a finding with those wanted.
func checkTexts(t *testing.T, got analysis.Finding, what, why, remedy, source string) {
	t.Helper()
	for _, text := range []struct{ name, got, want string }{
		{"what", got.What, what}, {"why", got.Why, why}, {"remedy", got.Remedy, remedy}, {"source", got.Source, source},
	} {
		if text.got != text.want {
			t.Errorf("%s: got\n%s\nwant\n%s", text.name, text.got, text.want)
		}
	}
}

// withEdition puts the edition of NFPA 70 into a line that brief would write.
func withEdition(line string, edition diagram.NECEdition) string {
	return strings.Replace(line, ": ", ": NFPA 70:"+string(edition)+" section ", 1)
}
