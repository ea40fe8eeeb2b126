package analysis_test

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// A mend alters its record and no other, says what to whom, and leaves alone what is
// gone by then.
func TestMends(t *testing.T) {
	sheet := func() *diagram.Document {
		return diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
			tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "panel-2"}})
			tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1"})
		})
	}
	for name, row := range map[string]struct {
		mend    func(diagram.ID) analysis.Mend
		id      diagram.ID
		changed func(diagram.Change) (n int, note string)
	}{
		"part": {func(id diagram.ID) analysis.Mend {
			return analysis.MendPart(id, "note … down", "X", func(p *diagram.Part) { p.Note = "mended" })
		}, "panel-2", func(c diagram.Change) (int, string) { return len(c.Parts), c.Parts[0].To.Note }},
		"feeder": {func(id diagram.ID) analysis.Mend {
			return analysis.MendFeeder(id, "note … down", "X", func(f *diagram.Feeder) { f.Note = "mended" })
		}, "feeder-1", func(c diagram.Change) (int, string) { return len(c.Feeders), c.Feeders[0].To.Note }},
		"protector": {func(id diagram.ID) analysis.Mend {
			return analysis.MendProtector(id, "note … down", "X", func(p *diagram.Protector) { p.Note = "mended" })
		}, "protector-1", func(c diagram.Change) (int, string) { return len(c.Protectors), c.Protectors[0].To.Note }},
	} {
		m := row.mend(row.id)
		if !m.IsThere() || m.Kind != "note … down" || m.Label != "note X down" {
			t.Errorf("%s: got %+v", name, m)
		}
		change, err := sheet().Edit(m.Apply)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(change.Parts) + len(change.Feeders) + len(change.Protectors); n != 1 {
			t.Errorf("%s: %d records changed", name, n)
			continue
		}
		if n, note := row.changed(change); n != 1 || note != "mended" {
			t.Errorf("%s: got %d changed, note %q", name, n, note)
		}
		if change, err := sheet().Edit(row.mend("gone-1").Apply); err != nil || len(change.Parts)+len(change.Feeders)+len(change.Protectors) != 0 {
			t.Errorf("%s that is gone: got %+v, %v", name, change, err)
		}
	}
	if (analysis.Mend{}).IsThere() {
		t.Error("none is there")
	}
}
