package geom

import "testing"

func TestIntersect(t *testing.T) {
	a := RectOf(Pt(0, 0), Pt(10, 20))
	for _, row := range []struct{ b, want Rect }{
		{RectOf(Pt(5, -5), Pt(15, 5)), RectOf(Pt(5, 0), Pt(10, 5))}, {RectOf(Pt(2, 3), Pt(4, 5)), RectOf(Pt(2, 3), Pt(4, 5))}, {a, a},
	} {
		if got := a.Intersect(row.b); got != row.want || row.b.Intersect(a) != row.want {
			t.Errorf("%v: got %v, want %v", row.b, got, row.want)
		}
	}
	if got := a.Intersect(RectOf(Pt(11, 0), Pt(12, 20))); !got.IsEmpty() {
		t.Errorf("apart: got %v", got)
	}
}
