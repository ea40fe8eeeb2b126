package scene

import (
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

func TestOverlay(t *testing.T) {
	box := geom.RectOf(geom.Pt(10, 10), geom.Pt(50, 12))
	full := Overlay{
		Selected:  []geom.Rect{box},
		Paths:     []geom.Polyline{{{X: 0, Y: 0}, {X: 0, Y: 20}, {X: 30, Y: 20}}},
		Hover:     box.Move(geom.Pt(0, 30)),
		Handles:   []geom.Point{{X: 10, Y: 11}, {X: 50, Y: 11}},
		Terminals: []geom.Point{{X: 30, Y: 41}},
		Guides:    []geom.Segment{{A: geom.Pt(30, 0), B: geom.Pt(30, 60)}},
		Rubber:    geom.Polyline{{X: 30, Y: 12}, {X: 30, Y: 41}},
		Box:       geom.RectOf(geom.Pt(0, 0), geom.Pt(60, 60)),
		Ghosts:    []*draw.Picture{Ghost(diagram.Load, geom.Pt(70, 20), 1), GhostProtector(geom.Pt(80, 10), 0)},
	}
	drawtest.Text(t, "overlay.txt", full.Picture().String())
	if got := (Overlay{}).Picture().Len(); got != 0 {
		t.Errorf("an overlay of nothing draws %d items", got)
	}
}

func TestGhostOfEveryKind(t *testing.T) {
	for _, kind := range diagram.Kinds() {
		got := Ghost(kind, geom.Pt(5, 5), 0).String()
		if !strings.Contains(got, "accent") || !strings.Contains(got, "5,5") {
			t.Errorf("ghost of a %s: %s", kind, got)
		}
	}
}
