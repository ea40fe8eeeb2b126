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

// Each figure outside what is usual is a note of its own; those within are none.
func TestUnusualFigures(t *testing.T) {
	tests := []struct {
		name  string
		alter func(*sketch)
		want  string // the finding; none where empty
	}{
		{"usual", func(*sketch) {}, ""},
		{"a fault current in A", func(s *sketch) { s.alter("supply", func(p *diagram.Part) { p.Source.FaultCurrent = 22 }) },
			"supply has an unusual fault current: under 500 A"},
		{"a fault current of 10 times too much", func(s *sketch) { s.alter("supply", func(p *diagram.Part) { p.Source.FaultCurrent = 220e3 }) },
			"supply has an unusual fault current: over 200 kA"},
		{"one that a fuse breaks", func(s *sketch) { s.alter("supply", func(p *diagram.Part) { p.Source.FaultCurrent = 200e3 }) }, ""},
		{"a transformer in VA", func(s *sketch) { s.alter("supply", func(p *diagram.Part) { p.Source.Power = 45 }) },
			"supply has an unusual rated power: under 1 kVA"},
		{"a bus of 2", func(s *sketch) { s.alter("panel", func(p *diagram.Part) { p.Board.Rating = 2 }) },
			"panel has an unusual bus rating: under 15 A"},
		{"a voltage in kV", func(s *sketch) { s.alter("supply", func(p *diagram.Part) { p.System.Voltage = 0.48 }) },
			"supply has an unusual voltage: under 100 V"},
		{"a feeder without length", func(s *sketch) { alterFeeders(s, 0) }, "has no length"},
		{"a feeder in mm", func(s *sketch) { alterFeeders(s, 3000) }, "has an unusual length: over 6 500 ft"},
		{"a lead of 12 m", func(s *sketch) { protectPanel(s, func(p *diagram.Protector) { p.Leads.Phase.Length = 12 }) },
			"has an unusual phase lead: over 30 ft"},
		{"an Up of 8 kV", func(s *sketch) {
			protectPanel(s, func(p *diagram.Protector) {
				p.Rating, p.Modes[diagram.LineEarth] = diagram.Up, diagram.ModeRating{Connected: true, Level: 8000}
			})
		}, "has an unusual L-G level: over 6 000 V"},
		{"a line upstream of 60 km", func(s *sketch) { s.alter("supply", func(p *diagram.Part) { p.Exposure.HighCable = 60e3 }) },
			"supply has an unusual high-voltage cable line upstream: over 65 000 ft"},
		{"a withstand of 230 times", func(s *sketch) {
			s.alter("panel", func(p *diagram.Part) {
				p.Withstand = diagram.Withstand{Kind: diagram.ByMultiple, Multiple: 230}
			})
		}, "panel has an unusual withstand in multiples of the nominal crest: over 30"},
		{"a resistance in ohm per km", func(s *sketch) {
			s.edit(func(tx *diagram.Tx) {
				for f := range tx.Document().Feeders() {
					f.Resistance = 0.8
					tx.SetFeeder(f)
					return
				}
			})
		}, "has an unusual resistance: over"},
		{"a surge in kV", func(s *sketch) {
			s.edit(func(tx *diagram.Tx) {
				tx.SetSurge(diagram.Surge{ID: "surge-1", Part: "panel", Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 6, Current: 500})
			})
		}, "The surge case “panel: ring, line to earth” has an unusual open-circuit voltage: under 100 V"},
		{"an SCCR of 65 A", func(s *sketch) { protectPanel(s, func(p *diagram.Protector) { p.SCCR = 65 }) }, "has an unusual SCCR: under 1 kA"},
	}
	for _, test := range tests {
		s := shop(t, diagram.BoardData{})
		test.alter(s)
		var got []analysis.Finding
		for _, f := range diagramtest.Must(rule.Check(context.Background(), rule.Input{Document: s.doc, Plan: diagram.FirstPlan, Topology: analysis.Trace(s.doc)})) {
			if strings.Contains(f.What, "unusual") || strings.Contains(f.What, "has no length") {
				got = append(got, f)
			}
		}
		if test.want == "" {
			if len(got) > 0 {
				t.Errorf("%s: got %v, want nothing", test.name, brief(got))
			}
			continue
		}
		if len(got) == 0 || !strings.Contains(strings.ReplaceAll(got[0].What, "\u00a0", " "), test.want) {
			t.Errorf("%s: got %v, want %q", test.name, got, test.want)
			continue
		}
		severity := analysis.Remark
		if strings.Contains(test.want, "has no length") {
			severity = analysis.Warning // it counts as none, which is the best case
		}
		if f := got[0]; f.Severity != severity || f.Source == "" || f.Why == "" || len(f.Records) == 0 {
			t.Errorf("%s: got %+v", test.name, f)
		}
	}
}

func alterFeeders(s *sketch, length float64) {
	s.edit(func(tx *diagram.Tx) {
		for f := range tx.Document().Feeders() {
			f.Length = length
			tx.SetFeeder(f)
			return
		}
	})
}

func protectPanel(s *sketch, alter func(*diagram.Protector)) {
	s.edit(func(tx *diagram.Tx) {
		p := diagram.Protector{ID: "spd", Plan: diagram.FirstPlan, Bus: "panel", Name: "SPD-1"}
		alter(&p)
		tx.SetProtector(p)
	})
}
