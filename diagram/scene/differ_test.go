package scene

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// differingQuay returns the marine laboratory with every protector changed or added
// by turns, and one gone from each of its boards.
func differingQuay(t *testing.T) (*diagram.Document, Marks) {
	t.Helper()
	doc, marks := ternQuay(t)
	for p := range doc.ProtectorsOf(diagram.FirstPlan) {
		after, before := p, p
		before.Leads.Phase.Length, before.Leads.Earth.Length = after.Leads.Phase.Length+0.3048, after.Leads.Earth.Length+0.3048
		before.In, before.Imax = after.In+10e3, after.Imax+10e3
		d := diagram.PlanDifference{After: &after}
		if len(marks.Differences)%2 == 0 {
			d.Before = &before
		}
		marks.Differences = append(marks.Differences, d)
	}
	for part := range doc.Parts() {
		if part.Kind.IsBoard() {
			marks.Differences = append(marks.Differences, diagram.PlanDifference{Before: &diagram.Protector{ID: "gone-" + part.ID, Bus: part.ID, Name: "SPD 9"}})
		}
	}
	return doc, marks
}

// To mark differences moves nothing that was there without them, so that one sees at
// once what they are.
func TestDifferencesMoveNothing(t *testing.T) {
	doc, marks := differingQuay(t)
	plain := marks
	plain.Differences = nil
	was, is := New(doc, diagram.FirstPlan, plain, Options{}), New(doc, diagram.FirstPlan, marks, Options{})
	for i := range was.parts {
		if a, b := &was.parts[i], &is.parts[i]; a.tag.box != b.tag.box {
			t.Errorf("the tag of %s moves from %v to %v", a.id, a.tag.box, b.tag.box)
		}
	}
	for i := range was.protectors {
		if a, b := &was.protectors[i], &is.protectors[i]; a.box != b.box || a.tag.placed() && a.tag.box.Min.Y != b.tag.box.Min.Y {
			t.Errorf("%s moves from %v to %v", a.id, a.box, b.box)
		}
	}
	for i := range was.feeders {
		if a, b := &was.feeders[i], &is.feeders[i]; a.label != b.label {
			t.Errorf("the label of %s moves", a.id)
		}
	}
}

// What a changed protector says is what changed, and covers nothing.
func TestLabelsOfChanges(t *testing.T) {
	doc, marks := differingQuay(t)
	s := New(doc, diagram.FirstPlan, marks, Options{Convention: unit.NorthAmerican})
	told := 0
	for i, d := range marks.Differences {
		if d.Before == nil || d.After == nil {
			continue
		}
		p := &s.protectors[i]
		if p.differ != Altered {
			t.Fatalf("%s is not marked", p.id)
		}
		var text []string
		for _, r := range p.tag.rows {
			text = append(text, r.text)
		}
		if words := strings.Join(text, "; "); strings.Contains(words, "→") || strings.Contains(words, "changes") {
			told++
		}
		if !p.tag.placed() {
			continue
		}
		for j := range s.parts {
			if q := &s.parts[j]; q.tag.placed() && q.tag.box.Overlaps(p.tag.box) {
				t.Errorf("the label of %s covers the tag of %s", p.id, q.id)
			}
		}
		for j := range s.feeders {
			if f := &s.feeders[j]; f.label.Width() > 0 && f.label.Overlaps(p.tag.box) {
				t.Errorf("the label of %s covers that of %s", p.id, f.id)
			}
		}
	}
	if told < 2 {
		t.Errorf("%d labels tell a change", told)
	}
}

// What is gone is drawn and named, and is nothing that can be taken hold of.
func TestGone(t *testing.T) {
	doc, marks := differingQuay(t)
	s := New(doc, diagram.FirstPlan, marks, Options{})
	boards := 0
	for part := range doc.Parts() {
		if part.Kind.IsBoard() {
			boards++
		}
	}
	if len(s.gone) != boards {
		t.Fatalf("%d are drawn, want one on each of %d boards", len(s.gone), boards)
	}
	for i := range s.gone {
		p := &s.gone[i]
		if target, ok := s.Hit(p.box.Center(), 0); ok && target.ID == p.id {
			t.Errorf("%s can be taken hold of", p.id)
		}
		if _, ok := s.Box(p.id); ok {
			t.Errorf("%s can be selected", p.id)
		}
	}
	if text := s.Picture().String(); !strings.Contains(text, "SPD 9 removed") {
		t.Error("none of them is named")
	}
}

// A protector whose part is gone, or is of another kind, is passed over.
func TestDifferencesOfNothing(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) { tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply}) })
	of := func(bus diagram.ID) diagram.PlanDifference {
		return diagram.PlanDifference{Before: &diagram.Protector{ID: "x", Bus: bus}}
	}
	there := diagram.PlanDifference{After: &diagram.Protector{ID: "y", Bus: "supply-1"}}
	s := New(doc, diagram.FirstPlan, Marks{Differences: []diagram.PlanDifference{of("supply-1"), of("panel-9"), there}}, Options{})
	if len(s.gone) > 0 {
		t.Errorf("%d are drawn", len(s.gone))
	}
}

// The kinds are told apart in black and white: each has a sign and a frame of its own,
// on the sheet as in the legend.
func TestDifferencesAreToldApart(t *testing.T) {
	signs, frames := map[string]bool{}, map[draw.Dash]bool{}
	p := draw.NewPicture()
	for i, differ := range []Differ{Added, Altered, Gone} {
		signs[differ.sign()], frames[differ.dash()] = true, true
		box := protector{at: geom.Pt(20*float64(i), 0), differ: differ}
		box.paintDiffer(p)
	}
	if len(signs) != 3 || len(frames) != 3 {
		t.Errorf("three kinds have %d signs and %d frames", len(signs), len(frames))
	}
	p.Append(Legend(DifferenceLegend("As found")), geom.Translate(geom.Pt(0, 25)))
	drawtest.Text(t, "differences.txt", p.String())
}
