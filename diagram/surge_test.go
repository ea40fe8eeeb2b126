package diagram_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// ring is a surge case that may stand in any document.
func ring(id diagram.ID) diagram.Surge {
	return diagram.Surge{ID: id, Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 6000, Current: 500}
}

// withSurges returns a panel and a load with the surge cases.
func withSurges(t *testing.T, surges ...diagram.Surge) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load})
		for _, s := range surges {
			tx.SetSurge(s)
		}
	})
}

func at(surge diagram.Surge, part diagram.ID) diagram.Surge {
	surge.Part = part
	return surge
}

func idsOf(surges []diagram.Surge) string {
	var ids []string
	for _, s := range surges {
		ids = append(ids, string(s.ID))
	}
	return strings.Join(ids, " ")
}

func TestSurgesAreListedByOrderThenID(t *testing.T) {
	last := ring("surge-1")
	last.Order = 2
	first := ring("surge-9")
	first.Order = -1
	doc := withSurges(t, last, ring("surge-10"), first, ring("surge-2"))
	if got, want := idsOf(doc.Surges()), "surge-9 surge-2 surge-10 surge-1"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got, ok := doc.Surge("surge-1"); !ok || got != last {
		t.Errorf("got %+v, %t, want %+v", got, ok, last)
	}
	if !doc.Has("surge-10") || doc.Has("surge-3") {
		t.Error("Has does not tell surge cases that there are from those that there are not")
	}
}

func TestSurgesAreNamed(t *testing.T) {
	named := ring("surge-2")
	named.Name = "At the service"
	doc := withSurges(t, ring("surge-1"), named)
	for id, want := range map[diagram.ID]string{"surge-1": "surge-1", "surge-2": "At the service"} {
		if got := doc.NameOf(id); got != want {
			t.Errorf("%s: got %q, want %q", id, got, want)
		}
	}
}

func TestSurgeIDsCountOn(t *testing.T) {
	doc := withSurges(t, ring("surge-2"), ring("surge-11"))
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for _, want := range []diagram.ID{"surge-12", "surge-13"} {
			id := tx.NewSurgeID()
			tx.SetSurge(ring(id))
			if _, ok := tx.Surge(id); id != want || !ok {
				t.Errorf("got %s, set: %t, want %s", id, ok, want)
			}
		}
	})
}

// A surge case goes with its part, and comes back with it.
func TestRemoveTakesTheSurgesAtAPart(t *testing.T) {
	doc := withSurges(t, ring("surge-1"), at(ring("surge-2"), "panel-1"), at(ring("surge-3"), "load-1"))
	before := contents(doc)
	change, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove("panel-1"); return nil })
	if err != nil {
		t.Fatal(err)
	}
	if got, want := idsOf(doc.Surges()), "surge-1 surge-3"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	doc.Apply(change.Inverse())
	if diff := cmp.Diff(before, contents(doc)); diff != "" {
		t.Errorf("after undo (-want +got):\n%s", diff)
	}
}

func TestRemoveASurge(t *testing.T) {
	doc := withSurges(t, ring("surge-1"), ring("surge-2"))
	change, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove("surge-1"); return nil })
	if err != nil {
		t.Fatal(err)
	}
	if got := idsOf(doc.Surges()); got != "surge-2" || change.IsEmpty() {
		t.Errorf("got %s, change empty: %t", got, change.IsEmpty())
	}
}

func TestSurgesAreChecked(t *testing.T) {
	alter := func(f func(*diagram.Surge)) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			s := ring("surge-1")
			f(&s)
			tx.SetSurge(s)
		}
	}
	tests := []struct {
		name string
		set  func(*diagram.Tx)
		want string // the message, or a part of it
	}{
		{"no path", alter(func(s *diagram.Surge) { s.Path = "" }), "surge-1, path: the path is missing; name the conductors"},
		{"unknown path", alter(func(s *diagram.Surge) { s.Path = "to sky" }), `surge-1, path: "to sky" is not known; use one of "lines to earth"`},
		{"no wave", alter(func(s *diagram.Surge) { s.Wave = "" }), "surge-1, wave: the wave is missing"},
		{"unknown wave", alter(func(s *diagram.Surge) { s.Wave = "square" }), `surge-1, wave: "square" is not known`},
		{"no voltage", alter(func(s *diagram.Surge) { s.Voltage = 0 }), "surge-1, voltage: 0 is out of range; use a number from 0.001 to 1e+06 V"},
		{"voltage below 0", alter(func(s *diagram.Surge) { s.Voltage = -1 }), "voltage: -1 is out of range"},
		{"voltage too high", alter(func(s *diagram.Surge) { s.Voltage = 1.1e6 }), "voltage: 1.1e+06 is out of range"},
		{"voltage no number", alter(func(s *diagram.Surge) { s.Voltage = math.NaN() }), "voltage: NaN is out of range"},
		{"current infinite", alter(func(s *diagram.Surge) { s.Current = math.Inf(1) }), "surge-1, current: +Inf is out of range"},
		{"no current", alter(func(s *diagram.Surge) { s.Current = 0 }), "current: 0 is out of range"},
		{"order out of range", alter(func(s *diagram.Surge) { s.Order = 1e6 }), "order: 1e+06 is out of range"},
		{"name not UTF-8", alter(func(s *diagram.Surge) { s.Name = "\xff" }), "name: the text is not UTF-8"},
		{"at no part", alter(func(s *diagram.Surge) { s.Part = "panel-9" }), `surge-1, part: it arrives at "panel-9", and no part has this id; name a part`},
		{"at a part made into a note", func(tx *diagram.Tx) {
			tx.SetSurge(at(ring("surge-1"), "panel-1"))
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Note})
		}, "it arrives at panel-1, a note"},
		{"with the id of a part", func(tx *diagram.Tx) { tx.SetSurge(ring("panel-1")) }, "two records bear this id"},
		{"with no id", func(tx *diagram.Tx) { tx.SetSurge(ring("a b")) }, "is no id"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			doc := withSurges(t)
			_, err := doc.Edit(func(tx *diagram.Tx) error { test.set(tx); return nil })
			var invalid *diagram.InvalidError
			if !errors.As(err, &invalid) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want one with %q", err, test.want)
			}
			if len(doc.Surges()) > 0 {
				t.Error("the surge case was taken all the same")
			}
		})
	}
}

// A part that becomes a note in a later change is noticed as well.
func TestPartOfASurgeKeepsItsTerminals(t *testing.T) {
	doc := withSurges(t, at(ring("surge-1"), "panel-1"))
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Note})
		return nil
	})
	if err == nil || !strings.Contains(err.Error(), "surge-1, part: it arrives at panel-1, a note") {
		t.Errorf("got %v", err)
	}
}

func TestWaveOnAFeederIsChecked(t *testing.T) {
	for _, test := range []struct {
		name                string
		impedance, velocity float64
		want                string // a part of the message; empty: it is taken
	}{
		{"of its make-up", 0, 0, ""},
		{"lowest", 1, 1e7, ""},
		{"highest", 1e4, 2.998e8, ""},
		{"impedance too low", 0.99, 0, "feeder-1, surgeImpedance: 0.99 is out of range; use 0 or a number from 1 to 10000 ohm"},
		{"impedance too high", 10001, 0, "10001 is out of range"},
		{"impedance below 0", -50, 0, "-50 is out of range"},
		{"impedance no number", math.NaN(), 0, "NaN is out of range"},
		{"too slow", 0, 9e6, "feeder-1, velocity: 9e+06 is out of range; use 0 or a number from 10\u00a0000\u00a0000 to 299\u00a0800\u00a0000 m/s (10 to 299.8 m/µs)"},
		{"faster than light", 0, 2.999e8, "2.999e+08 is out of range"},
		{"infinitely fast", 0, math.Inf(1), "+Inf is out of range"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := withSurges(t).Edit(func(tx *diagram.Tx) error {
				tx.SetFeeder(diagram.Feeder{
					ID: "feeder-1", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"},
					SurgeImpedance: test.impedance, Velocity: test.velocity,
				})
				return nil
			})
			switch {
			case test.want == "" && err != nil:
				t.Errorf("got %v, want that it is taken", err)
			case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
				t.Errorf("got %v, want %q", err, test.want)
			}
		})
	}
}

func TestTerminalsOfALoadAreChecked(t *testing.T) {
	for _, terminals := range append(diagram.TerminalKinds(), "", "shorted") {
		_, err := withSurges(t).Edit(func(tx *diagram.Tx) error {
			tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load, Load: diagram.LoadData{Terminals: terminals}})
			return nil
		})
		if refused := err != nil; refused != (terminals == "shorted") {
			t.Errorf("%q: got %v", terminals, err)
		}
	}
}
