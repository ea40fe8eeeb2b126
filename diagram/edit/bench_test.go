package edit_test

import (
	"fmt"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// BenchmarkDrag measures one Drag event of a part, and the same with the sheet
// made anew as the window does once a frame.
func BenchmarkDrag(b *testing.B) {
	for _, parts := range []int{100, 1000, 10000} {
		doc := diagramtest.Building(parts)
		for _, frame := range []bool{false, true} {
			name := fmt.Sprintf("parts=%d/event", parts)
			if frame {
				name = fmt.Sprintf("parts=%d/frame", parts)
			}
			b.Run(name, func(b *testing.B) { drag(b, doc.Snapshot(), frame) })
		}
	}
}

func drag(b *testing.B, doc *diagram.Document, frame bool) {
	e := edit.New(doc, edit.Options{})
	e.Resize(1200, 800)
	part, _ := doc.Part("part-3")        // a panel with its loads
	hold := part.At.Add(geom.Pt(-12, 0)) // clear of the protector in its middle
	event := func(kind edit.EventKind, at geom.Point) {
		e.Handle(edit.Event{Kind: kind, At: at, Screen: e.View().ToScreen(at)})
	}
	event(edit.Press, hold)
	event(edit.Drag, hold.Add(geom.Pt(20, 0)))
	if moved, _ := e.Document().Part(part.ID); moved.At == part.At {
		b.Fatal("the gesture does not move the part")
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		event(edit.Drag, hold.Add(geom.Pt(float64(10*(i%20)), float64(10*(i%7)))))
		if frame {
			e.Scene()
			e.Overlay()
		}
	}
}

// BenchmarkHover measures one Hover event over a sheet that is made already.
func BenchmarkHover(b *testing.B) {
	for _, parts := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			e := edit.New(diagramtest.Building(parts), edit.Options{})
			e.Resize(1200, 800)
			e.Scene()
			for i := 0; b.Loop(); i++ {
				at := geom.Pt(float64(i%500), float64(i%300))
				e.Handle(edit.Event{Kind: edit.Hover, At: at, Screen: e.View().ToScreen(at)})
				e.Overlay()
			}
		})
	}
}

// BenchmarkDeleteAndUndo measures the removal of a tenth of the parts, and its
// undo.
func BenchmarkDeleteAndUndo(b *testing.B) {
	for _, parts := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			e := edit.New(diagramtest.Building(parts), edit.Options{})
			ids := tenth(e.Document())
			for b.Loop() {
				e.Select(ids...)
				if err := e.Delete(); err != nil {
					b.Fatal(err)
				}
				e.Undo()
			}
		})
	}
}

// BenchmarkDuplicate measures the copy of a tenth of the parts, and its undo.
func BenchmarkDuplicate(b *testing.B) {
	for _, parts := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			e := edit.New(diagramtest.Building(parts), edit.Options{})
			ids := tenth(e.Document())
			for b.Loop() {
				e.Select(ids...)
				if err := e.Duplicate(); err != nil {
					b.Fatal(err)
				}
				e.Undo()
			}
		})
	}
}

// tenth returns the ids of one part in ten.
func tenth(doc *diagram.Document) []diagram.ID {
	var out []diagram.ID
	number := 0
	for part := range doc.Parts() {
		if number++; number%10 == 0 {
			out = append(out, part.ID)
		}
	}
	return out
}
