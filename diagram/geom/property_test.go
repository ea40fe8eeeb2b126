package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// any of a few whole numbers, so that edges touch and points meet often.
func whole(rng *rand.Rand) float64 { return float64(rng.IntN(9) - 4) }

func anyPoint(rng *rand.Rand) Point { return Pt(whole(rng), whole(rng)) }

// anyRect returns a rectangle, now and then an empty one.
func anyRect(rng *rand.Rand) Rect { return Rect{anyPoint(rng), anyPoint(rng).Add(Pt(4, 4))} }

func anyLine(rng *rand.Rand) Polyline {
	line := make(Polyline, 2+rng.IntN(5))
	for i := range line {
		line[i] = anyPoint(rng)
	}
	return line
}

// each repeats a check with random numbers that are the same in every run.
func each(t *testing.T, name string, check func(rng *rand.Rand) bool) {
	t.Helper()
	rng := rand.New(rand.NewPCG(1, 1))
	for i := range 3000 {
		if !check(rng) {
			t.Errorf("%s: not so at the %d. try", name, i+1)
			return
		}
	}
}

func TestRectsHoldWhatTheyShould(t *testing.T) {
	each(t, "a point is in the union of what holds it", func(rng *rand.Rand) bool {
		r, s, p := anyRect(rng), anyRect(rng), anyPoint(rng)
		return !r.Contains(p) && !s.Contains(p) || r.Union(s).Contains(p)
	})
	each(t, "the union touches one of the two at each side", func(rng *rand.Rand) bool {
		r, s := anyRect(rng), anyRect(rng)
		u := r.Union(s)
		return r.IsEmpty() || s.IsEmpty() || u.Min.X == min(r.Min.X, s.Min.X) && u.Max.Y == max(r.Max.Y, s.Max.Y)
	})
	each(t, "what overlaps shares a point of the grid", func(rng *rand.Rand) bool {
		r, s := anyRect(rng), anyRect(rng)
		shared := false
		for x := -9.0; x <= 9; x++ {
			for y := -9.0; y <= 9; y++ {
				shared = shared || r.Contains(Pt(x, y)) && s.Contains(Pt(x, y))
			}
		}
		return r.Overlaps(s) == shared
	})
	each(t, "what is grown and shrunk by the same is as before", func(rng *rand.Rand) bool {
		r := anyRect(rng)
		return r.Grow(2).Grow(-2) == r
	})
	each(t, "what is empty stays so, however it is grown", func(rng *rand.Rand) bool {
		r := anyRect(rng)
		return !r.IsEmpty() || r.Grow(9).IsEmpty()
	})
	each(t, "corners are held, and moving moves them", func(rng *rand.Rand) bool {
		r, p := anyRect(rng), anyPoint(rng)
		for i, c := range r.Corners() {
			if !r.IsEmpty() && !r.Contains(c) || r.Move(p).Corners()[i] != c.Add(p) {
				return false
			}
		}
		return true
	})
}

// The image of a rectangle holds that of each of its points, and no smaller one does.
func TestApplyRectIsTheSmallest(t *testing.T) {
	each(t, "image of a rectangle", func(rng *rand.Rand) bool {
		m := Affine{whole(rng), whole(rng), whole(rng), whole(rng), whole(rng), whole(rng)}
		r := RectOf(anyPoint(rng), anyPoint(rng))
		want := Empty()
		for i := range 5 {
			for j := range 5 {
				want = want.Include(m.Apply(Pt(r.Min.X+r.Width()*float64(i)/4, r.Min.Y+r.Height()*float64(j)/4)))
			}
		}
		return m.ApplyRect(r) == want
	})
}

func TestSnapIsTheNearestOfTheGrid(t *testing.T) {
	each(t, "snapped", func(rng *rand.Rand) bool {
		p, pitch := Pt(rng.Float64()*20-10, rng.Float64()*20-10), 0.25*float64(1+rng.IntN(12))
		got := p.Snap(pitch)
		far := math.Max(math.Abs(got.X-p.X), math.Abs(got.Y-p.Y))
		return got.Snap(pitch) == got && far <= pitch/2 && math.Mod(got.X, pitch) == 0 && math.Mod(got.Y, pitch) == 0
	})
}

func TestSegmentsAgainstTheirPoints(t *testing.T) {
	each(t, "no point of a segment is nearer", func(rng *rand.Rand) bool {
		s, p := Segment{anyPoint(rng), anyPoint(rng)}, anyPoint(rng)
		for i := range 33 {
			if s.At(float64(i)/32).Distance(p) < s.Distance(p)-rounding {
				return false
			}
		}
		return true
	})
	each(t, "a segment meets what holds one of its points", func(rng *rand.Rand) bool {
		s, r := Segment{anyPoint(rng), anyPoint(rng)}, anyRect(rng)
		for i := range 33 {
			if r.Contains(s.At(float64(i)/32)) && !s.Meets(r) {
				return false
			}
		}
		return true
	})
	each(t, "a segment that misses keeps off every side", func(rng *rand.Rand) bool {
		s, r := Segment{anyPoint(rng), anyPoint(rng)}, anyRect(rng)
		if r.IsEmpty() || s.Meets(r) {
			return true
		}
		for _, c := range r.Corners() {
			if s.Distance(c) == 0 {
				return false
			}
		}
		return !r.Contains(s.A) && !r.Contains(s.B)
	})
}

func TestPolylinesAgainstTheirPieces(t *testing.T) {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 100*rounding }
	each(t, "cut in two, the lengths add up, and each is its share", func(rng *rand.Rand) bool {
		l, at := anyLine(rng), rng.Float64()
		first, second := l.Cut(0, at), l.Cut(at, 1)
		return near(first.Length(), at*l.Length()) && near(first.Length()+second.Length(), l.Length())
	})
	each(t, "a cut begins and ends on the chain", func(rng *rand.Rand) bool {
		l := anyLine(rng)
		from := rng.Float64()
		cut := l.Cut(from, from+(1-from)*rng.Float64())
		start, _ := l.At(from)
		return cut[0] == start && l.Distance(cut[0]) < rounding*10 && l.Distance(cut[len(cut)-1]) < rounding*10
	})
	each(t, "a step is one long", func(rng *rand.Rand) bool {
		l := anyLine(rng)
		_, step := l.At(rng.Float64())
		return l.Length() == 0 || near(step.Length(), 1)
	})
	each(t, "a chain is as near as its nearest piece, and meets what a piece meets", func(rng *rand.Rand) bool {
		l, p, r := anyLine(rng), anyPoint(rng), anyRect(rng)
		nearest, meets := math.Inf(1), false
		for i := 1; i < len(l); i++ {
			s := Segment{l[i-1], l[i]}
			nearest, meets = min(nearest, s.Distance(p)), meets || s.Meets(r)
		}
		return l.Distance(p) == nearest && l.Meets(r) == meets
	})
	each(t, "the bounds hold the chain and touch it at each side", func(rng *rand.Rand) bool {
		l := anyLine(rng)
		at, _ := l.At(rng.Float64())
		b := l.Bounds()
		return b.Grow(rounding).Contains(at) && l.Meets(RectOf(b.Min, Pt(b.Min.X, b.Max.Y))) && l.Meets(RectOf(b.Max, Pt(b.Max.X, b.Min.Y)))
	})
}
