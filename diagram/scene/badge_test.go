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
	outline := func(b Badge) string { return b.picture().Items()[0].Shape.Path.String() }
	if outline(Badge{1, true}) == outline(Badge{1, false}) {
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

// A badge stands near what it belongs to, also where tags and labels are not
// drawn.
func TestBadgePlaces(t *testing.T) {
	for name, options := range map[string]Options{"with tags": {}, "without": {HideTags: true, HideLabels: true}} {
		s := quayScene(t, options)
		for _, id := range []diagram.ID{"dock", "lab", "p-server", "f-main-dock", "f-lab-joint"} {
			at, ok := s.badgeAt[id]
			if !ok {
				t.Fatalf("%s: %s has no place", name, id)
			}
			if d := s.fromOwn(id, at); d > 6 {
				t.Errorf("%s: the badge of %s is at %v, %.1f mm from what it belongs to", name, id, at, d)
			}
		}
		for _, id := range []diagram.ID{"gone", "rack"} {
			if _, ok := s.badgeAt[id]; ok {
				t.Errorf("%s: %s, which has nothing to show, has a place", name, id)
			}
		}
	}
}

// fromOwn returns how far a place is from the symbol, line, tag or label of a
// record, in mm.
func (s *Scene) fromOwn(id diagram.ID, at geom.Point) float64 {
	if i, ok := s.feederAt(id); ok {
		return s.feeders[i].line.Distance(at)
	}
	box, _ := s.Box(id)
	out := away(box, at)
	if i, ok := s.partAt[id]; ok && s.parts[i].tag.placed() {
		out = min(out, away(s.parts[i].tag.box, at))
	}
	if i, ok := s.protectorAt(id); ok && s.protectors[i].tag.placed() {
		out = min(out, away(s.protectors[i].tag.box, at))
	}
	return out
}

// With a badge on every record, none covers a symbol, a terminal, a name, a
// tag, a label, a switch or another badge.
func TestBadgesCoverNothing(t *testing.T) {
	quay, quayMarks := ternQuay(t)
	building := diagramtest.Building(300)
	for name, row := range map[string]struct {
		doc   *diagram.Document
		marks Marks
	}{"quay": {quay, quayMarks}, "building": {building, marked(building)}} {
		row.marks.Badges = badgesOnAll(row.doc)
		s := New(row.doc, diagram.FirstPlan, row.marks, Options{})
		parts, feeders, protectors := row.doc.Count()
		if got, want := len(s.badgeAt), parts+feeders+protectors; got != want {
			t.Errorf("%s: %d badges are shown, want %d", name, got, want)
		}
		things, far := s.things(), 0
		for id, at := range s.badgeAt {
			own := row.marks.Badges[id].box(at)
			for what, box := range things {
				if what != "badge of "+string(id) && box.Overlaps(own.Grow(-badgeRim)) {
					t.Errorf("%s: the badge of %s at %v covers %s at %v", name, id, at, what, box)
				}
			}
			if s.fromOwn(id, at) > 8 {
				far++
			}
		}
		if far*20 > len(s.badgeAt) {
			t.Errorf("%s: %d of %d badges stand farther than 8 mm from what they belong to", name, far, len(s.badgeAt))
		}
	}
}

// A badge that had to move aside stays there while what it belongs to does, and
// goes along with it.
func TestBadgesStayWhereTheyAre(t *testing.T) {
	doc, marks := ternQuay(t)
	marks.Badges = badgesOnAll(doc)
	s := New(doc, diagram.FirstPlan, marks, Options{})
	if got := s.Next(doc, diagram.FirstPlan, marks, Options{}).Picture().String(); got != s.Picture().String() {
		t.Error("without a change the picture changed")
	}
	fewer := marks
	fewer.Badges = map[diagram.ID]Badge{"dock": marks.Badges["dock"], "load-b": marks.Badges["load-b"]}
	next := s.Next(doc, diagram.FirstPlan, fewer, Options{})
	for id := range fewer.Badges {
		if next.badgeAt[id] != s.badgeAt[id] {
			t.Errorf("the badge of %s jumps from %v to %v as others go", id, s.badgeAt[id], next.badgeAt[id])
		}
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		part, _ := tx.Part("dock")
		part.At = part.At.Add(geom.Pt(40, 0))
		tx.SetPart(part)
	})
	if after := next.Next(doc, diagram.FirstPlan, fewer, Options{}); after.fromOwn("dock", after.badgeAt["dock"]) > 6 {
		t.Errorf("the badge of the dock is left behind at %v", after.badgeAt["dock"])
	}
}

// The badges of a feeder and of a protector go along when these move, also where
// their old places stay free.
func TestBadgesGoAlong(t *testing.T) {
	doc, marks := ternQuay(t)
	marks.Badges = map[diagram.ID]Badge{"f-joint-bench": {1, true}, "p-ups": {1, false}}
	s := New(doc, diagram.FirstPlan, marks, Options{})
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for _, id := range []diagram.ID{"bench", "ups"} {
			part, _ := tx.Part(id)
			part.At = part.At.Add(geom.Pt(60, 90))
			tx.SetPart(part)
		}
	})
	s = s.Next(doc, diagram.FirstPlan, marks, Options{})
	for id := range marks.Badges {
		if d := s.fromOwn(id, s.badgeAt[id]); d > 6 {
			t.Errorf("the badge of %s is left behind, %.1f mm away", id, d)
		}
	}
}

// What is found after a sheet was drawn gets its badge beside its record, too.
func TestBadgesThatComeLater(t *testing.T) {
	quay, marks := ternQuay(t)
	apart := diagramtest.Sheet(t, func(tx *diagram.Tx) { // the origin is free
		tx.SetPart(diagram.Part{ID: "lab", Kind: diagram.Panel, At: geom.Pt(100, 100)})
	})
	bare := marks
	bare.Badges = nil
	for name, doc := range map[string]*diagram.Document{"quay": quay, "apart": apart} {
		s := New(doc, diagram.FirstPlan, bare, Options{}).Next(doc, diagram.FirstPlan, marks, Options{})
		if got, want := s.Picture().String(), New(doc, diagram.FirstPlan, marks, Options{}).Picture().String(); got != want {
			t.Errorf("%s: the same sheet is drawn otherwise where its badges came later", name)
		}
	}
}

// badgesOnAll puts a badge on every record, by turns of both kinds.
func badgesOnAll(doc *diagram.Document) map[diagram.ID]Badge {
	out := map[diagram.ID]Badge{}
	add := func(id diagram.ID) { out[id] = Badge{1 + len(out)%12, len(out)%2 == 0} }
	for p := range doc.Parts() {
		add(p.ID)
	}
	for f := range doc.Feeders() {
		add(f.ID)
	}
	for p := range doc.ProtectorsOf(diagram.FirstPlan) {
		add(p.ID)
	}
	return out
}

// things returns what a badge must not cover, by what it is.
func (s *Scene) things() map[string]geom.Rect {
	out := map[string]geom.Rect{}
	for i := range s.parts {
		q := &s.parts[i]
		out["symbol of "+string(q.id)] = q.box
		if q.tag.placed() {
			out["tag of "+string(q.id)] = q.tag.box
		}
	}
	for i := range s.feeders {
		f := &s.feeders[i]
		if f.label.Width() > 0 {
			out["label of "+string(f.id)] = f.label
		}
		if !f.room.IsEmpty() {
			out["switch of "+string(f.id)] = f.room
		}
	}
	for i := range s.protectors {
		q := &s.protectors[i]
		out["symbol of "+string(q.id)] = q.box
		if q.tag.placed() {
			out["label of "+string(q.id)] = q.tag.box
		}
	}
	for id, at := range s.badgeAt {
		out["badge of "+string(id)] = s.badges[id].box(at).Grow(-badgeRim)
	}
	return out
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

// A click on a badge is one on what it belongs to.
func TestBadgesAreHit(t *testing.T) {
	doc, marks := ternQuay(t)
	marks.Badges = badgesOnAll(doc)
	s := New(doc, diagram.FirstPlan, marks, Options{})
	for id, at := range s.badgeAt {
		if got, ok := s.Hit(at, 0.5); !ok || got.ID != id {
			t.Errorf("the badge of %s: hit %+v, %t", id, got, ok)
		}
	}
}
