package scene

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

func TestSnap(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "bar", Kind: diagram.Panel, At: geom.Pt(100, 100)})
		tx.SetPart(diagram.Part{ID: "far", Kind: diagram.Load, At: geom.Pt(131, 2000)})
	})
	s := New(doc, diagram.FirstPlan, Marks{}, Options{})
	load := func(x, y float64) geom.Rect { return geom.RectOf(geom.Pt(x-4, y-5), geom.Pt(x+4, y+5)) }
	bar := func(x, y float64) geom.Rect { return geom.RectOf(geom.Pt(x-30, y-1), geom.Pt(x+30, y+1)) }
	up := func(x, top, bottom float64) []geom.Segment {
		return []geom.Segment{{A: geom.Pt(x, top), B: geom.Pt(x, bottom)}}
	}
	tests := []struct {
		name    string
		moving  geom.Rect
		exclude map[diagram.ID]bool
		grid    float64
		delta   geom.Point
		guides  []geom.Segment
	}{
		{"middle under middle", load(101.5, 150), nil, 5, geom.Pt(-1.5, 0), up(100, 95.1, 159)},
		{"onto the grid", load(133, 158), nil, 5, geom.Pt(2, 2), nil},
		{"no grid", load(133, 158), nil, 0, geom.Point{}, nil},
		{"level with another", load(150, 101), nil, 5, geom.Pt(0, -1), []geom.Segment{{A: geom.Pt(76, 100), B: geom.Pt(158, 100)}}},
		{"edge to edge of bars", bar(111, 150), nil, 5, geom.Pt(-1, 0), up(80, 95.1, 155)},
		{"edges of a load don't count", load(125, 158), nil, 0, geom.Point{}, nil},
		{"passed over", load(101.5, 150), map[diagram.ID]bool{"bar": true}, 0, geom.Point{}, nil},
		{"on both axes", load(101, 101), nil, 5, geom.Pt(-1, -1), []geom.Segment{{A: geom.Pt(100, 91), B: geom.Pt(100, 109)}, {A: geom.Pt(76, 100), B: geom.Pt(124, 100)}}},
		{"exactly within the slack", load(102, 150), nil, 0, geom.Pt(-2, 0), up(100, 95.1, 159)},
		{"from above", load(101.5, 50), nil, 0, geom.Pt(-1.5, 0), up(100, 41, 104.9)},
		{"as far as can be seen", load(101, 405), nil, 0, geom.Pt(-1, 0), up(100, 95.1, 414)}, // its upper edge 300 mm below
		{"farther", load(101, 405.5), nil, 0, geom.Point{}, nil},
		{"both edges of an upright bar", geom.RectOf(geom.Pt(20, 60), geom.Pt(22, 99)), nil, 0, geom.Point{}, nil}, // the bar is 1.8 mm high: no edge counts
		{"right edge", bar(89.5, 150), nil, 0, geom.Pt(0.5, 0), up(120, 95.1, 155)},
		{"grid of tens", load(133, 158), nil, 10, geom.Pt(-3, 2), nil},
		{"too far to line up", load(131.5, 158), nil, 0, geom.Point{}, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			delta, guides := s.Snap(test.moving, test.exclude, 2, test.grid)
			if delta != test.delta {
				t.Errorf("moved by %v, want %v", delta, test.delta)
			}
			if diff := cmp.Diff(test.guides, guides); diff != "" {
				t.Error("guides (-want +got):\n" + diff)
			}
		})
	}
}
