package edit_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

// twoSurges adds a surge case at the supply in use and one at the panel, in
// one entry of the history.
func twoSurges(t *testing.T, d *edittest.Driver) {
	t.Helper()
	must(t, d.Change("add surge cases", func(tx *diagram.Tx) error {
		for _, part := range []diagram.ID{"", "panel-1"} {
			tx.SetSurge(diagram.Surge{
				ID: tx.NewSurgeID(), Part: part,
				Path: diagram.LinesToEarth, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000,
			})
		}
		return nil
	}))
}

func TestSurgesChangeInOneEntry(t *testing.T) {
	d := drive(t)
	twoSurges(t, d)
	before := edittest.Text(t, d.Document())
	must(t, d.Change("change surge case", func(tx *diagram.Tx) error {
		surge, _ := tx.Surge("surge-1")
		surge.Wave, surge.Current = diagram.RingWave, 500
		tx.SetSurge(surge)
		tx.Remove("surge-2")
		return nil
	}))
	after := edittest.Text(t, d.Document())
	d.Do("undo")
	if diff := cmp.Diff(before, edittest.Text(t, d.Document())); diff != "" {
		t.Errorf("undo (-want +got):\n%s", diff)
	}
	d.Do("redo")
	if diff := cmp.Diff(after, edittest.Text(t, d.Document())); diff != "" {
		t.Errorf("redo (-want +got):\n%s", diff)
	}
	d.Do("undo").Do("undo")
	if d.CanUndo() || len(d.Document().Surges()) != 0 {
		t.Error("there were more than two entries")
	}
}

func TestDeleteTakesTheSurgesAtAPart(t *testing.T) {
	d := drive(t)
	twoSurges(t, d)
	before := edittest.Text(t, d.Document())
	d.Select("panel-1")
	d.Key(edit.KeyDelete)
	if surges := d.Document().Surges(); len(surges) != 1 || surges[0].Part != "" {
		t.Errorf("got %+v, want the one at the supply alone", surges)
	}
	d.Do("undo")
	if diff := cmp.Diff(before, edittest.Text(t, d.Document())); diff != "" {
		t.Errorf("one undo does not bring all back (-want +got):\n%s", diff)
	}
}
