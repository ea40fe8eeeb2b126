package library_test

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/library"
)

// What is installed stays: name, leads and breaker, whose poles follow the lines.
// What was noted of the place stays, the note of a kind goes with it.
func TestInPlaceOf(t *testing.T) {
	split := diagram.System{Wiring: diagram.Split, Voltage: 240, Neutral: true, Earthing: diagram.Solid}
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid}
	old := diagram.Protector{ID: "p", Plan: "plan-1", Bus: "b", Name: "SPD-3", Note: "behind the door", System: split, SCCR: 10e3, Price: 90}
	old.Leads.Phase.Length = 0.4
	old.Breaker = diagram.BreakerData{Rated: 60, Poles: 2, Most: 100}
	kind := library.Entry{Protector: diagram.Protector{ID: "k", Name: "Kind, 208Y", Note: "of the kind", System: wye, SCCR: 50e3, Breaker: diagram.BreakerData{Least: 30}}}
	isNote := func(note string) bool { return library.IsNote([]library.Entry{kind}, note) }

	got := library.InPlaceOf(old, kind, isNote)
	want := library.Place(kind, "plan-1", "b", "p")
	want.Name, want.Leads, want.Breaker = "SPD-3", old.Leads, diagram.BreakerData{Rated: 60, Poles: 3, Least: 30}
	want.Note = "behind the door\n" + want.Note
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	again := library.InPlaceOf(library.Place(kind, "plan-1", "b", "p"), kind, isNote)
	if strings.Count(again.Note, "of the kind") != 1 {
		t.Errorf("the note of the kind is doubled: %q", again.Note)
	}
}
