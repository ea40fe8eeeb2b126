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
		{"back up", point(0, 0, down), point(60, -20, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 5}, {X: 30, Y: 5}, {X: 30, Y: -25}, {X: 60, Y: -25}, {X: 60, Y: -20}}},
		{"turned", point(0, 0, right), point(40, 0, left), geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}}},
		{"long stub", Terminal{Out: down, Stub: 20}, point(30, 60, up), geom.Polyline{{X: 0, Y: 0}, {X: 0, Y: 20}, {X: 30, Y: 20}, {X: 30, Y: 60}}},
		{"any direction", point(0, 0, geom.Point{}), point(40, 0, left), geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}}},
		{"any with one bend", point(0, 0, geom.Point{}), point(40, 30, up), geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}, {X: 40, Y: 30}}},
		{"bar below", point(10, 0, down), bar(1, 0, 40, 20), geom.Polyline{{X: 10, Y: 0}, {X: 10, Y: 39}}},
		{"bar above", bar(1, 0, 0, 20), point(-10, 40, up), geom.Polyline{{X: -10, Y: 1}, {X: -10, Y: 40}}},
		{"leaves a bar upward", bar(1, 0, 0, 20), point(5, -40, down), geom.Polyline{{X: 5, Y: -1}, {X: 5, Y: -40}}},
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
