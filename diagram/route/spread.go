package route

import (
	"cmp"
	"math"
	"slices"
)

// gap is the least distance between two taps on one side of a bar, in mm.
const gap = 4

// barSide is one side of a bus bar.
type barSide struct {
	bar  int
	side float64 // +1 where lines leave along the bar's Out, -1 across from it
}

// tapped is one end of a run on a bar.
type tapped struct {
	barSide
	run    int
	to     bool    // the end is the run's To
	want   float64 // the offset that makes the line straight, within the bar
	beyond float64 // the same without regard to the bar's ends
	span   float64
}

// which returns 0 for the run's From and 1 for its To.
func (t tapped) which() int {
	if t.to {
		return 1
	}
	return 0
}

func (t tapped) compare(u tapped) int {
	switch {
	case t.bar != u.bar:
		return cmp.Compare(t.bar, u.bar)
	case t.side != u.side:
		return cmp.Compare(t.side, u.side)
	case t.want != u.want:
		return cmp.Compare(t.want, u.want)
	}
	return cmp.Or(cmp.Compare(t.beyond, u.beyond), cmp.Compare(t.run, u.run))
}

func (t tapped) terminal(runs []Run) Terminal {
	if t.to {
		return runs[t.run].To
	}
	return runs[t.run].From
}

// spread settles the offsets of all ends, side by side on each bar: as near as
// can be to what each wants, at least a gap apart while the bar has room. It
// sorts the ends and calls settle with each.
func spread(ends []tapped, settle func(end tapped, offset float64)) {
	slices.SortFunc(ends, tapped.compare)
	for first := 0; first < len(ends); {
		next := first + 1
		for next < len(ends) && ends[next].barSide == ends[first].barSide {
			next++
		}
		spreadSide(ends[first:next], settle)
		first = next
	}
}

func spreadSide(ends []tapped, settle func(tapped, float64)) {
	last := float64(len(ends) - 1)
	span := ends[0].span
	apart := math.Min(gap, 2*span/math.Max(1, last))
	blocks := make([]block, 0, len(ends))
	for i, end := range ends {
		blocks = push(blocks, end.want-float64(i)*apart)
	}
	i := 0
	for _, b := range blocks {
		shift := clamp(b.mean, -span, span-last*apart)
		for range b.count {
			settle(ends[i], shift+float64(i)*apart)
			i++
		}
	}
}

// block is a row of neighbouring taps, each one gap from the next, that lies
// where its members want it on average. With the gaps taken off, all members
// share one offset: the means of the blocks of an isotonic regression.
type block struct {
	mean  float64
	count int
}

func push(blocks []block, want float64) []block {
	next := block{want, 1}
	for len(blocks) > 0 && blocks[len(blocks)-1].mean >= next.mean {
		before := blocks[len(blocks)-1]
		blocks = blocks[:len(blocks)-1]
		a, b := float64(before.count), float64(next.count)
		next = block{(before.mean*a + next.mean*b) / (a + b), before.count + next.count}
	}
	return append(blocks, next)
}
