package handrule_test

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// Each figure of the rule alters a level that depends on it.
func TestEveryFigureOfTheRuleCounts(t *testing.T) {
	build := func(rating diagram.Rating) *sheet {
		p := protector("spd", "a", wye480, full)
		p.Rating = rating
		p.Leads.Phase.Length, p.Leads.Earth.Length = 0.5, 0.5
		return newSheet(t).supply("u", wye480).boards("a", "b").feed(3, "u > a").feed(8, "a > b").attach(p)
	}
	tests := []struct {
		name   string
		rating diagram.Rating
		set    func(*handrule.Rule)
		want   float64 // volts at b; the reason changes where it is that of before
		reason analysis.Reason
	}{
		{"default, VPR", diagram.VPR, func(*handrule.Rule) {}, 1200 + 25*(0.5/inch-6) + 400, analysis.NearProtector},
		{"default, Up", diagram.Up, func(*handrule.Rule) {}, 1200 + 1000 + 400, analysis.NearProtector},
		{"volts of leads, VPR", diagram.VPR, func(r *handrule.Rule) { r.Leads.VPR = 10 / inch }, 1200 + 10*(0.5/inch-6) + 400, analysis.NearProtector},
		{"free lead", diagram.VPR, func(r *handrule.Rule) { r.Leads.Free = 0 }, 1200 + 25*0.5/inch + 400, analysis.NearProtector},
		{"volts of leads, Up", diagram.Up, func(r *handrule.Rule) { r.Leads.Up = 500 }, 1200 + 500 + 400, analysis.NearProtector},
		{"surge voltage", diagram.Up, func(r *handrule.Rule) { r.SurgeVoltage = 3000 }, 1200 + 1000 + 200, analysis.NearProtector},
		{"no surge", diagram.Up, func(r *handrule.Rule) { r.SurgeVoltage = 0 }, 1200 + 1000, analysis.NearProtector},
		{"front", diagram.Up, func(r *handrule.Rule) { r.Front = 2.4e-6 }, 1200 + 1000 + 200, analysis.NearProtector},
		{"speed", diagram.Up, func(r *handrule.Rule) { r.Speed = 1e8 }, 1200 + 1000 + 800, analysis.NearProtector},
		{"far, VPR", diagram.VPR, func(r *handrule.Rule) { r.FarUS = 8 }, 1200 + 25*(0.5/inch-6) + 400, analysis.Distance},
		{"far, Up", diagram.Up, func(r *handrule.Rule) { r.FarIEC = 8 }, 1200 + 1000 + 400, analysis.Distance},
	}
	for _, test := range tests {
		rule := handrule.DefaultRule()
		test.set(&rule)
		s := build(test.rating)
		got := level(t, diagramtest.Must(handrule.Solve(context.Background(), s.doc, diagram.FirstPlan, analysis.Trace(s.doc), rule)), "b", diagram.LineEarth)
		if diff := got.Volts - test.want; diff > 1e-6 || diff < -1e-6 || got.Reason != test.reason {
			t.Errorf("%s: got %g V, %s; want %g V, %s", test.name, got.Volts, got.Reason, test.want, test.reason)
		}
	}
}

func TestRuleThatIsNotUsablePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("got a result from a rule without figures")
		}
	}()
	s := newSheet(t).supply("u", wye480)
	diagramtest.Must(handrule.Solve(context.Background(), s.doc, diagram.FirstPlan, analysis.Trace(s.doc), handrule.Rule{}))
}

// Protectors of another plan don't count.
func TestPlansAreApart(t *testing.T) {
	other := protector("spd", "a", wye480, full)
	other.Plan = "plan-2"
	s := newSheet(t).supply("u", wye480).boards("a").feed(3, "u > a")
	s.edit(func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "B"}) }).attach(other)
	for plan, want := range map[diagram.ID]analysis.Reason{diagram.FirstPlan: analysis.NoProtector, "plan-2": analysis.AtProtector} {
		result := diagramtest.Must(handrule.Solve(context.Background(), s.doc, plan, analysis.Trace(s.doc), handrule.DefaultRule()))
		if got := level(t, result, "a", diagram.LineEarth).Reason; got != want || result.Plan != plan || result.Basis != analysis.HandRule {
			t.Errorf("%s: got %s, plan %s, basis %s; want %s", plan, got, result.Plan, result.Basis, want)
		}
	}
}
