package rule_test

import (
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// site is a sketch of which the findings on protectors are looked at.
type site struct {
	*sketch
	faults map[diagram.End]analysis.Fault
	plan   diagram.ID
}

func newSite(t *testing.T, system diagram.System) *site {
	s := &site{newSketch(t), map[diagram.End]analysis.Fault{}, diagram.FirstPlan}
	s.supply(system, diagram.Exposure{})
	return s
}

// exposed sets what the surroundings of the supply bring.
func (s *site) exposed(e diagram.Exposure) *site {
	s.t.Helper()
	s.alter("supply", func(p *diagram.Part) { p.Exposure = e })
	return s
}

// by sets the edition of NFPA 70.
func (s *site) by(edition diagram.NECEdition) *site {
	s.t.Helper()
	s.codes(diagram.Codes{NEC: edition})
	return s
}

// board places a panel.
func (s *site) board(id diagram.ID, data diagram.BoardData) *site {
	s.part(diagram.Part{ID: id, Kind: diagram.Panel, Board: data})
	return s
}

// kind places a part of a kind.
func (s *site) kind(kind diagram.Kind, ids ...diagram.ID) *site {
	for _, id := range ids {
		s.part(diagram.Part{ID: id, Kind: kind})
	}
	return s
}

// stepDown places a transformer from one system to another.
func (s *site) stepDown(id diagram.ID, from, to diagram.System) *site {
	s.part(diagram.Part{ID: id, Kind: diagram.Transformer, System: to, Transformer: diagram.TransformerData{Primary: from}})
	return s
}

// wire draws feeders of the length, with a switch at their head.
func (s *site) wire(length float64, kind diagram.SwitchKind, runs ...string) *site {
	s.t.Helper()
	return s.wireRated(length, kind, 0, runs...)
}

func (s *site) wireRated(length float64, kind diagram.SwitchKind, rated float64, runs ...string) *site {
	s.t.Helper()
	s.edit(func(tx *diagram.Tx) {
		for _, run := range runs {
			from, to, _ := strings.Cut(run, " > ")
			tx.SetFeeder(diagram.Feeder{
				ID: tx.NewFeederID(), From: endOf(from), To: endOf(to), Length: length, Switch: diagram.SwitchData{Kind: kind, Rated: rated},
			})
		}
	})
	return s
}

// plain is a protector that no rule of the tests has anything against but for
// what alter does: mounted on the bus, its SCCR above what flows.
func plain(id, bus diagram.ID, alter ...func(*diagram.Protector)) diagram.Protector {
	p := diagram.Protector{ID: id, Plan: diagram.FirstPlan, Bus: bus, Name: "SPD", Type: diagram.Type2, In: 20e3, SCCR: 200e3}
	for _, mode := range diagram.Modes() {
		p.Modes[mode] = diagram.ModeRating{Connected: true}
	}
	for _, f := range alter {
		f(&p)
	}
	return p
}

// of sets the type of a protector.
func of(kind diagram.Type) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.Type = kind }
}

// attach places a protector named SPD on a part.
func (s *site) attach(bus diagram.ID, alter ...func(*diagram.Protector)) *site {
	s.t.Helper()
	s.edit(func(tx *diagram.Tx) {
		p := plain(tx.NewProtectorID(), bus, alter...)
		p.Plan = s.plan
		tx.SetProtector(p)
	})
	return s
}

// flows sets the fault current at a part.
func (s *site) flows(id diagram.ID, f analysis.Fault) *site {
	f.At, f.Known = diagram.End{Part: id}, true
	s.faults[f.At] = f
	return s
}

func (s *site) input() rule.Input {
	return rule.Input{Document: s.doc, Plan: s.plan, Topology: analysis.Trace(s.doc), Faults: s.faults}
}

// found returns the findings on a subject whose main record is a protector.
func (s *site) found(subject string) []analysis.Finding {
	s.t.Helper()
	var out []analysis.Finding
	all := diagramtest.Must(rule.Check(context.Background(), s.input()))
	rule.CheckSentences(s.t, all)
	for _, f := range all {
		p, ok := s.doc.Protector(f.Records[0])
		if ok && f.Subject == subject {
			out = append(out, f)
		}
		if on := s.doc.NameOf(p.ID) + " on " + s.doc.NameOf(p.Bus); ok && strings.HasPrefix(f.What, on) != (f.Says != "") || !strings.HasSuffix(f.What, f.Says) {
			s.t.Errorf("%q says %q", f.What, f.Says)
		}
	}
	return out
}

// one returns the only finding on a subject.
func (s *site) one(subject string) analysis.Finding {
	s.t.Helper()
	found := s.found(subject)
	if len(found) != 1 {
		s.t.Fatalf("%d findings on %s: %q", len(found), subject, sayings(found))
	}
	return found[0]
}

// mended returns what is still found on a subject after the mend of the only
// finding.
func (s *site) mended(subject string) []string {
	s.t.Helper()
	s.apply(s.one(subject))
	return sayings(s.found(subject))
}

// sayings writes findings as "severity: what", one each.
func sayings(findings []analysis.Finding) []string {
	out := []string{}
	for _, f := range findings {
		out = append(out, f.Severity.String()+": "+f.What)
	}
	return out
}

// siteRow is one row of a table of findings on protectors.
type siteRow struct {
	name string
	site *site
	want []string
}

// checkRows compares the findings of each row; every finding is whole.
func checkRows(t *testing.T, subject string, rows []siteRow) {
	t.Helper()
	for _, row := range rows {
		found := row.site.found(subject)
		want := row.want
		if want == nil {
			want = []string{}
		}
		if diff := cmp.Diff(want, sayings(found)); diff != "" {
			t.Errorf("%s: -want +got:\n%s", row.name, diff)
		}
		for _, f := range found {
			if f.Why == "" || f.Remedy == "" || len(f.Records) != 2 {
				t.Errorf("%s: not whole: %+v", row.name, f)
			}
		}
	}
}

// results returns the results of a working by label.
func results(w analysis.Working) map[string]float64 {
	out := map[string]float64{}
	for _, step := range w {
		out[step.Label] = step.Result
	}
	return out
}
