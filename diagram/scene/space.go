package scene

import (
	"math"

	"clampline/diagram/geom"
)

// space knows which places of the sheet are taken, to the nearest cell of a
// millimetre. It holds tiles of 64 by 64 cells, only where something is.
//
// A tile has each cell twice, as a bit of a row and of a column. What is wide
// is marked in the rows and what is tall in the columns, so that a line costs
// a few words however long it is; walls, which routes are tested against, are
// marked in both.
type space struct {
	tiles   map[tileKey]*tile
	lastKey tileKey // of the tile looked for last: places lie close together
	last    *tile
}

type tileKey struct{ x, y int32 }

type tile struct{ rows, columns [tileSize]uint64 }

const tileSize = 64

func newSpace() *space { return &space{tiles: map[tileKey]*tile{}} }

// cells returns the cells whose middles lie between low and high, at least
// one.
func cells(low, high float64) (int, int) {
	first, last := int(math.Ceil(low-0.5)), int(math.Floor(high-0.5))
	if last < first {
		first = int(math.Floor((low + high) / 2))
		last = first
	}
	return first, last
}

// window is a block of cells, its last ones included.
type window struct{ left, top, right, bottom int }

func windowOf(r geom.Rect) window {
	var w window
	w.left, w.right = cells(r.Min.X, r.Max.X)
	w.top, w.bottom = cells(r.Min.Y, r.Max.Y)
	return w
}

// each calls visit with every tile that the window meets and the part of the
// window in it, until visit returns false.
func (w window) each(visit func(tileKey, window) bool) {
	for y := w.top >> 6; y <= w.bottom>>6; y++ {
		for x := w.left >> 6; x <= w.right>>6; x++ {
			inside := window{
				max(w.left-x<<6, 0), max(w.top-y<<6, 0),
				min(w.right-x<<6, tileSize-1), min(w.bottom-y<<6, tileSize-1),
			}
			if !visit(tileKey{int32(x), int32(y)}, inside) {
				return
			}
		}
	}
}

// bits returns a word with the bits from first to last set.
func bits(first, last int) uint64 {
	return ^uint64(0) >> (tileSize - 1 - (last - first)) << first
}

// known returns the tile, or nil where nothing is marked.
func (s *space) known(key tileKey) *tile {
	if s.last == nil || s.lastKey != key {
		s.lastKey, s.last = key, s.tiles[key]
	}
	return s.last
}

func (s *space) tile(key tileKey) *tile {
	t := s.known(key)
	if t == nil {
		t = new(tile)
		s.tiles[key], s.last = t, t
	}
	return t
}

// take marks the rectangle as taken.
func (s *space) take(r geom.Rect) {
	if r.Width() < r.Height() {
		s.mark(windowOf(r), false, true)
	} else {
		s.mark(windowOf(r), true, false)
	}
}

// wall marks the rectangle as taken and as something that routes go round.
func (s *space) wall(r geom.Rect) { s.mark(windowOf(r), true, true) }

// line marks every piece of a line of right angles.
func (s *space) line(l geom.Polyline) {
	for i := 1; i < len(l); i++ {
		s.take(geom.RectOf(l[i-1], l[i]))
	}
}

func (s *space) mark(w window, rows, columns bool) {
	w.each(func(key tileKey, in window) bool {
		t := s.tile(key)
		if rows {
			across := bits(in.left, in.right)
			for y := in.top; y <= in.bottom; y++ {
				t.rows[y] |= across
			}
		}
		if columns {
			down := bits(in.top, in.bottom)
			for x := in.left; x <= in.right; x++ {
				t.columns[x] |= down
			}
		}
		return true
	})
}

// column marks a tall rectangle, or clears it again where it is not wanted.
func (s *space) column(r geom.Rect, wanted bool) {
	if wanted {
		s.mark(windowOf(r), false, true)
		return
	}
	windowOf(r).each(func(key tileKey, in window) bool {
		t := s.tile(key)
		for x := in.left; x <= in.right; x++ {
			t.columns[x] &^= bits(in.top, in.bottom)
		}
		return true
	})
}

// free reports whether nothing is marked in the rectangle.
func (s *space) free(r geom.Rect) bool {
	free := true
	windowOf(r).each(func(key tileKey, in window) bool {
		if t := s.known(key); t != nil {
			free = t.free(in)
		}
		return free
	})
	return free
}

func (t *tile) free(in window) bool {
	across, down := bits(in.left, in.right), bits(in.top, in.bottom)
	for y := in.top; y <= in.bottom; y++ {
		if t.rows[y]&across != 0 {
			return false
		}
	}
	for x := in.left; x <= in.right; x++ {
		if t.columns[x]&down != 0 {
			return false
		}
	}
	return true
}

// Blocked reports whether a wall stands on the straight piece from a to b. It
// is asked before anything but walls is marked, and by several goroutines at
// once: it changes nothing.
func (s *space) Blocked(a, b geom.Point) bool {
	blocked := false
	upright := a.X == b.X
	windowOf(geom.RectOf(a, b)).each(func(key tileKey, in window) bool {
		if t := s.tiles[key]; t != nil {
			if upright {
				blocked = t.columns[in.left]&bits(in.top, in.bottom) != 0
			} else {
				blocked = t.rows[in.top]&bits(in.left, in.right) != 0
			}
		}
		return !blocked
	})
	return blocked
}
