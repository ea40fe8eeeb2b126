package scene

import (
	"fmt"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

// What follows a scene without a change is that scene.
func TestNextOfTheSameIsTheSame(t *testing.T) {
	for seed := range uint64(20) {
		doc := diagramtest.Random(diagramtest.Rand(seed), 12)
		s := New(doc, diagram.FirstPlan, Marks{}, Options{})
		if next := s.Next(doc, diagram.FirstPlan, Marks{}, Options{}); next.Picture().String() != s.Picture().String() {
			t.Errorf("seed %d: the picture changed", seed)
		}
	}
}

// A tag that had to move aside stays there when the way is free again, and a
// tag that has no room where it was finds another place.
func TestTagsStayWhereTheyAre(t *testing.T) {
	doc := diagram.New()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Panel", At: geom.Pt(100, 100)})
	})
	free := New(doc, diagram.FirstPlan, Marks{}, Options{})
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel, Name: "In the way", At: free.parts[0].tag.box.Center()})
	})
	moved := free.Next(doc, diagram.FirstPlan, Marks{}, Options{})
	if moved.parts[0].tag.box == free.parts[0].tag.box {
		t.Fatal("the tag stayed under another part")
	}
	standClear(t, moved)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.Remove("panel-2") })
	after := moved.Next(doc, diagram.FirstPlan, Marks{}, Options{})
	if got, want := after.parts[0].tag.box, moved.parts[0].tag.box; got != want {
		t.Errorf("the tag jumped to %v from %v", got, want)
	}
}

// A part that has fewer places for its tag than before finds one all the same.
func TestTagsOfWhatBecameSmaller(t *testing.T) {
	doc := diagram.New()
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "x", Kind: diagram.Panel, Name: "Nr 00", Span: 200})
		for i := range 21 { // so close under the bar that the tag goes above it
			tx.SetPart(diagram.Part{ID: diagram.ID(fmt.Sprint("j", i)), Kind: diagram.Junction, At: geom.Pt(10*float64(i)-95, 5)})
		}
		tx.SetPart(diagram.Part{ID: "end", Kind: diagram.Junction, At: geom.Pt(105, 0)})
	})
	before := New(doc, diagram.FirstPlan, Marks{}, Options{})
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.Remove("x")
		tx.SetPart(diagram.Part{ID: "x", Kind: diagram.Transformer, Name: "T1"})
	})
	after := before.Next(doc, diagram.FirstPlan, Marks{}, Options{})
	if textsOf(before.Picture(), "x") == "" || textsOf(after.Picture(), "x") == "" {
		t.Errorf("the tag says %q, and after that %q", textsOf(before.Picture(), "x"), textsOf(after.Picture(), "x"))
	}
}

// However a building is worked on, tags stand as clear as in a scene made at
// once.
func TestTagsStandClearInEveryNext(t *testing.T) {
	doc := diagramtest.Building(30)
	s := New(doc, diagram.FirstPlan, Marks{}, Options{})
	rng := diagramtest.Rand(5)
	for range 12 {
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
			for part := range tx.Document().Parts() {
				if part.Kind.IsBoard() && rng.IntN(3) == 0 {
					part.At = part.At.Add(geom.Pt(5*float64(rng.IntN(3)-1), 5*float64(rng.IntN(3)-1)))
					tx.SetPart(part)
				}
			}
		})
		s = s.Next(doc, diagram.FirstPlan, Marks{}, Options{})
		fresh := New(doc, diagram.FirstPlan, Marks{}, Options{})
		if got, most := collisions(s), collisions(fresh); got > most {
			t.Errorf("%d tags lie on others, and %d in a scene made at once", got, most)
		}
	}
}

func collisions(s *Scene) int {
	count := 0
	for i := range s.parts {
		for j := range s.parts[:i] {
			if a, b := s.parts[i].tag, s.parts[j].tag; a.placed() && b.placed() && a.box.Overlaps(b.box) {
				count++
			}
		}
	}
	return count
}
