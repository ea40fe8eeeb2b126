package scene

import (
	"math"

	"clampline/diagram/geom"
)

// space knows which places of the sheet are taken, to the nearest cell of a
// millimetre. It holds tiles of 64 by 64 cells, only where something is: in a
// grid about the drawing, and by number what lies far outside it.
//
// A tile has each cell twice, as a bit of a row and of a column. What is wide
// is marked in the rows and what is tall in the columns, so that a line costs
// a few words however long it is; walls, which routes are tested against, are
// marked in both. Apart from these it has columns that are kept free for what
// still waits for its place.
//
// What asks changes nothing, so that several goroutines may ask at once.
type space struct {
	left, top  int // of the grid, in tiles
	wide, high int
	grid       []*tile
	far        map[tileKey]*tile
	fresh      []tile // made in advance
}

type tileKey struct{ x, y int }

type tile struct{ rows, columns, kept [tileSize]uint64 }

const (
	tileBits = 6
	tileSize = 1 << tileBits

	gridMargin = 100     // about the drawing, in mm: text and lines reach over its edge
	mostTiles  = 1 << 16 // of a grid: a drawing of scattered parts goes without
	freshTiles = 16
)

// newSpace returns an empty space for a drawing whose parts lie in the box.
func newSpace(box geom.Rect) *space {
	s := &space{far: map[tileKey]*tile{}}
	if box.IsEmpty() {
		return s
	}
	w := windowOf(box.Grow(gridMargin)).tiles()
	wide, high := w.right-w.left+1, w.bottom-w.top+1
	if wide*high <= mostTiles {
		s.left, s.top, s.wide, s.high = w.left, w.top, wide, high
		s.grid = make([]*tile, wide*high)
	}
	return s
}

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

// window is a block of cells, or of tiles, its last ones included.
type window struct{ left, top, right, bottom int }

func windowOf(r geom.Rect) window {
	var w window
	w.left, w.right = cells(r.Min.X, r.Max.X)
	w.top, w.bottom = cells(r.Min.Y, r.Max.Y)
	return w
}

// tiles returns the tiles that the window meets.
func (w window) tiles() window {
	return window{w.left >> tileBits, w.top >> tileBits, w.right >> tileBits, w.bottom >> tileBits}
}

// within returns the part of the window in a tile that it meets.
func (w window) within(x, y int) window {
	x, y = x<<tileBits, y<<tileBits
	return window{
		max(w.left-x, 0), max(w.top-y, 0),
		min(w.right-x, tileSize-1), min(w.bottom-y, tileSize-1),
	}
}

// bits returns a word with the bits from first to last set.
func bits(first, last int) uint64 {
	return ^uint64(0) >> (tileSize - 1 - (last - first)) << first
}

// inGrid returns where in the grid a tile has its place.
func (s *space) inGrid(x, y int) (int, bool) {
	x, y = x-s.left, y-s.top
	return y*s.wide + x, x >= 0 && x < s.wide && y >= 0 && y < s.high
}

// known returns the tile, or nil where nothing is marked.
func (s *space) known(x, y int) *tile {
	if at, ok := s.inGrid(x, y); ok {
		return s.grid[at]
	}
	return s.far[tileKey{x, y}]
}

func (s *space) tile(x, y int) *tile {
	t := s.known(x, y)
	if t == nil {
		t = s.newTile()
		if at, ok := s.inGrid(x, y); ok {
			s.grid[at] = t
		} else {
			s.far[tileKey{x, y}] = t
		}
	}
	return t
}

func (s *space) newTile() *tile {
	if len(s.fresh) == 0 {
		s.fresh = make([]tile, freshTiles)
	}
	t := &s.fresh[0]
	s.fresh = s.fresh[1:]
	return t
}

// take marks the rectangle as taken.
func (s *space) take(r geom.Rect) {
	tall := r.Width() < r.Height()
	s.mark(windowOf(r), !tall, tall)
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
	over := w.tiles()
	for y := over.top; y <= over.bottom; y++ {
		for x := over.left; x <= over.right; x++ {
			t, in := s.tile(x, y), w.within(x, y)
			if rows {
				set(&t.rows, in.top, in.bottom, bits(in.left, in.right))
			}
			if columns {
				set(&t.columns, in.left, in.right, bits(in.top, in.bottom))
			}
		}
	}
}

func set(words *[tileSize]uint64, first, last int, bits uint64) {
	for i := first; i <= last; i++ {
		words[i] |= bits
	}
}

// keep keeps the rectangle free for one that waits for its place, or gives it
// up again where it is not wanted.
func (s *space) keep(r geom.Rect, wanted bool) {
	w := windowOf(r)
	over := w.tiles()
	for y := over.top; y <= over.bottom; y++ {
		for x := over.left; x <= over.right; x++ {
			t, in := s.tile(x, y), w.within(x, y)
			for i := in.left; i <= in.right; i++ {
				t.kept[i] &^= bits(in.top, in.bottom)
				if wanted {
					t.kept[i] |= bits(in.top, in.bottom)
				}
			}
		}
	}
}

// waitedFor reports whether some of the rectangle is kept free.
func (s *space) waitedFor(r geom.Rect) bool {
	w := windowOf(r)
	over := w.tiles()
	for y := over.top; y <= over.bottom; y++ {
		for x := over.left; x <= over.right; x++ {
			if t, in := s.known(x, y), w.within(x, y); t != nil && meets(&t.kept, in.left, in.right, bits(in.top, in.bottom)) {
				return true
			}
		}
	}
	return false
}

// free reports whether nothing is marked in the rectangle.
func (s *space) free(r geom.Rect) bool {
	w := windowOf(r)
	over := w.tiles()
	for y := over.top; y <= over.bottom; y++ {
		for x := over.left; x <= over.right; x++ {
			if t := s.known(x, y); t != nil && !t.free(w.within(x, y)) {
				return false
			}
		}
	}
	return true
}

func (t *tile) free(in window) bool {
	return !meets(&t.rows, in.top, in.bottom, bits(in.left, in.right)) &&
		!meets(&t.columns, in.left, in.right, bits(in.top, in.bottom))
}

func meets(words *[tileSize]uint64, first, last int, bits uint64) bool {
	for i := first; i <= last; i++ {
		if words[i]&bits != 0 {
			return true
		}
	}
	return false
}

// Blocked reports whether a wall stands on the straight piece from a to b. It
// is asked before anything but walls is marked.
func (s *space) Blocked(a, b geom.Point) bool {
	upright := a.X == b.X
	w := windowOf(geom.RectOf(a, b))
	over := w.tiles()
	for y := over.top; y <= over.bottom; y++ {
		for x := over.left; x <= over.right; x++ {
			if t := s.known(x, y); t != nil && t.blocks(w.within(x, y), upright) {
				return true
			}
		}
	}
	return false
}

func (t *tile) blocks(in window, upright bool) bool {
	if upright {
		return t.columns[in.left]&bits(in.top, in.bottom) != 0
	}
	return t.rows[in.top]&bits(in.left, in.right) != 0
}
