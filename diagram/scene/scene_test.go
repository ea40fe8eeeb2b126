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

func quayScene(t testing.TB, options Options) *Scene {
	t.Helper()
	doc, marks := ternQuay(t)
	return New(doc, diagram.FirstPlan, marks, options)
}

func TestPicture(t *testing.T) {
	doc, marks := ternQuay(t)
	tests := []struct {
		name string
		got  *draw.Picture
	}{
		{"quay", New(doc, diagram.FirstPlan, marks, Options{Convention: unit.IEC}).Picture()},
		{"quay-bare", New(doc, diagram.FirstPlan, Marks{}, Options{}).Picture()},
		{"building", New(diagramtest.Building(12), diagram.FirstPlan, Marks{}, Options{}).Picture()},
		{"legend", Legend(marks.Legend)},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { drawtest.Text(t, test.name+".txt", test.got.String()) })
	}
}

// TestStable makes the same scenes twice: nothing may depend on the order of a
// map.
func TestStable(t *testing.T) {
	rng := diagramtest.Rand(5)
	for range 20 {
		doc := diagramtest.Random(rng, 30)
		marks := marked(doc)
		first := New(doc, diagram.FirstPlan, marks, Options{}).Picture().String()
		if second := New(doc, diagram.FirstPlan, marks, Options{}).Picture().String(); first != second {
			t.Fatal("the same document was drawn otherwise")
		}
	}
}

// TestRandomDocuments places whatever a document may hold: every record is
// placed, and the bounds hold every part.
func TestRandomDocuments(t *testing.T) {
	rng := diagramtest.Rand(6)
	for round := range 40 {
		doc := diagramtest.Random(rng, 25)
		s := New(doc, diagram.FirstPlan, marked(doc), Options{Legend: true})
		for p := range doc.Parts() {
			box, ok := s.Box(p.ID)
			if !ok || !s.Bounds().Overlaps(box) {
				t.Errorf("round %d: part %s at %v: box %v, %v; bounds %v", round, p.ID, p.At, box, ok, s.Bounds())
			}
		}
		for f := range doc.Feeders() {
			if len(s.FeederPath(f.ID)) < 2 {
				t.Errorf("round %d: feeder %s has no line", round, f.ID)
			}
		}
		for p := range doc.ProtectorsOf(diagram.FirstPlan) {
			if _, ok := s.ProtectorAt(p.ID); !ok {
				t.Errorf("round %d: protector %s has no place", round, p.ID)
			}
		}
	}
}

func TestEmpty(t *testing.T) {
	s := New(diagram.New(), diagram.FirstPlan, Marks{}, Options{Legend: true})
	if !s.Bounds().IsEmpty() {
		t.Errorf("bounds %v of an empty sheet, want none", s.Bounds())
	}
	if _, ok := s.Hit(geom.Pt(0, 0), 5); ok {
		t.Error("something was hit on an empty sheet")
	}
	if got := Legend(nil).Len(); got != 0 {
		t.Errorf("an empty legend draws %d items", got)
	}
}

// TestTagsStandClear holds the tags of the buildings that people draw to this:
// none lies on another, on a part, on a protector or on a feeder.
func TestTagsStandClear(t *testing.T) {
	quay, marks := ternQuay(t)
	building := diagramtest.Building(30)
	tests := []struct {
		name  string
		scene *Scene
	}{
		{"quay", New(quay, diagram.FirstPlan, marks, Options{})},
		{"bare quay", New(quay, diagram.FirstPlan, Marks{}, Options{})},
		{"building", New(building, diagram.FirstPlan, Marks{}, Options{})},
		{"marked building", New(building, diagram.FirstPlan, marked(building), Options{})},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { standClear(t, test.scene) })
	}
}

func standClear(t *testing.T, s *Scene) {
	t.Helper()
	texts := s.texts()
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.box.Overlaps(b.box) {
				t.Errorf("text of %s at %v lies on that of %s at %v", a.id, a.box, b.id, b.box)
			}
		}
		for _, p := range s.parts {
			if a.box.Overlaps(p.box) {
				t.Errorf("text of %s at %v lies on %s at %v", a.id, a.box, p.id, p.box)
			}
		}
		for _, p := range s.protectors {
			if a.box.Overlaps(p.box) {
				t.Errorf("text of %s at %v lies on %s at %v", a.id, a.box, p.id, p.box)
			}
		}
		for _, f := range s.feeders {
			if f.line.Meets(a.box) {
				t.Errorf("text of %s at %v lies on the line of %s", a.id, a.box, f.id)
			}
		}
	}
}

type text struct {
	id  diagram.ID
	box geom.Rect
}

// texts returns where all text lies, shrunk by the half cell to which places
// are known.
func (s *Scene) texts() []text {
	var out []text
	add := func(id diagram.ID, box geom.Rect) {
		if box.Width() > 0 {
			out = append(out, text{id, box.Grow(-0.5)})
		}
	}
	for _, p := range s.parts {
		add(p.id, p.tag.box)
	}
	for _, p := range s.protectors {
		add(p.id, p.tag.box)
	}
	for _, f := range s.feeders {
		add(f.id, f.label)
	}
	return out
}

// TestEveryTagIsShown holds the drawing that people look at first to showing
// all it has to say.
func TestEveryTagIsShown(t *testing.T) {
	s := quayScene(t, Options{})
	for _, p := range s.parts {
		if p.kind != diagram.Note && p.kind != diagram.Junction && len(p.tag.rows) == 0 {
			t.Errorf("the tag of %s is not shown", p.id)
		}
	}
	for _, f := range s.feeders {
		if len(f.lines()) > 0 && f.label.Width() == 0 {
			t.Errorf("the label of %s is not shown", f.id)
		}
	}
	for _, p := range s.protectors {
		if !p.tag.placed() {
			t.Errorf("the label of %s is not shown", p.id)
		}
	}
}

func TestOptions(t *testing.T) {
	plain := quayScene(t, Options{}).Picture().String()
	tests := []struct {
		name    string
		options Options
		without string // what the plain picture says and this one does not
		with    string // and the other way round
	}{
		{"convention", Options{Convention: unit.IEC}, `"79 ft"`, `"24 m"`},
		{"legend", Options{Legend: true}, "", `"Unreached"`},
		{"no tags", Options{HideTags: true}, `"Lab panel LP-1"`, ""},
		{"no labels", Options{HideLabels: true}, `"lead 18 in"`, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := quayScene(t, test.options).Picture().String()
			if test.without != "" && (!strings.Contains(plain, test.without) || strings.Contains(got, test.without)) {
				t.Errorf("%s should be in the plain picture and not in this one", test.without)
			}
			if test.with != "" && (strings.Contains(plain, test.with) || !strings.Contains(got, test.with)) {
				t.Errorf("%s should be in this picture and not in the plain one", test.with)
			}
		})
	}
}

// TestProtectorsOfThePlan shows the protectors of one plan only.
func TestProtectorsOfThePlan(t *testing.T) {
	doc, marks := ternQuay(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: "other", Name: "Other"})
		tx.SetProtector(diagram.Protector{ID: "p-other", Plan: "other", Bus: "lab"})
	})
	s := New(doc, "other", marks, Options{})
	if _, ok := s.ProtectorAt("p-other"); !ok {
		t.Error("the plan's own protector is missing")
	}
	if _, ok := s.ProtectorAt("p-main"); ok {
		t.Error("a protector of another plan is shown")
	}
}

func TestLongName(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "long", Kind: diagram.Panel, Name: strings.Repeat("Größe ", 30)})
	})
	s := New(doc, diagram.FirstPlan, Marks{}, Options{})
	if got, most := s.Bounds().Width(), 40+nameLimit+10.0; got > most {
		t.Errorf("a long name makes the drawing %.0f mm wide, want at most %.0f mm", got, most)
	}
}

// TestNewAllocatesLittle guards what keeps a drag fluent: a scene is made anew
// for each step of one. It takes about six allocations to a part with its
// feeder, tag and label; one more for each of them would be noticed.
func TestNewAllocatesLittle(t *testing.T) {
	const parts, most = 1000, 7
	doc := diagramtest.Building(parts)
	marks := marked(doc)
	got := testing.AllocsPerRun(5, func() { New(doc, diagram.FirstPlan, marks, Options{}).Picture() })
	if got > parts*most {
		t.Errorf("%.0f allocations for %d parts, want at most %d", got, parts, parts*most)
	}
}
