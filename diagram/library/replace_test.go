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

// The poles of the breaker follow the lines only where both are known; where there
// was no breaker, that of the kind comes.
func TestInPlaceOfTakesPoles(t *testing.T) {
	of := func(wiring diagram.Wiring) diagram.System {
		return diagram.System{Wiring: wiring, Voltage: 208, Neutral: true, Earthing: diagram.Solid}
	}
	for _, row := range []struct {
		name         string
		old, new     diagram.System
		rated        float64
		poles        int
		wantRated    float64
		want         int
		wantShared   bool
		sharedBefore bool
	}{
		{"more lines", of(diagram.Split), of(diagram.Wye), 60, 2, 60, 3, false, false},
		{"fewer lines", of(diagram.Wye), of(diagram.Split), 60, 3, 60, 2, true, true},
		{"as many lines, an odd breaker", of(diagram.Wye), of(diagram.Delta), 60, 1, 60, 1, false, false},
		{"one line of three", of(diagram.Wye), of(diagram.Single), 60, 3, 60, 1, false, false},
		{"poles not known", of(diagram.Split), of(diagram.Wye), 60, 0, 60, 0, false, false},
		{"one pole", of(diagram.Single), of(diagram.Wye), 60, 1, 60, 3, false, false},
		{"the new system not known", of(diagram.Split), diagram.System{}, 60, 2, 60, 2, false, false},
		{"no breaker, that of the kind", of(diagram.Split), of(diagram.Wye), 0, 2, 30, 4, false, true},
		{"a breaker of an ampere", of(diagram.Split), of(diagram.Wye), 1, 2, 1, 3, false, false},
	} {
		old := diagram.Protector{ID: "p", System: row.old, Breaker: diagram.BreakerData{Rated: row.rated, Poles: row.poles, Shared: row.sharedBefore}}
		kind := library.Entry{Protector: diagram.Protector{System: row.new, Breaker: diagram.BreakerData{Rated: 30, Poles: 4}}}
		got := library.InPlaceOf(old, kind, func(string) bool { return false }).Breaker
		if got.Rated != row.wantRated || got.Poles != row.want || got.Shared != row.wantShared {
			t.Errorf("%s: got %+v, want %g A, %d poles, shared %v", row.name, got, row.wantRated, row.want, row.wantShared)
		}
	}
}
