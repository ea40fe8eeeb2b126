package scene

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

// TestEveryRecordCanBeHit points at the middle of every record of the quay.
func TestEveryRecordCanBeHit(t *testing.T) {
	s := quayScene(t, Options{})
	for _, p := range s.parts {
		expectHit(t, s, p.box.Center(), OnPart, p.id)
		if p.tag.placed() {
			expectHit(t, s, p.tag.box.Center(), OnTag, p.id)
		}
	}
	for i := range s.feeders {
		f := &s.feeders[i]
		expectHit(t, s, f.longest().At(0.5), OnFeeder, f.id)
		if f.label.Width() > 0 {
			expectHit(t, s, f.label.Center(), OnFeeder, f.id)
		}
	}
	for _, p := range s.protectors {
		expectHit(t, s, p.box.Center(), OnProtector, p.id)
		expectHit(t, s, p.tag.box.Center(), OnProtector, p.id)
	}
}

func expectHit(t *testing.T, s *Scene, at geom.Point, kind TargetKind, id diagram.ID) {
	t.Helper()
	if got, ok := s.Hit(at, 0.5); !ok || got.Kind != kind || got.ID != id {
		t.Errorf("at %v hit %+v, %v; want kind %d of %s", at, got, ok, kind, id)
	}
}

func TestHit(t *testing.T) {
	s := quayScene(t, Options{})
	tests := []struct {
		name  string
		at    geom.Point
		slack float64
		want  Target
	}{
		{"bar", geom.Pt(-30, 25), 1, Target{Kind: OnPart, ID: "main"}},
		{"beside a bar", geom.Pt(-30, 27.5), 2, Target{Kind: OnPart, ID: "main"}},
		{"left end of a bar", geom.Pt(-65, 25), 1, Target{Kind: OnBarEnd, ID: "main", Side: -1}},
		{"right end of a bar", geom.Pt(85.5, 25), 1, Target{Kind: OnBarEnd, ID: "main", Side: 1}},
		{"near the end from afar", geom.Pt(60, 25), 60, Target{Kind: OnPart, ID: "main"}},
		// From afar the end is 0.12 of the bar of 150 mm, which ends at -65 and 85.
		{"end from afar", geom.Pt(67.1, 25), 60, Target{Kind: OnBarEnd, ID: "main", Side: 1}},
		{"not the end from afar", geom.Pt(66.9, 25), 60, Target{Kind: OnPart, ID: "main"}},
		{"other end from afar", geom.Pt(-47.1, 25), 60, Target{Kind: OnBarEnd, ID: "main", Side: -1}},
		{"not the other end from afar", geom.Pt(-46.9, 25), 60, Target{Kind: OnPart, ID: "main"}},
		{"middle of a feeder", geom.Pt(15, 115), 1, Target{Kind: OnFeeder, ID: "f-lab-instruments", Share: 0.5}},
		{"nothing", geom.Pt(-150, 200), 2, Target{}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, ok := s.Hit(test.at, test.slack)
			near := cmp.Comparer(func(a, b float64) bool { return a-b < 0.02 && b-a < 0.02 }) // the bars' thickness
			if diff := cmp.Diff(test.want, got, near); diff != "" || ok != (test.want.Kind != OnNothing) {
				t.Errorf("found %v (-want +got):\n%s", ok, diff)
			}
		})
	}
}

func TestTerminal(t *testing.T) {
	s := quayScene(t, Options{})
	tests := []struct {
		name string
		near geom.Point
		end  diagram.End
		at   geom.Point
		want bool
	}{
		{"along a bar", geom.Pt(-20, 26), diagram.End{Part: "main"}, geom.Pt(-20, 25), true},
		{"primary", geom.Pt(41, 49), diagram.End{Part: "T1", Port: diagram.Primary}, geom.Pt(40, 50), true},
		{"secondary", geom.Pt(40, 71), diagram.End{Part: "T1", Port: diagram.Secondary}, geom.Pt(40, 70), true},
		{"emergency side", geom.Pt(120, 49), diagram.End{Part: "transfer", Port: diagram.Emergency}, geom.Pt(120, 50), true},
		{"load", geom.Pt(140, 189), diagram.End{Part: "rack"}, geom.Pt(140, 190), true},
		{"junction", geom.Pt(90.5, 120), diagram.End{Part: "joint"}, geom.Pt(90, 120), true},
		{"too far", geom.Pt(-150, 200), diagram.End{}, geom.Point{}, false},
		{"a note has none", geom.Pt(-60, 10), diagram.End{}, geom.Point{}, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			end, at, ok := s.Terminal(test.near, 2)
			if end != test.end || at != test.at || ok != test.want {
				t.Errorf("got %+v at %v, %v; want %+v at %v, %v", end, at, ok, test.end, test.at, test.want)
			}
		})
	}
}

func TestHost(t *testing.T) {
	s := quayScene(t, Options{})
	tests := []struct {
		name   string
		at     geom.Point
		id     diagram.ID
		offset float64
		want   bool
	}{
		{"on a bar", geom.Pt(30, 26), "main", 20, true},
		{"beyond its end", geom.Pt(87, 25), "main", 75, true},
		{"load", geom.Pt(139, 195), "rack", 0, true},
		{"junction", geom.Pt(90, 121), "joint", 0, true},
		{"transformer takes none", geom.Pt(40, 60), "", 0, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			id, offset, ok := s.Host(test.at, 3)
			if id != test.id || ok != test.want || ok && test.id != "rack" && test.id != "joint" && offset != test.offset {
				t.Errorf("got %s at %g, %v; want %s at %g, %v", id, offset, ok, test.id, test.offset, test.want)
			}
		})
	}
	if at, turn, ok := s.HostPoint("main", 20); !ok || turn != 0 || at != geom.Pt(30, 26.2) {
		t.Errorf("a protector would hang at %v, turn %d, %v; want (30, 26.2), turn 0", at, turn, ok)
	}
	// Beyond the end of a bar it hangs from the end; beside a load, as far as asked
	// for, but no nearer than 8 mm, at the height of its terminal 5 mm above its middle.
	for _, row := range []struct {
		part   diagram.ID
		offset float64
		want   geom.Point
	}{{"main", 99, geom.Pt(85, 26.2)}, {"main", -99, geom.Pt(-65, 26.2)}, {"rack", 0, geom.Pt(148, 190)}, {"rack", -1, geom.Pt(132, 190)}, {"rack", 8, geom.Pt(148, 190)}, {"rack", 20, geom.Pt(160, 190)}, {"joint", -9, geom.Pt(81, 120)}} {
		if at, turn, ok := s.HostPoint(row.part, row.offset); !ok || turn != 0 || at != row.want {
			t.Errorf("a protector at %g would hang from %s at %v, turn %d, %v; want %v", row.offset, row.part, at, turn, ok, row.want)
		}
	}
	if _, _, ok := s.HostPoint("T1", 0); ok {
		t.Error("a transformer takes a protector")
	}
}

func TestWithin(t *testing.T) {
	s := quayScene(t, Options{})
	got := s.Within(geom.RectOf(geom.Pt(120, 155), geom.Pt(190, 210)))
	want := []diagram.ID{"rack", "server", "ups", "f-server-rack", "f-server-ups", "p-server", "p-ups"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error("records within (-want +got):\n" + diff)
	}
	// The load's symbol is 8 by 10 mm about 140, 195, and its feeder
	// a line from 165.9 to 190.
	for _, row := range []struct {
		r    geom.Rect
		want []diagram.ID
	}{
		{geom.RectOf(geom.Pt(136, 190), geom.Pt(144, 200)), []diagram.ID{"rack"}},
		{geom.RectOf(geom.Pt(136.1, 190), geom.Pt(144, 200)), nil},
		{geom.RectOf(geom.Pt(136, 190), geom.Pt(144, 199.9)), nil},
		{geom.RectOf(geom.Pt(140, 165.9), geom.Pt(140, 190)), []diagram.ID{"f-server-rack"}},
	} {
		if diff := cmp.Diff(row.want, s.Within(row.r)); diff != "" {
			t.Errorf("records within %v (-want +got):\n%s", row.r, diff)
		}
	}
	for id, want := range map[diagram.ID]geom.Rect{
		"rack": geom.RectOf(geom.Pt(136, 190), geom.Pt(144, 200)), "f-server-rack": geom.RectOf(geom.Pt(140, 165.9), geom.Pt(140, 190)),
		"p-ups": geom.RectOf(geom.Pt(179.2, 190), geom.Pt(186.8, 204.2)), "nobody": {},
	} {
		if got, ok := s.Box(id); got != want || ok != (id != "nobody") {
			t.Errorf("box of %s: %v, %v; want %v", id, got, ok, want)
		}
	}
	if got := s.Within(geom.Empty()); got != nil {
		t.Errorf("within nothing lie %v", got)
	}
}

func TestTurnedParts(t *testing.T) {
	for turn := range 4 {
		doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "T", Kind: diagram.Transformer, Turn: turn, At: geom.Pt(100, 50)})
			tx.SetPart(diagram.Part{ID: "B", Kind: diagram.Panel, Turn: turn, At: geom.Pt(200, 50)})
		})
		s := New(doc, diagram.FirstPlan, Marks{}, Options{})
		at := geom.Pt(100, 50).Add(geom.Turn(turn).Apply(geom.Pt(0, 10)))
		if end, got, ok := s.Terminal(at, 1); !ok || end.Port != diagram.Secondary || got != at {
			t.Errorf("turn %d: terminal %v at %v, %v; want the secondary at %v", turn, end, got, ok, at)
		}
		tip := geom.Pt(200, 50).Add(geom.Turn(turn).Apply(geom.Pt(20, 0)))
		if got, _ := s.Hit(tip, 1); got != (Target{Kind: OnBarEnd, ID: "B", Side: 1}) {
			t.Errorf("turn %d: at %v hit %+v, want the end of the bar", turn, tip, got)
		}
		outward := geom.Turn(turn).Apply(geom.Pt(0, 1))
		if line := s.Route(diagram.End{Part: "T", Port: diagram.Secondary}, diagram.End{}, at.Add(outward.Mul(30))); len(line) != 2 {
			t.Errorf("turn %d: a line straight out of the secondary is %v", turn, line)
		}
	}
}

func TestRoute(t *testing.T) {
	s := quayScene(t, Options{})
	main, dock := diagram.End{Part: "main"}, diagram.End{Part: "dock"}
	line := s.Route(main, dock, geom.Point{})
	if len(line) < 2 || line[len(line)-1].Y != 60-0.9 {
		t.Errorf("line %v, want it to end on the upper edge of the dock's bar", line)
	}
	for _, end := range []diagram.End{{Part: "nobody"}, {Part: "T1"}} {
		if got := s.Route(end, dock, geom.Point{}); got != nil {
			t.Errorf("from %+v there is a line %v, want none", end, got)
		}
		if got := s.Route(dock, end, geom.Point{}); end.Part != "" && got != nil {
			t.Errorf("to %+v there is a line %v, want none", end, got)
		}
	}
}
