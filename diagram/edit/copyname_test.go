package edit_test

import (
	"slices"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

// A copy gets the next free name of its kind, whether it is a part or a
// protector, and keeps its own where that is free.
func TestCopiesAreNamed(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Panel, Name: "Panel 3"})
		tx.SetProtector(diagram.Protector{ID: "s", Plan: diagram.FirstPlan, Bus: "a", Name: "SPD-1"})
		tx.SetProtector(diagram.Protector{ID: "u", Plan: diagram.FirstPlan, Bus: "a", Name: "Mains"})
	})
	d := edittest.New(t, doc, edit.Options{})
	d.Select("a")
	d.Key("Ctrl+C", "Ctrl+V", "Ctrl+V")
	var got []string
	for p := range d.Document().Parts() {
		got = append(got, p.Name)
	}
	for p := range d.Document().Protectors() {
		got = append(got, p.Name)
	}
	slices.Sort(got)
	want := []string{"Mains", "Mains 2", "Mains 3", "Panel 3", "Panel 4", "Panel 5", "SPD-1", "SPD-2", "SPD-3"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
