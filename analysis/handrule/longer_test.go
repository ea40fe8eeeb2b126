package handrule_test

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// A lead that is as long as the model takes gets no longer, however much the bus stands.
func TestLongerThanTheModelTakes(t *testing.T) {
	s := newSheet(t).supply("s", wye208)
	s.edit(func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "p", Kind: diagram.Panel, Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 1e6}})
		tx.SetFeeder(diagram.Feeder{ID: "f", From: diagram.End{Part: "s"}, To: diagram.End{Part: "p"}, Length: 10})
		lead := diagram.Lead{Length: 999.99}
		p := diagram.Protector{ID: "a", Plan: diagram.FirstPlan, Bus: "p", Rating: diagram.VPR, Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead, Run: diagram.Twisted}}
		for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth} {
			p.Modes[mode] = diagram.ModeRating{Connected: true, Level: 400}
		}
		tx.SetProtector(p)
	})
	got, err := handrule.Longer(context.Background(), s.doc, diagram.FirstPlan, analysis.Trace(s.doc), handrule.DefaultRule(), inch)
	if n, has := got["a"]; err != nil || n != 0 || !has {
		t.Errorf("got %d, %t, %v, want 0", n, has, err)
	}
}

// With 25 V for each inch beyond six (common practice, no source) and a bus that is held
// up to 80 % of 650 V, a VPR of 400 V leaves room for 4.8 in more; an Up of 400 V, to
// which each metre of both leads adds 1 kV, for 60 mm.
func TestLonger(t *testing.T) {
	for _, row := range []struct {
		rating    diagram.Rating
		withstand float64
		step      float64
		want      int
		has       bool
	}{
		{diagram.VPR, 650, inch, 4, true}, {diagram.VPR, 506.25, inch, 0, true}, {diagram.VPR, 390, inch, 0, false}, {diagram.VPR, 0, inch, 0, false},
		{diagram.VPR, 450, inch, 2, true}, // tight at 400 V, up to 450 V
		{diagram.Up, 900, 0.01, 0, true},  // 400 V and 304.8 V of leads of 720 V: 7.6 mm are left for each
		{diagram.Up, 1000, 0.01, 4, true}, // 95.2 V
		{diagram.VPR, 1e5, inch, 118, true},
		{diagram.Up, 1e5, 0.01, 34, true}, // 1 m on both sides: IEC 60364-5-53 clause 534.4.8
	} {
		s := newSheet(t).supply("s", wye208)
		s.edit(func(tx *diagram.Tx) {
			w := diagram.Withstand{}
			if row.withstand > 0 {
				w = diagram.Withstand{Kind: diagram.ByVolts, Volts: row.withstand}
			}
			tx.SetPart(diagram.Part{ID: "p", Kind: diagram.Panel, Withstand: w})
			tx.SetFeeder(diagram.Feeder{ID: "f", From: diagram.End{Part: "s"}, To: diagram.End{Part: "p"}, Length: 10})
			lead := diagram.Lead{Length: 6 * inch}
			p := diagram.Protector{ID: "a", Plan: diagram.FirstPlan, Bus: "p", Rating: row.rating, Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}}
			for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth} {
				p.Modes[mode] = diagram.ModeRating{Connected: true, Level: 400}
			}
			tx.SetProtector(p)
			plan, _ := tx.Document().Plan(diagram.FirstPlan)
			plan.Locked = true
			tx.SetPlan(plan)
		})
		got, err := handrule.Longer(context.Background(), s.doc, diagram.FirstPlan, analysis.Trace(s.doc), handrule.DefaultRule(), row.step)
		if n, has := got["a"]; err != nil || n != row.want || has != row.has {
			t.Errorf("%s of 400 V against %g V: got %d, %t, %v, want %d", row.rating, row.withstand, n, has, err, row.want)
		}
	}
}
