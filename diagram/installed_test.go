package diagram_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The next look is so many months after the last one, on the last day of a month that
// has no such day: by the calendar.
func TestRecheck(t *testing.T) {
	for _, row := range []struct {
		installed, checked string
		months             int
		want               string
	}{
		{"2026-11-29", "", 0, "2027-11-29"}, {"2026-11-29", "2027-01-31", 1, "2027-02-28"}, {"2026-11-29", "2025-01-01", 12, "2027-11-29"},
		{"2028-02-29", "", 12, "2029-02-28"}, {"", "2026-05-31", 6, "2026-11-30"}, {"", "", 12, ""},
	} {
		if got := (diagram.Installed{Date: row.installed, Checked: row.checked}).Recheck(row.months); got != row.want {
			t.Errorf("%+v: got %q", row, got)
		}
	}
}

// A record has copies of the protectors whose leads are not measured yet; what becomes
// of them is in none of the differences but the leads themselves; and the plan that was
// carried out may go.
func TestRecordOfAPlan(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		p := diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1", Name: "SPD-1", Installed: diagram.Installed{Measured: true, By: "A. Tern"}}
		p.Leads.Phase.Length = 0.2
		tx.SetProtector(p)
	})
	var id diagram.ID
	edit := func(f func(*diagram.Tx) error) {
		t.Helper()
		if _, err := doc.Edit(f); err != nil {
			t.Fatal(err)
		}
	}
	edit(func(tx *diagram.Tx) error { id = tx.BeginRecord(diagram.FirstPlan); return nil })
	record, ok := doc.RecordOf(diagram.FirstPlan)
	if !ok || record.ID != id || record.Name != "As built" {
		t.Fatalf("got %+v, %t", record, ok)
	}
	if _, ok := doc.RecordOf(id); ok {
		t.Error("a record has a record")
	}
	built, _ := doc.Protector(diagram.Counterparts(doc, diagram.FirstPlan, id)["protector-1"])
	if built.Installed != (diagram.Installed{By: "A. Tern"}) {
		t.Errorf("got %+v", built.Installed)
	}
	edit(func(tx *diagram.Tx) error { built.Installed.Date = "2026-11-29"; tx.SetProtector(built); return nil })
	if d := diagram.PlanDifferences(doc, diagram.FirstPlan, id); len(d) != 0 {
		t.Errorf("a day alone differs: %v", d)
	}
	edit(func(tx *diagram.Tx) error { built.Leads.Phase.Length = 0.3; tx.SetProtector(built); return nil })
	if d := diagram.PlanDifferences(doc, diagram.FirstPlan, id); len(d) != 1 {
		t.Errorf("a longer lead does not differ: %v", d)
	}
	edit(func(tx *diagram.Tx) error {
		first, _ := tx.Document().Plan(diagram.FirstPlan)
		first.Locked = false
		tx.SetPlan(first)
		return nil
	})
	edit(func(tx *diagram.Tx) error { tx.Remove(diagram.FirstPlan); return nil })
	if problems := doc.Check(); len(problems) > 0 {
		t.Errorf("got %v", problems)
	}
}
