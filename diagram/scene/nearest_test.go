package scene

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// The nearest candidate wins, of equals the smaller, and of those the first.
func TestNearestOffer(t *testing.T) {
	type offer struct {
		id          string
		away, width float64
	}
	for _, row := range []struct {
		name   string
		offers []offer
		want   string
	}{
		{"none", nil, ""}, {"one", []offer{{"a", 5, 5}}, "a"}, {"nearer later", []offer{{"a", 5, 1}, {"b", 4, 9}}, "b"}, {"farther later", []offer{{"a", 4, 9}, {"b", 5, 1}}, "a"},
		{"as near and smaller", []offer{{"a", 4, 9}, {"b", 4, 8}}, "b"}, {"as near and larger", []offer{{"a", 4, 8}, {"b", 4, 9}}, "a"}, {"alike", []offer{{"a", 4, 8}, {"b", 4, 8}}, "a"},
	} {
		var n nearest
		for _, o := range row.offers {
			target := Target{}
			target.ID = diagram.ID(o.id)
			n.offer(target, o.away, o.width)
		}
		if string(n.target.ID) != row.want || n.found != (row.want != "") {
			t.Errorf("%s: got %q, want %q", row.name, n.target.ID, row.want)
		}
	}
}

func TestAway(t *testing.T) {
	r := geom.RectOf(geom.Pt(0, 0), geom.Pt(10, 20))
	for p, want := range map[geom.Point]float64{
		{X: 5, Y: 5}: 0, {X: 0, Y: 0}: 0, {X: 10, Y: 20}: 0, {X: -3, Y: 5}: 3, {X: 14, Y: 5}: 4, {X: 5, Y: -2}: 2, {X: 5, Y: 26}: 6, {X: -3, Y: -4}: 5, {X: 13, Y: 24}: 5, {X: -3, Y: 24}: 5,
	} {
		if got := away(r, p); got != want {
			t.Errorf("%v: got %g, want %g", p, got, want)
		}
	}
}

// What lines up best is within the slack, and of equal ones the first.
func TestFitOffer(t *testing.T) {
	f := fit{slack: 2}
	f.offer(10, 12.1, 1)
	if f.found {
		t.Errorf("got %+v from beyond the slack", f)
	}
	f.offer(10, 12, 2)
	if !f.found || f.by != 2 || f.at != 12 || f.part != 2 {
		t.Errorf("got %+v, want 2 mm to 12", f)
	}
	f.offer(10, 8.5, 3)
	f.offer(10, 11.5, 4)
	if f.by != -1.5 || f.at != 8.5 || f.part != 3 {
		t.Errorf("got %+v, want back by 1.5 mm to 8.5", f)
	}
	edges := fit{slack: 1}
	edges.compare(0, edgeLeast, 0.5, 100, 1) // both long: their low edges
	if !edges.found || edges.by != 0.5 {
		t.Errorf("edges: got %+v", edges)
	}
	short := fit{slack: 1}
	short.compare(0, edgeLeast-1, 0.5, 100, 1)
	if short.found {
		t.Errorf("edges of what is short: got %+v", short)
	}
}
