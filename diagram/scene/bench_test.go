package scene

import (
	"fmt"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// marked returns marks for every record of a building, so that a benchmark
// draws tags with all they can have.
func marked(doc *diagram.Document) Marks {
	marks := Marks{Parts: map[diagram.ID]Mark{}, Feeders: map[diagram.ID]FeederMark{}, Protectors: map[diagram.ID][]string{}}
	for p := range doc.Parts() {
		if p.Kind.IsJudged() {
			marks.Parts[p.ID] = Mark{Role: draw.RoleHeld, Dash: draw.Solid, Letter: "H", Lines: []string{"1 240 V L-G · 31 %"}, System: "480Y/277"}
		}
	}
	for f := range doc.Feeders() {
		marks.Feeders[f.ID] = FeederMark{[]Piece{{0, 0.6, draw.RoleHeld, draw.Solid}, {0.6, 1, draw.RoleTight, draw.LongDash}}}
	}
	for p := range doc.Protectors() {
		marks.Protectors[p.ID] = []string{"VPR 1 200 V", "lead 12 in"}
	}
	return marks
}

func BenchmarkNew(b *testing.B) {
	for _, count := range []int{100, 1000, 10000} {
		doc := diagramtest.Building(count)
		marks := marked(doc)
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				New(doc, diagram.FirstPlan, marks, Options{}).Picture()
			}
		})
	}
}

func BenchmarkHit(b *testing.B) {
	doc := diagramtest.Building(10000)
	s := New(doc, diagram.FirstPlan, marked(doc), Options{})
	b.ReportAllocs()
	for b.Loop() {
		s.Hit(geom.Pt(1234, 567), 2)
	}
}

func BenchmarkSnap(b *testing.B) {
	doc := diagramtest.Building(10000)
	s := New(doc, diagram.FirstPlan, marked(doc), Options{})
	b.ReportAllocs()
	for b.Loop() {
		s.Snap(geom.RectOf(geom.Pt(1200, 500), geom.Pt(1240, 502)), nil, 2, 5)
	}
}
