package analysis_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// A panel with a load, in a town with an underground line: f_env / (L_P N_g) =
// 850 / (1 × 0.5) = 1700, above the 1000 of IEC 60364-4-44 clause 443.
func TestCoverSeverity(t *testing.T) {
	low := diagram.Exposure{Surroundings: diagram.Urban, FlashDensity: 0.5, LowCable: 1000, Occupancy: diagram.Dwelling}
	with := func(f func(*diagram.Exposure)) diagram.Exposure { e := low; f(&e); return e }
	plain := diagram.Part{ID: "load", Kind: diagram.Load}
	stated, critical, used := plain, plain, plain
	stated.Withstand = diagram.Withstand{Kind: diagram.ByCategory, Category: 2}
	critical.Load.Critical = true
	used.Use = diagram.FirePumpUse
	tests := []struct {
		name     string
		system   diagram.System
		exposure diagram.Exposure
		load     diagram.Part
		verdict  analysis.Verdict
		want     analysis.Severity
	}{
		{"more than it stands", tns400, low, plain, analysis.Exceeded, analysis.Error},
		{"close", tns400, low, critical, analysis.Tight, analysis.Remark},
		{"not known", tns400, low, critical, analysis.Unknown, analysis.Warning},

		{"risk not assessed, nothing stated", tns400, diagram.Exposure{}, plain, analysis.Unreached, analysis.Warning},
		{"risk not assessed, withstand stated", tns400, diagram.Exposure{}, stated, analysis.Unreached, analysis.Error},
		{"risk not assessed, critical", tns400, diagram.Exposure{}, critical, analysis.Unreached, analysis.Error},
		{"risk not assessed, its use stated", tns400, diagram.Exposure{}, used, analysis.Unreached, analysis.Error},

		{"not required", tns400, low, plain, analysis.Unreached, analysis.Remark},
		{"not required, withstand stated", tns400, low, stated, analysis.Unreached, analysis.Remark},
		{"not required, critical", tns400, low, critical, analysis.Unreached, analysis.Warning},
		{"not required, its use stated", tns400, low, used, analysis.Unreached, analysis.Warning},
		{"declined", tns400, diagram.Exposure{Occupancy: diagram.Dwelling, Declined: true}, stated, analysis.Unreached, analysis.Remark},
		{"the same risk, whom it serves not stated", tns400, with(func(e *diagram.Exposure) { e.Occupancy = "" }), stated, analysis.Unreached, analysis.Error},
		{"the same risk, commerce", tns400, with(func(e *diagram.Exposure) { e.Occupancy = diagram.Commerce }), stated, analysis.Unreached, analysis.Error},
		{"the same risk, lightning protection system", tns400, with(func(e *diagram.Exposure) { e.Lightning = diagram.LightningIV }), stated, analysis.Unreached, analysis.Error},
		{"in the open", tns400, with(func(e *diagram.Exposure) { e.Surroundings = diagram.Rural }), stated, analysis.Unreached, analysis.Error},
		{"NFPA 70 knows no risk level", wye480, low, stated, analysis.Unreached, analysis.Error},
		{"NFPA 70, nothing stated", wye480, low, plain, analysis.Unreached, analysis.Warning},
	}
	for _, test := range tests {
		s := newSheet(t).part(diagram.Part{ID: "supply", Kind: diagram.Supply, System: test.system, Exposure: test.exposure}).boards("panel").
			part(test.load).feed(5, "supply > panel", "panel > load")
		stakes := analysis.NewStakes(s.doc, analysis.Trace(s.doc))
		for _, id := range []diagram.ID{"load", "panel"} { // what feeds it has as much at stake
			part, _ := s.doc.Part(id)
			if got := stakes.CoverSeverity(part, test.verdict); got != test.want {
				t.Errorf("%s, %s: got %s, want %s", test.name, id, got, test.want)
			}
			if got, want := stakes.CoverFinding(part, analysis.Level{Verdict: test.verdict}, "").Critical, test.load.Load.Critical; got != want {
				t.Errorf("%s, %s: critical %v, want %v", test.name, id, got, want)
			}
		}
	}
}
