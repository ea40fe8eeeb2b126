package raster

import (
	"encoding/binary"
	"image/color"
)

// The loops that touch each pixel. Colours are premultiplied, rows are RGBA.

func word(c color.RGBA) uint32 {
	return uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | uint32(c.A)<<24
}

// fillRow stores the colour in each pixel.
func fillRow(row []uint8, c color.RGBA) {
	w := word(c)
	for len(row) >= 4 {
		binary.LittleEndian.PutUint32(row, w)
		row = row[4:]
	}
}

// blendRow lays the colour over each pixel, as strongly as its cover says.
// Masks are mostly clear, so clear pixels are passed eight at a time.
func blendRow(row, cover []uint8, c color.RGBA) {
	w, opaque := word(c), c.A == 255
	for i := 0; i < len(cover); i++ {
		for i+8 <= len(cover) && binary.LittleEndian.Uint64(cover[i:]) == 0 {
			i += 8
		}
		if i == len(cover) {
			return
		}
		switch a := cover[i]; {
		case a == 0:
		case a == 255 && opaque:
			binary.LittleEndian.PutUint32(row[4*i:], w)
		default:
			pixel := row[4*i : 4*i+4]
			there := uint64(binary.LittleEndian.Uint32(pixel))
			binary.LittleEndian.PutUint32(pixel, uint32(newTint(uint64(w), a).over(there)))
		}
	}
}

// tintRow lays the tint of a pair over each pixel.
func tintRow(row []uint8, t tint) {
	for len(row) >= 8 {
		binary.LittleEndian.PutUint64(row, t.over(binary.LittleEndian.Uint64(row)))
		row = row[8:]
	}
	if len(row) >= 4 {
		binary.LittleEndian.PutUint32(row, uint32(t.over(uint64(binary.LittleEndian.Uint32(row)))))
	}
}

// pair returns two pixels of the colour.
func pair(c color.RGBA) uint64 { return uint64(word(c)) | uint64(word(c))<<32 }

// tint is one pixel or a pair of a colour, as strong as a cover in 255 parts
// makes it. Every second channel is worked out at a time, each with the room
// of two.
type tint struct{ even, odd, keep uint64 }

const (
	second = 0x00ff00ff00ff00ff
	half   = 0x0080008000800080
)

func newTint(paint uint64, cover uint8) tint {
	take := uint64(cover) + uint64(cover)>>7 // of 256, so that a shift divides
	return tint{
		even: paint&second*take + half,
		odd:  paint>>8&second*take + half,
		keep: 256 - (paint>>24&255*take+254)/255,
	}
}

// over returns what is there with the tint laid over it.
func (t tint) over(there uint64) uint64 {
	return (t.even+there&second*t.keep)>>8&second | (t.odd+there>>8&second*t.keep)&^second
}

// join lays cover over the coverage that is there.
func join(there, cover uint8) uint8 {
	return there + uint8((uint32(255-there)*uint32(cover)+127)/255)
}
