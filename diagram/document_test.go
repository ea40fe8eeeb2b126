package diagram_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// contents lists every record, so that two documents can be compared.
func contents(d *diagram.Document) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%+v\n", d.Info())
	for _, p := range d.Plans() {
		fmt.Fprintf(&out, "%+v\n", p)
	}
	for p := range d.Parts() {
		fmt.Fprintf(&out, "%+v\n", p)
	}
	for f := range d.Feeders() {
		fmt.Fprintf(&out, "%+v\n", f)
	}
	for p := range d.Protectors() {
		fmt.Fprintf(&out, "%+v\n", p)
	}
	for _, s := range d.Surges() {
		fmt.Fprintf(&out, "%+v\n", s)
	}
	return out.String()
}

func TestChangeThenInverseGivesTheSameDocument(t *testing.T) {
	for seed := range uint64(40) {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 6)
		states := []string{contents(doc)}
		var changes []diagram.Change
		for range 5 {
			changes = append(changes, diagramtest.Shake(rng, doc, 4))
			states = append(states, contents(doc))
		}
		for i := len(changes) - 1; i >= 0; i-- {
			doc.Apply(changes[i].Inverse())
			if diff := cmp.Diff(states[i], contents(doc)); diff != "" {
				t.Fatalf("seed %d, undo of change %d (-want +got):\n%s", seed, i, diff)
			}
		}
		joined := diagram.Change{}
		for _, change := range changes {
			joined = joined.Then(change)
		}
		doc.Apply(joined)
		if diff := cmp.Diff(states[len(states)-1], contents(doc)); diff != "" {
			t.Fatalf("seed %d, redo of the joined change (-want +got):\n%s", seed, diff)
		}
		if problems := doc.Check(); len(problems) > 0 {
			t.Fatalf("seed %d: %v", seed, problems)
		}
	}
}

func TestThenDropsWhatComesBack(t *testing.T) {
	rng := diagramtest.Rand(7)
	doc := diagramtest.Random(rng, 5)
	change := diagramtest.Shake(rng, doc, 5)
	if both := change.Then(change.Inverse()); !both.IsEmpty() {
		t.Errorf("a change and its inverse together leave %+v", both)
	}
}

func TestSnapshotDoesNotFollow(t *testing.T) {
	rng := diagramtest.Rand(3)
	doc := diagramtest.Random(rng, 8)
	before := contents(doc)
	snapshot := doc.Snapshot()
	diagramtest.Shake(rng, doc, 3)
	after := contents(doc)
	if diff := cmp.Diff(before, contents(snapshot)); diff != "" {
		t.Errorf("the snapshot followed a change (-want +got):\n%s", diff)
	}
	diagramtest.Shake(rng, snapshot, 3)
	if diff := cmp.Diff(after, contents(doc)); diff != "" {
		t.Errorf("the document followed a change of its snapshot (-want +got):\n%s", diff)
	}
}

func TestEditTakesAllOrNothing(t *testing.T) {
	panel := diagram.Part{ID: "panel-1", Kind: diagram.Panel}
	load := diagram.Part{ID: "load-1", Kind: diagram.Load}
	join := func(from, to diagram.End) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			tx.SetPart(panel)
			tx.SetPart(load)
			tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: from, To: to})
		}
	}
	at := func(id diagram.ID) diagram.End { return diagram.End{Part: id} }
	tests := []struct {
		name string
		set  func(*diagram.Tx)
		want string // a part of the message
	}{
		{"feeder to nowhere", join(at("panel-1"), at("panel-9")), `leads to "panel-9", and no part has this id`},
		{"feeder to itself", join(at("panel-1"), at("panel-1")), "both ends are at panel-1"},
		{"no such terminal", join(at("panel-1"), diagram.End{Part: "load-1", Port: "secondary"}), `no terminal "secondary"`},
		{"unknown kind", func(tx *diagram.Tx) { tx.SetPart(diagram.Part{ID: "x", Kind: "reactor"}) }, `"reactor" is not known; use one of "supply"`},
		{"no kind", func(tx *diagram.Tx) { tx.SetPart(diagram.Part{ID: "x"}) }, "the kind is missing"},
		{"bad id", func(tx *diagram.Tx) { tx.SetPart(diagram.Part{ID: "a b", Kind: diagram.Load}) }, "is no id"},
		{"negative length", func(tx *diagram.Tx) {
			join(at("panel-1"), at("load-1"))(tx)
			f, _ := tx.Feeder("feeder-1")
			f.Length = -3
			tx.SetFeeder(f)
		}, "feeder-1, length: -3 is out of range"},
		{"protector without a plan", func(tx *diagram.Tx) {
			tx.SetPart(panel)
			tx.SetProtector(diagram.Protector{ID: "p", Bus: "panel-1", Plan: "plan-7"})
		}, `no plan has this id`},
		{"no plan left", func(tx *diagram.Tx) { tx.Remove(diagram.FirstPlan) }, "there is no plan"},
		{"one id for two records", func(tx *diagram.Tx) {
			join(at("panel-1"), at("load-1"))(tx)
			tx.SetPlan(diagram.Plan{ID: "panel-1"})
		}, "two records bear this id"},
		{"part made into another kind", func(tx *diagram.Tx) {
			join(at("panel-1"), at("load-1"))(tx)
			tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Note})
		}, "panel-1 (note) has no terminal"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			doc := diagram.New()
			before := contents(doc)
			_, err := doc.Edit(func(tx *diagram.Tx) error { test.set(tx); return nil })
			var invalid *diagram.InvalidError
			if !errors.As(err, &invalid) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want one with %q", err, test.want)
			}
			if diff := cmp.Diff(before, contents(doc)); diff != "" {
				t.Errorf("the document changed (-want +got):\n%s", diff)
			}
		})
	}
}

func TestRemoveTakesWhatCannotStandAlone(t *testing.T) {
	doc := diagramtest.Building(30)
	_, err := doc.Edit(func(tx *diagram.Tx) error { tx.Remove("part-2"); return nil })
	if err != nil {
		t.Fatal(err)
	}
	for f := range doc.Feeders() {
		if f.Touches("part-2") {
			t.Errorf("feeder %s is left at the removed part", f.ID)
		}
	}
	for p := range doc.Protectors() {
		if p.Bus == "part-2" {
			t.Errorf("protector %s is left on the removed part", p.ID)
		}
	}
}

func TestIDsCountOn(t *testing.T) {
	doc := diagram.New()
	var ids []diagram.ID
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for range 12 {
			id := tx.NewPartID(diagram.Panel)
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel})
			ids = append(ids, id)
		}
	})
	if !slices.IsSortedFunc(ids, diagram.CompareID) || ids[11] != "panel-12" {
		t.Errorf("got %v, want panel-1 to panel-12", ids)
	}
}

func BenchmarkEditOnePart(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			doc := diagramtest.Building(n)
			part, _ := doc.Part("part-2")
			b.ReportAllocs()
			for b.Loop() {
				doc.Snapshot()
				part.At.X++
				diagramtest.Edit(b, doc, func(tx *diagram.Tx) { tx.SetPart(part) })
			}
		})
	}
}
