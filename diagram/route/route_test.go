package route

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram/geom"
)

func point(x, y float64, out geom.Point) Terminal { return Terminal{At: geom.Pt(x, y), Out: out} }

func bar(number int, x, y, span float64) Terminal {
	return Terminal{At: geom.Pt(x, y), Out: down, Bar: number, Span: span, Edge: 1}
}

var (
	down  = geom.Pt(0, 1)
	up    = geom.Pt(0, -1)
	right = geom.Pt(1, 0)
	left  = geom.Pt(-1, 0)
)

func TestBetween(t *testing.T) {
	tests := []struct {
		name     string
		from, to Terminal
		want     geom.Polyline
	}{
		{"straight", point(0, 0, down), point(0, 40, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 40}}},
		{"shifted", point(0, 0, down), point(30, 60, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 15}, {X: 30, Y: 15}, {X: 30, Y: 60}}},
		{"shifted and near", point(0, 0, down), point(30, 16, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 8}, {X: 30, Y: 8}, {X: 30, Y: 16}}},
		{"to the side", point(0, 0, down), point(-30, 40, right), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 40}, {X: -30, Y: 40}}},
		{"to the far side", point(0, 0, down), point(30, 40, right), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 35, Y: 5}, {X: 35, Y: 40}, {X: 30, Y: 40}}},
		{"same way", point(0, 0, down), point(40, 10, down), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 15}, {X: 40, Y: 15}, {X: 40, Y: 10}}},
		{"shifted and nearer than both stubs", Terminal{Out: down, Stub: 10}, point(30, 6, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 4}, {X: 30, Y: 4}, {X: 30, Y: 6}}},
		{"just facing", point(0, 0, down), point(30, 2, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 1}, {X: 30, Y: 1}, {X: 30, Y: 2}}},
		{"hardly no more facing", point(0, 0, down), point(40, 1.9, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 20, Y: 5}, {X: 20, Y: -3.1}, {X: 40, Y: -3.1}, {X: 40, Y: 1.9}}},
		{"back up with room between", point(0, 0, down), point(30, -20, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 15, Y: 5}, {X: 15, Y: -25}, {X: 30, Y: -25}, {X: 30, Y: -20}}},
		{"back up without", point(0, 0, down), point(29, -20, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 44, Y: 5}, {X: 44, Y: -25}, {X: 29, Y: -25}, {X: 29, Y: -20}}},
		{"back up to the left without", point(0, 0, down), point(-29, -20, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 15, Y: 5}, {X: 15, Y: -25}, {X: -29, Y: -25}, {X: -29, Y: -20}}},
		{"same way, one above the other", point(0, 0, down), point(0, 30, down), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 15, Y: 5}, {X: 15, Y: 35}, {X: 0, Y: 35}, {X: 0, Y: 30}}},
		{"same way, beside", point(0, 0, down), point(2, 30, down), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 35}, {X: 2, Y: 35}, {X: 2, Y: 30}}},
		{"to the side, just open", point(0, 0, down), point(-2, 2, right), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 2}, {X: -2, Y: 2}}},
		{"to the side, too low", point(0, 0, down), point(-30, 1, right), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: -25, Y: 5}, {X: -25, Y: 1}, {X: -30, Y: 1}}},
		{"to the side, too near", point(0, 0, down), point(-1, 40, right), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 4, Y: 5}, {X: 4, Y: 40}, {X: -1, Y: 40}}},
		{"to the far side on the left", point(0, 0, down), point(-30, 40, left), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: -35, Y: 5}, {X: -35, Y: 40}, {X: -30, Y: 40}}},
		{"to the first bar", point(10, 0, down), bar(1, 0, -40, 20), geom.Polyline{{X: 10, Y: 0}, {X: 10, Y: 5}, {X: 25, Y: 5}, {X: 25, Y: -34}, {X: 10, Y: -34}, {X: 10, Y: -39}}},
		{"back up", point(0, 0, down), point(60, -20, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 30, Y: 5}, {X: 30, Y: -25}, {X: 60, Y: -25}, {X: 60, Y: -20}}},
		{"turned", point(0, 0, right), point(40, 0, left), geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}}},
		{"long stub", Terminal{Out: down, Stub: 20}, point(30, 60, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 20}, {X: 30, Y: 20}, {X: 30, Y: 60}}},
		{"short stub", Terminal{Out: down, Stub: 1}, point(60, -20, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 1}, {X: 30, Y: 1}, {X: 30, Y: -25}, {X: 60, Y: -25}, {X: 60, Y: -20}}},
		{"any direction", point(0, 0, geom.Point{}), point(40, 0, left), geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}}},
		{"any with one bend", point(0, 0, geom.Point{}), point(40, 30, up), geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}, {X: 40, Y: 30}}},
		{"bar below", point(10, 0, down), bar(1, 0, 40, 20), geom.Polyline{{X: 10, Y: 0}, {X: 10, Y: 39}}},
		{"bar above", bar(1, 0, 0, 20), point(-10, 40, up), geom.Polyline{{X: -10, Y: 1}, {X: -10, Y: 40}}},
		{"leaves a bar upward", bar(1, 0, 0, 20), point(5, -40, down), geom.Polyline{{X: 5, Y: -1}, {X: 5, Y: -40}}},
		{"as short as can be", point(0, 0, down), point(0, 2, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 2}}},
		{"bars alongside", bar(1, 0, 0, 30), bar(2, 40, 50, 20), geom.Polyline{{X: 30, Y: 1}, {X: 30, Y: 49}}},
		{"beyond the bar", bar(1, 0, 0, 20), point(50, 60, up), geom.Polyline{{X: 20, Y: 1}, {X: 20, Y: 16}, {X: 50, Y: 16}, {X: 50, Y: 60}}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, Between(test.from, test.to, nil)); diff != "" {
				t.Error("line (-want +got):\n" + diff)
			}
		})
	}
}

// crowd is in the way of the first few lines that are tried.
type crowd struct{ left int }

func (c *crowd) Blocked(_, _ geom.Point) bool {
	c.left--
	return c.left >= 0
}

// Where one line after the other is blocked, its middle piece goes elsewhere: across
// at another height between the ends, or round them on either side by 15, 30 and 60
// mm. Each line is one of its own, and where all are blocked the first is drawn.
func TestChoicesOfALine(t *testing.T) {
	for _, row := range []struct {
		name     string
		from, to Terminal
		place    func(geom.Polyline) float64 // of the middle piece
		want     []float64
	}{
		{"facing", point(0, 0, down), point(30, 50, up), func(l geom.Polyline) float64 { return l[1].Y }, []float64{15, 25, 45, 5, 15, 35, 41}},
		{"turning back", point(0, 0, down), point(60, -20, up), func(l geom.Polyline) float64 { return l[2].X }, []float64{30, 75, -15, 90, -30, 120, -60}},
		{"turning back to the left", point(0, 0, down), point(-60, -20, up), func(l geom.Polyline) float64 { return l[2].X }, []float64{-30, 15, -75, 30, -90, 60, -120}},
		{"one above the other", point(0, 0, down), point(0, 30, down), func(l geom.Polyline) float64 { return l[2].X }, []float64{15, -15, 30, -30, 60, -60, 15}},
		{"same way", point(0, 0, down), point(40, 30, down), func(l geom.Polyline) float64 { return l[1].Y }, []float64{35, 50, 65, 80, 95, 110, 125}},
		{"sideways", point(0, 0, down), point(-30, 40, right), func(l geom.Polyline) float64 { return l[len(l)-2].X }, []float64{0, -25, -10, -10, 5, 5, 20}},
		{"sideways, how far down", point(0, 0, down), point(-30, 40, right), func(l geom.Polyline) float64 { return l[1].Y }, []float64{40, 55, 5, 55, 5, 55, 5}},
		{"to the far side", point(0, 0, down), point(30, 40, right), func(l geom.Polyline) float64 { return l[2].X }, []float64{35, 35, 50, 50, 65, 65, 80}},
	} {
		for blocked, want := range row.want {
			line := Between(row.from, row.to, &crowd{blocked})
			if problem := fault(Run{row.from, row.to}, line); problem != "" {
				t.Errorf("%s, %d blocked: %v: %s", row.name, blocked, line, problem)
				continue
			}
			if got := row.place(line); math.Abs(got-want) > 1e-9 {
				t.Errorf("%s, %d blocked: got %v, its middle at %g, want %g", row.name, blocked, line, got, want)
			}
		}
		if got, want := Between(row.from, row.to, &crowd{100}), Between(row.from, row.to, nil); !cmp.Equal(got, want) {
			t.Errorf("%s, all blocked: got %v, want %v", row.name, got, want)
		}
	}
}

// The pieces that are looked at begin and end a little off the two parts, and go
// without a gap between.
func TestLooksBetweenTheParts(t *testing.T) {
	var seen []geom.Segment
	Between(point(0, 0, down), point(30, 50, up), looker{&seen})
	want := []geom.Segment{{A: geom.Pt(0, 0.75), B: geom.Pt(0, 15)}, {A: geom.Pt(0, 15), B: geom.Pt(30, 15)}, {A: geom.Pt(30, 15), B: geom.Pt(30, 49.25)}}
	if diff := cmp.Diff(want, seen); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	seen = nil
	Between(point(0, 0, down), point(30, 2, up), looker{&seen}) // its first and last piece shorter than two clearances
	want = []geom.Segment{{A: geom.Pt(0, 0.5), B: geom.Pt(0, 1)}, {A: geom.Pt(0, 1), B: geom.Pt(30, 1)}, {A: geom.Pt(30, 1), B: geom.Pt(30, 1.5)}}
	if diff := cmp.Diff(want, seen); diff != "" {
		t.Errorf("short pieces: -want +got\n%s", diff)
	}
}

type looker struct{ seen *[]geom.Segment }

func (l looker) Blocked(a, b geom.Point) bool {
	*l.seen = append(*l.seen, geom.Segment{A: a, B: b})
	return false
}

// Lines from one side of a bar in one direction run below each other, 4 mm apart,
// the first 15 mm from the bar and the farthest nearest to it; those in the other
// direction do the same, and what runs straight takes no lane.
func TestLanes(t *testing.T) {
	main := bar(1, 0, 0, 20)
	var runs []Run
	for _, x := range []float64{60, 100, 80, -60, 0, -90} {
		runs = append(runs, Run{main, point(x, 90, up)})
	}
	lines := All(runs, nil)
	for i, want := range []float64{24, 16, 20, 20, 0, 16} { // 1 mm of the bar itself
		if want == 0 {
			if len(lines[i]) != 2 {
				t.Errorf("the line to %v is not straight: %v", runs[i].To.At, lines[i])
			}
			continue
		}
		if got := lines[i][1].Y; math.Abs(got-want) > 1e-9 {
			t.Errorf("the line to %v runs at %g, want %g", runs[i].To.At, got, want)
		}
	}
	runs = runs[:0]
	for i := range 5 { // where there is no room for lanes of 4 mm they share what there is
		runs = append(runs, Run{main, point(60+10*float64(i), 22, up)})
	}
	levels := map[float64]bool{}
	for i, line := range All(runs, nil) {
		if line[1].Y < 6 || line[1].Y > 17 {
			t.Errorf("line %d runs at %g, past its stubs", i, line[1].Y)
		}
		levels[math.Round(line[1].Y*1000)] = true
	}
	if len(levels) != 5 {
		t.Errorf("5 lines run at %d heights", len(levels))
	}
}

// Taps stand as near as they can to what their lines want: three that want the same
// place stand 4 mm apart round it.
func TestTapsStandRoundWhatTheyWant(t *testing.T) {
	main := bar(1, 0, 0, 20)
	for _, row := range []struct {
		name string
		to   []float64
		want []float64
	}{
		{"one", []float64{7}, []float64{7}},
		{"three of one place", []float64{5, 5, 5}, []float64{1, 5, 9}},
		{"apart enough", []float64{-8, -4, 10}, []float64{-8, -4, 10}},
		{"two near", []float64{0, 2}, []float64{-1, 3}},
		{"beyond the end", []float64{50, 60}, []float64{16, 20}},
		{"beyond the end, the farther first", []float64{60, 50}, []float64{20, 16}},
		{"beyond the other end", []float64{-60, -50}, []float64{-20, -16}},
		{"more than there is room for", []float64{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, []float64{-20, -16, -12, -8, -4, 0, 4, 8, 12, 16, 20}},
		{"and one more", []float64{0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, []float64{-20, -17.5, -15, -12.5, -10, -7.5, -5, -2.5, 0, 2.5, 5, 7.5, 10, 12.5, 15, 17.5, 20}},
	} {
		var runs []Run
		for i, x := range row.to {
			runs = append(runs, Run{main, bar(i+2, x, 60, 0.001)})
		}
		for i, line := range All(runs, nil) {
			if math.Abs(line[0].X-row.want[i]) > 0.01 { // what the far bars may give
				t.Errorf("%s: tap %d stands at %g, want %g", row.name, i, line[0].X, row.want[i])
			}
		}
	}
}

// Where there is no room for 4 mm, two taps stand at the ends of their bar.
func TestTapsOfAShortBar(t *testing.T) {
	short := bar(1, 0, 0, 1.5)
	lines := All([]Run{{short, point(0, 60, up)}, {short, point(0, 60, up)}}, nil)
	if lines[0][0] != geom.Pt(-1.5, 1) || lines[1][0] != geom.Pt(1.5, 1) {
		t.Errorf("got %v and %v", lines[0][0], lines[1][0])
	}
}

// A line straight from a bar, or to one, has two points wherever they lie: the hair by
// which sums are rounded makes no bend.
func TestRoundingMakesNoBend(t *testing.T) {
	for i := range 100 {
		at, other := geom.Pt(0.1*float64(i), 0.07*float64(i)), geom.Pt(0.37*float64(i)-17.3, 0.11*float64(i)+50)
		for turn := range 4 {
			frame := geom.Turn(turn)
			main := Terminal{At: frame.Apply(at), Out: frame.Apply(down), Bar: 1, Span: 40, Edge: 1}
			end := point(0, 0, frame.Apply(up))
			end.At = frame.Apply(other)
			for name, line := range map[string]geom.Polyline{"from": Between(main, end, nil), "to": Between(end, main, nil)} {
				if len(line) != 2 {
					t.Errorf("%d quarter turns, %s a bar at %v: got %v", turn, name, main.At, line)
				}
			}
		}
	}
}

// Lines that may leave in any direction each take another one as long as there are
// any, the shortest first.
func TestAnyDirectionTakesAFreeOne(t *testing.T) {
	open := point(0, 0, geom.Point{})
	var runs []Run
	for range 4 {
		runs = append(runs, Run{open, point(60, 0, left)})
	}
	taken := map[geom.Point]int{}
	for i, line := range All(runs, nil) {
		step := line[1].Sub(line[0]).Mul(1 / line[1].Distance(line[0]))
		taken[step]++
		if i == 0 && step != right {
			t.Errorf("the first leaves toward %v, want straight to the right", step)
		}
	}
	if len(taken) != 4 {
		t.Errorf("got the directions %v, want all four", taken)
	}
	for i := range runs {
		runs[i].From, runs[i].To = runs[i].To, runs[i].From
	}
	clear(taken)
	for i, line := range All(runs, nil) {
		end := len(line) - 1
		taken[line[end].Sub(line[end-1]).Mul(1/line[end].Distance(line[end-1]))]++
		if i == 0 && len(line) != 2 {
			t.Errorf("arriving: got %v, want it straight", line)
		}
		if last := line[end].Distance(line[end-1]); i > 0 && last != 5 { // the usual stub
			t.Errorf("arriving: got %v, its last piece %g mm long, want 5", line, last)
		}
	}
	if len(taken) != 4 {
		t.Errorf("arriving: got the directions %v, want all four", taken)
	}
}

// Of directions that serve alike the first is taken, downward.
func TestAnyDirectionTakesTheFirstOfEqualOnes(t *testing.T) {
	want := geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 40}, {X: 40, Y: 40}}
	if diff := cmp.Diff(want, Between(point(0, 0, geom.Point{}), point(40, 40, geom.Point{}), nil)); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// Lanes are of the side of a bar: lines from two points have nothing to do with each
// other.
func TestPointsHaveNoLanes(t *testing.T) {
	for i, line := range All([]Run{{point(0, 0, down), point(60, 90, up)}, {point(200, 0, down), point(300, 90, up)}}, nil) {
		if line[1].Y != 15 {
			t.Errorf("line %d runs across at %g, want 15", i, line[1].Y)
		}
	}
}

// TestQuarterTurns turns whole problems: the line must turn along.
func TestQuarterTurns(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 200 {
		from, to := randomTerminal(rng, 1), randomTerminal(rng, 2)
		if from.Out == (geom.Point{}) || to.Out == (geom.Point{}) {
			continue // of directions that serve alike the first is taken
		}
		plain := Between(from, to, nil)
		for n := 1; n < 4; n++ {
			turn := geom.Turn(n)
			a, b := from, to
			a.At, a.Out = turn.Apply(a.At), turn.Apply(a.Out)
			b.At, b.Out = turn.Apply(b.At), turn.Apply(b.Out)
			for i, got := range Between(a, b, nil) {
				// 1e-9 mm covers the rounding of sums of coordinates below 1 m.
				if want := turn.Apply(plain[i]); got.Distance(want) > 1e-9 {
					t.Fatalf("from %+v to %+v turned by %d: point %d at %v, want %v", from, to, n, i, got, want)
				}
			}
		}
	}
}

// What is moved as a whole is led as before, at its new place.
func TestMovedAlong(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	for range 200 {
		runs := randomRuns(rng, 6)
		plain := All(runs, nil)
		by := geom.Pt(64, -128) // exact in sums with multiples of 2.5
		for i := range runs {
			runs[i].From.At, runs[i].To.At = runs[i].From.At.Add(by), runs[i].To.At.Add(by)
		}
		for i, line := range All(runs, nil) {
			for k, got := range line {
				if len(line) != len(plain[i]) || got.Distance(plain[i][k].Add(by)) > 1e-9 { // rounding of sums
					t.Fatalf("%+v: got %v, and before it was moved %v", runs[i], line, plain[i])
				}
			}
		}
	}
	tight := Between(point(10, 100, down), point(40, 106, up), nil) // no room for two stubs: half way
	if diff := cmp.Diff(geom.Polyline{{X: 10, Y: 100}, {X: 10, Y: 103}, {X: 40, Y: 103}, {X: 40, Y: 106}}, tight); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// Lanes to one side are as many as to the other where both have little room.
func TestLanesOfBothSides(t *testing.T) {
	main := bar(1, 0, 0, 20)
	var runs []Run
	for i := range 5 {
		for _, side := range []float64{-1, 1} {
			runs = append(runs, Run{main, point(side*(60+10*float64(i)), 22, up)})
		}
	}
	lines := All(runs, nil)
	for i := 0; i < len(lines); i += 2 {
		if left, right := lines[i][1].Y, lines[i+1][1].Y; math.Abs(left-right) > 1e-9 {
			t.Errorf("line %d: at %g to the left and at %g to the right", i, left, right)
		}
	}
}

// Pieces that go on in one direction are one, across as well as down.
func TestPiecesAcrossAreJoined(t *testing.T) {
	want := geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: -30, Y: 5}}
	if diff := cmp.Diff(want, Between(point(0, 0, down), point(-30, 5, right), &crowd{2})); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// A fan from a bar turns along with it, as its lanes and taps do.
func TestQuarterTurnsOfAFan(t *testing.T) {
	fan := func(turn geom.Affine) (out []Run) {
		for i, x := range []float64{5, 5, 5, 60, 90, -70} {
			from, to := bar(1, 0, 0, 20), bar(i+2, x, 60, 0.001)
			for _, end := range []*Terminal{&from, &to} {
				end.At, end.Out = turn.Apply(end.At), turn.Apply(end.Out)
			}
			out = append(out, Run{from, to})
		}
		return out
	}
	plain := All(fan(geom.Identity()), nil)
	for n := 1; n < 4; n++ {
		turn := geom.Turn(n)
		for i, line := range All(fan(turn), nil) {
			for k, got := range line {
				if len(line) != len(plain[i]) || got.Distance(turn.Apply(plain[i][k])) > 1e-9 { // rounding of sums
					t.Fatalf("line %d turned by %d: got %v, and unturned %v", i, n, line, plain[i])
				}
			}
		}
	}
}

func TestLinesOfRandomRuns(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for round := range 300 {
		runs := randomRuns(rng, 1+rng.IntN(12))
		var obstacles Obstacles
		if round%2 == 0 {
			obstacles = walls{geom.RectOf(geom.Pt(-20, -20), geom.Pt(20, 20)), geom.RectOf(geom.Pt(40, 0), geom.Pt(90, 9))}
		}
		lines := All(runs, obstacles)
		for i, line := range lines {
			if problem := fault(runs[i], line); problem != "" {
				t.Fatalf("round %d: %+v: %v: %s", round, runs[i], line, problem)
			}
		}
		if diff := cmp.Diff(lines, All(runs, obstacles)); diff != "" {
			t.Fatal("the same runs were led otherwise:\n" + diff)
		}
	}
}

func randomTerminal(rng *rand.Rand, number int) Terminal {
	coordinate := func() float64 { return float64(rng.IntN(80)-40) * 2.5 }
	t := Terminal{At: geom.Pt(coordinate(), coordinate()), Out: geom.Turn(rng.IntN(4)).Apply(down)}
	switch rng.IntN(4) {
	case 0:
		t.Bar, t.Span, t.Edge = number, 1+rng.Float64()*60, 1
	case 1:
		t.Stub = 10
	case 2:
		if rng.IntN(4) == 0 {
			t.Out = geom.Point{}
		}
	}
	return t
}

func randomRuns(rng *rand.Rand, count int) []Run {
	terminals := make([]Terminal, count+1)
	for i := range terminals {
		terminals[i] = randomTerminal(rng, i+1)
	}
	runs := make([]Run, count)
	for i := range runs {
		a, b := rng.IntN(len(terminals)), rng.IntN(len(terminals)-1)
		if b >= a {
			b++
		}
		runs[i] = Run{terminals[a], terminals[b]}
	}
	return runs
}

// fault returns what is wrong with the line of a run, or nothing.
func fault(run Run, line geom.Polyline) string {
	if len(line) < 2 || len(line) > 6 {
		return fmt.Sprintf("%d points", len(line))
	}
	for i := 1; i < len(line); i++ {
		step := line[i].Sub(line[i-1])
		if (step.X == 0) == (step.Y == 0) {
			return fmt.Sprintf("piece %d steps by %v", i, step)
		}
	}
	if at := run.From.off(line[0]); at > 1e-9 { // rounding of one sum
		return fmt.Sprintf("begins %g mm off its terminal", at)
	}
	if at := run.To.off(line[len(line)-1]); at > 1e-9 {
		return fmt.Sprintf("ends %g mm off its terminal", at)
	}
	return ""
}

// off returns how far p is from where a line may meet the terminal.
func (t Terminal) off(p geom.Point) float64 {
	if t.Bar == 0 {
		return p.Distance(t.At)
	}
	along := math.Max(0, math.Abs(t.offset(p))-t.Span)
	return along + math.Abs(math.Abs(dot(p.Sub(t.At), t.Out))-t.Edge)
}

type walls []geom.Rect

func (w walls) Blocked(a, b geom.Point) bool {
	for _, wall := range w {
		if (geom.Segment{A: a, B: b}).Meets(wall) {
			return true
		}
	}
	return false
}

func TestGoesRoundWhatIsInTheWay(t *testing.T) {
	from, to := point(0, 0, down), point(60, 80, up)
	wall := walls{geom.RectOf(geom.Pt(20, 10), geom.Pt(40, 30))}
	line := Between(from, to, wall)
	if line.Meets(wall[0]) {
		t.Errorf("line %v runs through %v", line, wall[0])
	}
	if got, want := len(line), 4; got != want {
		t.Errorf("line %v has %d points, want %d", line, got, want)
	}
	closed := walls{geom.RectOf(geom.Pt(20, -100), geom.Pt(40, 100))}
	if got, want := Between(from, to, closed), Between(from, to, nil); !cmp.Equal(got, want) {
		t.Errorf("where all is blocked got %v, want the plain line %v", got, want)
	}
}

func TestTapsStandApart(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	for range 100 {
		main := bar(1, 0, 0, 5+rng.Float64()*40)
		runs := make([]Run, 1+rng.IntN(9))
		for i := range runs {
			runs[i] = Run{main, point(float64(rng.IntN(20)-10)*10, 60, up)}
			if rng.IntN(4) == 0 {
				runs[i].From, runs[i].To = runs[i].To, runs[i].From
			}
		}
		var taps []float64
		for i, line := range All(runs, nil) {
			at := line[0]
			if runs[i].To.Bar > 0 {
				at = line[len(line)-1]
			}
			taps = append(taps, at.X)
		}
		want := math.Min(gap, 2*main.Span/math.Max(1, float64(len(taps)-1)))
		if got := closest(taps); got < want-1e-9 { // rounding of sums

			t.Fatalf("taps %v on a bar of %.1f: closest %.3f apart, want %.3f", taps, 2*main.Span, got, want)
		}
	}
}

func closest(xs []float64) float64 {
	best := math.Inf(1)
	for i := range xs {
		for j := range i {
			best = math.Min(best, math.Abs(xs[i]-xs[j]))
		}
	}
	return best
}

// TestFanDoesNotCross leads a bar to a row wider than itself: no two lines may
// have a point in common.
func TestFanDoesNotCross(t *testing.T) {
	main := bar(1, 0, 0, 30)
	var runs []Run
	for i := -6; i <= 6; i++ {
		runs = append(runs, Run{main, bar(i+8, float64(i)*50, 80, 20)})
	}
	lines := All(runs, nil)
	for i := range lines {
		for j := range i {
			for k := 1; k < len(lines[j]); k++ {
				if piece := geom.RectOf(lines[j][k-1], lines[j][k]); lines[i].Meets(piece) {
					t.Errorf("lines %v and %v meet", lines[i], lines[j])
				}
			}
		}
	}
}

func TestNothingToLead(t *testing.T) {
	if got := All(nil, nil); len(got) != 0 {
		t.Errorf("no runs gave %v", got)
	}
}

func BenchmarkAll(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	runs := randomRuns(rng, 10000)
	b.ReportAllocs()
	for b.Loop() {
		All(runs, nil)
	}
}
