package raster

import (
	"image"
	"slices"

	"clampline/diagram/draw"
)

// layer is coverage by one role. The mask's rectangle says where its pixels lie
// from the origin of what it shows.
type layer struct {
	role draw.Role
	mask *image.Alpha
}

// maskKey names what a set of layers shows.
type maskKey struct {
	kind  maskKind
	turn  uint8   // of a stamp; 1 for bold text
	text  string  // of a label, or the key of a stamp
	shape uint64  // of a path, see fingerprint
	size  float64 // pixels to the millimetre, or to the em
}

type maskKind uint8

const (
	stampMask maskKind = iota
	labelMask
	pathMask
)

// cache keeps layers by name, those used last, up to a number of bytes.
type cache struct {
	kept   map[maskKey]*kept
	bytes  int
	budget int
	frame  uint64
}

type kept struct {
	layers []layer
	bytes  int
	used   uint64 // frame in which they were last asked for
}

// get returns the layers and whether they are kept.
func (c *cache) get(key maskKey) ([]layer, bool) {
	found, ok := c.kept[key]
	if !ok {
		return nil, false
	}
	found.used = c.frame
	return found.layers, true
}

// put keeps layers and lets go of the oldest where they no longer fit.
func (c *cache) put(key maskKey, layers []layer) {
	size := 256 // what a map entry and its headers take, roughly
	for _, l := range layers {
		size += len(l.mask.Pix)
	}
	c.kept[key] = &kept{layers, size, c.frame}
	c.bytes += size
	if c.bytes > c.budget {
		c.shrink(c.budget * 3 / 4)
	}
}

// shrink lets go of what was used longest ago until no more than limit bytes
// are kept.
func (c *cache) shrink(limit int) {
	keys := make([]maskKey, 0, len(c.kept))
	for key := range c.kept {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b maskKey) int { return int(c.kept[a].used) - int(c.kept[b].used) })
	for _, key := range keys {
		if c.bytes <= limit {
			return
		}
		c.bytes -= c.kept[key].bytes
		delete(c.kept, key)
	}
}
