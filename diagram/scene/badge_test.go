package scene

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

func TestBadgePictures(t *testing.T) {
	p := draw.NewPicture()
	for i, badge := range []Badge{{1, true}, {12, true}, {100, true}, {1, false}, {12, false}, {100, false}} {
		p.Append(badge.picture(), geom.Translate(geom.Pt(8*float64(i), 0)))
	}
	drawtest.Text(t, "badges.txt", p.String())
}

// Without colour an error and a warning differ in their outline.
func TestBadgesDifferInShape(t *testing.T) {
	outline := func(b Badge) draw.Path { return b.picture().Items()[0].Shape.Path }
	if outline(Badge{1, true}).Equal(outline(Badge{1, false})) {
		t.Error("a badge of errors has the outline of one of warnings")
	}
	keys := map[string]bool{}
	for _, b := range []Badge{{1, true}, {1, false}, {2, true}, {2, false}} {
		keys[b.key()] = true
	}
	if len(keys) != 4 {
		t.Errorf("four badges have %d keys", len(keys))
	}
}

// A badge stands at what it belongs to, also where tags and labels are not
// drawn, and on no label of its own.
func TestBadgePlaces(t *testing.T) {
	for name, options := range map[string]Options{"with tags": {}, "without": {HideTags: true, HideLabels: true}} {
		s := quayScene(t, options)
		for _, id := range []diagram.ID{"dock", "service", "p-server", "f-main-dock"} {
			at, ok := s.badgeAt(id)
			if !ok {
				t.Fatalf("%s: %s has no place", name, id)
			}
			box, _ := s.Box(id)
			if i, isPart := s.partAt[id]; isPart && s.parts[i].tag.placed() {
				box = s.parts[i].tag.box
			}
			if away(box, at) > badgeRadius+haloApart+haloWidth {
				t.Errorf("%s: the badge of %s is at %v, and what it belongs to at %v", name, id, at, box)
			}
			for _, label := range s.labelsOf(id) {
				if away(label, at) < badgeRadius-0.5 {
					t.Errorf("%s: the badge of %s at %v lies on the label %v", name, id, at, label)
				}
			}
		}
		if _, ok := s.badgeAt("gone"); ok {
			t.Errorf("%s: a record that is not there has a place", name)
		}
	}
}

// labelsOf returns the plain text that belongs to a record, where it is placed.
func (s *Scene) labelsOf(id diagram.ID) []geom.Rect {
	if i, ok := s.partAt[id]; ok && s.parts[i].tag.placed() && !s.parts[i].tag.card {
		return []geom.Rect{s.parts[i].tag.box}
	}
	if i, ok := s.feederAt(id); ok && s.feeders[i].label.Width() > 0 {
		return []geom.Rect{s.feeders[i].label}
	}
	if i, ok := s.protectorAt(id); ok && s.protectors[i].tag.placed() {
		return []geom.Rect{s.protectors[i].tag.box}
	}
	return nil
}

func BenchmarkBadges(b *testing.B) {
	doc := diagramtest.Building(10_000)
	marks := marked(doc)
	marks.Badges = map[diagram.ID]Badge{}
	for p := range doc.Parts() {
		if len(marks.Badges) < 500 {
			marks.Badges[p.ID] = Badge{1 + len(marks.Badges)%12, len(marks.Badges)%3 == 0}
		}
	}
	s := New(doc, diagram.FirstPlan, marks, Options{})
	b.ReportAllocs()
	for b.Loop() {
		s.paintBadges(draw.NewPicture())
	}
}
