package record_test

import (
	"context"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/record"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/unit"
)

const inch = 0.0254

// built returns a panel that stands 650 V with a protector of 400 V, and the record of
// its plan, in which a change was made.
func built(t *testing.T, change func(*diagram.Tx, diagram.Plan, *diagram.Protector)) (*diagram.Document, diagram.Plan) {
	t.Helper()
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, System: diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}})
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Withstand: diagram.Withstand{Kind: diagram.ByVolts, Volts: 650}})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}, Length: 10})
		lead := diagram.Lead{Length: 6 * inch}
		p := diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD-1", Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}}
		for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth} {
			p.Modes[mode] = diagram.ModeRating{Connected: true, Level: 400}
		}
		tx.SetProtector(p)
	})
	var plan diagram.Plan
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		plan, _ = tx.Document().Plan(tx.BeginRecord(diagram.FirstPlan))
		for p := range tx.Document().ProtectorsOf(plan.ID) {
			change(tx, plan, &p)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return doc, plan
}

func judged(t *testing.T, doc *diagram.Document, plan diagram.ID) *analysis.Result {
	t.Helper()
	return diagramtest.Must(assess.Run(context.Background(), doc, plan))
}

// 14 in of lead on each side are 8 in beyond the six that a VPR includes, at 25 V for
// each (common practice, no source): 600 V in place of 400 V.
func TestRowsAndDifferences(t *testing.T) {
	doc, plan := built(t, func(tx *diagram.Tx, _ diagram.Plan, p *diagram.Protector) {
		p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = 14*inch, 14*inch, 14*inch
		p.Installed = diagram.Installed{Date: "2026-11-29", Measured: true}
		tx.SetProtector(*p)
		info := tx.Document().Info()
		info.Recheck = 6
		tx.SetInfo(info)
	})
	was, is := judged(t, doc, diagram.FirstPlan), judged(t, doc, plan.ID)
	for today, overdue := range map[string]bool{"2027-05-29": false, "2027-05-30": true} {
		rows := record.Rows(doc, plan, was, is, today)
		if len(rows) != 1 || rows[0].Overdue != overdue || rows[0].Due != "2027-05-29" {
			t.Fatalf("on %s got %+v", today, rows)
		}
		row := rows[0]
		if row.Planned == nil || record.Leads(row.Planned, unit.NorthAmerican) != "6 in" || record.Leads(&row.Built, unit.NorthAmerican) != "14 in" {
			t.Errorf("got the leads of %+v", row)
		}
		if row.Was.Volts != 400 || row.Is.Volts < 599.99 || row.Is.Volts > 600.01 || row.Is.Verdict != analysis.Tight {
			t.Errorf("got %g V and %g V, %s", row.Was.Volts, row.Is.Volts, row.Is.Verdict)
		}
	}
	d := record.Differences(doc, plan, was, is)
	if len(d) != 1 || d[0].Bus != "panel-1" || d[0].Lines(unit.NorthAmerican)[0] != "leads 6 in → 14 in" || d[0].Was.Volts != 400 {
		t.Errorf("got %+v", d)
	}
}

// What was not built and what was built besides are told; without the plan that was
// carried out the record stands alone.
func TestOtherThanPlanned(t *testing.T) {
	doc, plan := built(t, func(tx *diagram.Tx, _ diagram.Plan, p *diagram.Protector) { tx.Remove(p.ID) })
	d := record.Differences(doc, plan, judged(t, doc, diagram.FirstPlan), judged(t, doc, plan.ID))
	if len(d) != 1 || d[0].After != nil || d[0].Is.Known {
		t.Errorf("got %+v", d)
	}
	doc, plan = built(t, func(tx *diagram.Tx, _ diagram.Plan, p *diagram.Protector) {
		first, _ := tx.Document().Plan(diagram.FirstPlan)
		first.Locked = false
		tx.SetPlan(first)
		tx.Remove(diagram.FirstPlan)
	})
	rows := record.Rows(doc, plan, nil, judged(t, doc, plan.ID), "2026-11-29")
	if len(rows) != 1 || rows[0].Planned != nil || rows[0].Was.Known || !rows[0].Is.Known || record.Differences(doc, plan, nil, nil) != nil {
		t.Errorf("got %+v", rows)
	}
}
