package scene

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// mapScene is a board of 40 mm along y = 0, a load 30 mm below it on a feeder with
// a name, a joint to the right, and a protector at the left of the board.
func mapScene(t *testing.T, turn int) *Scene {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel, Name: "Board", Turn: turn})
		tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load, Name: "Load", At: geom.Pt(10, 30)})
		tx.SetPart(diagram.Part{ID: "joint", Kind: diagram.Junction, At: geom.Pt(30, 20)})
		tx.SetFeeder(diagram.Feeder{ID: "feeder", Name: "F", From: diagram.End{Part: "board"}, To: diagram.End{Part: "load"}})
		tx.SetProtector(diagram.Protector{ID: "protector", Plan: diagram.FirstPlan, Bus: "board", Offset: -10})
	})
	return New(doc, diagram.FirstPlan, Marks{Protectors: map[diagram.ID][]string{"protector": {"VPR"}}}, Options{})
}

// mapOf asks at every millimetre, and writes a letter where something answers.
func mapOf(r geom.Rect, at func(geom.Point) byte) string {
	var out strings.Builder
	for y := r.Min.Y; y <= r.Max.Y; y++ {
		line := make([]byte, 0, 80)
		for x := r.Min.X; x <= r.Max.X; x++ {
			line = append(line, at(geom.Pt(x, y)))
		}
		if text := strings.TrimRight(string(line), " "); text != "" {
			fmt.Fprintf(&out, "%4g %s\n", y, text)
		}
	}
	return out.String()
}

// What lies under the pointer, at every millimetre of a small sheet: P part, E end
// of a bar, F feeder, S protector, T tag. The board is 1.8 mm thick, so that with a
// slack of 2 mm it reaches from -2 to 2; the load is 8 by 10 mm.
func TestMapOfHits(t *testing.T) {
	area := geom.RectOf(geom.Pt(-32, -24), geom.Pt(38, 46))
	for _, turn := range []int{0, 1} {
		s := mapScene(t, turn)
		for _, slack := range []float64{0, 2} {
			drawtest.Text(t, fmt.Sprintf("hits-%d-%g.txt", turn, slack), mapOf(area, func(p geom.Point) byte {
				target, ok := s.Hit(p, slack)
				if ok != (target.Kind != OnNothing) {
					t.Errorf("at %v: %+v, %v", p, target, ok)
				}
				return " PFSXET"[target.Kind]
			}))
		}
	}
}

// Where a feeder would begin or a protector hang, at every millimetre: B the board,
// L the load, J the joint. Both reach 3 mm about the symbols, and a feeder only
// about what carries it.
func TestMapsOfTerminalsAndHosts(t *testing.T) {
	area := geom.RectOf(geom.Pt(-26, -8), geom.Pt(38, 42))
	letters := map[diagram.ID]byte{"": ' ', "board": 'B', "load": 'L', "joint": 'J'}
	s := mapScene(t, 0)
	drawtest.Text(t, "terminals.txt", mapOf(area, func(p geom.Point) byte {
		end, _, _ := s.Terminal(p, 3)
		return letters[end.Part]
	}))
	drawtest.Text(t, "hosts.txt", mapOf(area, func(p geom.Point) byte {
		id, _, _ := s.Host(p, 3)
		return letters[id]
	}))
}

// How far along its line a feeder is hit: it runs from the lower edge of the board
// at 0.9 down to the load at 25, so over 24.1 mm.
func TestShares(t *testing.T) {
	s := mapScene(t, 0)
	for y, want := range map[float64]float64{0.9 + 24.1/4: 0.25, 12.95: 0.5, 22.59: 0.9} {
		got, ok := s.Hit(geom.Pt(10, y), 0.5)
		if !ok || got.Kind != OnFeeder || got.Share < want-1e-9 || got.Share > want+1e-9 {
			t.Errorf("at %g: %+v, want a share of %g", y, got, want)
		}
	}
}

// A feeder is as wide as it is drawn, 0.8 mm, and the slack besides.
func TestWidthOfAFeeder(t *testing.T) {
	s := mapScene(t, 0)
	for off, slack := range map[float64]float64{0.39: 0, -0.39: 0, 1.89: 1.5, -1.89: 1.5} {
		if got, ok := s.Hit(geom.Pt(10+off, 20), slack); !ok || got.ID != "feeder" {
			t.Errorf("%g mm beside the line, slack %g: %+v", off, slack, got)
		}
		if got, ok := s.Hit(geom.Pt(10+1.06*off, 20), slack); ok {
			t.Errorf("%g mm beside the line, slack %g: hit %+v", 1.06*off, slack, got)
		}
	}
}

// Shares of a line with corners are those of its whole length, and a point beside a
// corner belongs to the nearer piece.
func TestSharesRoundCorners(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "a", Kind: diagram.Junction})
		tx.SetPart(diagram.Part{ID: "b", Kind: diagram.Junction, At: geom.Pt(60, 20)})
		tx.SetFeeder(diagram.Feeder{ID: "f", From: diagram.End{Part: "a"}, To: diagram.End{Part: "b"}})
	})
	marks := Marks{Feeders: map[diagram.ID]FeederMark{"f": {[]Piece{{0, 0.25, draw.RoleHeld, draw.Solid}, {0.25, 0.5, draw.RoleTight, draw.Solid}}}}}
	s := New(doc, diagram.FirstPlan, marks, Options{})
	if got, want := s.Picture().String(), "group \"f\"\n  stroke held 0.8 solid: M 0,0 L 0,20\n  stroke tight 0.8 solid: M 0,20 L 20,20\n  stroke ink 0.8 solid: M 20,20 L 60,20\n"; !strings.HasPrefix(got, want) {
		t.Errorf("pieces that meet at a corner:\n%s\nwant\n%s", got, want)
	}
	line := s.FeederPath("f")
	if want := (geom.Polyline{{}, {Y: 20}, {X: 60, Y: 20}}); !cmp.Equal(line, want) {
		t.Fatalf("the line runs %v, want %v", line, want)
	}
	for at, want := range map[geom.Point]float64{{X: 0, Y: 10}: 10.0 / 80, {X: 1, Y: 12}: 12.0 / 80, {X: 4, Y: 19}: 24.0 / 80, {X: 40, Y: 21}: 60.0 / 80} {
		if got, _ := s.Hit(at, 1); got.ID != "f" || got.Share < want-1e-9 || got.Share > want+1e-9 {
			t.Errorf("at %v: %+v, want a share of %g", at, got, want)
		}
	}
}
