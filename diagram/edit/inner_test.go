package edit

import (
	"math"
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

// A number at the end of a name counts on, unless it is none of a series.
func TestSplitName(t *testing.T) {
	for _, row := range []struct {
		name, stem string
		number     int
	}{
		{"Panel 3", "Panel", 3}, {"SPD-3", "SPD-", 3}, {"Panel", "Panel", 0}, {"Panel 0", "Panel 0", 0}, {"Panel 1", "Panel", 1}, {"Panel x", "Panel x", 0},
		{"Lab panel LP-12", "Lab panel LP-", 12}, {"Room 999999", "Room", 999_999}, {"Room 1000000", "Room 1000000", 0}, {"", "", 0}, {"3", "3", 0}, {"Panel -3", "Panel -", 3}, {"T 1.5", "T 1.5", 0},
	} {
		if stem, number := splitName(row.name); stem != row.stem || number != row.number {
			t.Errorf("%q: got %q and %d, want %q and %d", row.name, stem, number, row.stem, row.number)
		}
		if row.number > 0 {
			if got := joined(row.stem, row.number); got != row.name {
				t.Errorf("%q: joined again %q", row.name, got)
			}
		}
	}
}

// A window moves by as little as shows a rectangle, with 24 px clear round it; what is
// larger than the window is centred, and what it shows already moves nothing.
func TestShowMovesLittle(t *testing.T) {
	v := View{Scale: 2, Origin: geom.Pt(0, 0), Width: 448, Height: 248} // shows 12 to 212 and 12 to 112 mm clear
	for _, row := range []struct {
		name string
		r    geom.Rect
		want geom.Point // the origin
	}{
		{"shown already", geom.RectOf(geom.Pt(12, 12), geom.Pt(212, 112)), geom.Pt(0, 0)},
		{"to the right", geom.RectOf(geom.Pt(220, 50), geom.Pt(222, 60)), geom.Pt(10, 0)},
		{"to the left", geom.RectOf(geom.Pt(-8, 50), geom.Pt(2, 60)), geom.Pt(-20, 0)},
		{"below", geom.RectOf(geom.Pt(50, 110), geom.Pt(60, 115)), geom.Pt(0, 3)},
		{"above and to the left", geom.RectOf(geom.Pt(2, 2), geom.Pt(20, 20)), geom.Pt(-10, -10)},
		{"as wide as the window", geom.RectOf(geom.Pt(100, 50), geom.Pt(300, 60)), geom.Pt(88, 0)},
		{"wider", geom.RectOf(geom.Pt(100, 50), geom.Pt(301, 60)), geom.Pt(200.5-112, 55-62)},
		{"higher", geom.RectOf(geom.Pt(100, 50), geom.Pt(110, 151)), geom.Pt(105-112, 100.5-62)},
		{"nothing", geom.Empty(), geom.Pt(0, 0)},
	} {
		if got := v.Show(row.r).Origin; got.Distance(row.want) > 1e-9 {
			t.Errorf("%s: got the origin %v, want %v", row.name, got, row.want)
		}
	}
	small := View{Scale: 2, Width: 40, Height: 248} // no room beside the margins
	if got := small.Show(geom.RectOf(geom.Pt(500, 500), geom.Pt(600, 600))); got != small {
		t.Errorf("a window without room: got %+v", got)
	}
	for _, size := range []ScreenPoint{{48, 300}, {300, 48}} { // just the margins
		v := View{Scale: 2, Width: size.X, Height: size.Y}
		if got := v.Fit(geom.RectOf(geom.Pt(0, 0), geom.Pt(10, 10)), 1); got != v {
			t.Errorf("a window of %v: got %+v", size, got)
		}
	}
	if got := v.Fit(geom.RectOf(geom.Pt(0, 0), geom.Pt(100, 100)), 99); math.Abs(got.Scale-2) > 1e-9 { // 200 px of height
		t.Errorf("fitted at %g px for each mm, want 2", got.Scale)
	}
}

func TestDescribe(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		for _, id := range []diagram.ID{"panel-1", "panel-2", "panel-3"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Panel})
		}
		for _, to := range []diagram.ID{"panel-2", "panel-3"} {
			tx.SetFeeder(diagram.Feeder{ID: "f-" + to, From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: to}})
			tx.SetProtector(diagram.Protector{ID: "p-" + to, Plan: diagram.FirstPlan, Bus: to})
		}
	})
	e := New(doc, Options{})
	for _, row := range []struct {
		ids  []diagram.ID
		want string
	}{
		{[]diagram.ID{"panel-1", "panel-2"}, "2 parts"}, {[]diagram.ID{"f-panel-2", "f-panel-3"}, "2 feeders"}, {[]diagram.ID{"p-panel-2", "p-panel-3"}, "2 protectors"},
		{[]diagram.ID{"panel-1", "f-panel-2"}, "2 things"}, {[]diagram.ID{"panel-1", "panel-2", "p-panel-2"}, "3 things"}, {[]diagram.ID{"gone", "away"}, "2 things"},
	} {
		if got := e.describe(row.ids); got != row.want {
			t.Errorf("%v: got %q, want %q", row.ids, got, row.want)
		}
	}
}

// Nothing is led to or from what is not there or has no terminal.
func TestConnectNeedsTwoEnds(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "note-1", Kind: diagram.Note})
	})
	for _, row := range []struct {
		a, b diagram.ID
		ok   bool
	}{{"panel-1", "panel-2", true}, {"panel-1", "gone", false}, {"gone", "panel-1", false}, {"note-1", "panel-1", false}, {"panel-1", "note-1", false}} {
		e := New(doc.Snapshot(), Options{})
		if _, err := e.Connect(row.a, row.b); (err == nil) != row.ok {
			t.Errorf("%s to %s: got %v", row.a, row.b, err)
		}
	}
}
